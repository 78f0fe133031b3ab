import type { Curve } from './types.js';

/**
 * Refuses a curve that is not as described: lengths, order, numbers.
 *
 * @param caller - name of the function that was called
 * @param curve - the curve to check
 * @param atLeast - fewest pixels that make sense
 * @throws {RangeError} anything not as described, with the index
 */
export function requireCurve(caller: string, curve: Curve, atLeast: number): void {
  const { wavelengthNm, transmittance, standardUncertainty } = curve;
  const n = wavelengthNm.length;
  if (transmittance.length !== n || standardUncertainty.length !== n) {
    const lengths = `${n}, ${transmittance.length} and ${standardUncertainty.length}`;
    throw new RangeError(`${caller} requires three arrays of one length, got ${lengths}`);
  }
  if (n < atLeast) throw new RangeError(`${caller} requires at least ${atLeast} pixels, got ${n}`);
  for (let i = 0; i < n; i++) {
    const wavelength = wavelengthNm[i]!;
    if (!Number.isFinite(wavelength) || (i > 0 && !(wavelength > wavelengthNm[i - 1]!))) {
      throw new RangeError(
        `${caller} requires strictly increasing wavelengths, got ${wavelength} at index ${i}`,
      );
    }
    if (!Number.isFinite(transmittance[i]!)) {
      throw new RangeError(`${caller} requires finite transmittances, got ${transmittance[i]} at index ${i}`);
    }
    const u = standardUncertainty[i]!;
    if (!(u >= 0 && u < Infinity)) {
      throw new RangeError(`${caller} requires uncertainties of 0 or more, got ${u} at index ${i}`);
    }
  }
}
