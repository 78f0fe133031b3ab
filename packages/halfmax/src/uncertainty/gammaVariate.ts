import type { RandomStream } from '../numeric/index.js';

/**
 * One draw from the gamma distribution of scale 1, by squeeze-free acceptance and rejection.
 *
 * @param stream - random numbers
 * @param shape - greater than 0; chi-squared with v degrees of freedom is twice the draw of shape v / 2
 * @returns number greater than 0, with mean and variance equal to `shape`
 * @throws {RangeError} shape not greater than 0
 *
 * Source: G. Marsaglia and W. W. Tsang, "A simple method for generating gamma variables", ACM Transactions on
 * Mathematical Software 26 (2000) 363-372; below shape 1 by their section 6. From memory; checked by moments.
 */
export function gammaVariate(stream: RandomStream, shape: number): number {
  if (!(shape > 0)) throw new RangeError(`gammaVariate requires shape > 0, got ${shape}`);
  if (shape < 1) return gammaVariate(stream, shape + 1) * stream.uniform() ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const z = stream.normal();
    const root = 1 + c * z;
    const v = root * root * root;
    if (v > 0 && Math.log(stream.uniform()) < 0.5 * z * z + d - d * v + d * Math.log(v)) return d * v;
  }
}
