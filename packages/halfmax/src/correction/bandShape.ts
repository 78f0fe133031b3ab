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
export const MOST_LOG_STEEPNESS: number = Math.log(80);

/** How uneven a top may be: factors on the usual size of its ripples. */
export interface Unevenness {
  readonly coarse: number;
  readonly fine: number;
}

/** Cosine terms that count as coarse: up to two full ripples. */
const COARSE = 4;

/** Mean and standard deviation of each parameter before the data speak; Infinity where nothing is held. */
export interface ShapePrior {
  readonly mean: Float64Array;
  readonly deviation: Float64Array;
}

/**
 * What is held likely before the data speak: mean and standard deviation of each parameter; Infinity for none.
 * Common practice, no source: interference filters of one to six cavities, tops even to a few per cent.
 *
 * @param shape - the shape
 * @param unevenness - factors on the likely size of the coarse and the fine ripples; 1 for the usual
 * @returns means and standard deviations, length shape.size
 */
export function shapePrior(shape: BandShape, unevenness: Unevenness = { coarse: 1, fine: 1 }): ShapePrior {
  const mean = new Float64Array(shape.size);
  const deviation = new Float64Array(shape.size).fill(Number.POSITIVE_INFINITY);
  deviation[ASYMMETRY] = 0.1;
  mean[LOG_STEEPNESS] = Math.log(3);
  deviation[LOG_STEEPNESS] = 1.2;
  deviation[STEEPNESS_ASYMMETRY] = 0.2;
  mean[TAIL] = 0.7;
  deviation[TAIL] = 0.5;
  deviation[GROUND] = 0.002;
  for (let j = 0; j < shape.ripples; j++)
    deviation[FIRST_RIPPLE + j] = (j < COARSE ? unevenness.coarse : unevenness.fine) * (j < 2 ? 0.025 : 0.01);
  return { mean, deviation };
}

/**
 * The band as a function of wavelength, its parameters worked out once.
 *
 * @param shape - the shape
 * @param parameters - length shape.size; later changes to the array are not seen
 * @returns transmittance as a fraction at an air wavelength in nm
 */
export function bandCurve(shape: BandShape, parameters: Float64Array): (wavelengthNm: number) => number {
  const centre = shape.originNm + parameters[CENTRE]!;
  const tail = Math.min(MOST_TAIL, Math.max(LEAST_TAIL, parameters[TAIL]!));
  const lift = 2 ** tail - 1;
  const blueHalf = 0.5 * Math.exp(parameters[LOG_WIDTH]! - parameters[ASYMMETRY]!);
  const redHalf = 0.5 * Math.exp(parameters[LOG_WIDTH]! + parameters[ASYMMETRY]!);
  const blueSteepness = steepness(parameters[LOG_STEEPNESS]! - parameters[STEEPNESS_ASYMMETRY]!);
  const redSteepness = steepness(parameters[LOG_STEEPNESS]! + parameters[STEEPNESS_ASYMMETRY]!);
  const ripples = parameters.slice(FIRST_RIPPLE, FIRST_RIPPLE + shape.ripples);
  const height = parameters[HEIGHT]!;
  const ground = parameters[GROUND]!;
  return (wavelengthNm) => {
    const x = wavelengthNm - centre;
    const s = x < 0 ? x / blueHalf : x / redHalf;
    const u = Math.abs(s);
    const plain = u === 0 ? 1 : (1 + lift * u ** (2 * (x < 0 ? blueSteepness : redSteepness))) ** (-1 / tail);
    // cos(j phase) by recursion: phase runs from 0 to pi across the top.
    const first = Math.cos((Math.PI / 2) * (Math.max(-1, Math.min(1, s)) + 1));
    let before = 1;
    let term = first;
    let top = 0;
    for (let j = 0; j < ripples.length; j++) {
      top += ripples[j]! * term;
      const next = 2 * first * term - before;
      before = term;
      term = next;
    }
    return ground + height * plain * Math.exp(top);
  };
}

function steepness(logarithm: number): number {
  return Math.exp(Math.min(MOST_LOG_STEEPNESS, Math.max(LEAST_LOG_STEEPNESS, logarithm)));
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
  return bandCurve(shape, parameters)(wavelengthNm);
}
