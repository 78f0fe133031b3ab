import { describe, expect, it } from 'vitest';
import type { CleanSpectrum } from '../frames/index.js';
import { noPassband } from './noPassband.js';

const pixels = 100;
const pixelNm = (pixel: number): number => 700 - pixel;
const scan = (isMasked: (pixel: number) => boolean = () => false): CleanSpectrum =>
  ({
    masked: Uint8Array.from({ length: pixels }, (_, i) => (isMasked(i) ? 1 : 0)),
  }) as unknown as CleanSpectrum;
const curveOf = (transmittance: (i: number) => number, u: number, seen = pixels) => ({
  curve: {
    wavelengthNm: Float64Array.from({ length: seen }, (_, i) => 601 + i),
    transmittance: Float64Array.from({ length: seen }, (_, i) => transmittance(i)),
    standardUncertainty: new Float64Array(seen).fill(u),
  },
});
const bump = (height: number) => (i: number) => (Math.abs(i - 50) < 4 ? height : 0.001);

describe('noPassband', () => {
  it('names saturation of the filter or of the open beam, with the place', () => {
    const clipped = scan((i) => i >= 40 && i < 50);
    const curve = curveOf(() => 0.001, 1e-4, 90);
    expect(noPassband([clipped], [scan()], curve, pixelNm)).toMatch(
      /^the scans of the filter are saturated in every exposure from 651\.0 to 660\.0 nm: .*shorter exposure/,
    );
    expect(noPassband([scan()], [clipped], curve, pixelNm)).toMatch(/^the open scans are saturated/);
    // a shorter exposure that is not clipped helps
    expect(
      noPassband(
        [clipped, scan()],
        [scan()],
        curveOf(() => 0.001, 1e-4),
        pixelNm,
      ),
    ).not.toMatch(/saturated/);
  });

  it('names too little light, and how far the highest place stands out', () => {
    expect(noPassband([scan()], [scan()], curveOf(bump(0.6), 0.15), pixelNm)).toMatch(
      /^too little light: its highest transmittance, 0\.600 at \d+\.\d nm, stands 4\.0 standard uncertainties/,
    );
    expect(
      noPassband(
        [scan()],
        [scan()],
        curveOf(() => 0, 1, 20),
        pixelNm,
      ),
    ).toMatch(/^the open beam is too weak in 80 % of the pixels; too little light/);
  });

  it('says how little the filter lets through where there is light enough', () => {
    expect(noPassband([scan()], [scan()], curveOf(bump(0.02), 0.0005), pixelNm)).toMatch(
      /^its highest transmittance, 0\.020 at \d+\.\d nm, stays below the 5 %/,
    );
  });
});
