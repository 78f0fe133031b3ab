/**
 * Largest numerical error that leaves a standard uncertainty right to `digits` significant digits.
 *
 * The uncertainty is written c x 10^l with c of `digits` digits before the point; the tolerance is half of 10^l. The
 * uncertainty is not rounded first: just below a power of ten this gives the smaller of the two tolerances in doubt.
 *
 * @param standardUncertainty - greater than 0, any unit
 * @param digits - significant digits regarded as meaningful, 1 or 2
 * @returns tolerance in the same unit
 * @throws {RangeError} arguments out of range
 *
 * Source: JCGM 101:2008, 7.9.2.
 * @example
 * numericalTolerance(0.00035, 2); // => 0.000005
 */
export function numericalTolerance(standardUncertainty: number, digits: number): number {
  if (!(Number.isFinite(standardUncertainty) && standardUncertainty > 0)) {
    throw new RangeError(`numericalTolerance requires standardUncertainty > 0, got ${standardUncertainty}`);
  }
  if (digits !== 1 && digits !== 2)
    throw new RangeError(`numericalTolerance requires digits 1 or 2, got ${digits}`);
  // The exponent of the decimal form is the floor of log10, without the rounding of a logarithm at powers of ten.
  const exponent = Number(standardUncertainty.toExponential().split('e')[1]);
  return Number(`5e${exponent - digits}`);
}
