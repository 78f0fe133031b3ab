import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { apertureSum, starFluxFromMagnitude } from './starFlux.js';
import { starImage } from './starImage.js';

describe('starFluxFromMagnitude', () => {
  it('follows the definition of the magnitude', () => {
    // Five magnitudes are a factor of 100; 0.01 mag is 0.921 % (0.4 ln 10).
    expect(starFluxFromMagnitude(3, 20, 0).counts / starFluxFromMagnitude(8, 20, 0).counts).toBeCloseTo(
      100,
      9,
    );
    const { counts, standardUncertainty } = starFluxFromMagnitude(8, 20.5, 0.01);
    expect(standardUncertainty / counts).toBeCloseTo(0.004 * Math.LN10, 12);
  });

  it('refuses what is no magnitude', () => {
    expect(() => starFluxFromMagnitude(Number.NaN, 20, 0)).toThrow('finite magnitudes');
    expect(() => starFluxFromMagnitude(5, 20, -1)).toThrow('uncertainty of 0 or more');
  });
});

describe('apertureSum', () => {
  it('gives the light of a normal star, 2 pi s^2 times its top, whatever the background', () => {
    const stream = randomStream(5);
    const [size, sigma, top] = [120, 2.2, 20000];
    const counts = Float32Array.from({ length: size * size }, (_, k) => {
      const [dx, dy] = [(k % size) - 60.3, Math.floor(k / size) - 58.8];
      return 700 + top * Math.exp(-(dx * dx + dy * dy) / (2 * sigma * sigma)) + 8 * stream.normal();
    });
    const mask = new Uint8Array(size * size);
    const sum = apertureSum(starImage(size, size, counts), mask, { x: 60.3, y: 58.8 })!;
    const truth = 2 * Math.PI * sigma * sigma * top;
    // Four standard uncertainties, and those are small.
    expect(Math.abs(sum.counts - truth)).toBeLessThan(4 * sum.standardUncertainty);
    expect(sum.standardUncertainty / truth).toBeLessThan(0.005);
  });

  it('leaves out a hot pixel and another star beyond the core', () => {
    const stream = randomStream(6);
    const [size, sigma, top] = [120, 3, 9000];
    const clean = Float32Array.from({ length: size * size }, (_, k) => {
      const [dx, dy] = [(k % size) - 60, Math.floor(k / size) - 60];
      return 700 + top * (1 + (dx * dx + dy * dy) / (4 * sigma * sigma)) ** -2 + 8 * stream.normal();
    });
    const place = { x: 60, y: 60 };
    const sumOf = (counts: Float32Array): number =>
      apertureSum(starImage(size, size, counts), new Uint8Array(size * size), place)!.counts;
    const hot = clean.slice();
    hot[60 * size + 68] = 40000;
    expect(Math.abs(sumOf(hot) - sumOf(clean))).toBeLessThan(0.001 * sumOf(clean));
  });

  it('gives nothing where no aperture fits', () => {
    const image = starImage(40, 40, new Float32Array(1600));
    expect(apertureSum(image, new Uint8Array(1600), { x: 5, y: 20 })).toBeNull();
  });
});
