import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { crossingReader } from './crossingReader.js';
import { crossingRows } from './crossingRows.js';
import { findBands } from './findBands.js';
import type { Curve } from './types.js';

const SHAPES: readonly (readonly [string, (x: number) => number])[] = [
  ['steep and flat', (x) => 1 / (1 + x ** 12)],
  ['round', (x) => Math.exp(-Math.LN2 * x * x)],
  ['rippled', (x) => (1 + 0.03 * Math.cos(9 * x)) / (1 + x ** 8)],
  ['tilted', (x) => (1 + 0.1 * x) / (1 + x ** 6)],
  ['horned', (x) => (0.8 + 0.25 * x * x) / (1 + x ** 10)],
];

function curveOf(shape: (x: number) => number, widthNm: number, u: number, stepNm = 0.17): Curve {
  const pixels = Math.round(40.8 / stepNm);
  const wavelengthNm = Float64Array.from({ length: pixels }, (_, i) => 636 + stepNm * i);
  const transmittance = wavelengthNm.map((nm) => 0.9 * shape((nm - 656.3) / (widthNm / 2)));
  return { wavelengthNm, transmittance, standardUncertainty: new Float64Array(pixels).fill(u) };
}

/** Reads batches of noisy trials in both ways; the largest difference of each number, and how many had none. */
function compare(curve: Curve, noise: number, batches: number): { apart: number[]; none: number } {
  const range = findBands(curve)[0]!;
  const options = { lineSpreadNm: 1.1 };
  const reader = crossingReader(curve, range, options);
  const rows = crossingRows(curve, range, options);
  expect([rows.firstPixel, rows.endPixel]).toEqual([reader.firstPixel, reader.endPixel]);
  const { firstPixel, endPixel, trials } = rows;
  const stream = randomStream(5);
  const pixels = new Float64Array((endPixel - firstPixel) * trials);
  const found = new Float64Array(4 * trials);
  const single = new Float64Array(4);
  const drawn = curve.transmittance.slice();
  const apart = [0, 0, 0, 0];
  let none = 0;
  for (let batch = 0; batch < batches; batch++) {
    for (let i = firstPixel, at = 0; i < endPixel; i++)
      for (let trial = 0; trial < trials; trial++)
        pixels[at++] = curve.transmittance[i]! + noise * stream.normal();
    rows.read(pixels, found);
    for (let trial = 0; trial < trials; trial++) {
      for (let i = firstPixel; i < endPixel; i++) drawn[i] = pixels[(i - firstPixel) * trials + trial]!;
      const has = reader.read(drawn, single);
      if (!has) none++;
      for (let k = 0; k < 4; k++) {
        const other = found[k * trials + trial]!;
        expect(Number.isNaN(other)).toBe(!has);
        if (has) apart[k] = Math.max(apart[k]!, Math.abs(other - single[k]!));
      }
    }
  }
  return { apart, none };
}

describe('crossingRows', () => {
  it.each(SHAPES.flatMap(([name, shape]) => [3, 6.5].map((width) => [name, width, shape] as const)))(
    'reads what crossingReader reads, trial by trial: %s, %d nm',
    (_, width, shape) => {
      for (const u of [0, 0.0003, 0.003, 0.02]) {
        const { apart } = compare(curveOf(shape, width, u), u > 0 ? u : 0.003, 4);
        // Rounding: sums in another order.
        for (const difference of apart) expect(difference).toBeLessThan(1e-9);
      }
    },
  );

  it.each([
    ['the top', 656.6, 657.5],
    ['an edge', 654.5, 655.2],
    ['an edge and half of the band', 655, 657.2],
  ])('reads what crossingReader reads where pixels are missing in %s', (_, fromNm, toNm) => {
    const whole = curveOf(SHAPES[0]![1], 3, 0.004);
    const kept = [...whole.wavelengthNm.keys()].filter(
      (i) => whole.wavelengthNm[i]! < fromNm || whole.wavelengthNm[i]! > toNm,
    );
    const pick = (values: Float64Array): Float64Array => Float64Array.from(kept, (i) => values[i]!);
    const curve = {
      wavelengthNm: pick(whole.wavelengthNm),
      transmittance: pick(whole.transmittance),
      standardUncertainty: pick(whole.standardUncertainty),
    };
    for (const difference of compare(curve, 0.004, 4).apart) expect(difference).toBeLessThan(1e-9);
  });

  it.each([0.8, 1.2, 1.5])('reads what crossingReader reads from pixels %f nm apart', (stepNm) => {
    for (const [, shape] of SHAPES)
      for (const difference of compare(curveOf(shape, 6.5, 0.003, stepNm), 0.003, 4).apart)
        expect(difference).toBeLessThan(1e-9);
  });

  it('gives no number where crossingReader gives none', () => {
    const { apart, none } = compare(curveOf(SHAPES[0]![1], 3, 0.003), 0.6, 8);
    expect(none).toBeGreaterThan(10);
    for (const difference of apart) expect(difference).toBeLessThan(1e-9);
  });
});
