import type { Claim } from '../verdict/index.js';

/** Data sheets state transmittances in whole per cent: common practice, no source. */
const FRACTION_STEP = 0.01;

/**
 * The step of the last digit of a claimed value, whose rounding is unknown to the reader: 3 nm may stand for anything
 * from 2.5 to 3.5 nm. JSON loses zeros at the end, so 3 and 3.0 are the same here, and the step may come out too large.
 *
 * @param claim - of the data sheet
 * @param isFraction - true for a transmittance, whose step is that of whole per cent at most
 * @returns the step in the unit of the claim, above 0; null for a limit or a value with a tolerance: those are taken as
 *   written
 * @example
 * claimStep({ value: 672.4 }, false); // => 0.1
 */
export function claimStep(claim: Claim, isFraction: boolean): number | null {
  if (!('value' in claim) || claim.tolerance !== undefined) return null;
  const [mantissa = '', exponent = '0'] = String(claim.value).split('e');
  const decimals = (mantissa.split('.')[1] ?? '').length - Number(exponent);
  const step = decimals <= 0 ? 1 : Number(`1e-${decimals}`);
  return isFraction ? Math.min(step, FRACTION_STEP) : step;
}
