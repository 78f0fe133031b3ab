/**
 * What the cells of each ring bring together to a fit with given weights: a ring that no edge of a disk reaches
 * need not be gone through cell by cell. Residuals are those of the background and wings that fit best without a disk.
 */
export interface RingSums {
  /** Of the cells; 0 where one is left out. */
  readonly weights: Float64Array;
  /** Coefficients of background and wings from which residuals are reckoned. */
  readonly origin: Float64Array;
  /** Of each ring: sums of weights, of weighted residuals and of their squares. */
  readonly weight: Float64Array;
  readonly residual: Float64Array;
  readonly squares: Float64Array;
  /** Of each ring, `fixed` numbers: weighted sums of background and wings, and of these times the residual. */
  readonly rows: Float64Array;
  readonly scores: Float64Array;
  /** Of each ring, `fixed` x `fixed` numbers: weighted products of background and wings. */
  readonly products: Float64Array;
  /** The same of all rings together. */
  readonly block: Float64Array;
}
