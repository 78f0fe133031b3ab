import type { Claim } from './claim.js';

/** Values that a quantity may have; a side left out is open. */
export interface ToleranceInterval {
  readonly from?: number;
  readonly to?: number;
}

/**
 * The values a claim permits.
 *
 * @param claim - value with or without tolerance, or a limit
 * @returns interval in the unit of the claim, or why the claim permits no interval
 * @throws {RangeError} a number that is not finite, or a tolerance below zero
 *
 * Source: JCGM 106:2012, 3.3.5 and 7.3 (from memory).
 * @example
 * toleranceInterval({ value: 3, tolerance: [0.5, 1] }); // => { from: 2.5, to: 4 }
 */
export function toleranceInterval(claim: Claim): ToleranceInterval | { readonly absent: string } {
  if ('atLeast' in claim) return { from: requireFinite(claim.atLeast) };
  if ('atMost' in claim) return { to: requireFinite(claim.atMost) };
  const value = requireFinite(claim.value);
  if (claim.tolerance === undefined) return { absent: 'the claim states a value without a tolerance' };
  const [minus, plus] =
    typeof claim.tolerance === 'number' ? [claim.tolerance, claim.tolerance] : claim.tolerance;
  if (!(requireFinite(minus) >= 0 && requireFinite(plus) >= 0)) {
    throw new RangeError(`toleranceInterval requires tolerances >= 0, got ${minus} and ${plus}`);
  }
  return { from: value - minus, to: value + plus };
}

function requireFinite(value: number): number {
  if (!Number.isFinite(value))
    throw new RangeError(`toleranceInterval requires finite numbers, got ${value}`);
  return value;
}
