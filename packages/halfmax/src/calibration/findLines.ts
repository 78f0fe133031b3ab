import { bridged, DETECTION, findPeaks } from './findPeaks.js';
import { fitLineGroup } from './fitLineGroup.js';
import { flooredNoise } from './flooredNoise.js';
import { lampGround } from './lampGround.js';
import { type LineShape, lineShape } from './lineShape.js';
import { markOddShapes } from './markOddShapes.js';
import type { FoundLine, LampSpectrum } from './types.js';
import { typicalWidth } from './typicalWidth.js';

/** Lines closer than this many widths are fitted together. */
const GROUP_WIDTHS = 2.2;
const LARGEST_GROUP = 24;
/**
 * Finds the emission lines of a lamp spectrum and locates each to a fraction of a pixel.
 *
 * Bumps above six times their noise are fitted as Gaussians on a local straight baseline, neighbours together.
 * Saturated lines, those narrower than the line spread and those of an odd shape are marked by `trouble`.
 *
 * @param spectrum - counts per ms, uncertainty and mask, all of the detector's length
 * @returns the lines in order of pixel; empty where nothing rises above the noise
 */
export function findLines(spectrum: LampSpectrum): FoundLine[] {
  const { countsPerMs: counts, masked } = spectrum;
  const noise = flooredNoise(spectrum);
  const width = typicalWidth(counts, lampGround(counts, 64), masked, noise);
  if (width === null) return [];
  const ground = lampGround(counts, Math.max(32, Math.round(14 * width)));
  const peaks = findPeaks(bridged(counts, masked), ground, noise, width);
  return fitAll(spectrum, noise, peaks, () => width, [], lineShape(0, 1, 0));
}

/**
 * Locates lines again with the line shape that the session's clear lines have, and with the places of lines that are
 * known to be there but hidden on a neighbour's flank.
 *
 * @param spectrum - the spectrum they were found in
 * @param lines - as found before
 * @param widthAt - typical full width at half maximum in pixels at a pixel
 * @param hidden - pixels of known lines that show no peak of their own
 * @param shape - the shape of a line
 * @returns the lines in order of pixel
 */
export function relocateLines(
  spectrum: LampSpectrum,
  lines: readonly FoundLine[],
  widthAt: (pixel: number) => number,
  hidden: readonly number[],
  shape: LineShape,
): FoundLine[] {
  const peaks = lines.map((line) => line.pixel).sort((a, b) => a - b);
  return fitAll(spectrum, flooredNoise(spectrum), peaks, widthAt, hidden, shape);
}

function fitAll(
  spectrum: LampSpectrum,
  noise: Float64Array,
  peaks: readonly number[],
  widthAt: (pixel: number) => number,
  hidden: readonly number[],
  shape: LineShape,
): FoundLine[] {
  const { countsPerMs: counts, masked } = spectrum;
  const lines: FoundLine[] = [];
  let start = 0;
  for (let k = 1; k <= peaks.length; k++) {
    const width = widthAt(peaks[k - 1]!);
    const joined = k < peaks.length && peaks[k]! - peaks[k - 1]! <= GROUP_WIDTHS * width;
    if (joined && k - start < LARGEST_GROUP) continue;
    const before = start > 0 ? peaks[start - 1]! : Number.NEGATIVE_INFINITY;
    const after = k < peaks.length ? peaks[k]! : Number.POSITIVE_INFINITY;
    const centres = peaks.slice(start, k);
    const near = hidden.filter(
      (place) =>
        place > centres[0]! - 1.8 * width &&
        place < centres[centres.length - 1]! + 1.8 * width &&
        centres.every((centre) => Math.abs(centre - place) > 0.35 * width),
    );
    lines.push(
      ...fitLineGroup({ counts, noise, masked, centres, hidden: near, width, before, after }, shape, false),
    );
    start = k;
  }
  const inside = (line: FoundLine): boolean => line.pixel > 0 && line.pixel < counts.length - 1;
  return markOddShapes(lines.filter((line) => line.significance >= DETECTION && inside(line)));
}
