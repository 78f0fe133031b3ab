import { describe, expect, it } from 'vitest';
import type { StarEntry } from '../session/benchSession.js';
import type { Sky } from '../sky/index.js';
import { conditionsOf } from './conditions.js';
import type { CurveTable } from './measurement.js';
import { starLimit } from './starLimit.js';

const wavelengthNm = Float64Array.from({ length: 301 }, (_, i) => 400 + i);
/** A filter that lets through half of all light, and so does not mind the cone. */
const curve: CurveTable = {
  filter: 'f',
  file: 'curve-f.csv',
  wavelengthNm,
  transmittance: new Float64Array(301).fill(0.5),
  standardUncertainty: new Float64Array(301),
};
/** 2 photons per second, square metre, square arcsecond and nm. */
const sky: Sky = { wavelengthNm: Float64Array.of(300, 1000), photons: Float64Array.of(2, 2), lines: [] };
const bench = { fNumber: null, temperatureC: null, spot: null };
const site = { quantumEfficiency: 0.8, rangeNm: [450, 650], camera: { readNoise: 3, darkCurrent: 0.01 } };
const context = { conditions: conditionsOf({ site }), bench, sky, curve };

function star(limit: StarEntry['limit'], exposureS: number | null = 60): StarEntry {
  const picture = { file: 'a.fits', image: {}, exposureS };
  return { picture, limit, fNumber: 5, pixelSizeUm: 3.76, obstruction: 0.3 } as unknown as StarEntry;
}

const noise = { kind: 'noise', hours: 2, electronsPerCount: 0.5 } as const;

describe('starLimit', () => {
  it('hands on a share and a surface brightness as they stand', () => {
    const share = { kind: 'share', atMost: 0.01 } as const;
    expect(starLimit(star(share), context)).toEqual({ tolerance: share, assumed: [] });
    expect(starLimit(star(null), context).tolerance).toEqual({ absent: 'no limit is given' });
  });

  it("works out the sky through the filter for the star's own camera", () => {
    const { tolerance, assumed } = starLimit(star(noise), context);
    if (!('kind' in tolerance) || tolerance.kind !== 'noise') throw new Error('no limit');
    // 200 nm x 2 photons x 0.5 x 0.8 electrons, times pi/4 (1 - 0.3^2) (3.76 um / 5)^2 in square arcseconds.
    const arcsec2 = (Math.PI / 648000) ** 2;
    const grasp = ((Math.PI / 4) * (1 - 0.09) * 0.752e-6 ** 2) / arcsec2;
    expect(tolerance.sky / (160 * grasp)).toBeCloseTo(1, 9);
    expect(tolerance).toMatchObject({
      ...noise,
      dark: 0.01,
      readNoise: 3,
      frameS: 60,
      exposureS: 60,
      pixels: 100,
    });
    expect(assumed).toHaveLength(5);
  });

  it('takes what the limit states', () => {
    const all = {
      ...noise,
      sky: 1,
      dark: 0,
      readNoise: 2,
      frameS: 30,
      pixels: 9,
      brighterBy: 1,
      threshold: 3,
    };
    expect(starLimit(star(all), { ...context, sky: null, curve: null })).toEqual({
      tolerance: { ...all, exposureS: 60 },
      assumed: [],
    });
  });

  it.each([
    ['no site', { ...context, sky: null }, 60, 'states no site'],
    ['no curve', { ...context, curve: null }, 60, 'no curve'],
    ['no exposure', context, null, 'states the exposure'],
    [
      'a curve elsewhere',
      { ...context, conditions: conditionsOf({ site: { ...site, rangeNm: [710, 900] } }) },
      60,
      'outside',
    ],
  ] as const)('says why there is none: %s', (_, where, exposureS, why) => {
    const { tolerance } = starLimit(star(noise, exposureS), where);
    expect('absent' in tolerance && tolerance.absent).toContain(why);
  });
});
