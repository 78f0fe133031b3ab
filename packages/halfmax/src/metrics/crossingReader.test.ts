import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { crossingReader } from './crossingReader.js';
import { findBands } from './findBands.js';
import { halfCrossingsOf } from './halfCrossings.js';
import { isAbsent } from './quantity.js';
import type { Curve } from './types.js';

const SHAPES: readonly (readonly [string, (x: number) => number])[] = [
  ['steep and flat', (x) => 1 / (1 + x ** 12)],
  ['round', (x) => Math.exp(-Math.LN2 * x * x)],
  ['rippled', (x) => (1 + 0.03 * Math.cos(9 * x)) / (1 + x ** 8)],
  ['tilted', (x) => (1 + 0.1 * x) / (1 + x ** 6)],
];

function curveOf(shape: (x: number) => number, widthNm: number, u: number): Curve {
  const wavelengthNm = Float64Array.from({ length: 240 }, (_, i) => 636 + 0.17 * i);
  const transmittance = wavelengthNm.map((nm) => 0.9 * shape((nm - 656.3) / (widthNm / 2)));
  return { wavelengthNm, transmittance, standardUncertainty: new Float64Array(240).fill(u) };
}

describe('crossingReader', () => {
  it.each(SHAPES.flatMap(([name, shape]) => [3, 6.5].map((width) => [name, width, shape] as const)))(
    'reads what halfCrossingsOf reads: %s, %d nm',
    (_, width, shape) => {
      for (const u of [0, 0.001, 0.01]) {
        const curve = curveOf(shape, width, u);
        const range = findBands(curve)[0]!;
        const plain = halfCrossingsOf(curve, range, { lineSpreadNm: 1.1 });
        const reader = crossingReader(curve, range, { lineSpreadNm: 1.1 });
        const stream = randomStream(5);
        const out = new Float64Array(4);
        for (let draw = 0; draw < 200; draw++) {
          const drawn = curve.transmittance.map((t) => t + (u > 0 ? u : 0.003) * stream.normal());
          const expected = plain(drawn);
          const found = reader.read(drawn, out);
          expect(found).toBe(!isAbsent(expected));
          if (isAbsent(expected)) continue;
          const { peakTransmittance, peakNm, blueNm, redNm } = expected;
          // The plain way iterates for a maximum and may stop a thousandth of a cell (0.085 nm) short of it.
          expect(Math.abs(out[0]! - peakTransmittance)).toBeLessThan(2e-6);
          expect(Math.abs(out[1]! - peakNm)).toBeLessThan(1e-4);
          expect(Math.abs(out[2]! - blueNm)).toBeLessThan(1e-6);
          expect(Math.abs(out[3]! - redNm)).toBeLessThan(1e-6);
        }
      }
    },
  );

  it('says which pixels matter: others change nothing', () => {
    const curve = curveOf(SHAPES[0]![1], 3, 0.002);
    const reader = crossingReader(curve, findBands(curve)[0]!, { lineSpreadNm: 1.1 });
    expect(reader.endPixel - reader.firstPixel).toBeLessThan(60);
    const before = new Float64Array(4);
    const after = new Float64Array(4);
    expect(reader.read(curve.transmittance, before)).toBe(true);
    const drawn = curve.transmittance.map((t, i) => (i < reader.firstPixel || i >= reader.endPixel ? 7 : t));
    expect(reader.read(drawn, after)).toBe(true);
    expect(after).toEqual(before);
    const moved = curve.transmittance.slice();
    moved[Math.floor((reader.firstPixel + reader.endPixel) / 2)]! += 0.1;
    reader.read(moved, after);
    expect(after[0]).toBeGreaterThan(before[0]!);
  });

  it('has no reading where there is none', () => {
    const curve = curveOf(SHAPES[0]![1], 3, 0.002);
    const range = findBands(curve)[0]!;
    const out = new Float64Array(4);
    expect(crossingReader(curve, range).read(new Float64Array(240).fill(0.5), out)).toBe(false);
    const cut = { ...range, truncated: 'end' as const };
    expect(crossingReader(curve, cut).read(curve.transmittance, out)).toBe(false);
  });
});
