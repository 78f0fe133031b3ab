import { describe, expect, it } from 'vitest';
import { absent, quantity } from '../metrics/index.js';
import { haloGeometry } from './haloGeometry.js';
import { matchSpacings } from './matchSpacings.js';
import { moveFilter } from './moveFilter.js';

const disk = (diameterMm: number, hole = 0.35) => ({
  outerDiameterUm: quantity(1000 * diameterMm, 5),
  innerDiameterUm: hole > 0 ? quantity(1000 * diameterMm * hole, 5) : absent('no hole'),
});

describe('haloGeometry', () => {
  // D = 2 d / N and 2 t / (n N), closed forms.
  it.each([
    [0.4, 5, 1],
    [0.8, 5, 2],
    [4, 5, 10],
    [7.5, 4, 15],
    [40 / 7, 7, 20],
  ])('a disk of %f mm at f/%f comes from %f mm of air', (diameter, fNumber, spacing) => {
    const { airSpacingMm } = haloGeometry(disk(diameter), { fNumber });
    expect((airSpacingMm as { value: number }).value).toBeCloseTo(spacing, 10);
  });

  it('reckons with the index of glass', () => {
    const { glassThicknessMm } = haloGeometry(disk(6 / (1.52 * 5)), { fNumber: 5, glassIndex: 1.52 });
    expect((glassThicknessMm as { value: number }).value).toBeCloseTo(3, 10);
  });

  it('compares the hole with the obstruction', () => {
    expect(haloGeometry(disk(4), { fNumber: 5, obstruction: 0.35 }).holeFits).toBe(true);
    expect(haloGeometry(disk(4), { fNumber: 5, obstruction: 0.2 }).holeFits).toBe(false);
    expect(haloGeometry(disk(4, 0), { fNumber: 5, obstruction: 0.2 }).holeFits).toEqual({
      absent: 'no hole',
    });
    expect(haloGeometry(disk(4), { fNumber: 5 }).holeFits).toHaveProperty('absent');
  });

  it.each([[0], [Number.NaN], [-1]])('refuses f/%f', (fNumber) => {
    expect(() => haloGeometry(disk(4), { fNumber })).toThrow('f-number above 0');
  });
});

describe('matchSpacings', () => {
  const layers = [
    { name: 'filter', thicknessMm: 3, index: 1.5 },
    { name: 'gap', thicknessMm: 10 },
    { name: 'window', thicknessMm: 1.5, index: 1.5 },
    { name: 'gap', thicknessMm: 6 },
  ];

  it('names the pair that fits', () => {
    // Window front to sensor: 1.5 / 1.5 + 6 = 7 mm of air, at f/5 a disk of 2.8 mm.
    const match = matchSpacings(disk(2.8), { fNumber: 5 }, layers);
    expect(match.words).toBe('light between the front of the window and the sensor fits');
    expect(match.pairs.filter((pair) => pair.fits)).toHaveLength(1);
    expect(match.pairs[0]!.diameterUm).toBeCloseTo(2800, 8);
    expect(match.pairs).toHaveLength(10);
  });

  it('says that none fits', () => {
    expect(matchSpacings(disk(3.4), { fNumber: 5 }, layers).words).toBe('no pair of the faces given fits');
  });

  it('says when two pairs cannot be told apart', () => {
    const same = [
      { name: 'filter', thicknessMm: 3, index: 1.5 },
      { name: 'window', thicknessMm: 3, index: 1.5 },
      { name: 'gap', thicknessMm: 20 },
    ];
    expect(matchSpacings(disk(0.8), { fNumber: 5 }, same).words).toContain('does not tell them apart');
  });

  it('refuses no layers and a layer without thickness', () => {
    expect(() => matchSpacings(disk(1), { fNumber: 5 }, [])).toThrow('at least one layer');
    expect(() => matchSpacings(disk(1), { fNumber: 5 }, [{ name: 'gap', thicknessMm: 0 }])).toThrow(
      'above 0',
    );
  });
});

describe('moveFilter', () => {
  it('changes nothing without a corrector and at the same distance', () => {
    const moved = moveFilter({ airSpacingMm: 2, fNumber: 5, movedSpacingMm: 2, fNumberBefore: 5 });
    expect([moved.sizeRatio, moved.surfaceRatio, moved.magnitudesFainter]).toEqual([1, 1, 0]);
  });

  it('follows a ray through a thin lens', () => {
    // A cone f/8 is turned into f/5 by a thin lens; focus shifted by 2 d before the lens.
    const [before, after, s, d] = [8, 5, 160, 0.001];
    const focal = 1 / (1 / (s * (after / before)) - 1 / s);
    const image = (distance: number) => 1 / (1 / focal + 1 / distance);
    const shift = image(s + 2 * d) - image(s);
    const moved = moveFilter({ airSpacingMm: 1, fNumber: after, movedSpacingMm: d, fNumberBefore: before });
    // To first order in d over s: 1e-5.
    expect(moved.movedDiameterUm / ((1000 * shift) / after)).toBeCloseTo(1, 3);
  });
});
