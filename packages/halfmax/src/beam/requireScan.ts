/**
 * Refuses wavelengths that do not rise, and transmittances that are not numbers.
 *
 * @param caller - name of the function that was called
 * @param wavelengthNm - pixels of a curve
 * @param transmittance - as many numbers, where there are any to check
 * @throws {RangeError} fewer than 2 pixels, another length, or the first value that is not as described, with its index
 */
export function requireScan(
  caller: string,
  wavelengthNm: ArrayLike<number>,
  transmittance?: ArrayLike<number>,
): void {
  const n = wavelengthNm.length;
  if (n < 2) throw new RangeError(`${caller} requires at least 2 pixels, got ${n}`);
  if (transmittance !== undefined && transmittance.length !== n) {
    throw new RangeError(`${caller} requires arrays of one length, got ${n} and ${transmittance.length}`);
  }
  for (let i = 0; i < n; i++) {
    const at = wavelengthNm[i]!;
    if (!(at > 0 && at < Infinity) || (i > 0 && !(at > wavelengthNm[i - 1]!))) {
      throw new RangeError(`${caller} requires strictly increasing wavelengths, got ${at} at index ${i}`);
    }
    if (transmittance !== undefined && !Number.isFinite(transmittance[i]!)) {
      throw new RangeError(`${caller} requires finite transmittances, got ${transmittance[i]} at index ${i}`);
    }
  }
}
