import { percent, type Warning } from '../frames/index.js';
import { type BandRange, formatQuantity, isAbsent } from '../metrics/index.js';
import type { EmissionLine } from '../reference/index.js';
import { linesOutsideBands } from './bandTargets.js';
import type { UnjudgedBand } from './measureBand.js';

/** A filter's bands, and what they are held against. */
export interface WarnedBands {
  readonly id: string;
  /** Lines that the session names. */
  readonly lines: Parameters<typeof linesOutsideBands>[0];
  readonly ranges: readonly BandRange[];
  readonly bands: readonly UnjudgedBand[];
  /** Range of the lamp lines used, nm. */
  readonly coveredNm: readonly [number, number];
}

/** From here on no drift of a lamp explains a transmittance. Common practice, no source. */
const FAR_ABOVE = 1.5;
const DRIFTED = 'the lamp drifted between the open scan and that of the filter, or the open scan lost light';
const EXCHANGED =
  'open and filtered scans have exchanged their roles, or a filter was in the beam of the open scan';

/**
 * What the reader should know of a filter's bands: lines in none of them, extrapolated wavelengths, more light than
 * there was, draws without a reading.
 *
 * @param of - bands and lines
 * @returns warnings, one per finding
 */
export function bandWarnings({ id, lines, ranges, bands, coveredNm }: WarnedBands): Warning[] {
  const say = (what: string): Warning => ({ where: id, what });
  const outside: EmissionLine[] = bands.length === 0 ? [] : linesOutsideBands(lines, ranges);
  const [from, to] = coveredNm;
  return [
    ...outside.map((line) =>
      say(
        `the line ${line.name} (${line.wavelengthNm.toFixed(1)} nm) that the session names lies in no passband`,
      ),
    ),
    ...bands.flatMap(({ report, spread }) => {
      const name = `the band for ${report.target.join(', ') || 'no named line'}`;
      const found: Warning[] = [];
      if (report.extrapolated) {
        const range = `${from.toFixed(1)} to ${to.toFixed(1)} nm`;
        found.push(
          say(`${name} reaches beyond the lamp lines used (${range}): its wavelengths are extrapolated`),
        );
      }
      const peak = report.asMeasured.peakTransmittance;
      if (!isAbsent(peak) && peak.value - peak.standardUncertainty > 1) {
        found.push(
          say(
            `${name} has a peak transmittance of ${formatQuantity(peak)}, above 1 by more than its uncertainty: most ` +
              `likely ${peak.value > FAR_ABOVE ? EXCHANGED : DRIFTED}`,
          ),
        );
      }
      const failed = spread.failedShare(
        isAbsent(report.corrected.fwhmNm) ? 'measured fwhm' : 'corrected fwhm',
      );
      if (failed > 0) {
        found.push(
          say(
            `${name} had no width in ${percent(failed)} of the draws: they are left out of uncertainty and budget`,
          ),
        );
      }
      return found;
    }),
  ];
}
