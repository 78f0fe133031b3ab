/** Tables of a band in memory, written from outside. Pointers are bytes from the start of the memory. */

/** Draws that are read in one call: a row of pixel values has one number for each. */
export const DRAWS: usize = 128;
/** Bytes from a row to the next. */
export const ROW: usize = DRAWS << 3;
/** Bytes of a number of each of the four draws that are read side by side, in two vectors of two lanes. */
export const FOUR: usize = 32;
/** Bytes of a cell's cubic: value at 0, factors of t and of t squared, -3 times the factor of t cubed. */
export const CELL: usize = 32;
export const CELL_SHIFT: usize = 5;

/** A stretch of the smoothed curve: places, and for each a window of pixel weights. */
@unmanaged
export class Stretch {
  places: i32;
  /** Pixels in each window: a multiple of four. */
  window: i32;
  /** Bytes to the row of the first pixel of each window: u32 per place. */
  from: usize;
  /** Weights, window after window: f64. */
  value: usize;
  /** Weights of the slope, per nm. */
  slope: usize;
  /** nm, per place: f64. */
  atNm: usize;
  /** Distance to the next place, per place; the last is any number above 0. */
  stepNm: usize;
}

@unmanaged
export class Band {
  /** Pixels: rows of a batch. */
  pixels: i32;
  /** How many noise patterns; 0 where no pixel is uncertain. */
  patterns: i32;
  top: Stretch;
  blue: Stretch;
  red: Stretch;
  /** Value of each pattern at each place of the top, pattern after pattern: f64. */
  noise: usize;
  /** Cells of the patterns, pattern after pattern, each with a cell before the first place and one after the last. */
  noiseCells: usize;
  /** Largest value of any pattern of either sign, per place of the top: f64. */
  reach: usize;
  /** Stretches without pixels: how many, from and to of each in nm. */
  gaps: i32;
  gapNm: usize;
  /** Room for work: middle and half of the span of each pixel. */
  spans: usize;
  /** Rows of heights and of slopes, as many as the longest stretch has places. */
  heights: usize;
  slopes: usize;
  /** Row of the plain maximum, then one of the place where it is; after the peak the first holds cells of crossings. */
  high: usize;
  /** Cells of the draws that are read side by side, then the highest places with each pattern. */
  cells: usize;
  /** Cells of two draws with each pattern of each sign. */
  pairs: usize;
  /** Weight of the thinned height against the maximum. */
  thinnedWeight: f64;
}
