import type { CleanSpectrum } from '../frames/index.js';

/**
 * Checks that there is something to divide, and that it is what it should be.
 *
 * @param filtered - to be scans of one filter
 * @param open - to be scans of the open beam
 * @throws {RangeError} nothing given, unequal lengths, or other light
 */
export function requireLight(filtered: readonly CleanSpectrum[], open: readonly CleanSpectrum[]): void {
  const first = filtered[0];
  if (first === undefined || open.length === 0) {
    throw new RangeError(
      `transmittanceCurve requires at least 1 filtered and 1 open spectrum, got ${filtered.length} and ${open.length}`,
    );
  }
  for (const spectrum of [...filtered, ...open]) {
    if (spectrum.counts.length !== first.counts.length) {
      throw new RangeError(
        `transmittanceCurve requires equal lengths, got ${first.counts.length} and ${spectrum.counts.length}`,
      );
    }
  }
  const other = filtered.find((spectrum) => spectrum.role !== 'filtered' || spectrum.filter !== first.filter);
  if (other !== undefined) {
    throw new RangeError(
      `transmittanceCurve requires filtered scans of one filter, got ${other.role} ${other.filter ?? ''}`.trim(),
    );
  }
  const notOpen = open.find((spectrum) => spectrum.role !== 'open');
  if (notOpen !== undefined) {
    throw new RangeError(`transmittanceCurve requires open scans to divide by, got ${notOpen.role}`);
  }
}
