/**
 * Every place where the straight lines between samples cross a level.
 *
 * To cross is to lie below on one side and above on the other: a sample that only touches the level is no crossing,
 * nor is a level met at the first or last sample. Where several samples in a row lie on the level, the crossing is
 * the middle of that stretch.
 *
 * @param x - strictly increasing, length n
 * @param y - length n; NaN is refused
 * @param level - in the unit of y
 * @returns places in the unit of x, ascending; empty when there are none
 * @throws {RangeError} lengths that differ, or a value that is not a number
 *
 * Source: definition by common practice, no source. Cost: O(n).
 * @example
 * crossings([0, 1, 2], [0, 1, 0], 0.5); // => [0.5, 1.5]
 */
export function crossings(x: ArrayLike<number>, y: ArrayLike<number>, level: number): number[] {
  if (x.length !== y.length) {
    throw new RangeError(`crossings requires x and y of one length, got ${x.length} and ${y.length}`);
  }
  if (Number.isNaN(level)) throw new RangeError('crossings requires a level that is a number, got NaN');
  const found: number[] = [];
  let previous = -1;
  for (let i = 0; i < y.length; i++) {
    const value = y[i]!;
    if (Number.isNaN(value)) throw new RangeError(`crossings requires numbers, got NaN at index ${i}`);
    if (value === level) continue;
    if (previous >= 0 && value > level !== y[previous]! > level) {
      if (i - previous === 1) {
        const fraction = (level - y[previous]!) / (value - y[previous]!);
        found.push(x[previous]! + fraction * (x[i]! - x[previous]!));
      } else {
        found.push((x[previous + 1]! + x[i - 1]!) / 2);
      }
    }
    previous = i;
  }
  return found;
}
