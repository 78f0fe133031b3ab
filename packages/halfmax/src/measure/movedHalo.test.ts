import { describe, expect, it } from 'vitest';
import { type HaloGeometry, haloGeometry, matchSpacings } from '../halo/index.js';
import { movedHalo } from './movedHalo.js';

const layers = [
  { name: 'filter', thicknessMm: 3, index: 1.5 },
  { name: 'gap', thicknessMm: 10 },
  { name: 'window', thicknessMm: 1.5, index: 1.5 },
  { name: 'gap', thicknessMm: 4 },
];
const optics = { fNumber: 5 };

/** A disk of that spacing: D = 2 d / N. */
function disk(airSpacingMm: number): {
  outerDiameterUm: HaloGeometry['airSpacingMm'];
  innerDiameterUm: { absent: string };
} {
  const um = (2000 * airSpacingMm) / optics.fNumber;
  return {
    outerDiameterUm: { value: um, standardUncertainty: 2, interval95: [um - 4, um + 4] },
    innerDiameterUm: { absent: 'no hole' },
  };
}

const moved = (airSpacingMm: number, spacingMm: number | null, before: number | { absent: string } = 7.5) =>
  movedHalo(
    haloGeometry(disk(airSpacingMm), optics),
    optics.fNumber,
    { fNumber: before, spacingMm },
    layers,
    matchSpacings(disk(airSpacingMm), optics, layers),
  );

describe('movedHalo', () => {
  it("keeps the distance of the filter's own faces, whatever is stated", () => {
    // Closed form: (N / N')^2 = (5 / 7.5)^2 of the size, its inverse square of the surface brightness.
    const { sizeRatio, surfaceRatio } = moved(2, 9) as { sizeRatio: number; surfaceRatio: number };
    expect(sizeRatio).toBeCloseTo(4 / 9, 12);
    expect(surfaceRatio).toBeCloseTo(81 / 16, 12);
  });

  it('says that faces behind the filter stay', () => {
    expect(moved(4, null)).toEqual({ absent: expect.stringContaining('lie behind the filter') });
  });

  it('needs the distance of a pair of which one face moves', () => {
    expect(moved(10, null)).toEqual({ absent: expect.stringContaining('is not stated') });
    // 2 d' N / N'^2 over 2 d / N with d = 10 and d' = 30.
    expect((moved(10, 30) as { sizeRatio: number }).sizeRatio).toBeCloseTo((3 * 4) / 9, 12);
  });

  it('takes the stated distance where no faces are known', () => {
    const geometry = haloGeometry(disk(2), optics);
    const none = { absent: 'not given' };
    expect(movedHalo(geometry, 5, { fNumber: 7.5, spacingMm: null }, undefined, none)).toEqual({
      absent: expect.stringContaining('is not stated'),
    });
    const at = movedHalo(geometry, 5, { fNumber: 7.5, spacingMm: 2 }, undefined, none);
    expect((at as { sizeRatio: number }).sizeRatio).toBeCloseTo(4 / 9, 12);
  });

  it('gives the reason for which the light before the corrector is not known', () => {
    expect(moved(2, null, { absent: 'why' })).toEqual({ absent: 'why' });
  });
});
