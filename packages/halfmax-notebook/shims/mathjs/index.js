/**
 * The statistics that data frames ask a mathematics library for: mean, median, mode, variance and standard deviation.
 *
 * danfojs-node calls these five on lists of numbers and nothing else of that library. Variance and deviation are those of
 * a sample (over n - 1); of a single number they are 0, as the frames expect.
 */

function numbersOf(name, values) {
  const list = Array.isArray(values) ? values.flat(Infinity) : Array.from(values);
  if (list.length === 0) throw new Error(`${name} requires at least 1 number, got none`);
  return list;
}

function mean(values) {
  const list = numbersOf('mean', values);
  return list.reduce((sum, value) => sum + value, 0) / list.length;
}

function median(values) {
  const sorted = numbersOf('median', values).slice();
  if (sorted.some(Number.isNaN)) return Number.NaN;
  sorted.sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

/** All values that occur most often, in the order of their first occurrence. */
function mode(values) {
  const counts = new Map();
  for (const value of numbersOf('mode', values)) counts.set(value, (counts.get(value) ?? 0) + 1);
  const most = counts.size === 0 ? 0 : [...counts.values()].reduce((best, count) => Math.max(best, count));
  return [...counts.keys()].filter((value) => counts.get(value) === most);
}

function variance(values) {
  const list = numbersOf('variance', values);
  if (list.length === 1) return list[0] * 0;
  const centre = mean(list);
  return list.reduce((sum, value) => sum + (value - centre) * (value - centre), 0) / (list.length - 1);
}

function std(values) {
  return Math.sqrt(variance(values));
}

module.exports = { mean, median, mode, std, variance };
