import type { RatePoint } from './relativeRates.js';

/** The level found is rounded down to a step of this share of the reference counts. */
const stepShare = 0.005;
/** The rate must fall by this share, and by so many standard deviations. */
const fallShare = 0.01;
const fallDeviations = 5;

/**
 * The level above which the fall is clearest: the cut with the largest sum, over all points above it, of what each
 * falls short of half of the limit, by weight. Single noisy pixels do not break the run.
 *
 * @param points - bright pixels of all pairs of exposures
 * @param referenceCounts - raw counts that the level's rounding is a share of
 * @param leastFall - share by which the brightest quarter of the points must fall
 * @returns level in raw counts, rounded down, and the points at and above it; null where no fall is clear
 */
export function softLevel(
  points: readonly RatePoint[],
  referenceCounts: number,
  leastFall: number,
): { level: number; above: RatePoint[] } | null {
  const falling = [...points].sort((a, b) => b.raw - a.raw || a.pixel - b.pixel);
  let sum = 0;
  let best = 0;
  let cut = 0;
  falling.forEach((point, i) => {
    sum += point.weight * (1 - fallShare / 2 - point.ratio);
    if (sum > best) {
      best = sum;
      cut = i + 1;
    }
  });
  // points at the lower end that do not fall by themselves came in by noise
  while (cut > 0 && falling[cut - 1]!.ratio > 1 - fallShare) cut--;
  if (cut < 3) return null;
  const above = falling.slice(0, cut);
  const total = mean(above);
  const brightest = mean(above.slice(0, Math.max(3, Math.ceil(cut / 4))));
  const single = above.filter((point) => point.ratio < 1 - fallShare / 2).length;
  const clear =
    total.value < 1 - fallShare &&
    1 - total.value > fallDeviations * total.uncertainty &&
    2 * single > cut &&
    brightest.value < 1 - leastFall;
  const step = stepShare * referenceCounts;
  return clear ? { level: Math.floor(above[cut - 1]!.raw / step) * step, above } : null;
}

function mean(points: readonly RatePoint[]): { value: number; uncertainty: number } {
  let sum = 0;
  let product = 0;
  for (const point of points) {
    sum += point.weight;
    product += point.weight * point.ratio;
  }
  return { value: product / sum, uncertainty: 1 / Math.sqrt(sum) };
}
