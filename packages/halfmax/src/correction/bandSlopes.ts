import {
  ASYMMETRY,
  type BandShape,
  CENTRE,
  FIRST_RIPPLE,
  GROUND,
  HEIGHT,
  LEAST_LOG_STEEPNESS,
  LEAST_TAIL,
  LOG_STEEPNESS,
  LOG_WIDTH,
  MOST_LOG_STEEPNESS,
  MOST_TAIL,
  STEEPNESS_ASYMMETRY,
  TAIL,
} from './bandShape.js';

/**
 * Derivatives of a band by each of its parameters, in closed form.
 *
 * Tail and steepness are taken to lie within the bounds of the shape; a steepness beyond them stands still.
 *
 * @param shape - the shape
 * @param parameters - length shape.size
 * @param gridNm - wavelengths, air, nm
 * @param slopes - filled: shape.size arrays as long as the grid, in transmittance per unit of the parameter
 */
export function bandSlopes(
  shape: BandShape,
  parameters: Float64Array,
  gridNm: Float64Array,
  slopes: readonly Float64Array[],
): void {
  const { ripples } = shape;
  const centre = shape.originNm + parameters[CENTRE]!;
  const tail = Math.min(MOST_TAIL, Math.max(LEAST_TAIL, parameters[TAIL]!));
  const lift = 2 ** tail - 1;
  const liftSlope = 2 ** tail * Math.LN2;
  const height = parameters[HEIGHT]!;
  const size = FIRST_RIPPLE + ripples;
  const row = new Float64Array(size);
  for (let g = 0; g < gridNm.length; g++) {
    const x = gridNm[g]! - centre;
    const side = x < 0 ? -1 : 1;
    const half = 0.5 * Math.exp(parameters[LOG_WIDTH]! + side * parameters[ASYMMETRY]!);
    const wanted = parameters[LOG_STEEPNESS]! + side * parameters[STEEPNESS_ASYMMETRY]!;
    const power = 2 * Math.exp(Math.min(MOST_LOG_STEEPNESS, Math.max(LEAST_LOG_STEEPNESS, wanted)));
    const free = wanted > LEAST_LOG_STEEPNESS && wanted < MOST_LOG_STEEPNESS ? 1 : 0;
    const s = x / half;
    const u = Math.abs(s);
    const logU = u === 0 ? 0 : Math.log(u);
    const raised = u === 0 ? 0 : Math.exp(power * logU);
    const logLifted = Math.log1p(lift * raised);
    const share = raised === Number.POSITIVE_INFINITY ? 1 : (lift * raised) / (1 + lift * raised);

    const phase = (Math.PI / 2) * (Math.max(-1, Math.min(1, s)) + 1);
    const cosine = Math.cos(phase);
    const sine = u < 1 ? Math.sin(phase) : 0;
    let c = 1;
    let d = 0;
    let top = 0;
    let topSlope = 0;
    for (let j = 0; j < ripples; j++) {
      const next = c * cosine - d * sine;
      d = d * cosine + c * sine;
      c = next;
      const ripple = parameters[FIRST_RIPPLE + j]!;
      row[FIRST_RIPPLE + j] = c;
      top += ripple * c;
      topSlope -= (j + 1) * ripple * d;
    }
    topSlope *= Math.PI / 2;

    const unit = Math.exp(top - logLifted / tail);
    const value = height * unit;
    // By the logarithm of u, and by s on the rippled top.
    const edge = (-power * share) / tail;
    const spread = -(edge + topSlope * s);
    const steepen = u === 0 ? 0 : edge * logU * free;
    row[CENTRE] = -(u === 0 ? 0 : edge / x) - topSlope / half;
    row[LOG_WIDTH] = spread;
    row[ASYMMETRY] = side * spread;
    row[LOG_STEEPNESS] = steepen;
    row[STEEPNESS_ASYMMETRY] = side * steepen;
    row[TAIL] = logLifted / tail ** 2 - (liftSlope * share) / (lift * tail);
    for (let k = 0; k < size; k++) slopes[k]![g] = value * row[k]!;
    slopes[HEIGHT]![g] = unit;
    slopes[GROUND]![g] = 1;
  }
}
