import { describe, expect, it } from 'vitest';
import { type BandShape, bandCurve } from './bandShape.js';
import { bandSlopes } from './bandSlopes.js';

const shape: BandShape = { originNm: 656.3, ripples: 3, size: 11 };
const gridNm = Float64Array.from({ length: 81 }, (_, g) => 650.3 + 0.149 * g);

/** Derivative by central differences, refined once (Richardson's extrapolation). */
function plainSlope(parameters: Float64Array, k: number, nm: number): number {
  const by = (step: number): number => {
    const at = (sign: number): number => {
      const moved = Float64Array.from(parameters);
      moved[k]! += sign * step;
      return bandCurve(shape, moved)(nm);
    };
    return (at(1) - at(-1)) / (2 * step);
  };
  return (4 * by(5e-4) - by(1e-3)) / 3;
}

describe('bandSlopes', () => {
  it.each([
    ['round', [0.8, 0.1, 0.9, 0.05, Math.log(1.2), -0.1, 0.4, 0.001, 0.03, -0.01, 0.004]],
    ['flat with steep edges', [0.93, -0.2, 1.3, -0.08, Math.log(9), 0.15, 1.1, -0.002, -0.02, 0.02, 0.01]],
    ['without ripple or tail', [0.5, 0, 0.5, 0, Math.log(2), 0, 0.03 + 2e-3, 0, 0, 0, 0]],
  ])('agrees with differences of a %s band', (_, list) => {
    const parameters = Float64Array.from(list);
    const slopes = Array.from({ length: shape.size }, () => new Float64Array(gridNm.length));
    bandSlopes(shape, parameters, gridNm, slopes);
    let largest = 0;
    for (let k = 0; k < shape.size; k++) {
      for (let g = 0; g < gridNm.length; g++) {
        largest = Math.max(largest, Math.abs(slopes[k]![g]! - plainSlope(parameters, k, gridNm[g]!)));
      }
    }
    expect(largest).toBeLessThan(2e-7);
  });

  it('stands still where the steepness has reached its bound', () => {
    const parameters = Float64Array.from([0.9, 0, 1, 0, Math.log(80), 0.3, 0.8, 0, 0, 0, 0]);
    const slopes = Array.from({ length: shape.size }, () => new Float64Array(gridNm.length));
    bandSlopes(shape, parameters, gridNm, slopes);
    const red = gridNm.findIndex((nm) => nm > 656.3);
    expect(slopes[4]!.subarray(red).every((slope) => slope === 0)).toBe(true);
    expect(slopes[4]!.subarray(0, red).some((slope) => slope !== 0)).toBe(true);
  });
});
