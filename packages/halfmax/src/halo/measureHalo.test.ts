import { describe, expect, it } from 'vitest';
import { BadInputError } from '../errors.js';
import { randomStream } from '../numeric/index.js';
import { compareHalos } from './compareHalos.js';
import type { HaloSetup } from './haloSetup.js';
import { judgeHalo } from './judgeHalo.js';
import { measureHalo, wingReference } from './measureHalo.js';
import { starFluxFromShort } from './starFlux.js';
import { type StarImage, starImage } from './starImage.js';

const SIZE = 136;
const STAR = 4e6;
const FULL = 50000;

/** A star of Moffat shape, beta 3, with disks; normal noise of 10 counts. */
function field(
  halos: readonly { inner: number; outer: number; share: number; dx?: number }[],
  seed: number,
  star = STAR,
): StarImage {
  const stream = randomStream(seed);
  const counts = new Float32Array(SIZE * SIZE);
  for (let y = 0; y < SIZE; y++) {
    for (let x = 0; x < SIZE; x++) {
      const dx = x - 66.3;
      const dy = y - 69.6;
      let light = 500 + 0.05 * dx + ((star * 2) / (Math.PI * 9)) * (1 + (dx * dx + dy * dy) / 9) ** -3;
      for (const halo of halos) {
        const r = Math.hypot(dx - (halo.dx ?? 0), dy);
        const edge = (radius: number) => (radius > 0 ? 1 / (1 + Math.exp((r - radius) / 0.7)) : 0);
        light +=
          ((halo.share * star) / (Math.PI * (halo.outer ** 2 - halo.inner ** 2))) *
          (edge(halo.outer) - edge(halo.inner));
      }
      counts[y * SIZE + x] = Math.min(FULL, light + 10 * stream.normal());
    }
  }
  return starImage(SIZE, SIZE, counts);
}

const setup: HaloSetup = {
  name: 'star.fits',
  pixelSizeUm: 4,
  fNumber: 5,
  focalLengthMm: 500,
  saturationCounts: 0.98 * FULL,
  star: { counts: STAR, standardUncertainty: 0, source: 'made so' },
  draws: 100,
  mostDisks: 2,
};

const one = measureHalo(field([{ inner: 16, outer: 45, share: 0.06 }], 1), setup, randomStream(1));
const none = measureHalo(field([], 2), setup, randomStream(1));

describe('measureHalo', () => {
  it('finds the one halo that is there, with its radii and its light', () => {
    expect(one.measurement.disks).toHaveLength(1);
    const disk = one.measurement.disks[0]!;
    const value = (quantity: object) => (quantity as { value: number }).value;
    // Within 2 % of the radii, and within four standard uncertainties of the light.
    expect(Math.abs(value(disk.outerRadiusPixels) / 45 - 1)).toBeLessThan(0.02);
    expect(Math.abs(value(disk.innerRadiusPixels) / 16 - 1)).toBeLessThan(0.04);
    const { value: share, standardUncertainty } = disk.shareOfStar as {
      value: number;
      standardUncertainty: number;
    };
    expect(Math.abs(share - 0.06)).toBeLessThan(4 * standardUncertainty);
    expect(standardUncertainty).toBeLessThan(0.004);
    // -2.5 lg of the share; surface: light over its area in square arcseconds.
    expect(value(disk.magnitudesFainter)).toBeCloseTo(-2.5 * Math.log10(share), 10);
    const scale = (4 / 500) * 206.26480625;
    const surface = value(disk.surfaceCounts) / STAR / scale ** 2;
    expect(value(disk.surfaceMagnitudes)).toBeCloseTo(-2.5 * Math.log10(surface), 8);
    expect(value(disk.outerDiameterUm)).toBeCloseTo(8 * value(disk.outerRadiusPixels), 8);
  });

  it('finds the centre of the clipped star, counted from 1', () => {
    const { x, y } = one.measurement.centre as unknown as Record<'x' | 'y', { value: number }>;
    expect(Math.abs(x.value - 67.3)).toBeLessThan(0.15);
    expect(Math.abs(y.value - 70.6)).toBeLessThan(0.15);
  });

  it('finds no halo where there is none and gives limits', () => {
    expect(none.measurement.disks).toHaveLength(0);
    expect(none.measurement.limits.length).toBeGreaterThan(3);
    for (const limit of none.measurement.limits) expect(limit.surfaceCounts).toBeGreaterThan(0);
  });

  it('finds two, one of them displaced', () => {
    const image = field(
      [
        { inner: 19, outer: 53, share: 0.1, dx: 3 },
        { inner: 12, outer: 33, share: 0.05 },
      ],
      3,
    );
    const { disks } = measureHalo(image, setup, randomStream(1)).measurement;
    expect(disks.map((disk) => Math.round((disk.outerRadiusPixels as { value: number }).value))).toEqual([
      53, 33,
    ]);
    expect(disks[0]!.displaced).toBe(true);
    expect(Math.abs((disks[0]!.displacementPixels.x as { value: number }).value - 3)).toBeLessThan(0.5);
  });

  it('gives the same numbers for the same stream', () => {
    const again = measureHalo(field([{ inner: 16, outer: 45, share: 0.06 }], 1), setup, randomStream(1));
    expect(again.measurement).toEqual(one.measurement);
  });

  it('takes the wings from another frame', () => {
    const reference = wingReference(none);
    const image = field([{ inner: 16, outer: 45, share: 0.06 }], 5);
    const { disks, wings } = measureHalo(image, { ...setup, reference }, randomStream(1)).measurement;
    expect(wings.method).toBe('reference');
    expect(disks).toHaveLength(1);
    expect(Math.abs((disks[0]!.outerRadiusPixels as { value: number }).value / 45 - 1)).toBeLessThan(0.02);
  });

  it('refuses images that cannot be measured, with the reason', () => {
    const refused = (image: StarImage, change: Partial<HaloSetup> = {}): string => {
      try {
        measureHalo(image, { ...setup, ...change }, randomStream(1));
      } catch (error) {
        if (error instanceof BadInputError) return error.message;
        throw error;
      }
      return 'accepted';
    };
    const flat = (value: (k: number) => number, size = 64) =>
      starImage(
        size,
        size,
        Float32Array.from({ length: size * size }, (_, k) => value(k)),
      );
    const stream = randomStream(9);
    expect(refused(flat(() => 1, 20))).toContain('20 x 20 pixels');
    expect(refused(flat(() => 60000))).toContain('at or above the saturation');
    expect(refused(flat(() => Number.NaN))).toContain('have no value');
    expect(refused(flat(() => 100 + stream.normal()))).toContain('holds no star');
    const edge = flat((k) => {
      const r2 = ((k % 64) - 4) ** 2 + (Math.floor(k / 64) - 30) ** 2;
      return 100 + 1e4 * Math.exp(-r2 / 8) + stream.normal();
    });
    expect(refused(edge)).toContain('from its edge');
    expect(refused(edge)).toMatch(/^star\.fits: /);
  });

  it.each([
    [{ pixelSizeUm: 0 }, 'pixelSizeUm above 0'],
    [{ fNumber: Number.NaN }, 'fNumber above 0'],
    [{ obstruction: 1 }, 'obstruction'],
    [{ falseAlarm: 0 }, 'false-alarm'],
    [{ draws: 5 }, '100 draws'],
  ])('refuses %j', (change, message) => {
    expect(() => measureHalo(field([], 1), { ...setup, ...change }, randomStream(1))).toThrow(message);
  });
});

describe('starFluxFromShort', () => {
  it('gives the light of a star that is not saturated, times the ratio of exposures', () => {
    const flux = starFluxFromShort(field([], 4, 2e5), FULL, 20, 'short.fits');
    // This star has no aureole: it lies at the end of the 5 % that are left open, 1.73 standard uncertainties off.
    expect(Math.abs(flux.counts - 4e6)).toBeLessThan(2 * flux.standardUncertainty);
    expect(flux.standardUncertainty / flux.counts).toBeLessThan(0.016);
  });

  it('refuses a saturated one', () => {
    expect(() => starFluxFromShort(field([], 4), FULL, 20, 'short.fits')).toThrow('saturated too');
  });
});

describe('compareHalos', () => {
  it('gives the ratio of two filters with its uncertainty', () => {
    const half = measureHalo(field([{ inner: 16, outer: 45, share: 0.03 }], 6), setup, randomStream(1));
    const images = [
      { label: 'a', result: one, micrometresPerPixel: 4 },
      { label: 'b', result: half, micrometresPerPixel: 4 },
      { label: 'c', result: none, micrometresPerPixel: 4 },
    ];
    const comparison = compareHalos(images);
    if ('absent' in comparison) throw new Error(comparison.absent);
    const [, b, c] = comparison.filters;
    const ratio = b!.ratio as { value: number; standardUncertainty: number };
    expect(Math.abs(ratio.value - 0.5)).toBeLessThan(4 * ratio.standardUncertainty);
    const zero = c!.ratio as { value: number; standardUncertainty: number };
    expect(Math.abs(zero.value)).toBeLessThan(4 * zero.standardUncertainty);
    expect(compareHalos([images[2]!, images[2]!])).toHaveProperty('absent');
  });
});

describe('judgeHalo', () => {
  it('tells what shows from what stays hidden', () => {
    const verdicts = (share: number, result = one) =>
      judgeHalo(result.measurement, { kind: 'share', atMost: share }).map(({ verdict }) => verdict);
    expect(verdicts(0.03)).toEqual(['shows']);
    expect(verdicts(0.12)).toEqual(['stays hidden']);
    const { value } = one.measurement.disks[0]!.shareOfStar as { value: number };
    expect(verdicts(value)).toEqual(['undecided']);
    expect(verdicts(0.5, none)).toEqual(['stays hidden']);
    expect(verdicts(1e-9, none)).toEqual(['undecided']);
  });

  it('reckons with the noise of the sky', () => {
    const exposure = {
      exposureS: 300,
      electronsPerCount: 1,
      dark: 0,
      readNoise: 0,
      frameS: 300,
      pixels: 100,
    };
    const seen = (sky: number) =>
      judgeHalo(one.measurement, { kind: 'noise', hours: 1, sky, ...exposure })[0]!;
    // S t / sqrt(S t + n B t) by hand.
    const surface = (one.measurement.disks[0]!.surfaceCounts as { value: number }).value;
    const signal = (surface / 300) * 100 * 3600;
    expect(seen(2).number).toBeCloseTo(signal / Math.sqrt(signal + 100 * 2 * 3600), 8);
    expect(seen(2).verdict).toBe('shows');
    expect(seen(1e6).verdict).toBe('stays hidden');
  });
});
