import { describe, expect, it } from 'vitest';
import { emissionLinesTable } from './emissionLines.generated.js';
import { emissionLines } from './emissionLines.js';
import { lampLinesTable } from './lampLines.generated.js';
import { lampLines } from './lampLines.js';

describe('tables of lines', () => {
  it('name their unit, medium and sources', () => {
    for (const table of [lampLinesTable, emissionLinesTable]) {
      expect(table.unit).toBe('nm');
      expect(table.medium).toMatch(/^air/);
      expect(table.source.length).toBeGreaterThan(0);
    }
  });

  it('rise in wavelength, lamps species by species', () => {
    for (const species of ['Hg I', 'Ar I', 'Ne I']) {
      const wavelengths = lampLines
        .filter((line) => line.species === species)
        .map((line) => line.wavelengthNm);
      expect(wavelengths).toEqual([...new Set(wavelengths)].sort((a, b) => a - b));
    }
    const wavelengths = emissionLines.map((line) => line.wavelengthNm);
    expect(wavelengths).toEqual([...new Set(wavelengths)].sort((a, b) => a - b));
  });

  it('refer only to lines that they have', () => {
    const principal = (species: string): number[] =>
      emissionLines
        .filter((line) => line.species === species && line.principal)
        .map((line) => line.wavelengthNm);
    for (const [species, order] of Object.entries(emissionLinesTable.speciesOrder)) {
      expect([...order].sort((a, b) => a - b)).toEqual(principal(species));
    }
    for (const { species, strongNm, faintNm } of emissionLinesTable.doublets) {
      expect(principal(species)).toEqual(expect.arrayContaining([strongNm, faintNm]));
    }
    for (const { of, names } of emissionLinesTable.neighbours) {
      for (const name of [of, ...names]) expect(emissionLines.map((line) => line.name)).toContain(name);
    }
    for (const species of new Set(emissionLines.map((line) => line.species))) {
      expect(principal(species).length).toBeGreaterThan(0);
    }
  });
});
