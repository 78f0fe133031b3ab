import { emissionLinesTable } from './emissionLines.generated.js';
import { emissionLines } from './emissionLines.js';
import type { EmissionLine } from './types.js';

/** How far, in nm, a wavelength that a user writes may lie from the line that is meant. */
const REACH_NM = 0.6;
const GREEK: Readonly<Record<string, string>> = { α: 'alpha', β: 'beta', γ: 'gamma', δ: 'delta' };
const ELEMENTS: Readonly<Record<string, string>> = {
  hydrogen: 'h',
  helium: 'he',
  nitrogen: 'n',
  oxygen: 'o',
  neon: 'ne',
  sulphur: 's',
  sulfur: 's',
};
const STAGES = ['i', 'ii', 'iii', 'iv', 'v'];

/**
 * The emission lines that a name means, in any common spelling.
 *
 * A species alone gives its principal lines, the one that the trade means first; with a wavelength it gives the line
 * within 0.6 nm. Where two lines are that near, the one that rounds to the number given; where neither does, both
 * (`[O II] 372.7`). Without a unit, numbers up to 1200 are nm and from 3000 Å. Never guesses: `Hg` could be a lamp.
 *
 * @param name - such as `H-alpha`, `Hα`, `[O III]`, `OIII 5007`, `[S II] 671,6 nm`
 * @returns at least one line, or null when the name is not known
 *
 * Source: shared/emission-lines.json.
 * @example
 * resolveLines('OIII 5007')?.map((line) => line.name); // => ['[O III] 500.7']
 * resolveLines('unobtainium'); // => null
 */
export function resolveLines(name: string): EmissionLine[] | null {
  const text = plainText(name);
  const whole = withSpecies(text.replace(/\b(lines?|doublet)$/, '').trim());
  if (whole !== null) return principalLines(whole);

  const parts = /^(.*?)[\s:,=@-]*(?:l|ll|lambda)?\s*(\d{3,4}(?:\.\d+)?)\s*(nm|a|angstroms?)?$/.exec(text);
  if (parts === null) return null;
  const [, front = '', digits = '', unit] = parts;
  const species = front.trim() === '' ? undefined : withSpecies(front.trim());
  if (species === null) return null;
  const written = Number(digits);
  const inNm = unit === undefined ? written <= 1200 : unit === 'nm';
  if (unit === undefined && written > 1200 && written < 3000) return null;
  const wavelengthNm = inNm ? written : written / 10;
  const decimals = (digits.split('.')[1] ?? '').length + (inNm ? 0 : 1);
  const near = emissionLines.filter(
    (line) =>
      (species === undefined || line.species === species) &&
      Math.abs(line.wavelengthNm - wavelengthNm) <= REACH_NM,
  );
  if (near.length === 0 || new Set(near.map((line) => line.species)).size > 1) return null;
  const rounded = near.filter(
    (line) => line.wavelengthNm.toFixed(decimals) === wavelengthNm.toFixed(decimals),
  );
  return rounded.length === 1 ? rounded : near;
}

/** Lower case, one kind of blank and hyphen, no brackets, Greek in Latin letters, decimal points. */
function plainText(name: string): string {
  return name
    .replace(/[Åå]|Å/g, ' a')
    .normalize('NFKC')
    .toLowerCase()
    .replace(/ö/g, 'o')
    .replace(/[αβγδ]/g, (letter) => GREEK[letter]!)
    .replace(/λ+/g, ' l ')
    .replace(/(\d),(\d{1,3})(?!\d)/g, '$1.$2')
    .replace(/[[\](){}]/g, ' ')
    .replace(/[\s_\u2010-\u2015\u2212-]+/g, ' ')
    .trim();
}

/** The species of the table that a piece of plain text names, or null. */
function withSpecies(text: string): string | null {
  const balmer = /^(?:h|hydrogen) ?(a|b|alpha|beta|gamma|delta)$/.exec(text);
  if (balmer !== null) {
    const letter = { a: 'alpha', b: 'beta' }[balmer[1]!] ?? balmer[1]!;
    return `H-${letter}`;
  }
  const ion = /^([a-z]+?) ?(i{1,3}|iv|v|[1-5])$/.exec(text);
  if (ion === null) return null;
  const element = ELEMENTS[ion[1]!] ?? ion[1]!;
  const stage = STAGES[Number(ion[2]) - 1] ?? ion[2]!;
  const line = emissionLines.find(({ species }) => plainText(species) === `${element} ${stage}`);
  return line?.species ?? null;
}

function principalLines(species: string): EmissionLine[] {
  const lines = emissionLines.filter((line) => line.species === species && line.principal);
  const order = emissionLinesTable.speciesOrder[species] ?? [];
  return lines.sort((a, b) => order.indexOf(a.wavelengthNm) - order.indexOf(b.wavelengthNm));
}
