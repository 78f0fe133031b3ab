import { describe, expect, it } from 'vitest';
import { lampLines } from './lampLines.js';
import { knownLamps, lampSpecies } from './lampSpecies.js';

describe('lampSpecies', () => {
  it.each([
    'Hg-Ar',
    'HgAr',
    'Hg/Ar',
    'hg ar',
    'HGAR',
    'Hg(Ar)',
    'Hg+Ar',
    'Hg–Ar',
    'mercury-argon',
    'Mercury argon lamp',
    'Hg I, Ar I',
    'mercury (argon) pen lamp',
  ])('reads %j as mercury and argon', (label) => expect(lampSpecies(label)).toEqual(['Hg I', 'Ar I']));

  it.each([
    ['Ne', ['Ne I']],
    ['neon', ['Ne I']],
    ['Hg-Ne', ['Hg I', 'Ne I']],
    ['HgNe', ['Hg I', 'Ne I']],
    ['Ar', ['Ar I']],
    ['Hg', ['Hg I']],
    ['Ne-Ar', ['Ne I', 'Ar I']],
    ['Ne Ne', ['Ne I']],
  ])('reads %j as %j', (label, expected) => expect(lampSpecies(label)).toEqual(expected));

  it.each(['', '-', 'lamp', 'Kr', 'Hg-Xe', 'Hg-Ar-Kr', 'argent', 'neonatal', 'H', 'Hg-2'])(
    'does not know %j',
    (label) => expect(lampSpecies(label)).toBeNull(),
  );

  it('knows every lamp that it offers, and has lines for each', () => {
    for (const label of knownLamps) {
      for (const species of lampSpecies(label)!) {
        expect(lampLines.filter((line) => line.species === species).length).toBeGreaterThan(10);
      }
    }
  });
});
