import { type Dispersion, dispersionAt, wavelengthAt } from '../calibration/index.js';
import type { Curve } from '../metrics/index.js';
import type { TransmittanceCurve } from '../transmittance/index.js';

/** A transmittance curve on the wavelength scale, shortest wavelength first, masked pixels left out. */
export interface ScaledCurve {
  /** For the metrics: uncertainty of each pixel that is independent of the others. */
  readonly curve: Curve;
  /** The lamp's drift, common to neighbouring pixels. */
  readonly driftUncertainty: Float64Array;
  /** All of it. */
  readonly standardUncertainty: Float64Array;
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
  const { filteredNoise, openNoise, darkNoise, drift } = measured.components;
  return {
    curve: {
      wavelengthNm: Float64Array.from(kept, (pixel) => wavelengthAt(dispersion, pixel)),
      transmittance: pick(measured.transmittance),
      standardUncertainty: Float64Array.from(kept, (pixel) =>
        Math.hypot(filteredNoise[pixel]!, openNoise[pixel]!, darkNoise[pixel]!),
      ),
    },
    driftUncertainty: pick(drift),
    standardUncertainty: pick(measured.standardUncertainty),
    floor: pick(measured.floor),
    openCounts: pick(measured.openCounts),
    pixels: Int32Array.from(kept),
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
