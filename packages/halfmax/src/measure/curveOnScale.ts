import { type Dispersion, dispersionAt, wavelengthAt } from '../calibration/index.js';
import type { BlockingOptions, Curve } from '../metrics/index.js';
import type { TransmittanceCurve } from '../transmittance/index.js';

/** Standard uncertainty of each pixel from the counts of each kind of scan, transmittance. */
export interface NoiseParts {
  readonly filtered: Float64Array;
  readonly open: Float64Array;
  readonly dark: Float64Array;
}

/** A transmittance curve on the wavelength scale, shortest wavelength first, masked pixels left out. */
export interface ScaledCurve {
  /** For the metrics: uncertainty of each pixel that is independent of the others. */
  readonly curve: Curve;
  /** What that uncertainty is made of, by the scans it comes from. */
  readonly noiseParts: NoiseParts;
  /** The lamp's drift, common to neighbouring pixels. */
  readonly driftUncertainty: Float64Array;
  /** All of it. */
  readonly standardUncertainty: Float64Array;
  /** What darks of another exposure leave open: standard uncertainty with its sign, one unknown number behind all. */
  readonly darkShared: Float64Array;
  /** Smallest transmittance that can be told from zero. */
  readonly floor: Float64Array;
  /** Light of the open beam, counts. */
  readonly openCounts: Float64Array;
  /** Pixel of each point. */
  readonly pixels: Int32Array;
}

/**
 * Puts a transmittance curve on the wavelength scale.
 *
 * @param measured - by pixel
 * @param dispersion - the scale
 * @returns the points in order of wavelength; pixels beyond a place where an extrapolated scale turns back are left out
 */
export function curveOnScale(measured: TransmittanceCurve, dispersion: Dispersion): ScaledCurve {
  const [first, last] = monotonicRange(dispersion, measured.transmittance.length);
  const kept: number[] = [];
  for (let pixel = first; pixel <= last; pixel++) if (!measured.masked[pixel]) kept.push(pixel);
  if (wavelengthAt(dispersion, last) < wavelengthAt(dispersion, first)) kept.reverse();
  const pick = (values: Float64Array): Float64Array => Float64Array.from(kept, (pixel) => values[pixel]!);
  const { filteredNoise, openNoise, darkNoise, darkShared, drift } = measured.components;
  return {
    curve: {
      wavelengthNm: Float64Array.from(kept, (pixel) => wavelengthAt(dispersion, pixel)),
      transmittance: pick(measured.transmittance),
      standardUncertainty: Float64Array.from(kept, (pixel) =>
        Math.hypot(filteredNoise[pixel]!, openNoise[pixel]!, darkNoise[pixel]!),
      ),
    },
    noiseParts: { filtered: pick(filteredNoise), open: pick(openNoise), dark: pick(darkNoise) },
    driftUncertainty: pick(drift),
    darkShared: pick(darkShared),
    standardUncertainty: pick(measured.standardUncertainty),
    floor: pick(measured.floor),
    openCounts: pick(measured.openCounts),
    pixels: Int32Array.from(kept),
  };
}

/**
 * What limits and blurs statements on the blocking of a curve.
 *
 * @param scaled - the curve
 * @param levelUncertainty - relative standard uncertainty of its level but for the lamp's drift, which the curve knows
 * @returns floor, what of it the pixels share, and the uncertainty of the level
 */
export function blockingLimits(
  scaled: Pick<ScaledCurve, 'curve' | 'driftUncertainty' | 'darkShared' | 'floor'>,
  levelUncertainty: number,
): BlockingOptions {
  const { curve, driftUncertainty, darkShared, floor } = scaled;
  const sum = (values: Float64Array): number => values.reduce((total, value) => total + Math.abs(value), 0);
  const light = sum(curve.transmittance);
  const drift = light > 0 ? sum(driftUncertainty) / light : 0;
  return {
    floor,
    ...(darkShared.some((value) => value !== 0) ? { shared: darkShared } : {}),
    levelUncertainty: Math.hypot(levelUncertainty, drift),
  };
}

/** Pixels around the middle over which the scale runs in one direction. */
function monotonicRange(dispersion: Dispersion, pixels: number): [number, number] {
  const middle = Math.floor(pixels / 2);
  const sign = Math.sign(dispersionAt(dispersion, middle));
  const runsOn = (pixel: number): boolean => Math.sign(dispersionAt(dispersion, pixel)) === sign;
  let first = middle;
  let last = middle;
  while (first > 0 && runsOn(first - 1)) first--;
  while (last < pixels - 1 && runsOn(last + 1)) last++;
  return [first, last];
}
