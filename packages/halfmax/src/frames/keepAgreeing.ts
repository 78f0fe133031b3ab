import { compareExposures } from './compareExposures.js';
import type { MeanSpectrum } from './meanSpectrum.js';
import type { CleanSpectrum, Warning } from './types.js';

/**
 * Masks what the exposures of the same light show not to be trusted: pixels above a level at which the rate falls, and
 * those of a longer exposure that says something else altogether.
 *
 * @param means - all entries that are not dark
 * @param saturationCounts - the detector's limit, raw counts
 * @returns the spectra in their order without those of which nothing agrees, and warnings
 */
export function keepAgreeing(
  means: readonly MeanSpectrum[],
  saturationCounts: number,
): { spectra: CleanSpectrum[]; warnings: readonly Warning[] } {
  const compared = compareExposures(
    means.map(({ spectrum, raw }) => ({
      ...spectrum,
      raw,
      uncertainty: spectrum.noise.map((value, i) =>
        Math.hypot(value, spectrum.darkNoise[i]!, spectrum.darkShared?.[i] ?? 0),
      ),
    })),
    saturationCounts,
  );
  const limit = compared.softCounts ?? Number.POSITIVE_INFINITY;
  const spectra = means.flatMap(({ spectrum, raw }): CleanSpectrum[] => {
    const dropped = compared.dropped.get(spectrum.entry);
    const masked = spectrum.masked.map((value, i) => (raw[i]! >= limit || dropped?.[i] === 1 ? 1 : value));
    if (dropped !== undefined && masked.every((value) => value === 1)) return [];
    const keep = (values: Float64Array): Float64Array =>
      values.map((value, i) => (masked[i] === 1 ? 0 : value));
    return [
      {
        ...spectrum,
        masked,
        counts: keep(spectrum.counts),
        noise: keep(spectrum.noise),
        darkNoise: keep(spectrum.darkNoise),
        ...(spectrum.darkShared === undefined ? {} : { darkShared: keep(spectrum.darkShared) }),
      },
    ];
  });
  return { spectra, warnings: compared.warnings };
}
