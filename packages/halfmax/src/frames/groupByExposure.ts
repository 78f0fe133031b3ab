import { sameExposure } from './stackDarks.js';
import type { CleanSpectrum } from './types.js';

/**
 * Spectra of the same exposure together, the longest exposure first.
 *
 * @param spectra - in any order
 * @returns groups in which exposures differ by less than 0.1 %
 */
export function groupByExposure(spectra: readonly CleanSpectrum[]): CleanSpectrum[][] {
  const groups: CleanSpectrum[][] = [];
  for (const spectrum of [...spectra].sort((a, b) => b.exposureMs - a.exposureMs || a.entry - b.entry)) {
    const last = groups.at(-1);
    if (last !== undefined && spectrum.exposureMs >= last[0]!.exposureMs * (1 - sameExposure))
      last.push(spectrum);
    else groups.push([spectrum]);
  }
  return groups;
}
