import { describe, expect, it } from 'vitest';
import { type LineShape, lineShape } from './lineShape.js';

const shapes: readonly (readonly [boxShare: number, boxRatio: number])[] = [
  [0, 1],
  [0.35, 0.1],
  [0.5, 0.55],
  [0.7, 1],
  [0.85, 1],
  [0.9, 0.1],
  [0.98, 1],
];

/** Integral of z^power times a function over the profile's reach, by the trapezoid rule on the grid of its table. */
function moment(f: (z: number) => number, power: number): number {
  let sum = 0;
  for (let n = -499; n <= 499; n++) sum += (n / 100) ** power * f(n / 100);
  return sum / 100;
}

/** Two boxes and a Gaussian of unit variance in all, convolved by plain sums: no closed form in it. */
function convolved(boxShare: number, boxRatio: number): (z: number) => number {
  const wide = Math.sqrt((12 * boxShare) / (1 + boxRatio ** 2));
  const narrow = boxRatio * wide;
  const blur = Math.sqrt(1 - boxShare);
  const steps = 100;
  const at = (z: number): number => {
    let sum = 0;
    for (let a = 0; a < steps; a++) {
      const u = wide * ((a + 0.5) / steps - 0.5);
      for (let b = 0; b < steps; b++) {
        const v = narrow * ((b + 0.5) / steps - 0.5);
        sum += Math.exp(-0.5 * ((z - u - v) / blur) ** 2);
      }
    }
    return sum;
  };
  const top = at(0);
  return (z) => at(z) / top;
}

describe('lineShape', () => {
  it('is the Gaussian without boxes', () => {
    const { value, slope, skewTerm, fwhm } = lineShape(0, 1, 0);
    // Straight lines between entries 0.01 apart: off by at most 0.01^2 / 8 of the second derivative, which is 1.
    for (const z of [-3.217, -1, -0.333, 0, 0.5, 1.2345, 2.5, 4]) {
      const bell = Math.exp(-0.5 * z * z);
      expect(Math.abs(value(z) - bell)).toBeLessThan(1.3e-5);
      expect(Math.abs(slope(z) + z * bell)).toBeLessThan(3e-5);
      expect(Math.abs(skewTerm(z) - ((z ** 3 - 3 * z) * bell) / 6)).toBeLessThan(3e-5);
    }
    expect(Math.abs(fwhm - 2 * Math.sqrt(2 * Math.LN2))).toBeLessThan(5e-5);
  });

  it('tends to the triangle of unit variance as the boxes take all of it', () => {
    // Two equal boxes w wide make a triangle of base 2 w and variance w^2 / 6. A blur of deviation b takes
    // b sqrt(2 / pi) / w off its top and leaves the flanks alone, so that they cross half height at w + b sqrt(2 / pi).
    const wide = Math.sqrt(6 * 0.98);
    const blunt = Math.sqrt(0.02) * Math.sqrt(2 / Math.PI);
    const { value, fwhm } = lineShape(0.98, 1, 0);
    expect(Math.abs(fwhm - (wide + blunt))).toBeLessThan(1e-4);
    for (const z of [0.7, 1, 1.5, 1.9]) {
      expect(Math.abs(value(z) - (wide - z) / (wide - blunt))).toBeLessThan(1e-4);
      expect(Math.abs(value(-z) - value(z))).toBeLessThan(1e-12);
    }
    expect(value(3.2)).toBeLessThan(1e-6);
  });

  it('has the width of the wide box where the other is small', () => {
    // The flanks of a blurred box cross half height where the sharp ones stand.
    expect(Math.abs(lineShape(0.98, 0.1, 0).fwhm / Math.sqrt((12 * 0.98) / 1.01) - 1)).toBeLessThan(1e-3);
  });

  it.each(shapes)(
    'agrees with a convolution by plain sums at box share %d, ratio %d',
    (boxShare, boxRatio) => {
      if (boxShare === 0) return;
      const { value } = lineShape(boxShare, boxRatio, 0);
      const expected = convolved(boxShare, boxRatio);
      for (const z of [0, 0.4, 0.9, 1.3, 1.8, 2.4, 3]) {
        // Midpoint sums over 100 cells of a box: 1e-4 where the blur is a seventh of the box, as at 0.98.
        expect(Math.abs(value(z) - expected(z))).toBeLessThan(2e-4);
        expect(Math.abs(value(-z) - value(z))).toBeLessThan(1e-12);
      }
    },
  );

  it.each(shapes)(
    'has unit variance and its centroid at 0 at box share %d, ratio %d',
    (boxShare, boxRatio) => {
      const { value } = lineShape(boxShare, boxRatio, 0);
      const area = moment(value, 0);
      expect(Math.abs(moment(value, 1) / area)).toBeLessThan(1e-10);
      // Cut off at five standard deviations: the Gaussian loses 10 phi(5) = 1.5e-5 of its variance there.
      expect(Math.abs(moment(value, 2) / area - 1)).toBeLessThan(3e-5);
    },
  );

  it.each(shapes)(
    'takes a skewness without a change of area, centroid, variance at share %d, ratio %d',
    (a, b) => {
      const plain = lineShape(a, b, 0);
      for (const skewness of [-0.5, 0.2]) {
        const { value } = lineShape(a, b, skewness);
        const area = moment(value, 0);
        expect(Math.abs(area / moment(plain.value, 0) - 1)).toBeLessThan(1e-9);
        // The third power weighs the tail beyond five deviations: 2e-4 of the skewness is cut off.
        expect(Math.abs(moment(value, 1) / area)).toBeLessThan(1e-4);
        expect(Math.abs(moment(value, 2) / area - 1)).toBeLessThan(3e-5);
        expect(Math.abs(moment(value, 3) / area - skewness)).toBeLessThan(1e-3);
      }
    },
  );

  it.each(shapes)(
    'gives the derivative of its value as slope at share %d, ratio %d',
    (boxShare, boxRatio) => {
      const plain = lineShape(boxShare, boxRatio, 0);
      for (const skewness of [0, 0.3]) {
        const shape: LineShape = lineShape(boxShare, boxRatio, skewness);
        // The integral of the slope is the value: sums over the table's own grid, midpoint rule to second order.
        let sum = shape.value(-4.8);
        let largest = 0;
        for (let n = -480; n < 350; n++) {
          sum += (shape.slope(n / 100) + shape.slope((n + 1) / 100)) / 200;
          largest = Math.max(largest, Math.abs(sum - shape.value((n + 1) / 100)));
        }
        // 0.01^2 / 12 of the second derivative, which a blur b of the skewness' fourth brings to 0.3 / (6 b^4).
        const blur2 = 1 - boxShare;
        expect(largest).toBeLessThan((0.01 ** 2 / 12) * (2 / blur2 + (skewness * 2) / blur2 ** 2) + 1e-6);
      }
      expect(plain.slope(0)).toBeCloseTo(0, 12);
    },
  );

  it('measures the full width of a skewed profile on both of its sides', () => {
    const { value, fwhm } = lineShape(0, 1, 0.4);
    const samples = Array.from({ length: 9999 }, (_, n) => n / 1000 - 5);
    const top = Math.max(...samples.map(value));
    const above = samples.filter((z) => value(z) >= top / 2);
    expect(Math.abs(fwhm - (above[above.length - 1]! - above[0]!))).toBeLessThan(3e-3);
  });

  it('refuses what no line looks like', () => {
    expect(() => lineShape(0.99, 1, 0)).toThrow(
      new RangeError('lineShape requires a box share of 0 to 0.98, got 0.99'),
    );
    expect(() => lineShape(0.5, 0, 0)).toThrow(
      new RangeError('lineShape requires a box ratio of 0.1 to 1, got 0'),
    );
    expect(() => lineShape(0.5, 1, 1.1)).toThrow(
      new RangeError('lineShape requires a skewness of -1 to 1, got 1.1'),
    );
    expect(() => lineShape(Number.NaN, 1, 0)).toThrow(RangeError);
  });
});
