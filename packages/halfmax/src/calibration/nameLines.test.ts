import { describe, expect, it } from 'vitest';
import type { LampLine } from '../reference/index.js';
import { nameLines } from './nameLines.js';
import type { LabelledLamp } from './roughScale.js';
import type { FoundLine } from './types.js';

/** A pixel is 0.1 nm: pixel 5000 is 500 nm. */
const wavelengthOf = (pixel: number): number => pixel / 10;
const spread = 1.2;

function found(wavelengthNm: number, height = 100, trouble: string | null = null): FoundLine {
  const uncertainty = { pixelUncertainty: 0.02, fwhmUncertaintyPixels: 0.1, skewnessUncertainty: 0.1 };
  const nearestPixels = Number.POSITIVE_INFINITY;
  return {
    ...uncertainty,
    pixel: 10 * wavelengthNm,
    height,
    significance: height,
    fwhmPixels: 12,
    skewness: 0,
    nearestPixels,
    trouble,
  };
}

function known(
  wavelengthNm: number,
  relativeIntensity: number | null = 1000,
  weak = false,
  species: LampLine['species'] = 'Ne I',
): LampLine {
  return { species, wavelengthNm, relativeIntensity, weak };
}

function lamp(lines: readonly FoundLine[], table: readonly LampLine[]): LabelledLamp {
  return {
    lamp: { label: 'Ne', where: 'frames[0]', lines: Object.freeze([...lines]) },
    known: Object.freeze([...table]),
  };
}

const name = (lines: readonly FoundLine[], table: readonly LampLine[], window = 0.35) =>
  nameLines([lamp(lines, table)], wavelengthOf, () => spread, window);

describe('nameLines', () => {
  it('names a line by the known one near to it', () => {
    const [line] = name([found(585.3)], [known(585.24878), known(640.2248)]);
    expect(line!.known!.wavelengthNm).toBe(585.24878);
    expect(line!.trouble).toBeNull();
    expect(line!.blendWidths).toBeNull();
  });

  it('forces nothing: a line beyond the window stays without a name', () => {
    const reach = 0.35 * spread;
    expect(name([found(600 + 1.02 * reach)], [known(600)])[0]!.known).toBeNull();
    expect(name([found(600 + 1.02 * reach)], [known(600)])[0]!.trouble).toBe('not in the table of this lamp');
    expect(name([found(600 + 0.98 * reach)], [known(600)])[0]!.known).not.toBeNull();
  });

  it('gives one known line to one found line, the nearer', () => {
    const named = name([found(599.8), found(600.1)], [known(600)], 0.5);
    expect(named.map((line) => line.known?.wavelengthNm ?? null)).toEqual([null, 600]);
  });

  it('gives a found line to a strong known one before a weak one that is nearer', () => {
    const [line] = name([found(600)], [known(600.02, 100, true), known(600.3)]);
    expect(line!.known!.wavelengthNm).toBe(600.3);
    expect(line!.trouble).toBeNull();
  });

  it('names by a weak line where nothing else is near, and lets it carry the scale only well clear of the noise', () => {
    const table = [known(600.02, 100, true)];
    const [faint] = name([{ ...found(600), significance: 14 }], table);
    expect(faint!.known!.wavelengthNm).toBe(600.02);
    expect(faint!.trouble).toBe('a weak line, too near the noise to carry the scale');
    expect(name([{ ...found(600), significance: 16 }], table)[0]!.trouble).toBeNull();
    // A weak line is disturbed by any other, a strong one not by a weak one.
    expect(
      name([{ ...found(600), significance: 16 }], [...table, known(601, 5, true)])[0]!.trouble,
    ).toContain('blended');
    expect(name([found(600)], [known(600), known(601, 100, true)])[0]!.trouble).toBeNull();
  });

  it('calls two known lines nearer than 1.5 widths a blend, farther ones not', () => {
    const table = (away: number) => [known(600), known(600 + away)];
    for (const share of [0.5, 1.1, 1.48]) {
      const [line] = name([found(600)], table(share * spread));
      expect(line!.trouble).toMatch(/^blended with Ne I 60\d\.\d\d nm at a line spread of 1\.20 nm$/);
      expect(line!.blendWidths).toBeCloseTo(share, 10);
    }
    expect(name([found(600)], table(1.52 * spread))[0]!.trouble).toBeNull();
  });

  it('lets a line of less than a twentieth of the strength pass, in one species only', () => {
    expect(name([found(600)], [known(600), known(601, 49)])[0]!.trouble).toBeNull();
    expect(name([found(600)], [known(600), known(601, 51)])[0]!.trouble).toContain('blended');
    // Strengths of two species do not compare.
    expect(name([found(600)], [known(600), known(601, 1, false, 'Ar I')])[0]!.trouble).toContain(
      'blended with Ar I',
    );
    // A strength that is not published may be any.
    expect(name([found(600)], [known(600), known(601, null)])[0]!.trouble).toContain('blended');
  });

  it('calls a line with a found stranger beside it a blend', () => {
    const [line] = name([found(600), found(601.5, 20)], [known(600)]);
    expect(line!.trouble).toBe('blended with a line found at 601.50 nm');
    expect(line!.blendWidths).toBeCloseTo(1.5 / spread, 10);
    expect(name([found(600), found(601.5, 4)], [known(600)])[0]!.trouble).toBeNull();
  });

  it('keeps the trouble a line came with, and names it all the same', () => {
    const [line] = name([found(600, 100, 'saturated')], [known(600)]);
    expect(line!.known!.wavelengthNm).toBe(600);
    expect(line!.trouble).toBe('saturated');
  });

  it('names each lamp by its own table', () => {
    const lamps = [
      lamp([found(546.1)], [known(546.075, 1000, false, 'Hg I')]),
      lamp([found(546.1)], [known(585.24878)]),
    ];
    const named = nameLines(lamps, wavelengthOf, () => spread, 0.35);
    expect(named.map((line) => line.known?.species ?? null)).toEqual(['Hg I', null]);
  });

  it('works on a falling scale too', () => {
    const falling = (pixel: number): number => 1200 - pixel / 10;
    const lamps = [lamp([{ ...found(600), pixel: 5999 }], [known(600)])];
    expect(nameLines(lamps, falling, () => spread, 0.35)[0]!.known!.wavelengthNm).toBe(600);
  });
});
