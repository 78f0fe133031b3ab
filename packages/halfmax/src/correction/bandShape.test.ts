import { describe, expect, it } from 'vitest';
import {
  ASYMMETRY,
  type BandShape,
  bandCurve,
  bandValue,
  CENTRE,
  FIRST_RIPPLE,
  GROUND,
  HEIGHT,
  LEAST_TAIL,
  LOG_STEEPNESS,
  LOG_WIDTH,
  MOST_LOG_STEEPNESS,
  STEEPNESS_ASYMMETRY,
  shapePrior,
  TAIL,
} from './bandShape.js';

const shape: BandShape = { originNm: 656, ripples: 3, size: FIRST_RIPPLE + 3 };

function parametersOf(given: Readonly<Record<number, number>>): Float64Array {
  const parameters = new Float64Array(shape.size);
  parameters[HEIGHT] = 0.9;
  parameters[CENTRE] = 0.3;
  parameters[LOG_WIDTH] = Math.log(4);
  parameters[TAIL] = 1;
  for (const [k, value] of Object.entries(given)) parameters[Number(k)] = value;
  return parameters;
}

describe('bandCurve', () => {
  it.each([1, 2, 3, 5])('is a Butterworth band of %d cavities where the tail is 1', (cavities) => {
    const curve = bandCurve(shape, parametersOf({ [LOG_STEEPNESS]: Math.log(cavities) }));
    for (const x of [-5, -2.1, -0.4, 0, 0.7, 2, 3.3])
      expect(curve(656.3 + x)).toBeCloseTo(0.9 / (1 + (Math.abs(x) / 2) ** (2 * cavities)), 12);
  });

  it('comes near to a Gaussian where the tail is at its least', () => {
    const curve = bandCurve(shape, parametersOf({ [TAIL]: LEAST_TAIL }));
    // (1 + q y)^(-1/q) differs from exp(-y) by q y^2 exp(-y) / 2, at most 0.27 q; that the half points stay at the
    // half takes a part of it away.
    for (let x = -6; x <= 6; x += 0.25)
      expect(Math.abs(curve(656.3 + x) - 0.9 * 2 ** -((x / 2) ** 2))).toBeLessThan(0.27 * LEAST_TAIL * 0.9);
  });

  it.each([
    ['a round band', { [LOG_STEEPNESS]: 0 }],
    ['a box', { [LOG_STEEPNESS]: MOST_LOG_STEEPNESS }],
    ['a lopsided band', { [ASYMMETRY]: 0.2, [STEEPNESS_ASYMMETRY]: 0.4, [LOG_STEEPNESS]: 1, [TAIL]: 0.3 }],
  ])(
    '%s is half as high at both half widths, and cosh(asymmetry) times as wide as its parameter',
    (_, given) => {
      const parameters = parametersOf(given);
      const asymmetry = parameters[ASYMMETRY]!;
      const [blue, red] = [2 * Math.exp(-asymmetry), 2 * Math.exp(asymmetry)];
      expect(bandValue(shape, parameters, 656.3 - blue)).toBeCloseTo(0.45, 12);
      expect(bandValue(shape, parameters, 656.3 + red)).toBeCloseTo(0.45, 12);
      expect(blue + red).toBeCloseTo(4 * Math.cosh(asymmetry), 12);
    },
  );

  it('lies on its ground far away, and carries cosines on its top', () => {
    const plain = bandCurve(shape, parametersOf({ [LOG_STEEPNESS]: Math.log(4) }));
    const ripples = [0.05, -0.02, 0.03];
    const given = Object.fromEntries(ripples.map((ripple, j) => [FIRST_RIPPLE + j, ripple]));
    const parameters = parametersOf({ ...given, [GROUND]: 0.004, [LOG_STEEPNESS]: Math.log(4) });
    const rippled = bandCurve(shape, parameters);
    for (const u of [-1, -0.5, 0, 0.25, 0.8]) {
      const phase = (Math.PI * (u + 1)) / 2;
      const top = ripples.reduce((sum, ripple, j) => sum + ripple * Math.cos((j + 1) * phase), 0);
      expect(rippled(656.3 + 2 * u)).toBeCloseTo(0.004 + plain(656.3 + 2 * u) * Math.exp(top), 12);
    }
    expect(rippled(756)).toBeCloseTo(0.004, 9);
  });

  it('keeps to the parameters it was given', () => {
    const parameters = parametersOf({});
    const curve = bandCurve(shape, parameters);
    const before = curve(657);
    parameters.fill(0);
    expect(curve(657)).toBe(before);
  });
});

describe('shapePrior', () => {
  it('holds the form, and leaves height, place and width to the data', () => {
    const { mean, deviation } = shapePrior(shape);
    const free = Array.from(deviation.keys()).filter((k) => deviation[k] === Number.POSITIVE_INFINITY);
    expect(free).toEqual([HEIGHT, CENTRE, LOG_WIDTH]);
    expect([mean.length, deviation.length]).toEqual([shape.size, shape.size]);
    expect(deviation.every((one) => one > 0)).toBe(true);
  });
});
