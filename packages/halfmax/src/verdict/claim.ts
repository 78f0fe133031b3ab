/**
 * A claim of a data sheet: a value with or without a tolerance, or a limit. Tolerances are sizes: value - minus to
 * value + plus, or the same on both sides.
 */
export type Claim =
  | { readonly value: number; readonly tolerance?: number | readonly [minus: number, plus: number] }
  | { readonly atLeast: number }
  | { readonly atMost: number };
