/**
 * A flexible passband: a flat or round top with edges of any steepness, symmetric or not, tilted or rippled.
 *
 * In u = distance from the centre over the half width, the plain shape is (1 + (2^q - 1) u^2m)^(-1/q): a Butterworth
 * band of m cavities at q = 1, a super-Gaussian towards q = 0 (a Gaussian at m = 1), a rectangle for large m. It is
 * half of its height at u = 1 whatever m and q are. A sum of cosines across the top multiplies it.
 */
export interface BandShape {
  /** Wavelength that centres are counted from, nm. */
  readonly originNm: number;
  /** Cosine terms across the top. */
  readonly ripples: number;
  readonly size: number;
}

/** Places of the parameters. */
export const HEIGHT = 0;
export const CENTRE = 1;
export const LOG_WIDTH = 2;
export const ASYMMETRY = 3;
export const LOG_STEEPNESS = 4;
export const STEEPNESS_ASYMMETRY = 5;
export const TAIL = 6;
export const GROUND = 7;
export const FIRST_RIPPLE = 8;

/** Bounds within which the plain shape is computed. */
export const LEAST_TAIL = 0.03;
export const MOST_TAIL = 2;
export const LEAST_LOG_STEEPNESS: number = Math.log(0.7);
export const MOST_LOG_STEEPNESS: number = Math.log(30);

/**
 * What is held likely before the data speak: mean and standard deviation of each parameter; Infinity for none.
 * Common practice, no source: interference filters of one to six cavities, tops even to a few per cent.
 *
 * @param shape - the shape
 * @returns means and standard deviations, length shape.size
 */
export function shapePrior(shape: BandShape): { mean: Float64Array; deviation: Float64Array } {
  const mean = new Float64Array(shape.size);
  const deviation = new Float64Array(shape.size).fill(Number.POSITIVE_INFINITY);
  deviation[ASYMMETRY] = 0.15;
  mean[LOG_STEEPNESS] = Math.log(2.5);
  deviation[LOG_STEEPNESS] = 0.7;
  deviation[STEEPNESS_ASYMMETRY] = 0.25;
  mean[TAIL] = 0.7;
  deviation[TAIL] = 0.5;
  deviation[GROUND] = 0.002;
  for (let j = 0; j < shape.ripples; j++) deviation[FIRST_RIPPLE + j] = 0.03;
  return { mean, deviation };
}

/**
 * Transmittance of the band at a wavelength.
 *
 * @param shape - the shape
 * @param parameters - length shape.size
 * @param wavelengthNm - air, nm
 * @returns transmittance as a fraction
 */
export function bandValue(shape: BandShape, parameters: Float64Array, wavelengthNm: number): number {
  const x = wavelengthNm - shape.originNm - parameters[CENTRE]!;
  const side = x < 0 ? -1 : 1;
  const half = 0.5 * Math.exp(parameters[LOG_WIDTH]! + side * parameters[ASYMMETRY]!);
  const logSteepness = parameters[LOG_STEEPNESS]! + side * parameters[STEEPNESS_ASYMMETRY]!;
  const steepness = Math.exp(Math.min(MOST_LOG_STEEPNESS, Math.max(LEAST_LOG_STEEPNESS, logSteepness)));
  const tail = Math.min(MOST_TAIL, Math.max(LEAST_TAIL, parameters[TAIL]!));
  const u = Math.abs(x) / half;
  const plain = u === 0 ? 1 : (1 + (2 ** tail - 1) * u ** (2 * steepness)) ** (-1 / tail);
  let top = 0;
  if (shape.ripples > 0) {
    const phase = (Math.PI / 2) * (Math.max(-1, Math.min(1, x / half)) + 1);
    for (let j = 0; j < shape.ripples; j++) top += parameters[FIRST_RIPPLE + j]! * Math.cos((j + 1) * phase);
  }
  return parameters[GROUND]! + parameters[HEIGHT]! * plain * Math.exp(top);
}
