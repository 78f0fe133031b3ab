import { levelRatio } from './levelRatio.js';
import type { FrameRole, Warning } from './types.js';
import { percent, plainNumber } from './wording.js';

/** What the comparison needs of one entry. */
export interface ExposureSpectrum {
  readonly entry: number;
  readonly role: FrameRole;
  readonly lamp: string | null;
  readonly filter: string | null;
  readonly exposureMs: number;
  /** Mean counts above dark. */
  readonly counts: Float64Array;
  /** Standard uncertainty, noise and dark together, counts. */
  readonly uncertainty: Float64Array;
  /** Mean raw counts as in the file, which saturation is judged on. */
  readonly raw: Float64Array;
  readonly masked: Uint8Array;
}

/** What the exposures say of each other. */
export interface ExposureComparison {
  /** Raw counts at and above which the rate falls; null where it does not. */
  readonly softCounts: number | null;
  readonly warnings: readonly Warning[];
}

/** Pixels with less than this are too noisy for a ratio: 20 standard deviations bias it by 0.25 %. */
const clearDeviations = 20;
/** Share of the saturation counts below which a pixel serves as measure for the others. */
const lowShare = 0.6;
/** The level found is rounded down to a step of this share of the saturation counts. */
const stepShare = 0.005;
/** The rate must fall by this share, and by so many standard deviations. */
const fallShare = 0.01;
const fallDeviations = 5;
/** Rates of two exposures of the open beam or a filter that differ by more than this are reported. */
const rateShare = 0.05;
/** Around a lamp line, this far, its own flanks are the measure, pixels. */
const flankPixels = 12;

interface RatePoint {
  readonly raw: number;
  readonly ratio: number;
  readonly weight: number;
  readonly pixel: number;
  readonly shorter: ExposureSpectrum;
  readonly longer: ExposureSpectrum;
}

/**
 * Compares the rates (counts per ms) of several exposures of the same light: a detector that saturates softly gives
 * a lower rate in bright pixels than in dim ones.
 *
 * The rates of two exposures are divided pixel by pixel, then by their own value in dim pixels: for the open beam
 * and filters a straight line along the pixels, for lamps the flanks within 12 pixels. So a lamp that drifts as a
 * whole, changes colour slowly, or whose lines warm up one by one, does not look like saturation.
 *
 * @param spectra - all entries that are not dark
 * @param saturationCounts - the detector's stated limit, raw counts
 * @returns level above which rates fall by more than 1 % and 5 standard deviations, and warnings
 * Source: a real unit with no pixel at its limit showed rates falling from 775 to 623 counts/ms, softly from about
 * 60 000 counts (open measured data); the limits are common practice, no source.
 */
export function compareExposures(
  spectra: readonly ExposureSpectrum[],
  saturationCounts: number,
): ExposureComparison {
  const warnings: Warning[] = [];
  const points: RatePoint[] = [];
  for (const [shorter, longer] of pairs(spectra)) {
    const { found, level } = relativeRates(shorter, longer, saturationCounts);
    points.push(...found);
    if (longer.role !== 'lamp' && level !== null && Math.abs(level - 1) > rateShare) {
      warnings.push({
        where: nameOf(longer),
        what:
          `the rate (counts per ms) at ${plainNumber(longer.exposureMs)} ms is ${percent(Math.abs(level - 1))} ` +
          `${level > 1 ? 'above' : 'below'} that at ${plainNumber(shorter.exposureMs)} ms: the lamp changed between ` +
          'the entries, or an exposure time is wrong',
      });
    }
  }
  const soft = softLevel(points, saturationCounts);
  if (soft === null) return { softCounts: null, warnings };
  const worst = soft.above.reduce((best, point) => (point.ratio < best.ratio ? point : best));
  const rate = (spectrum: ExposureSpectrum): string =>
    plainNumber(spectrum.counts[worst.pixel]! / spectrum.exposureMs, 3);
  warnings.push({
    where: nameOf(worst.longer),
    what:
      `the detector saturates softly: pixel ${worst.pixel}'s rate falls from ${rate(worst.shorter)} to ` +
      `${rate(worst.longer)} counts/ms above ${plainNumber(soft.level, 3)} counts; pixels above that level are left out`,
  });
  return { softCounts: soft.level, warnings };
}

function nameOf(spectrum: ExposureSpectrum): string {
  return spectrum.filter ?? spectrum.lamp ?? spectrum.role;
}

/** Each entry with the entry of the next shorter exposure of the same light that stands nearest in the session. */
function pairs(spectra: readonly ExposureSpectrum[]): [ExposureSpectrum, ExposureSpectrum][] {
  const out: [ExposureSpectrum, ExposureSpectrum][] = [];
  for (const longer of spectra) {
    const shorter = spectra.filter(
      (other) =>
        other.role === longer.role &&
        other.lamp === longer.lamp &&
        other.filter === longer.filter &&
        other.exposureMs < longer.exposureMs * 0.999,
    );
    if (shorter.length === 0) continue;
    const next = Math.max(...shorter.map((other) => other.exposureMs));
    const nearest = shorter
      .filter((other) => other.exposureMs >= next * 0.999)
      .reduce((best, other) =>
        Math.abs(other.entry - longer.entry) < Math.abs(best.entry - longer.entry) ? other : best,
      );
    out.push([nearest, longer]);
  }
  return out;
}

function relativeRates(
  shorter: ExposureSpectrum,
  longer: ExposureSpectrum,
  saturationCounts: number,
): { found: RatePoint[]; level: number | null } {
  const pixels = longer.counts.length;
  const ratio = new Float64Array(pixels).fill(Number.NaN);
  const weight = new Float64Array(pixels);
  const low = new Float64Array(pixels);
  const scale = shorter.exposureMs / longer.exposureMs;
  const limit = lowShare * saturationCounts;
  for (let i = 0; i < pixels; i++) {
    const s = shorter.counts[i]!;
    const l = longer.counts[i]!;
    if (shorter.masked[i] === 1 || longer.masked[i] === 1) continue;
    const us = shorter.uncertainty[i]!;
    const ul = longer.uncertainty[i]!;
    if (!(s > clearDeviations * us) || !(l > clearDeviations * ul)) continue;
    ratio[i] = (l / s) * scale;
    const relative = Math.max(1e-12, (us / s) ** 2 + (ul / l) ** 2);
    weight[i] = 1 / (relative * ratio[i]! ** 2);
    if (longer.raw[i]! < limit) low[i] = weight[i]!;
  }
  const one = new Float64Array(pixels).fill(1);
  const whole = levelRatio(ratio, one, low, longer.role === 'open');
  const found: RatePoint[] = [];
  if (whole.level === 0) return { found, level: null };
  for (let i = 0; i < pixels; i++) {
    if (weight[i] === 0 || longer.raw[i]! < limit) continue;
    const x = (2 * i) / Math.max(1, pixels - 1) - 1;
    const base = longer.role === 'lamp' ? flankRate(ratio, low, i) : whole.level + whole.tilt * x;
    if (base === null) continue;
    found.push({
      raw: longer.raw[i]!,
      ratio: ratio[i]! / base,
      weight: weight[i]! * base * base,
      pixel: i,
      shorter,
      longer,
    });
  }
  return { found, level: whole.level };
}

function flankRate(ratio: Float64Array, low: Float64Array, at: number): number | null {
  let sum = 0;
  let product = 0;
  let count = 0;
  for (let i = Math.max(0, at - flankPixels); i <= Math.min(ratio.length - 1, at + flankPixels); i++) {
    if (low[i] === 0) continue;
    sum += low[i]!;
    product += low[i]! * ratio[i]!;
    count++;
  }
  return count < 2 ? null : product / sum;
}

/**
 * The level above which the fall is clearest: the cut with the largest sum, over all points above it, of what each
 * falls short of half of the limit, by weight. Single noisy pixels do not break the run.
 */
function softLevel(
  points: readonly RatePoint[],
  saturationCounts: number,
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
  const single = above.filter((point) => point.ratio < 1 - fallShare / 2).length;
  const clear =
    total.value < 1 - fallShare && 1 - total.value > fallDeviations * total.uncertainty && 2 * single > cut;
  const step = stepShare * saturationCounts;
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
