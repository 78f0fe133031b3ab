import { readFileSync } from 'node:fs';

/**
 * @typedef {import('./random.mjs').RandomSource} RandomSource
 *
 * @typedef {object} LampSpec
 * @property {string} label as the session file has it
 * @property {readonly string[]} [species] 'Hg I', 'Ar I', 'Ne I'; from the label by default
 * @property {readonly number[]} exposuresMs shortest first
 * @property {number} frames of each exposure
 * @property {number} peakCounts of the strongest line at the shortest exposure, before clipping
 * @property {number} [intensityScatter] standard deviation of the logarithm of the line strengths, 0.6 by default
 * @property {number} [missing] chance of a line to be missing, 0.1 by default
 * @property {number} [continuum] counts under the lines as a share of peakCounts, 0.002 by default
 * @property {number} [shiftPx] of this lamp's lines on the detector
 * @property {readonly { wavelengthNm: number, relative: number }[]} [foreign] lines of no table, against the strongest
 * @property {number} [secondOrder] strength of the second order against the first, 0 by default
 * @property {number} [flicker] relative scatter from frame to frame, 0.003 by default
 *
 * @typedef {object} LampLine
 * @property {string} species
 * @property {number} wavelengthNm
 * @property {'listed' | 'weak' | 'foreign' | 'second order'} kind
 * @property {number} strength light in the line, relative
 */

const table =
  /** @type {{ lines: { species: string, wavelengthNm: number, relativeIntensity: number | null, weak: boolean }[] }} */ (
    JSON.parse(readFileSync(new URL('../../shared/lamp-lines.json', import.meta.url), 'utf8'))
  );

/** Species that a lamp label stands for. */
const speciesByPart = /** @type {Record<string, string>} */ ({ Hg: 'Hg I', Ar: 'Ar I', Ne: 'Ne I' });

/**
 * @param {string} label such as Hg-Ar
 * @returns {string[]}
 */
export function speciesOfLabel(label) {
  return label.split('-').flatMap((part) => speciesByPart[part] ?? []);
}

/**
 * The lines that the table has for some species.
 *
 * @param {readonly string[]} species
 * @returns {{ species: string, wavelengthNm: number, relativeIntensity: number | null, weak: boolean }[]}
 */
export function tableLines(species) {
  return table.lines.filter((line) => species.includes(line.species));
}

/**
 * Draws the lines of one lamp as they reach the detector.
 *
 * The table's strengths are taken as a rough start only: neon above 690 nm is brought to the scale of the
 * rest, the red lines of mercury, the green and the faint ones of neon are made as faint as pen lamps show them (a guess
 * from common practice, no source), and every line is multiplied by a random factor.
 *
 * @param {LampSpec} spec
 * @param {(wavelengthNm: number) => number} throughput
 * @param {RandomSource} random
 * @returns {LampLine[]}
 */
export function drawLampLines(spec, throughput, random) {
  const scatter = spec.intensityScatter ?? 0.6;
  const missing = spec.missing ?? 0.1;
  const secondOrder = spec.secondOrder ?? 0;
  /** @type {LampLine[]} */
  const lines = [];
  for (const species of spec.species ?? speciesOfLabel(spec.label)) {
    // Argon next to mercury fades as the lamp warms up.
    const share = species === 'Ar I' && spec.label !== 'Ar' ? Math.exp(-1.2 + 0.5 * random.normal()) : 1;
    for (const line of tableLines([species])) {
      const drawn = share * tableStrength(line) * Math.exp(scatter * random.normal());
      if (random.happens(missing)) continue;
      lines.push({
        species,
        wavelengthNm: line.wavelengthNm,
        kind: line.weak ? 'weak' : 'listed',
        strength: drawn * throughput(line.wavelengthNm),
      });
      if (secondOrder > 0) {
        lines.push({
          species,
          wavelengthNm: 2 * line.wavelengthNm,
          kind: 'second order',
          strength: drawn * secondOrder,
        });
      }
    }
  }
  return lines;
}

/**
 * @param {{ species: string, wavelengthNm: number, relativeIntensity: number | null, weak: boolean }} line
 * @returns {number}
 */
function tableStrength(line) {
  const listed =
    (line.relativeIntensity ?? 8000) /
    (line.species === 'Ar I' ? 25000 : line.species === 'Ne I' ? 20000 : 12000);
  if (line.weak) return 0.1 * listed;
  if (line.species === 'Ne I' && line.wavelengthNm > 690) return listed / 6;
  if (line.species === 'Ne I' && line.wavelengthNm < 580) return 0.2 * listed;
  if (line.species === 'Hg I' && line.wavelengthNm > 600) return 0.05 * listed;
  return listed;
}
