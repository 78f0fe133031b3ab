import { describe, expect, it } from 'vitest';
import { emissionLines } from './emissionLines.js';
import { resolveLines } from './resolveLines.js';

const names = (name: string): string[] | null => resolveLines(name)?.map((line) => line.name) ?? null;
const oxygen = ['[O III] 500.7', '[O III] 495.9'];
const sulphur = ['[S II] 671.6', '[S II] 673.1'];
const nitrogen = ['[N II] 658.3', '[N II] 654.8'];

describe('resolveLines', () => {
  it.each([
    'H-alpha',
    'H alpha',
    'h alpha',
    'Halpha',
    'Ha',
    'HA',
    'Hα',
    'H-α',
    'H\u2011alpha',
    'H_alpha',
    ' H  Alpha ',
    'hydrogen alpha',
    'Hα line',
    'Ha 6563',
    'Hα 6562.8 Å',
    'H-alpha 656.28',
    'H-alpha (656,3 nm)',
    'Hα λ6563',
    '656.28',
    '656.3 nm',
    '6563 A',
  ])('reads %j as H-alpha', (name) => expect(names(name)).toEqual(['H-alpha']));

  it.each([
    '[O III]',
    '[OIII]',
    'OIII',
    'O III',
    'O-III',
    'o iii',
    'O3',
    '[O 3]',
    'Oiii',
    'OⅢ',
    '(O III)',
    'oxygen III',
    '[O\u00a0III] lines',
    'OIII doublet',
  ])('reads %j as both lines of doubly ionised oxygen, the strong one first', (name) =>
    expect(names(name)).toEqual(oxygen),
  );

  it.each([
    '[O III] 500.7',
    '[OIII] 500.7',
    'O III 5007',
    'OIII5007',
    'O35007',
    '[O III] 5007 Å',
    '[O III] 5007A',
    '[O III] λ5007',
    '[OIII] 500,7 nm',
    '[O III] 5006.84 angstrom',
    'O III 5007 Ångström',
    '[O III] 501',
    '500.7',
    '5007 Å',
    '[O III]@500.7nm',
  ])('reads %j as the strong line alone', (name) => expect(names(name)).toEqual(['[O III] 500.7']));

  it.each([
    ['[S II]', sulphur],
    ['SII', sulphur],
    ['S2', sulphur],
    ['sulfur II', sulphur],
    ['Sulphur-2', sulphur],
    ['[S II] 671.6', ['[S II] 671.6']],
    ['SII 6731', ['[S II] 673.1']],
    ['[N II]', nitrogen],
    ['[N II] 6584', ['[N II] 658.3']],
    ['NII 6548', ['[N II] 654.8']],
    ['Hb', ['H-beta']],
    ['Hβ', ['H-beta']],
    ['H-gamma', ['H-gamma']],
    ['Hδ', ['H-delta']],
    ['He II', ['He II']],
    ['helium 2', ['He II']],
    ['HeI', ['He I 587.6']],
    ['He I 6678', ['He I 667.8']],
    ['[O I]', ['[O I] 630.0']],
    ['[O I] 557.7', ['[O I] 557.7']],
    ['[S III]', ['[S III] 906.9']],
    ['[Ne III]', ['[Ne III]']],
    ['[O III] 436.3', ['[O III] 436.3']],
  ])('reads %j as %j', (name, expected) => expect(names(name)).toEqual(expected));

  it('gives both lines where the wavelength is that of their blend, one where it is that of one', () => {
    expect(names('[O II] 3727')).toEqual(['[O II] 372.6', '[O II] 372.9']);
    expect(names('[O II] 3726')).toEqual(['[O II] 372.6']);
    expect(names('[O II] 372.9')).toEqual(['[O II] 372.9']);
  });

  it.each([
    '',
    ' ',
    'foo',
    'Hg',
    'Hd',
    'H',
    'He',
    'O',
    'III',
    '[O IV]',
    '[O VI]',
    '[Fe II]',
    'H-alpha 500.7',
    '[O III] 5500',
    '[O III] 500.7 Å',
    '[O III] 5007 nm',
    '4959,5007',
    '4959/5007',
    '[O III] 4959/5007',
    'Ha+OIII',
    'Ha, OIII',
    'alpha',
    '2000',
    '600',
    'Olll',
    'H-alpha 6563 7 nm',
  ])('does not guess at %j', (name) => expect(resolveLines(name)).toBeNull());

  it('takes a wavelength up to 0.6 nm from the line, no further', () => {
    expect(names('H-alpha 656.88')).toEqual(['H-alpha']);
    expect(names('H-alpha 656.89')).toBeNull();
  });

  it('finds every line of the table by its own name', () => {
    for (const line of emissionLines) expect(resolveLines(line.name)).toContain(line);
    for (const line of emissionLines)
      expect(resolveLines(`${line.species} ${line.wavelengthNm} nm`)).toEqual([line]);
  });
});
