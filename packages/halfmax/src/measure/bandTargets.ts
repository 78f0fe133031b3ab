import type { BandRange } from '../metrics/index.js';
import { type EmissionLine, emissionLines, lineNeighbours, resolveLines } from '../reference/index.js';

/** The lines that a band is for, and those beside them that matter. */
export interface BandTargets {
  readonly targets: readonly EmissionLine[];
  readonly neighbours: readonly EmissionLine[];
}

/** A named line belongs to the nearest band if it lies within so many of its widths from the centre. */
const REACH_WIDTHS = 2;

/**
 * Shares the lines that a session names out to the bands of its filter.
 *
 * @param names - line names of the filter, as the session gives them
 * @param bands - the filter's bands
 * @returns one entry per band, in the same order; a band that no named line belongs to takes the lines it passes, but
 *   not where a named line lies in no band: it would stand in for that line
 */
export function bandTargets(names: readonly string[], bands: readonly BandRange[]): BandTargets[] {
  const named = [...new Set(names.flatMap((name) => resolveLines(name) ?? []))];
  const claimed = new Map<EmissionLine, BandRange | null>(
    named.map((line) => [line, nearestBand(line, bands)]),
  );
  const lost = named.some((line) => claimed.get(line) === null);
  return bands.map((band) => {
    const own = named.filter((line) => claimed.get(line) === band);
    const targets =
      own.length > 0 || lost ? own : emissionLines.filter((line) => line.principal && passes(band, line));
    const beside = targets.flatMap((line) => lineNeighbours(line));
    const neighbours = [...new Set(beside)].filter((line) => !targets.includes(line) && near(band, line));
    return { targets, neighbours };
  });
}

function nearestBand(line: EmissionLine, bands: readonly BandRange[]): BandRange | null {
  const reachable = bands.filter((band) => near(band, line));
  reachable.sort((a, b) => Math.abs(centre(a) - line.wavelengthNm) - Math.abs(centre(b) - line.wavelengthNm));
  return reachable[0] ?? null;
}

function centre(band: BandRange): number {
  return (band.blueNm + band.redNm) / 2;
}

function near(band: BandRange, line: EmissionLine): boolean {
  return Math.abs(line.wavelengthNm - centre(band)) <= REACH_WIDTHS * Math.max(band.redNm - band.blueNm, 3);
}

function passes(band: BandRange, line: EmissionLine): boolean {
  return line.wavelengthNm > band.blueNm && line.wavelengthNm < band.redNm;
}

/**
 * Named lines that lie in no band of the filter.
 *
 * @param names - line names of the filter, as the session gives them
 * @param bands - the filter's bands
 * @returns the lines
 */
export function linesOutsideBands(names: readonly string[], bands: readonly BandRange[]): EmissionLine[] {
  return names
    .flatMap((name) => resolveLines(name) ?? [])
    .filter((line) => nearestBand(line, bands) === null);
}
