import { DRAWS } from './layout';

/** What does not change from one set of parameters to another: see `src/correction/bandReader.ts`, whose law this is. */
@unmanaged
export class ShapeTable {
  /** Cosine terms across the top. */
  ripples: i32;
  /** Places between the half points in which the top is searched: a middle and as many on both sides. */
  nodes: i32;
  originNm: f64;
  leastTail: f64;
  mostTail: f64;
  leastSteepness: f64;
  mostSteepness: f64;
  /** Of each place: distance from the middle in half widths, and its logarithm. */
  place: usize;
  logPlace: usize;
  /** Cosines at each place, `ripples` numbers each. */
  cosines: usize;
  /** Share of each ripple by which its crest may stand above both places beside it. */
  missed: usize;
  /** Room for work: the ripples, their sum and the logarithm of the curve at each place. */
  ripple: usize;
  tops: usize;
  logs: usize;
}

/** Bytes from a row to the next: parameters lie one row after another, then results. */
export const ROW: usize = DRAWS << 3;

// @ts-ignore: decorator
@inline
export function numberAt(list: usize, g: i32): f64 {
  return load<f64>(list + (usize(g) << 3));
}
