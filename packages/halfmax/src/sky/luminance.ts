import { photometryTable } from '../reference/index.js';

/**
 * Luminance of a sky of stated brightness.
 *
 * @param vMagnitude - V magnitudes per square arcsecond
 * @returns candela per square metre
 * @throws {RangeError} a magnitude that is not finite
 * Source: Garstang, PASP 98, 364 (1986): 1.08e5 x 10^(-0.4 V); the exact factor depends on the spectrum.
 * @example
 * luminance(22).toExponential(4); // => '1.7117e-4'
 */
export function luminance(vMagnitude: number): number {
  if (!Number.isFinite(vMagnitude))
    throw new RangeError(`luminance requires a finite magnitude, got ${vMagnitude}`);
  return photometryTable.luminanceOfZero * 10 ** (-0.4 * vMagnitude);
}
