import { describe, expect, it } from 'vitest';
import type { HaloReport } from '../measure/index.js';
import type { Quantity } from '../metrics/index.js';
import { starComparisonLines, starLines } from './starLines.js';

const number = (value: number, standardUncertainty: number): Quantity => ({
  value,
  standardUncertainty,
  interval95: [value - 2 * standardUncertainty, value + 2 * standardUncertainty],
});
const absent = { absent: 'not in this example' };

const halo: HaloReport = {
  filter: 'ha',
  image: 'stars/ha.fits',
  frame: [512, 512],
  centre: { x: number(250, 0.1), y: number(260, 0.1), fromPixels: 20, toPixels: 60 },
  coveredPixels: [11.2, 249.8],
  saturated: true,
  arcsecPerPixel: 2.1,
  background: { counts: number(1070, 1), slopeX: absent, slopeY: absent, noise: 20 },
  masked: { undefined: 0, saturated: 10, hot: 1, neighbours: 5 },
  starCounts: number(6e7, 1e5),
  wings: { method: 'model', exponent: 2.2, terms: 6, misfitShare: 0.01 },
  disks: [],
  detection: { level: 5, falseAlarm: 0.002 },
  limits: [
    {
      outerRadiusPixels: 90.6,
      innerRadiusPixels: 0,
      surfaceCounts: 1.234,
      fluxCounts: 3e4,
      shareOfStar: 0.000512,
      magnitudesFainter: 8.2,
      surfaceMagnitudes: 20.6,
    },
  ],
  profile: [],
  seedDraws: 1000,
  notes: ['the star is near an edge'],
  judgements: [{ verdict: 'stays hidden', words: 'below the limit', number: 0.0005, limit: 0.002 }],
  tolerance: { kind: 'share', atMost: 0.002 },
  assumed: [],
};

const disk: HaloReport['disks'][number] = {
  outerRadiusPixels: number(91.6, 0.17),
  innerRadiusPixels: absent,
  outerDiameterUm: number(989, 2),
  innerDiameterUm: absent,
  outerRadiusArcsec: number(192, 0.4),
  surfaceCounts: number(12, 0.4),
  fluxCounts: number(271000, 11000),
  shareOfStar: number(0.0046, 0.0002),
  magnitudesFainter: number(5.84, 0.04),
  surfaceMagnitudes: number(18.4, 0.04),
  displacementPixels: { x: number(0, 0), y: number(0, 0) },
  displaced: false,
  significance: 27,
  geometry: {
    airSpacingMm: number(1.979, 0.0037),
    glassThicknessMm: number(3.01, 0.006),
    holeShare: absent,
    holeFits: absent,
  },
  faces: { pairs: [], words: 'light between the two fits' },
  moved: {
    diameterUm: 989,
    movedDiameterUm: 505,
    sizeRatio: 0.51,
    surfaceRatio: 3.84,
    magnitudesFainter: -1.46,
  },
};

describe('starLines', () => {
  it('gives the limits where no halo was found, and the verdict on them', () => {
    expect(starLines(halo, 'H-alpha 3').join('\n')).toBe(
      `Bright star through H-alpha 3: stars/ha.fits
  looked at from 11 to 250 pixels from it; light of the star 60000000 ± 100000 counts
  no halo found; at most (95 %), outer radius / pixels  91
  share of the star                                     0.00051
  counts a pixel                                        1.2
  no halo, against the limit (at most 0.002 of the star): stays hidden: below the limit
  the star is near an edge`,
    );
  });

  it('gives radius, share with its interval, spacing, faces and the move of a halo', () => {
    const lines = starLines({ ...halo, disks: [disk], judgements: absent, notes: [] }, 'H-alpha 3');
    const rows = lines.map((line) => line.replace(/ {2,}/g, '  '));
    expect(rows).toContain('  outer radius / pixels  91.60 ± 0.17');
    expect(rows).toContain('  inner radius / pixels  – (not in this example)');
    expect(rows).toContain('  share of the star, 95 %  0.00460 ± 0.00020 [0.00420, 0.00500]');
    expect(rows).toContain('  spacing in air / mm  1.9790 ± 0.0037');
    expect(rows).toContain('  halo 1: light between the two fits');
    expect(rows.join(' ')).toContain('0.51 times as wide, 3.84 times as bright');
    expect(rows.join(' ')).toContain('(1.46 mag arcsec⁻² brighter)');
  });

  it('gives the reason for which a star was not measured', () => {
    expect(starLines({ filter: 'ha', image: 'a.fits', absent: 'no star' }, 'H')).toEqual([
      'Bright star through H: a.fits',
      '  halos: – (no star)',
    ]);
  });
});

describe('starComparisonLines', () => {
  const labels = (id: string): string => id.toUpperCase();

  it('gives each disk with the filters in it', () => {
    const filters = [
      {
        filter: 'a',
        image: 'a',
        shareOfStar: number(0.01, 0.001),
        ratio: number(1, 0),
        magnitudesFainter: number(0, 0),
      },
      {
        filter: 'b',
        image: 'b',
        shareOfStar: number(0, 0.001),
        ratio: number(0.02, 0.1),
        magnitudesFainter: absent,
      },
    ];
    const disks = [{ innerUm: 100.4, outerUm: 400.6, filters }];
    const lines = starComparisonLines({ star: null, disks }, labels);
    expect(lines[0]).toContain('the session names none');
    expect(lines[1]).toBe('  the same disk in each, 100 to 401 µm from the star');
    expect(lines[4]!.replace(/ {2,}/g, '  ')).toBe('  B  0.0000 ± 0.0010  0.02 ± 0.10  [-0.18, 0.22]  –');
  });

  it('gives the reason where there is none', () => {
    expect(starComparisonLines({ star: 'Z', absent: 'why' }, labels)).toEqual(['The filters on Z: – (why)']);
  });
});
