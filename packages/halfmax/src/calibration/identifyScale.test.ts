import { describe, expect, it } from 'vitest';
import { evaluatePolynomial, randomStream } from '../numeric/index.js';
import { type LampLine, lampLines } from '../reference/index.js';
import { explainedShare } from './explainedShare.js';
import { gainTable, lineGain } from './gainTable.js';
import { identifyScale } from './identifyScale.js';
import { proposeScales, type SearchLamp } from './proposeScales.js';
import type { LabelledLamp, NominalRange, RoughScale } from './roughScale.js';
import type { FoundLine } from './types.js';

const PIXELS = 2048;
const PIVOT = (PIXELS - 1) / 2;

/** A bent scale over 380 to 780 nm, or the other way; t runs from -1 to 1. */
const truth =
  (falling: boolean) =>
  (pixel: number): number => {
    const t = ((pixel - PIVOT) / PIVOT) * (falling ? -1 : 1);
    return 580 + 200 * t - 8 * t * t - 0.6 * t ** 3;
  };

function pixelAt(wavelengthNm: number, scale: (pixel: number) => number): number {
  let low = 0;
  let high = PIXELS - 1;
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    if (scale(middle) > wavelengthNm === scale(high) > scale(low)) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

function line(pixel: number, height: number, trouble: string | null = null): FoundLine {
  const uncertainty = { pixelUncertainty: 0.03, fwhmUncertaintyPixels: 0.1, skewnessUncertainty: 0.05 };
  const nearestPixels = Number.POSITIVE_INFINITY;
  return {
    ...uncertainty,
    pixel,
    height,
    significance: height,
    fwhmPixels: 5,
    skewness: 0,
    nearestPixels,
    trouble,
  };
}

const tableOf = (...species: string[]): LampLine[] =>
  lampLines.filter((entry) => species.includes(entry.species));

interface Lamp {
  readonly label: string;
  readonly species: readonly string[];
}

const neon: Lamp = { label: 'Ne', species: ['Ne I'] };
const mercuryArgon: Lamp = { label: 'Hg-Ar', species: ['Hg I', 'Ar I'] };

/** The lamp's stronger lines as a detector would show them: 0.1 pixel of error, some missing, some foreign. */
function show(
  lamp: Lamp,
  scale: (pixel: number) => number,
  seed: number,
  missing = 0.15,
  foreign = 2,
): LabelledLamp {
  const random = randomStream(seed);
  const known = tableOf(...lamp.species);
  const ends = [scale(0), scale(PIXELS - 1)];
  const lines: FoundLine[] = [];
  for (const { wavelengthNm, weak, relativeIntensity } of known) {
    if (weak || wavelengthNm < Math.min(...ends) + 2 || wavelengthNm > Math.max(...ends) - 2) continue;
    if (random.uniform() < missing) continue;
    const height = (relativeIntensity ?? 300) * Math.exp(0.7 * random.normal());
    lines.push(line(pixelAt(wavelengthNm, scale) + 0.1 * random.normal(), height));
  }
  for (let k = 0; k < foreign; k++) lines.push(line(20 + 2000 * random.uniform(), 2000 * random.uniform()));
  lines.sort((a, b) => a.pixel - b.pixel);
  return {
    lamp: { label: lamp.label, where: 'frames[0]', lines: Object.freeze(lines) },
    known: Object.freeze(known),
  };
}

function found(scale: RoughScale | { absent: string }): RoughScale {
  if ('absent' in scale) throw new Error(scale.absent);
  return scale;
}

/** Largest difference of the rough scale from the true one where the lines are, nm. */
function worst(
  scale: RoughScale,
  lamps: readonly LabelledLamp[],
  expected: (pixel: number) => number,
): number {
  const pixels = lamps.flatMap(({ lamp }) => lamp.lines.map((one) => one.pixel));
  const from = Math.min(...pixels);
  const to = Math.max(...pixels);
  let largest = 0;
  for (let pixel = from; pixel <= to; pixel += 16) {
    const at = evaluatePolynomial(scale.coefficients, (pixel - scale.pivotPixel) / scale.pixelScale);
    largest = Math.max(largest, Math.abs(at - expected(pixel)));
  }
  return largest;
}

describe('identifyScale', () => {
  const findsWithoutHint = (falling: boolean, seed: number): void => {
    const scale = truth(falling);
    for (const kinds of [[neon], [mercuryArgon, neon]]) {
      const lamps = kinds.map((lamp, k) => show(lamp, scale, 10 * seed + k));
      const rough = found(identifyScale(lamps, PIXELS, null));
      // Half of a line spread of one nanometre: enough to name lines by.
      expect(worst(rough, lamps, scale)).toBeLessThan(0.5);
      expect(rough.score - rough.runnerUp).toBeGreaterThan(4);
      expect(rough.explained).toHaveLength(lamps.length);
    }
  };

  it.each([
    ['rising', false, 1],
    ['falling', true, 2],
  ] as const)('finds a %s scale without a hint, among missing and foreign lines', (_, falling, seed) =>
    findsWithoutHint(falling, seed),
  );

  it.each([
    ['rising', false, 2],
    ['falling', true, 1],
  ] as const)('finds a %s scale without a hint among other lines', { tags: ['long'] }, (_, falling, seed) =>
    findsWithoutHint(falling, seed),
  );

  it.each([
    ['right', { startNm: 373, endNm: 771 }, true],
    ['40 nm off', { startNm: 410, endNm: 735 }, true],
    ['of the other direction', { startNm: 770, endNm: 372 }, false],
    ['200 nm off', { startNm: 573, endNm: 971 }, false],
  ] as [string, NominalRange, boolean][])(
    'uses a nominal range that is %s as far as it may',
    (_, nominal, fits) => {
      const scale = truth(false);
      const lamps = [show(mercuryArgon, scale, 5), show(neon, scale, 6)];
      const rough = identifyScale(lamps, PIXELS, nominal);
      if (fits) expect(worst(found(rough), lamps, scale)).toBeLessThan(0.5);
      else expect(rough).toHaveProperty('absent');
    },
  );

  it('finds the scale when a third of the lines is missing and five are foreign', () => {
    const scale = truth(true);
    const lamps = [show(mercuryArgon, scale, 21, 0.33, 5), show(neon, scale, 22, 0.33, 5)];
    expect(worst(found(identifyScale(lamps, PIXELS, null)), lamps, scale)).toBeLessThan(0.5);
  });

  it('mirrors with the detector', () => {
    const lamps = [show(mercuryArgon, truth(false), 31), show(neon, truth(false), 32)];
    const mirrored = lamps.map(({ lamp, known }) => {
      const lines = lamp.lines.map((one) => ({ ...one, pixel: PIXELS - 1 - one.pixel })).reverse();
      return { lamp: { ...lamp, lines }, known };
    });
    const one = found(identifyScale(lamps, PIXELS, null));
    const other = found(identifyScale(mirrored, PIXELS, null));
    one.coefficients.forEach((c, k) => {
      expect(Math.abs(other.coefficients[k]! - (k % 2 === 0 ? c : -c))).toBeLessThan(1e-6);
    });
    expect(other.score).toBeCloseTo(one.score, 6);
  });

  const trials = Array.from({ length: 12 }, (_, trial) => trial);
  const random = randomStream(41);
  const chance = trials.map(() => {
    const lines = Array.from({ length: 18 }, () => line(2047 * random.uniform(), 1000 * random.uniform()));
    return lines.sort((a, b) => a.pixel - b.pixel);
  });
  const believesNone = (trial: number): void => {
    const { label, species } = trial % 2 === 0 ? neon : mercuryArgon;
    const lamp = { label, where: '', lines: chance[trial]! };
    expect(identifyScale([{ lamp, known: tableOf(...species) }], PIXELS, null)).toHaveProperty('absent');
  };

  it('believes no scale for lines that lie by chance: none of 4 draws of 18', () => {
    trials.slice(0, 4).forEach(believesNone);
  });

  it('believes no scale for lines that lie by chance: none of 8 more draws', { tags: ['long'] }, () => {
    trials.slice(4).forEach(believesNone);
  });

  it('believes no scale where another fits as well: lines at even distances', () => {
    const known = Array.from({ length: 16 }, (_, k): LampLine => {
      return { species: 'Ne I', wavelengthNm: 450 + 20 * k, relativeIntensity: 1000, weak: false };
    });
    const lines = Array.from({ length: 12 }, (_, k) => line(100 + 165 * k, 1000 + k));
    const rough = identifyScale([{ lamp: { label: 'Ne', where: '', lines }, known }], PIXELS, null);
    expect(rough).toHaveProperty('absent');
    expect((rough as { absent: string }).absent).toMatch(
      /^no wavelength scale stands out .* 12 lines laid on known ones\)$/,
    );
  });

  it('says how many lines there are where they are too few', () => {
    const two = {
      lamp: { label: 'Ne', where: '', lines: [line(100, 50), line(300, 40)] },
      known: tableOf('Ne I'),
    };
    expect(identifyScale([two], PIXELS, null)).toEqual({
      absent: 'only 2 lines stand out of the noise; at least 3 of one lamp are needed',
    });
    expect(identifyScale([], PIXELS, null)).toHaveProperty('absent');
  });
});

describe('explainedShare', () => {
  const scale = { coefficients: Float64Array.of(580, 200), pivotPixel: PIVOT, pixelScale: PIVOT };
  const at = (nm: number): number => PIVOT + ((nm - 580) / 200) * PIVOT;
  const table = [585.24878, 640.2248, 703.24128].map(
    (wavelengthNm): LampLine => ({ species: 'Ne I', wavelengthNm, relativeIntensity: 1000, weak: false }),
  );

  it('counts the lines that fall on known ones', () => {
    const lines = [line(at(585.3), 100), line(at(640), 80), line(at(660), 90), line(at(703.2), 10)];
    expect(explainedShare(scale, lines, table, 0.3)).toBe(0.75);
    expect(explainedShare(scale, lines, table, 0.1)).toBe(0.5);
    expect(explainedShare(scale, lines, [], 0.3)).toBe(0);
    expect(explainedShare(scale, [], table, 0.3)).toBe(0);
  });

  it('asks nothing of lines below a fiftieth of the brightest', () => {
    expect(explainedShare(scale, [line(at(585.3), 100), line(at(660), 1.9)], table, 0.3)).toBe(1);
    expect(explainedShare(scale, [line(at(585.3), 100), line(at(660), 2.1)], table, 0.3)).toBe(0.5);
  });
});

describe('proposeScales', () => {
  const wavelengthsNm = [404.66, 435.83, 546.07, 579.07, 650.65, 696.54, 763.51];
  const range = {
    pixels: PIXELS,
    lowestNm: 310,
    highestNm: 960,
    narrowestNm: 70,
    widestNm: 640,
    nominal: null,
  };

  function searchLamp(scale: (pixel: number) => number): SearchLamp {
    const pixels = wavelengthsNm
      .filter((nm) => nm > 385 && nm < 765)
      .map((nm) => pixelAt(nm, scale))
      .sort((a, b) => a - b);
    return { pixels, anchors: pixels, wavelengthsNm, gain: gainTable(lineGain(wavelengthsNm, 0.45)) };
  }

  it.each([
    ['rising', false],
    ['falling', true],
  ])('puts the %s scale that made the lines first', (_, falling) => {
    const scale = truth(falling);
    const proposals = proposeScales([searchLamp(scale)], range);
    const [c0, c1, c2] = proposals[0]!.coefficients;
    // A quadratic through the lines of a scale with a cubic of 0.6 nm: off by a part of that.
    for (const t of [-0.9, -0.5, 0, 0.5, 0.9]) {
      expect(Math.abs(c0 + c1 * t + c2 * t * t - scale(PIVOT + t * PIVOT))).toBeLessThan(1);
    }
    expect(Math.sign(c1)).toBe(falling ? -1 : 1);
    for (let k = 1; k < proposals.length; k++)
      expect(proposals[k]!.score).toBeLessThanOrEqual(proposals[k - 1]!.score);
  });

  it('stays within the range that is possible and near to the nominal one', () => {
    const nominal = { startNm: 380, endNm: 765, marginNm: 20 };
    const proposals = proposeScales([searchLamp(truth(false))], { ...range, nominal });
    expect(proposals.length).toBeGreaterThan(0);
    for (const { coefficients } of proposals) {
      const [c0, c1, c2] = coefficients;
      expect(Math.abs(c0 - c1 + c2 - 380)).toBeLessThanOrEqual(20);
      expect(Math.abs(c0 + c1 + c2 - 765)).toBeLessThanOrEqual(20);
    }
  });

  it('proposes nothing without lines', () => {
    expect(proposeScales([{ ...searchLamp(truth(false)), pixels: [], anchors: [] }], range)).toEqual([]);
    expect(proposeScales([], range)).toEqual([]);
  });
});
