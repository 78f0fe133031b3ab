import { describe, expect, it } from 'vitest';
import { isAbsent, type Quantity } from '../metrics/index.js';
import { randomStream } from '../numeric/index.js';
import { type ComparedImage, compareHalos, type HaloComparison } from './compareHalos.js';
import { measureHalo } from './measureHalo.js';
import { starImage } from './starImage.js';

const STAR = 4e6;
const Z = 1.959963984540054;

/**
 * A star with a disk of 60 to 180 um, or without, on pixels of the given size, measured. Light of the star in a pixel
 * grows with its area.
 */
function image(
  label: string,
  share: number,
  pixelUm: number,
  seed: number,
  starUncertainty = 0,
): ComparedImage {
  const size = Math.round(520 / pixelUm);
  const stream = randomStream(seed);
  const counts = new Float32Array(size * size);
  for (let y = 0; y < size; y++) {
    for (let x = 0; x < size; x++) {
      const r = Math.hypot(x - size / 2 + 0.3, y - size / 2 - 0.4) * pixelUm;
      const inside = (radius: number): number => 1 / (1 + Math.exp((r - radius) / 3));
      const disk = (share * STAR * (inside(180) - inside(60))) / (Math.PI * (180 ** 2 - 60 ** 2));
      const core = ((STAR * 2) / (Math.PI * 144)) * (1 + r ** 2 / 144) ** -3;
      counts[y * size + x] = Math.min(50000, 500 + (disk + core) * pixelUm ** 2 + 10 * stream.normal());
    }
  }
  const star = { counts: STAR, standardUncertainty: starUncertainty, source: 'made so' };
  const setup = { name: label, pixelSizeUm: pixelUm, fNumber: 5, saturationCounts: 49000, star, draws: 100 };
  const result = measureHalo(starImage(size, size, counts), { ...setup, mostDisks: 1 }, randomStream(1));
  return { label, result, micrometresPerPixel: pixelUm };
}

const bright = image('bright', 0.06, 4, 1);
const faint = image('faint', 0.03, 4, 2);
const fine = image('fine', 0.06, 2.6, 3);
const empty = image('empty', 0, 4, 4);

function known(quantity: Quantity): Exclude<Quantity, { absent: string }> {
  if (isAbsent(quantity)) throw new Error(quantity.absent);
  return quantity;
}

function compared(images: readonly ComparedImage[], annulus?: readonly [number, number]): HaloComparison {
  const comparison = compareHalos(images, annulus);
  if ('absent' in comparison) throw new Error(comparison.absent);
  return comparison;
}

describe('compareHalos', () => {
  it('takes the strongest disk for all, and finds the light put in and the ratio', () => {
    const { innerUm, outerUm, filters } = compared([faint, bright]);
    // That of the brighter halo, within 2 % as the radius of a disk is.
    expect(Math.abs(outerUm / 180 - 1)).toBeLessThan(0.02);
    expect(Math.abs(innerUm / 60 - 1)).toBeLessThan(0.04);
    filters.forEach(({ shareOfStar }, k) => {
      const { value, standardUncertainty } = known(shareOfStar);
      expect(Math.abs(value - [0.03, 0.06][k]!)).toBeLessThan(4 * standardUncertainty);
      expect(standardUncertainty).toBeLessThan(0.004);
    });
    expect(known(filters[0]!.ratio)).toMatchObject({ value: 1, standardUncertainty: 0 });
    const ratio = known(filters[1]!.ratio);
    expect(Math.abs(ratio.value - 2)).toBeLessThan(4 * ratio.standardUncertainty);
  });

  it('gives the interval of the ratio whose ends lie 1.96 deviations of a - ratio b from 0', () => {
    const [first, second] = compared([faint, bright]).filters;
    const a = known(second!.shareOfStar);
    const b = known(first!.shareOfStar);
    const ratio = known(second!.ratio);
    // Fieller (1954): (a - t b)^2 = z^2 (sa^2 + t^2 sb^2).
    for (const end of ratio.interval95) {
      const deviation =
        (a.value - end * b.value) / Math.hypot(a.standardUncertainty, end * b.standardUncertainty);
      expect(Math.abs(deviation)).toBeCloseTo(Z, 9);
    }
    expect(ratio.value).toBeCloseTo(a.value / b.value, 12);
    // Of a quotient: relative uncertainties add in squares.
    const relative = Math.hypot(a.standardUncertainty / a.value, b.standardUncertainty / b.value);
    expect(ratio.standardUncertainty / ratio.value).toBeCloseTo(relative, 12);
    // Magnitudes: -2.5 lg, the ends exchanged.
    const fainter = known(second!.magnitudesFainter);
    expect(fainter.value).toBeCloseTo(-2.5 * Math.log10(ratio.value), 12);
    expect(fainter.interval95[0]).toBeCloseTo(-2.5 * Math.log10(ratio.interval95[1]), 12);
  });

  it('brings images of unlike pixels to one scale', () => {
    const { filters } = compared([bright, fine]);
    const ratio = known(filters[1]!.ratio);
    expect(Math.abs(ratio.value - 1)).toBeLessThan(4 * ratio.standardUncertainty);
    expect(ratio.standardUncertainty).toBeLessThan(0.05);
  });

  it('holds all images to the annulus that is given', () => {
    const wide = compared([bright, faint, empty], [60, 180]);
    expect([wide.innerUm, wide.outerUm]).toEqual([60, 180]);
    const none = known(wide.filters[2]!.shareOfStar);
    expect(Math.abs(none.value)).toBeLessThan(4 * none.standardUncertainty);
    // No light to compare with: no ratio, no guess.
    const turned = compared([empty, bright], [60, 180]);
    expect(turned.filters[1]!.ratio).toHaveProperty('absent');
    expect(known(turned.filters[1]!.shareOfStar).value).toBeGreaterThan(0.04);
  });

  it('adds the uncertainty of the star’s light to the share', () => {
    const unsure = image('unsure', 0.06, 4, 1, 0.1 * STAR);
    const [plain, wide] = [bright, unsure].map((one) =>
      known(compared([one, faint], [60, 180]).filters[0]!.shareOfStar),
    );
    expect(wide!.value).toBeCloseTo(plain!.value, 12);
    expect(wide!.standardUncertainty).toBeCloseTo(
      Math.hypot(plain!.standardUncertainty, 0.1 * plain!.value),
      12,
    );
  });

  it('says why where there is nothing common', () => {
    expect(compareHalos([empty, empty])).toEqual({ absent: expect.stringContaining('give the annulus') });
    const far = compared([bright, faint], [60, 900]);
    expect(far.filters[0]!.shareOfStar).toEqual({ absent: expect.stringContaining('not within') });
    expect(() => compareHalos([bright])).toThrow('at least 2 images, got 1');
    expect(() => compareHalos([bright, faint], [50, 40])).toThrow('inner radius below the outer one');
  });
});
