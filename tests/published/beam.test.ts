// Shift of interference filters in converging beams, as an observatory states it for its own filters.
// Source: Kitt Peak National Observatory, notes on filters: measured at f/13; shift in use at f/2.8 -1.3 to -2.1 nm,
// at f/3.5 -0.9 to -1.3 nm, at f/7.5 -0.2 to -0.3 nm.
import { describe, expect, it } from 'vitest';
import { coneShift, curveInBeam, wavelengthAtAngle } from '../../packages/halfmax/src/beam/index.js';
import { findBands, halfCrossings, isAbsent } from '../../packages/halfmax/src/metrics/index.js';
import { filterAngleTable } from '../../packages/halfmax/src/reference/index.js';

const scan = Float64Array.from({ length: 351 }, (_, i) => 640 + 0.1 * i);
/** A flat-topped band of 5.6 nm at H-alpha. */
const curve = {
  wavelengthNm: scan,
  transmittance: scan.map((x) => 0.9 / (1 + ((2 * (x - 656.3)) / 5.6) ** 6)),
  standardUncertainty: new Float64Array(scan.length),
};
const centreOf = (fNumber: number, effectiveIndex: number): number => {
  const seen = curveInBeam(curve, { fNumber, angleRule: 'tangent' }, { effectiveIndex });
  const crossings = halfCrossings(seen, findBands(seen)[0]!);
  if (isAbsent(crossings)) throw new Error(crossings.absent);
  return crossings.centreNm;
};

describe('the observatory’s shifts', () => {
  const table = [
    { fNumber: 2.8, least: -1.3, most: -2.1 },
    { fNumber: 3.5, least: -0.9, most: -1.3 },
    { fNumber: 7.5, least: -0.2, most: -0.3 },
  ];

  it.each(table)(
    'f/$fNumber: $least to $most nm, by one and the same range of index',
    ({ fNumber, least, most }) => {
      // Half of the last digit that the table gives.
      expect(centreOf(fNumber, 1.58) - 656.3).toBeGreaterThan(most - 0.05);
      expect(centreOf(fNumber, 1.58) - 656.3).toBeLessThan(most + 0.05);
      expect(centreOf(fNumber, 1.97) - 656.3).toBeGreaterThan(least - 0.05);
      expect(centreOf(fNumber, 1.97) - 656.3).toBeLessThan(least + 0.05);
    },
  );

  it.each(table)(
    'f/$fNumber: lie within what the default range of index gives',
    ({ fNumber, least, most }) => {
      const [low, high] = filterAngleTable.effectiveIndex as [number, number];
      expect(centreOf(fNumber, low) - 656.3).toBeLessThan(most + 0.05);
      expect(centreOf(fNumber, high) - 656.3).toBeGreaterThan(least - 0.05);
    },
  );
});

describe('the formula of the shift', () => {
  it('5 degrees at index 2: -0.6234 nm, written out by hand', () => {
    expect(wavelengthAtAngle(656.28, 5, 2) - 656.28).toBeCloseTo(-0.6234, 4);
  });

  // Mean over a pupil of sine 1 / (2 N): lambda0 [(2 n^2 / 3 s^2)(1 - (1 - s^2 / n^2)^(3/2)) - 1].
  it.each([1, 2, 3, 5, 13])('mean over the cone at f/%d: the closed form', (fNumber) => {
    for (const n of [1.5, 2, 2.1]) {
      const x = (1 / (2 * fNumber) / n) ** 2;
      const closed = 656.28 * ((2 / (3 * x)) * (1 - (1 - x) ** 1.5) - 1);
      expect(coneShift(656.28, { fNumber }, n)).toBeCloseTo(closed, 9);
    }
  });

  it.each([20, 50, 200])('small angles at f/%d: -lambda (1 + e^2) / (16 n^2 N^2)', (fNumber) => {
    for (const e of [0, 0.4]) {
      const small = (-656.28 * (1 + e * e)) / (16 * 1.8 ** 2 * fNumber ** 2);
      const found = coneShift(656.28, { fNumber, centralObstruction: e }, 1.8);
      // the next term is of relative size x / 3 with x = 1 / (4 n^2 N^2)
      expect(Math.abs(found / small - 1)).toBeLessThan(1 / (4 * 1.8 ** 2 * fNumber ** 2));
    }
  });
});
