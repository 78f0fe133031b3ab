import type { LampLine } from '../reference/index.js';
import type { LabelledLamp } from './roughScale.js';
import type { FoundLine } from './types.js';

/** Two lines closer than this many line-spread widths are one to the fit. Common practice, no source. */
export const BLEND_WIDTHS: number = 1.5;
/** In one species only lines of this strength against the line's own disturb it. */
const BLEND_SHARE = 0.05;
/** Height over noise from which a line that the table calls weak may carry the scale. */
const CLEAR_WEAK_LINE = 15;

/** A found line with the known line it was laid on. */
export interface NamedLine {
  readonly lamp: string;
  readonly found: FoundLine;
  readonly known: LampLine | null;
  /** Why it must not carry the scale, or null. */
  readonly trouble: string | null;
  /** Where the only trouble is a neighbour: its distance in line-spread widths. */
  readonly blendWidths: number | null;
}

/**
 * Names found lines by a scale that is good to a fraction of the line spread. Nothing is forced: a line that no
 * known one is near stays without a name.
 *
 * @param lamps - found lines with the known lines of each label
 * @param wavelengthOf - air wavelength in nm of a pixel
 * @param spreadOf - full width of the line spread in nm at a wavelength
 * @param windowWidths - largest distance to a known line, in line-spread widths
 * @returns every found line, in the order of lamps and pixels
 */
export function nameLines(
  lamps: readonly LabelledLamp[],
  wavelengthOf: (pixel: number) => number,
  spreadOf: (wavelengthNm: number) => number,
  windowWidths: number,
): NamedLine[] {
  const named: NamedLine[] = [];
  for (const { lamp, known } of lamps) {
    const places = lamp.lines.map((line) => wavelengthOf(line.pixel));
    const owner = claimKnownLines(places, known, spreadOf, windowWidths);
    lamp.lines.forEach((found, index) => {
      const line = owner[index] ?? null;
      named.push({
        lamp: lamp.label,
        found,
        known: line,
        ...troubleOf(lamp.lines, index, line, known, places, spreadOf),
      });
    });
  }
  return named;
}

/** Each known line goes to the nearest found one, each found one to its nearest known one; strong before weak. */
function claimKnownLines(
  places: readonly number[],
  known: readonly LampLine[],
  spreadOf: (wavelengthNm: number) => number,
  windowWidths: number,
): (LampLine | undefined)[] {
  const owner: (LampLine | undefined)[] = new Array(places.length).fill(undefined);
  const taken = new Set<LampLine>();
  for (const weak of [false, true]) {
    const pairs: { index: number; line: LampLine; distance: number }[] = [];
    places.forEach((at, index) => {
      if (owner[index] !== undefined) return;
      const window = windowWidths * spreadOf(at);
      for (const line of known) {
        if (line.weak !== weak || taken.has(line)) continue;
        const distance = Math.abs(line.wavelengthNm - at);
        if (distance <= window) pairs.push({ index, line, distance });
      }
    });
    pairs.sort((a, b) => a.distance - b.distance);
    for (const { index, line } of pairs) {
      if (owner[index] !== undefined || taken.has(line)) continue;
      owner[index] = line;
      taken.add(line);
    }
  }
  return owner;
}

function troubleOf(
  lines: readonly FoundLine[],
  index: number,
  line: LampLine | null,
  known: readonly LampLine[],
  places: readonly number[],
  spreadOf: (wavelengthNm: number) => number,
): { trouble: string | null; blendWidths: number | null } {
  const found = lines[index]!;
  const plain = (trouble: string | null): { trouble: string | null; blendWidths: null } => ({
    trouble,
    blendWidths: null,
  });
  if (found.trouble !== null) return plain(found.trouble);
  if (line === null) return plain('not in the table of this lamp');
  if (line.weak && found.significance < CLEAR_WEAK_LINE)
    return plain('a weak line, too near the noise to carry the scale');
  const width = spreadOf(line.wavelengthNm);
  const reach = BLEND_WIDTHS * width;
  const away = (other: LampLine): number => Math.abs(other.wavelengthNm - line.wavelengthNm);
  const rivals = known.filter((other) => other !== line && away(other) < reach && disturbs(other, line));
  const rival = rivals.sort((a, b) => away(a) - away(b))[0];
  if (rival !== undefined) {
    const trouble = `blended with ${rival.species} ${rival.wavelengthNm.toFixed(2)} nm at a line spread of ${width.toFixed(2)} nm`;
    return { trouble, blendWidths: away(rival) / width };
  }
  const stranger = lines.findIndex(
    (other, k) =>
      k !== index &&
      Math.abs(places[k]! - places[index]!) < reach &&
      other.height > BLEND_SHARE * found.height,
  );
  if (stranger < 0) return plain(null);
  const trouble = `blended with a line found at ${places[stranger]!.toFixed(2)} nm`;
  return { trouble, blendWidths: Math.abs(places[stranger]! - places[index]!) / width };
}

function disturbs(other: LampLine, line: LampLine): boolean {
  if (line.weak) return true;
  if (other.weak) return false;
  if (other.species !== line.species) return true;
  if (other.relativeIntensity === null || line.relativeIntensity === null) return true;
  return other.relativeIntensity >= BLEND_SHARE * line.relativeIntensity;
}
