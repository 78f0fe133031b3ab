import { median, quantile } from '../numeric/index.js';
import { fitLineGroup } from './fitLineGroup.js';
import { type LineShape, lineShape } from './lineShape.js';
import type { FoundLine, LampSpectrum } from './types.js';

/** Height over its uncertainty at which a bump counts as a line. */
const DETECTION = 6;
/** A bump lower than this share of a line within five widths is taken for that line's foot. */
const FOOT_SHARE = 0.004;
/** Lines closer than this many widths are fitted together. */
const GROUP_WIDTHS = 2.2;
const LARGEST_GROUP = 24;
/** A single hot pixel, or a hit on two, is fitted as narrower than this, pixels. */
const HOT_PIXEL_WIDTH = 2.2;

/**
 * Finds the emission lines of a lamp spectrum and locates each to a fraction of a pixel.
 *
 * Bumps above six times their noise are fitted as Gaussians on a local straight baseline, neighbours together.
 * Saturated lines, those narrower than the line spread and those of an odd shape are marked by `trouble`.
 *
 * @param spectrum - counts per ms, uncertainty and mask, all of the detector's length
 * @returns the lines in order of pixel; empty where nothing rises above the noise
 */
export function findLines(spectrum: LampSpectrum): FoundLine[] {
  const { countsPerMs: counts, masked } = spectrum;
  const noise = flooredNoise(spectrum);
  const width = typicalWidth(counts, baseline(counts, 64), masked, noise);
  if (width === null) return [];
  const ground = baseline(counts, Math.max(32, Math.round(14 * width)));
  const peaks = findPeaks(bridged(counts, masked), ground, noise, width);
  return fitAll(spectrum, noise, peaks, () => width, [], lineShape(0, 1, 0));
}

/**
 * Locates lines again with the line shape that the session's clear lines have, and with the places of lines that are
 * known to be there but hidden on a neighbour's flank.
 *
 * @param spectrum - the spectrum they were found in
 * @param lines - as found before
 * @param widthAt - typical full width at half maximum in pixels at a pixel
 * @param hidden - pixels of known lines that show no peak of their own
 * @param shape - the shape of a line
 * @returns the lines in order of pixel
 */
export function relocateLines(
  spectrum: LampSpectrum,
  lines: readonly FoundLine[],
  widthAt: (pixel: number) => number,
  hidden: readonly number[],
  shape: LineShape,
): FoundLine[] {
  const peaks = lines.map((line) => line.pixel).sort((a, b) => a - b);
  return fitAll(spectrum, flooredNoise(spectrum), peaks, widthAt, hidden, shape);
}

function fitAll(
  spectrum: LampSpectrum,
  noise: Float64Array,
  peaks: readonly number[],
  widthAt: (pixel: number) => number,
  hidden: readonly number[],
  shape: LineShape,
): FoundLine[] {
  const { countsPerMs: counts, masked } = spectrum;
  const lines: FoundLine[] = [];
  let start = 0;
  for (let k = 1; k <= peaks.length; k++) {
    const width = widthAt(peaks[k - 1]!);
    const joined = k < peaks.length && peaks[k]! - peaks[k - 1]! <= GROUP_WIDTHS * width;
    if (joined && k - start < LARGEST_GROUP) continue;
    const before = start > 0 ? peaks[start - 1]! : Number.NEGATIVE_INFINITY;
    const after = k < peaks.length ? peaks[k]! : Number.POSITIVE_INFINITY;
    const centres = peaks.slice(start, k);
    const near = hidden.filter(
      (place) =>
        place > centres[0]! - 1.8 * width &&
        place < centres[centres.length - 1]! + 1.8 * width &&
        centres.every((centre) => Math.abs(centre - place) > 0.35 * width),
    );
    lines.push(
      ...fitLineGroup({ counts, noise, masked, centres, hidden: near, width, before, after }, shape, false),
    );
    start = k;
  }
  const inside = (line: FoundLine): boolean => line.pixel > 0 && line.pixel < counts.length - 1;
  return markOddShapes(lines.filter((line) => line.significance >= DETECTION && inside(line)));
}

/** Noise per pixel, never below what the quiet half of the spectrum shows. */
export function flooredNoise(spectrum: LampSpectrum): Float64Array {
  const { countsPerMs: counts, standardUncertainty, masked } = spectrum;
  const differences: number[] = [];
  for (let i = 2; i < counts.length; i++) {
    if (masked[i] || masked[i - 1] || masked[i - 2]) continue;
    differences.push(Math.abs(counts[i]! - 2 * counts[i - 1]! + counts[i - 2]!));
  }
  // Second differences of white noise have a deviation of sqrt(6); their lower third is free of lines.
  const floor = differences.length === 0 ? 0 : quantile(differences, 0.33) / 0.4261 / Math.sqrt(6);
  return standardUncertainty.map((u) => Math.max(u, floor, Number.MIN_VALUE));
}

/** Lower quartile by blocks, joined by straight lines. */
function baseline(counts: Float64Array, blockLength: number): Float64Array {
  const pixels = counts.length;
  const blocks = Math.max(2, Math.round(pixels / blockLength));
  const centres: number[] = [];
  const levels: number[] = [];
  for (let b = 0; b < blocks; b++) {
    const from = Math.floor((b * pixels) / blocks);
    const to = Math.floor(((b + 1) * pixels) / blocks);
    centres.push((from + to - 1) / 2);
    levels.push(quantile(counts.subarray(from, to), 0.25));
  }
  const calm = levels.map((level, b) => Math.min(level, median(levels.slice(Math.max(0, b - 2), b + 3))));
  const out = new Float64Array(pixels);
  for (let i = 0, b = 0; i < pixels; i++) {
    while (b < blocks - 2 && i > centres[b + 1]!) b++;
    const share = Math.min(1, Math.max(0, (i - centres[b]!) / (centres[b + 1]! - centres[b]!)));
    out[i] = calm[b]! * (1 - share) + calm[b + 1]! * share;
  }
  return out;
}

/** Full width at half height of the clearest single lines, pixels. */
function typicalWidth(
  counts: Float64Array,
  ground: Float64Array,
  masked: Uint8Array,
  noise: Float64Array,
): number | null {
  const pixels = counts.length;
  const candidates: { height: number; width: number }[] = [];
  for (let i = 2; i < pixels - 2; i++) {
    const height = counts[i]! - ground[i]!;
    if (height < 15 * noise[i]! || masked[i] || counts[i]! < counts[i - 1]! || counts[i]! <= counts[i + 1]!)
      continue;
    let left = i;
    let right = i;
    while (left > 0 && counts[left]! - ground[i]! > height / 2) left--;
    while (right < pixels - 1 && counts[right]! - ground[i]! > height / 2) right++;
    if (anyMasked(masked, left - 1, right + 1)) continue;
    const leftAt = left + (height / 2 + ground[i]! - counts[left]!) / (counts[left + 1]! - counts[left]!);
    const rightAt =
      right - (height / 2 + ground[i]! - counts[right]!) / (counts[right - 1]! - counts[right]!);
    const width = rightAt - leftAt;
    // A width below 1.3 pixels is a hot pixel or a hit; a line cannot be narrower than about its pixel and a bit.
    if (width > 1.3 && width < pixels / 12) candidates.push({ height, width });
  }
  if (candidates.length === 0) return null;
  candidates.sort((a, b) => b.height - a.height);
  const strongest = candidates.slice(0, 15).map((candidate) => candidate.width);
  return quantile(strongest, 0.35);
}

function anyMasked(masked: Uint8Array, from: number, to: number): boolean {
  for (let i = Math.max(0, from); i <= Math.min(masked.length - 1, to); i++) if (masked[i]) return true;
  return false;
}

/** Counts with masked stretches filled by the larger of their shoulders, so that a clipped line shows as one bump. */
function bridged(counts: Float64Array, masked: Uint8Array): Float64Array {
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

/** Places (whole pixels) of the bumps that rise above the noise and above the feet of their neighbours. */
function findPeaks(counts: Float64Array, ground: Float64Array, noise: Float64Array, width: number): number[] {
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

/** Marks lines whose width or symmetry stands apart from their fellows'. */
function markOddShapes(lines: readonly FoundLine[]): FoundLine[] {
  const clean = lines.filter((line) => line.trouble === null && line.significance > 20);
  if (clean.length < 4) return [...lines];
  const skewness = median(clean.map((line) => line.skewness));
  return lines.map((line) => {
    if (line.trouble !== null) return line;
    const nearby = [...clean].sort((a, b) => Math.abs(a.pixel - line.pixel) - Math.abs(b.pixel - line.pixel));
    const usual = median(nearby.slice(0, 7).map((other) => other.fwhmPixels));
    const excess = line.fwhmPixels - usual;
    const excessUncertainty = Math.hypot(line.fwhmUncertaintyPixels, 0.03 * usual);
    if (line.fwhmPixels < HOT_PIXEL_WIDTH && excess < -0.4 * usual && excess < -4 * excessUncertainty) {
      return { ...line, trouble: 'narrower than the line spread: a hot pixel or a hit' };
    }
    if (excess > 0.15 * usual && excess > 5 * excessUncertainty) {
      return { ...line, trouble: 'broader than its neighbours: a blend' };
    }
    const skewed = Math.abs(line.skewness - skewness);
    if (skewed > 0.3 && skewed > 5 * line.skewnessUncertainty) {
      return { ...line, trouble: 'asymmetric: a blend or a flawed line' };
    }
    return line;
  });
}
