import { joinExposures } from './joinExposures.js';
import type { CleanSpectrum, CombinedSpectrum } from './types.js';

/**
 * Joins several exposures of one scan to counts per ms: each pixel from the longest exposure in which neither it nor
 * its direct neighbour is clipped, or, where no exposure keeps that margin, from the longest in which it is unclipped.
 *
 * Entries of the same exposure are averaged by their number of frames; the dark they share is counted as shared.
 *
 * @param spectra - entries of the same light, at least one, of equal length
 * @returns rate and uncertainty per pixel, counts per ms
 * @throws {RangeError} no spectrum, unequal lengths, or spectra of different light
 * Source: longest unclipped exposure per pixel is common practice, no source.
 */
export function combineExposures(spectra: readonly CleanSpectrum[]): CombinedSpectrum {
  const first = spectra[0];
  if (first === undefined) throw new RangeError('combineExposures requires at least 1 spectrum, got 0');
  for (const other of spectra) {
    if (other.counts.length !== first.counts.length) {
      throw new RangeError(
        `combineExposures requires equal lengths, got ${first.counts.length} and ${other.counts.length}`,
      );
    }
    if (other.role !== first.role || other.lamp !== first.lamp || other.filter !== first.filter) {
      throw new RangeError(
        `combineExposures requires spectra of the same light, got ${nameOf(first)} and ${nameOf(other)}`,
      );
    }
  }
  const joined = joinExposures(spectra);
  return {
    entries: spectra.map((spectrum) => spectrum.entry),
    countsPerMs: joined.countsPerMs,
    standardUncertainty: joined.noisePerMs.map((noise, i) => Math.hypot(noise, joined.darkPerMs[i]!)),
    masked: joined.masked,
    exposureMs: joined.exposureMs,
    counts: joined.counts,
  };
}

function nameOf(spectrum: CleanSpectrum): string {
  return [spectrum.role, spectrum.lamp, spectrum.filter].filter((part) => part !== null).join(' ');
}
