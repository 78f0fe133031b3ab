import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import type { LampLine } from '../reference/index.js';
import { findLines, relocateLines } from './findLines.js';
import { measureLineShape } from './measureLineShape.js';
import { lineSpreadAt, measureLineSpread } from './measureLineSpread.js';
import type { NamedLine } from './nameLines.js';
import type { Dispersion, FoundLine, LampSpectrum } from './types.js';

const PIXELS = 1500;
/** 0.2 nm a pixel, 500 nm in the middle. */
const scale: Dispersion = {
  order: 1,
  coefficients: Float64Array.of(500, 0.2 * 749.5),
  covariance: [new Float64Array(2), new Float64Array(2)],
  pivotPixel: 749.5,
  pixelScale: 749.5,
};
const nmAt = (pixel: number): number => 500 + 0.2 * (pixel - 749.5);

type Profile = (u: number) => number;

/** Profiles of full width 1 at half height, whatever their area. */
const profiles: Record<string, Profile> = {
  gaussian: (u) => Math.exp(-4 * Math.LN2 * u * u),
  triangle: (u) => Math.max(0, 1 - Math.abs(u)),
  // A box with soft flanks: a logistic edge of 6 % of the width.
  slit: (u) => 1 / (1 + Math.exp((Math.abs(u) - 0.5) / 0.06)),
};

const places = Array.from({ length: 22 }, (_, k) => 40.3 + 66.37 * k);

/** Light of the profile that a pixel collects, by 40 samples over it. */
function collected(profile: Profile, offset: number, width: number): number {
  let sum = 0;
  for (let n = 0; n < 40; n++) sum += profile((offset + (n + 0.5) / 40 - 0.5) / width);
  return sum / 40;
}

/** Full width at half height of what pixels show of a line: the profile blurred by a pixel. */
function shownWidth(profile: Profile, width: number): number {
  const top = collected(profile, 0, width);
  let low = 0;
  let high = 2 * width;
  for (let step = 0; step < 40; step++) {
    const middle = (low + high) / 2;
    if (collected(profile, middle, width) > top / 2) low = middle;
    else high = middle;
  }
  return low + high;
}

function lamp(
  profile: Profile,
  widthAt: (pixel: number) => number,
  seed: number,
  label = 'Ne',
): LampSpectrum {
  const random = randomStream(seed);
  const countsPerMs = new Float64Array(PIXELS);
  for (const [k, place] of places.entries()) {
    const width = widthAt(place);
    for (let i = Math.max(0, Math.floor(place - 4 * width)); i < Math.min(PIXELS, place + 4 * width); i++) {
      countsPerMs[i]! += (400 + 150 * (k % 5)) * collected(profile, i - place, width);
    }
  }
  const standardUncertainty = countsPerMs.map((counts) => Math.sqrt(1 + counts / 100));
  countsPerMs.forEach((counts, i) => {
    countsPerMs[i] = counts + 20 + standardUncertainty[i]! * random.normal();
  });
  return { label, where: 'frames[0]', countsPerMs, standardUncertainty, masked: new Uint8Array(PIXELS) };
}

/** Names found lines by the places they were drawn at. */
function named(found: readonly FoundLine[], label = 'Ne'): NamedLine[] {
  return found.map((line) => {
    const place = places.find((at) => Math.abs(at - line.pixel) < 1);
    const known: LampLine | null =
      place === undefined
        ? null
        : { species: 'Ne I', wavelengthNm: nmAt(place), relativeIntensity: 1000, weak: false };
    return {
      lamp: label,
      found: line,
      known,
      trouble: line.trouble ?? (known === null ? 'foreign' : null),
      blendWidths: null,
    };
  });
}

function measured(spectrum: LampSpectrum, widthAt: (pixel: number) => number) {
  const lines = named(findLines(spectrum));
  const common = measureLineShape(lines, [spectrum]);
  const located = named(
    relocateLines(
      spectrum,
      lines.map((line) => line.found),
      widthAt,
      [],
      common.shape,
    ),
  );
  return { common, located, spread: measureLineSpread(located, scale, common) };
}

describe('measureLineSpread', () => {
  const courses: readonly (readonly [string, (pixel: number) => number])[] = [
    ['constant', () => 5.3],
    ['growing', (pixel) => 4.2 + (2.5 * pixel) / PIXELS],
    ['bent', (pixel) => 4.5 + 2 * ((pixel - 700) / 750) ** 2],
  ];

  it.each(
    Object.keys(profiles).flatMap((shape) =>
      courses.map(([course, width]) => [shape, course, width] as const),
    ),
  )('recovers the width of %s lines over a %s course', (shape, _, widthAt) => {
    const profile = profiles[shape]!;
    const { spread } = measured(lamp(profile, widthAt, 11), widthAt);
    if ('absent' in spread) throw new Error(spread.absent);
    for (const pixel of [100, 400, 750, 1100, 1400]) {
      const expected = 0.2 * shownWidth(profile, widthAt(pixel));
      const { fwhmNm, uncertaintyNm } = lineSpreadAt(spread, nmAt(pixel));
      // One per cent for the Gaussian; the other shapes lie between the trial ones, or off them by their flanks.
      expect(Math.abs(fwhmNm / expected - 1)).toBeLessThan(shape === 'gaussian' ? 0.01 : 0.03);
      expect(Math.abs(fwhmNm - expected)).toBeLessThan(4 * uncertaintyNm);
      expect(uncertaintyNm / fwhmNm).toBeLessThan(0.03);
    }
    expect(spread.linesNm.length).toBeGreaterThan(15);
    expect([...spread.linesNm]).toEqual([...spread.linesNm].sort((a, b) => a - b));
    expect(spread.scatterNm / (0.2 * widthAt(750))).toBeLessThan(0.03);
  });

  it('does not depend on the direction of the scale', () => {
    const widthAt = courses[1]![1];
    const { common, located } = measured(lamp(profiles['gaussian']!, widthAt, 12), widthAt);
    const falling = { ...scale, coefficients: Float64Array.of(500, -0.2 * 749.5) };
    const one = measureLineSpread(located, scale, common);
    const other = measureLineSpread(located, falling, common);
    expect(other).toEqual(one);
  });

  it('gives one width with five per cent of doubt for one line', () => {
    const widthAt = (): number => 5;
    const { common, located } = measured(lamp(profiles['gaussian']!, widthAt, 13), widthAt);
    const spread = measureLineSpread(located.slice(8, 9), scale, common);
    if ('absent' in spread) throw new Error(spread.absent);
    expect(spread.coefficients).toHaveLength(1);
    const { fwhmNm, uncertaintyNm } = lineSpreadAt(spread, 500);
    expect(Math.abs(fwhmNm / (0.2 * shownWidth(profiles['gaussian']!, 5)) - 1)).toBeLessThan(0.02);
    expect(uncertaintyNm / fwhmNm).toBeGreaterThan(0.05);
  });

  it('says why where no line can be used', () => {
    const widthAt = (): number => 5;
    const { common, located } = measured(lamp(profiles['gaussian']!, widthAt, 14), widthAt);
    const spoilt = located.map((line) => ({ ...line, trouble: 'saturated' }));
    expect(measureLineSpread(spoilt, scale, common)).toEqual({
      absent: 'no lamp line stands alone and clear of the noise',
    });
    expect(measureLineSpread([], scale, common)).toHaveProperty('absent');
  });
});

describe('measureLineShape', () => {
  const widthAt = (): number => 6;

  it.each(Object.keys(profiles))('finds the shape of %s lines', (shape) => {
    const { common } = measured(lamp(profiles[shape]!, widthAt, 21), widthAt);
    const { boxShare, boxRatio, skewness } = common.shape;
    if (shape === 'gaussian') expect(boxShare).toBeLessThanOrEqual(0.35);
    else expect(boxShare).toBeGreaterThanOrEqual(0.5);
    // A triangle is two like boxes, a slit one box; kurtosis tells them apart only roughly.
    if (shape === 'slit') expect(boxRatio).toBeLessThan(1);
    expect(Math.abs(skewness)).toBeLessThan(0.03);
  });

  it('finds the skewness, and its sign towards higher pixels', () => {
    for (const sign of [1, -1]) {
      // Steep on one side, slow on the other: two half Gaussians of widths 0.8 and 1.2.
      const lopsided: Profile = (u) => Math.exp(-4 * Math.LN2 * (u / (u * sign > 0 ? 1.2 : 0.8)) ** 2);
      const { common } = measured(lamp(lopsided, widthAt, 22), widthAt);
      expect(sign * common.shape.skewness).toBeGreaterThan(0.1);
      expect(sign * common.shape.skewness).toBeLessThan(0.5);
    }
  });

  it('is a Gaussian with a wide doubt where no line is fit for it', () => {
    const { shape, widthShareUncertainty } = measureLineShape([], []);
    expect([shape.boxShare, shape.skewness]).toEqual([0, 0]);
    expect(widthShareUncertainty).toBe(0.05);
  });
});
