import type { LampLine } from '../reference/index.js';
import type { FoundLine } from './types.js';

/** A weak line this far from all stronger ones can be known by itself, nm. */
const LONELY_NM = 5;
/** Strength of a line whose strength is not published, against the strongest of its species. */
const UNKNOWN_SHARE = 0.05;

/**
 * Lines that a lamp is known by: those that the table does not call weak, and the weak ones that have nothing stronger
 * within {@link LONELY_NM}, such as neon's from blue to green.
 */
function prominent(known: readonly LampLine[]): LampLine[] {
  const strong = known.filter((line) => !line.weak);
  return known.filter(
    (line) =>
      !line.weak || strong.every((other) => Math.abs(other.wavelengthNm - line.wavelengthNm) > LONELY_NM),
  );
}

/** A lamp's lines, and what does not depend on a scale, worked out once. */
export interface UsableLamp {
  readonly lines: readonly FoundLine[];
  readonly known: readonly LampLine[];
  readonly strong: readonly LampLine[];
  /** Strength of each strong line among its species. */
  readonly shares: readonly number[];
  /** Wavelengths of the strong and of all known lines, ascending. */
  readonly strongNm: readonly number[];
  readonly knownNm: readonly number[];
}

/** Works out what a lamp is known by. */
export function usableLamp(lines: readonly FoundLine[], known: readonly LampLine[]): UsableLamp {
  const strong = prominent(known);
  return {
    lines,
    known,
    strong,
    shares: strong.map((line) => shareOf(line, strong)),
    strongNm: ascendingWavelengths(strong),
    knownNm: ascendingWavelengths(known),
  };
}

/** Strength of a line against the strongest of its species in the table. */
function shareOf(line: LampLine, strong: readonly LampLine[]): number {
  if (line.relativeIntensity === null) return UNKNOWN_SHARE;
  const fellows = strong.filter((other) => other.species === line.species);
  return line.relativeIntensity / Math.max(1, ...fellows.map((other) => other.relativeIntensity ?? 0));
}

function ascendingWavelengths(known: readonly LampLine[]): number[] {
  return known.map((line) => line.wavelengthNm).sort((a, b) => a - b);
}
