import { levelRatio } from './levelRatio.js';
import type { FrameRole } from './types.js';

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

/** The rate of one pixel at a longer exposure over that at a shorter one. */
export interface RatePoint {
  readonly raw: number;
  readonly ratio: number;
  readonly weight: number;
  readonly pixel: number;
  readonly shorter: ExposureSpectrum;
  readonly longer: ExposureSpectrum;
}

/** The rates of two exposures against each other. */
export interface RelativeRates {
  /** The bright pixels, their ratio over that of the dim ones. */
  readonly found: readonly RatePoint[];
  /** Ratio of the rates in dim pixels; null where no dim pixel is clear. */
  readonly level: number | null;
  /** 1 where both exposures show the pixel clearly. */
  readonly clear: Uint8Array;
}

/** Pixels with less than this are too noisy for a ratio: 20 standard deviations bias it by 0.25 %. */
const clearDeviations = 20;
/** Around a lamp line, this far, its own flanks are the measure, pixels. */
const flankPixels = 12;

/**
 * Rates (counts per ms) of two exposures of the same light, pixel by pixel, against those of the dim pixels: for the
 * open beam and filters a straight line along the pixels, for lamps the flanks within 12 pixels.
 *
 * @param shorter - the one exposure
 * @param longer - the other
 * @param lowCounts - raw counts of the longer exposure below which a pixel is dim
 * @returns ratios of the bright pixels, and the level that they are compared with
 */
export function relativeRates(
  shorter: ExposureSpectrum,
  longer: ExposureSpectrum,
  lowCounts: number,
): RelativeRates {
  const pixels = longer.counts.length;
  const ratio = new Float64Array(pixels).fill(Number.NaN);
  const weight = new Float64Array(pixels);
  const low = new Float64Array(pixels);
  const scale = shorter.exposureMs / longer.exposureMs;
  const clear = new Uint8Array(pixels);
  for (let i = 0; i < pixels; i++) {
    const s = shorter.counts[i]!;
    const l = longer.counts[i]!;
    if (shorter.masked[i] === 1 || longer.masked[i] === 1) continue;
    const us = shorter.uncertainty[i]!;
    const ul = longer.uncertainty[i]!;
    if (!(s > clearDeviations * us) || !(l > clearDeviations * ul)) continue;
    clear[i] = 1;
    ratio[i] = (l / s) * scale;
    const relative = Math.max(1e-12, (us / s) ** 2 + (ul / l) ** 2);
    weight[i] = 1 / (relative * ratio[i]! ** 2);
    if (longer.raw[i]! < lowCounts) low[i] = weight[i]!;
  }
  const one = new Float64Array(pixels).fill(1);
  const whole = levelRatio(ratio, one, low, longer.role === 'open');
  const found: RatePoint[] = [];
  if (whole.level === 0) return { found, level: null, clear };
  for (let i = 0; i < pixels; i++) {
    if (weight[i] === 0 || longer.raw[i]! < lowCounts) continue;
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
  return { found, level: whole.level, clear };
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
