import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { describeBand } from './describeBand.js';
import { findBands } from './findBands.js';
import type { HalfCrossings } from './halfCrossings.js';
import { halfCrossings, halfCrossingsOf } from './halfCrossings.js';
import { isAbsent } from './quantity.js';
import type { Absent, Curve } from './types.js';

function bandCurve(u: number, seed = 3): Curve {
  const stream = randomStream(seed);
  const wavelengthNm = Float64Array.from({ length: 300 }, (_, i) => 630 + 0.17 * i);
  const transmittance = wavelengthNm.map(
    (nm) => 0.9 / (1 + Math.abs((nm - 656.3) / 2.5) ** 6) + u * stream.normal(),
  );
  return { wavelengthNm, transmittance, standardUncertainty: new Float64Array(300).fill(u) };
}

function found(result: HalfCrossings | Absent): HalfCrossings {
  if (isAbsent(result)) throw new Error(result.absent);
  return result;
}

describe('halfCrossings', () => {
  it('are the numbers of describeBand', () => {
    const curve = bandCurve(0.004);
    const range = findBands(curve)[0]!;
    const metrics = describeBand(curve, range, { lineSpreadNm: 1.1 });
    const crossings = found(halfCrossings(curve, range, { lineSpreadNm: 1.1 }));
    expect(metrics.fwhmNm).toMatchObject({ value: crossings.fwhmNm });
    expect(metrics.centreNm).toMatchObject({ value: crossings.centreNm });
    expect(metrics.peakTransmittance).toMatchObject({ value: crossings.peakTransmittance });
    expect(crossings.level).toBe(crossings.peakTransmittance / 2);
    expect(crossings.redNm - crossings.blueNm).toBe(crossings.fwhmNm);
  });

  it('read other values on the same pixels with the windows of the first', () => {
    const first = bandCurve(0.003, 3);
    const second = bandCurve(0.003, 4);
    const range = findBands(first)[0]!;
    const shared = found(halfCrossingsOf(first, range)(second.transmittance));
    const own = found(halfCrossings(second, findBands(second)[0]!));
    // windows settled from two noisy curves of the same band: far less than the noise, 0.007 nm
    expect(Math.abs(shared.fwhmNm - own.fwhmNm)).toBeLessThan(0.004);
    expect(halfCrossingsOf(first, range)(first.transmittance)).toEqual(halfCrossings(first, range));
  });

  it('scale exactly with the values', () => {
    const curve = bandCurve(0);
    const kernel = halfCrossingsOf(curve, findBands(curve)[0]!);
    const whole = found(kernel(curve.transmittance));
    const half = found(kernel(curve.transmittance.map((t) => t / 2)));
    expect(half.fwhmNm).toBeCloseTo(whole.fwhmNm, 10);
    expect(half.peakTransmittance).toBeCloseTo(whole.peakTransmittance / 2, 12);
  });

  it('say why when values do not cross, and refuse another length', () => {
    const curve = bandCurve(0);
    const kernel = halfCrossingsOf(curve, findBands(curve)[0]!);
    expect(kernel(new Float64Array(300).fill(0.5))).toMatchObject({
      absent: expect.stringContaining('blue edge'),
    });
    expect(() => kernel(new Float64Array(299))).toThrow('requires 300 pixels, got 299');
  });

  it('refuse a range without pixels and a line spread that is no width', () => {
    const curve = bandCurve(0);
    const range = findBands(curve)[0]!;
    expect(() => halfCrossings(curve, { ...range, fromNm: 700, toNm: 701 })).toThrow(
      'a range inside the curve',
    );
    expect(() => halfCrossings(curve, range, { lineSpreadNm: -1 })).toThrow('line spread');
  });
});
