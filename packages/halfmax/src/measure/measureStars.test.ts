import { describe, expect, it } from 'vitest';
import { type StarImage, starImage } from '../halo/index.js';
import { isAbsent, type Quantity } from '../metrics/index.js';
import { randomStream } from '../numeric/index.js';
import type { BenchSession, StarEntry } from '../session/benchSession.js';
import { conditionsOf } from './conditions.js';
import { type MeasuredStars, measureStars, starJobs } from './measureStars.js';
import { starReports } from './starReports.js';

const SIZE = 128;
const STAR = 4e6;
const FULL = 50000;
const [X, Y] = [63.3, 65.6];

/** A star of Moffat shape, beta 3, with a ring from 15 to 42 pixels that holds a share; noise of 10 counts. */
function field(share: number, seed: number, star = STAR, [x0, y0] = [X, Y]): StarImage {
  const stream = randomStream(seed);
  const counts = new Float32Array(SIZE * SIZE);
  for (let k = 0; k < counts.length; k++) {
    const r = Math.hypot((k % SIZE) - x0, Math.floor(k / SIZE) - y0);
    const edge = (radius: number) => 1 / (1 + Math.exp((r - radius) / 0.7));
    const ring = ((share * star) / (Math.PI * (42 ** 2 - 15 ** 2))) * (edge(42) - edge(15));
    const light = 500 + ring + ((star * 2) / (Math.PI * 9)) * (1 + (r * r) / 9) ** -3;
    counts[k] = Math.min(FULL, light + 10 * stream.normal());
  }
  return starImage(SIZE, SIZE, counts);
}

function entry(index: number, image: StarImage, more: Partial<StarEntry> = {}): StarEntry {
  return {
    index,
    filter: `f${index}`,
    star: 'one',
    picture: { file: `star-${index}.fits`, image, exposureS: 100 },
    pixelSizeUm: 4,
    fNumber: 5,
    fNumberUncertainty: 0,
    saturationCounts: 0.98 * FULL,
    focalLengthMm: 500,
    obstruction: null,
    near: null,
    light: { kind: 'magnitude', magnitude: 5, zeroPoint: 5 + 2.5 * Math.log10(STAR), uncertainty: 0 },
    reference: null,
    layers: null,
    limit: null,
    fNumberBefore: null,
    movedSpacingMm: null,
    ...more,
  };
}

const value = (quantity: Quantity): number => (isAbsent(quantity) ? Number.NaN : quantity.value);
const silent = (): void => {};

function session(stars: readonly StarEntry[]): BenchSession {
  return { stars, manifest: {}, bench: { fNumber: null } } as unknown as BenchSession;
}

const around = { conditions: conditionsOf({}), sky: null, filters: [] };
const reportsOf = (stars: readonly StarEntry[], measured: readonly MeasuredStars[]) =>
  starReports(session(stars), measured, around);

describe('starJobs', () => {
  it('puts the images of one star together, the nameless as one more', () => {
    const image = starImage(1, 1, new Float32Array(1));
    const stars = ['a', null, 'b', 'a', null].map((star, k) => entry(k, image, { star }));
    expect(starJobs(stars, 3).map((job) => job.stars.map(({ index }) => index))).toEqual([
      [0, 3],
      [1, 4],
      [2],
    ]);
  });
});

describe('measureStars', () => {
  const stars = [entry(0, field(0, 1)), entry(1, field(0.06, 2)), entry(2, field(0.03, 3))];
  const [job] = starJobs(stars, 7);
  const measured = measureStars(job!, silent);
  const { halos, haloComparisons, warnings } = reportsOf(stars, [measured]);

  it('measures each image and says nothing where all is well', () => {
    expect(halos.map((halo) => ('absent' in halo ? -1 : halo.disks.length))).toEqual([0, 1, 1]);
    expect(halos.map(({ filter }) => filter)).toEqual(['f0', 'f1', 'f2']);
    expect(warnings).toEqual([]);
  });

  it('compares them in the ring of the strongest, which comes first', () => {
    expect(haloComparisons).toHaveLength(1);
    const [comparison] = haloComparisons;
    if (comparison === undefined || 'absent' in comparison) throw new Error('no comparison');
    expect(comparison.star).toBe('one');
    expect(comparison.disks).toHaveLength(1);
    const [disk] = comparison.disks;
    expect(disk!.filters.map(({ filter, image }) => [filter, image])).toEqual([
      ['f1', 'star-1.fits'],
      ['f0', 'star-0.fits'],
      ['f2', 'star-2.fits'],
    ]);
    // 42 pixels of 4 um, to 2 %; shares within four standard uncertainties.
    expect(disk!.outerUm / 168).toBeCloseTo(1, 1.7);
    const [, none, half] = disk!.filters;
    for (const [{ ratio }, truth] of [
      [none!, 0],
      [half!, 0.5],
    ] as const) {
      if (isAbsent(ratio)) throw new Error(ratio.absent);
      expect(Math.abs(ratio.value - truth)).toBeLessThan(4 * ratio.standardUncertainty);
    }
  });

  it('gives the same numbers again, whatever else is measured', () => {
    const alone = measureStars({ stars: [stars[1]!], seed: 7 }, silent);
    expect(alone.comparisons).toBeNull();
    expect(alone.stars[0]!.measurement).toEqual(measured.stars[1]!.measurement);
    const [other] = measureStars({ stars: [stars[1]!], seed: 8 }, silent).stars;
    expect(other!.measurement).not.toEqual(measured.stars[1]!.measurement);
  });

  it('goes on without an image that cannot be measured, and says which and why', () => {
    const empty = starImage(SIZE, SIZE, new Float32Array(SIZE * SIZE).fill(Number.NaN));
    const bad = [entry(0, empty), stars[1]!];
    const found = measureStars({ stars: bad, seed: 7 }, silent);
    const report = reportsOf(bad, [found]);
    const gone = `${SIZE * SIZE} of ${SIZE * SIZE} pixels have no value`;
    expect(report.halos[0]).toEqual({ filter: 'f0', image: 'star-0.fits', absent: gone });
    expect(report.halos[1]).toEqual(halos[1]);
    expect(report.haloComparisons).toEqual([
      { star: 'one', absent: 'fewer than two of the images could be measured' },
    ]);
    expect(report.warnings).toEqual([
      {
        where: 'star-0.fits',
        what: `stars[0].file: ${gone}; give a whole image (its halos are not measured)`,
      },
    ]);
  });

  it('does without a short exposure that is saturated, and says so', () => {
    const short = {
      kind: 'short' as const,
      picture: { file: 'short.fits', image: field(0, 4), exposureS: 1 },
      exposureRatio: 100,
    };
    const found = measureStars({ stars: [entry(1, field(0.06, 2), { light: short })], seed: 7 }, silent);
    const [star] = found.stars;
    expect(star!.warnings).toHaveLength(1);
    expect(star!.warnings[0]!.where).toBe('short.fits');
    expect(star!.warnings[0]!.what).toMatch(/^stars\[1\]\.shortFile: .*; .* \(the light of the star is not/);
    if ('absent' in star!.measurement) throw new Error('not measured');
    expect(isAbsent(star!.measurement.starCounts)).toBe(true);
    expect(isAbsent(star!.measurement.disks[0]!.shareOfStar)).toBe(true);
  });

  it('takes the light of the star from a short exposure', () => {
    // A hundredth of the light, which stays below saturation; aperture and wings: within 3 %.
    const short = {
      kind: 'short' as const,
      picture: { file: 'short.fits', image: field(0, 4, STAR / 100), exposureS: 1 },
      exposureRatio: 100,
    };
    const [star] = measureStars({ stars: [entry(0, field(0, 1), { light: short })], seed: 7 }, silent).stars;
    if ('absent' in star!.measurement) throw new Error('not measured');
    expect(Math.abs(value(star!.measurement.starCounts) / STAR - 1)).toBeLessThan(0.03);
  });

  it('takes the wings from a reference, or models them and says so where it is of no use', () => {
    const without = { file: 'none.fits', image: field(0, 9), exposureS: 100 };
    const empty = { ...without, image: starImage(16, 16, new Float32Array(256)) };
    const [own, modelled] = [without, empty].map((reference) => {
      const [star] = measureStars({ stars: [{ ...stars[1]!, reference }], seed: 7 }, silent).stars;
      if ('absent' in star!.measurement) throw new Error('not measured');
      return { ...star!, measurement: star!.measurement };
    });
    expect(own!.measurement.wings.method).toBe('reference');
    expect(own!.warnings).toEqual([]);
    expect(own!.measurement.disks).toHaveLength(1);
    expect(modelled!.measurement).toEqual(measured.stars[1]!.measurement);
    expect(modelled!.warnings.map(({ where, what }) => [where, what])).toEqual([
      ['none.fits', expect.stringMatching(/^stars\[1\]\.referenceFile: .*; .* \(the wings are modelled/)],
    ]);
  });

  it('does not compare images of unlike f-numbers', () => {
    const pair = [stars[1]!, { ...stars[2]!, fNumber: 7 }];
    const { comparisons } = measureStars({ stars: pair, seed: 7 }, silent);
    expect(comparisons).toMatchObject({ absent: expect.stringContaining('the f-numbers differ') });
  });

  it('does not compare shares of stars whose light nobody knows', () => {
    const pair = stars.slice(1).map((one) => ({ ...one, light: null }));
    const { comparisons } = measureStars({ stars: pair, seed: 7 }, silent);
    expect(comparisons).toMatchObject({ absent: expect.stringContaining('its light needs') });
  });

  it('finds a star that is named by its place', () => {
    // The brightest star stands in the middle; the named one is cut out about its place.
    const two = field(0, 5);
    const other = field(0, 6, STAR / 3, [30.4, 40.2]);
    const counts = two.counts.map((count, k) => count + other.counts[k]! - 500);
    const image = starImage(
      SIZE,
      SIZE,
      Float32Array.from(counts, (count) => Math.min(FULL, count)),
    );
    const [star] = measureStars(
      { stars: [entry(0, { ...image, offset: [10, 20] }, { near: { x: 63, y: 85 } })], seed: 7 },
      silent,
    ).stars;
    if ('absent' in star!.measurement) throw new Error('not measured');
    // Pixels of the full frame from 1.
    expect(Math.abs(value(star!.measurement.centre.x) - X - 11)).toBeLessThan(1);
    expect(Math.abs(value(star!.measurement.centre.y) - Y - 21)).toBeLessThan(1);
  });
});
