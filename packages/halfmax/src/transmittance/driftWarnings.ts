import { type CleanSpectrum, percent, type Warning } from '../frames/index.js';
import type { OpenRate } from './openRateAt.js';

/**
 * What the reader should know of the lamp while a filter was scanned.
 *
 * @param filtered - scans of the filter
 * @param rates - the open beam at the time of each
 * @param driftLimit - change beyond which it is said, relative
 * @returns warnings, each once
 */
export function driftWarnings(
  filtered: readonly CleanSpectrum[],
  rates: ReadonlyMap<CleanSpectrum, OpenRate>,
  driftLimit: number,
): Warning[] {
  const messages = filtered.flatMap((spectrum) => {
    const rate = rates.get(spectrum)!;
    const size = percent(Math.abs(rate.change));
    const off = Math.abs(rate.change) > driftLimit;
    const limit = `more than the ${percent(driftLimit)} that are let pass`;
    if (rate.kind === 'single')
      return ['there is one open scan only: the drift of the lamp cannot be followed'];
    if (rate.kind === 'untimed') {
      return off
        ? [
            `the open scans differ by ${size}, ${limit}, and times are missing: their mean is used, half of it as ` +
              'uncertainty',
          ]
        : [];
    }
    if (rate.kind === 'outside') {
      return [
        `the scan of ${clock(spectrum.takenAtMs!)} lies outside the open scans: the nearest, of ` +
          `${clock(rate.from.timeMs!)}, is used; the open scans differ by ${size}`,
      ];
    }
    return off
      ? [
          `the open beam changed by ${size} between ${clock(rate.from.timeMs!)} and ${clock(rate.to.timeMs!)}, ` +
            `around the scan of ${clock(spectrum.takenAtMs!)}, ${limit}`,
        ]
      : [];
  });
  return [...new Set(messages)].map((what) => ({ where: filtered[0]!.filter ?? 'filter', what }));
}

function clock(timeMs: number): string {
  return `${new Date(timeMs).toISOString().slice(11, 19)} UTC`;
}
