/** A 2-D frame of a slit spectrograph, turned so that the dispersion runs along its rows. */
export interface SlitImage {
  /** Length of a row: pixels along the dispersion. */
  readonly pixels: number;
  readonly rows: number;
  /** Raw counts, row after row; NaN where undefined. */
  readonly counts: Float64Array;
}

/** Where the spectrum lies on 2-D frames. */
export interface Trace {
  /** Row of the middle of the spectrum at each pixel along the dispersion; rows from 0 at their centres. */
  readonly centreRow: Float64Array;
  /** Distance from the middle to the lower and the upper edge, rows; infinite where the spectrum fills the height. */
  readonly below: number;
  readonly above: number;
}
