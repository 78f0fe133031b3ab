/** Height over its uncertainty at which a bump counts as a line. */
export const DETECTION = 6;
/** A bump lower than this share of a line within five widths is taken for that line's foot. */
const FOOT_SHARE = 0.004;

/**
 * Places of the bumps that rise above the noise and above the feet of their neighbours.
 *
 * @param counts - of the spectrum, with clipped lines filled by `bridged`
 * @param ground - from `lampGround`
 * @param noise - standard uncertainty of each pixel
 * @param width - typical width of a line, pixels
 * @returns whole pixels, rising
 */
export function findPeaks(
  counts: Float64Array,
  ground: Float64Array,
  noise: Float64Array,
  width: number,
): number[] {
  const pixels = counts.length;
  const sigma = Math.max(0.5, 0.22 * width);
  const reach = Math.ceil(3 * sigma);
  const kernel = Float64Array.from({ length: 2 * reach + 1 }, (_, k) =>
    Math.exp(-0.5 * ((k - reach) / sigma) ** 2),
  );
  const total = kernel.reduce((sum, value) => sum + value, 0);
  const smooth = new Float64Array(pixels);
  const smoothNoise = new Float64Array(pixels);
  for (let i = 0; i < pixels; i++) {
    let sum = 0;
    let variance = 0;
    for (let k = -reach; k <= reach; k++) {
      const j = Math.min(pixels - 1, Math.max(0, i + k));
      const share = kernel[k + reach]! / total;
      sum += share * (counts[j]! - ground[j]!);
      variance += (share * noise[j]!) ** 2;
    }
    smooth[i] = sum;
    smoothNoise[i] = Math.sqrt(variance);
  }
  const peaks: number[] = [];
  for (let i = 1; i < pixels - 1; i++) {
    if (
      smooth[i]! < smooth[i - 1]! ||
      smooth[i]! <= smooth[i + 1]! ||
      smooth[i]! < DETECTION * smoothNoise[i]!
    )
      continue;
    const previous = peaks.at(-1);
    if (
      previous !== undefined &&
      i - previous < 3 * width &&
      !dipsBetween(smooth, smoothNoise, previous, i)
    ) {
      if (smooth[i]! > smooth[previous]!) peaks[peaks.length - 1] = i;
      continue;
    }
    peaks.push(i);
  }
  return peaks.filter((i) =>
    peaks.every((other) => Math.abs(other - i) > 5 * width || smooth[i]! > FOOT_SHARE * smooth[other]!),
  );
}

/** Whether the curve falls between two maxima by more than noise. */
function dipsBetween(smooth: Float64Array, noise: Float64Array, left: number, right: number): boolean {
  const lower = Math.min(smooth[left]!, smooth[right]!);
  let least = lower;
  for (let i = left; i <= right; i++) least = Math.min(least, smooth[i]!);
  const at = smooth[left]! < smooth[right]! ? left : right;
  return lower - least > Math.max(4 * noise[at]!, 0.01 * lower);
}

/**
 * Counts with masked stretches filled by the larger of their shoulders, so that a clipped line shows as one bump.
 *
 * @param counts - of the spectrum
 * @param masked - 1 where a pixel is not to be used
 * @returns a copy
 */
export function bridged(counts: Float64Array, masked: Uint8Array): Float64Array {
  const out = Float64Array.from(counts);
  for (let i = 0; i < out.length; i++) {
    if (!masked[i]) continue;
    let end = i;
    while (end + 1 < out.length && masked[end + 1]) end++;
    const shoulder = Math.max(i > 0 ? counts[i - 1]! : 0, end + 1 < out.length ? counts[end + 1]! : 0);
    const middle = (i + end) / 2;
    // A slight arch keeps the top in the middle.
    for (let k = i; k <= end; k++) out[k] = shoulder * (1.2 - (0.2 * Math.abs(k - middle)) / (end - i + 1));
    i = end;
  }
  return out;
}
