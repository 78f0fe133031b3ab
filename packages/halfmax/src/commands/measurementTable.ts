import type { Measurement } from '../measure/index.js';
import { bandLines } from './bandLines.js';
import { blockingLines } from './blockingLines.js';
import { starComparisonLines, starLines } from './starLines.js';
import { beamLines, skyLines } from './usageLines.js';
import { wrapText } from './wrapText.js';

/**
 * A measurement as a table for the terminal.
 *
 * @param measurement - the measurement
 * @param options - where it was written; whether each band gets its sentence to be quoted
 * @returns lines of text
 */
export function measurementTable(
  measurement: Measurement,
  options: { readonly out: string; readonly quotes: boolean },
): string {
  const lines = [measurement.title, '', ...scaleLines(measurement)];
  const { usage } = measurement;
  for (const filter of measurement.filters) {
    lines.push('', `${filter.label} (${filter.id})`);
    if (filter.bands.length === 0) lines.push('  no passband measured');
    for (const band of filter.bands) lines.push(...bandLines(band));
    lines.push(...blockingLines(filter.outOfBand, '  '));
    lines.push(...beamLines(filter.beam));
    lines.push(...skyLines(filter.sky, 'nightHours' in usage ? usage.nightHours : 0));
  }
  const labelOf = (id: string): string => measurement.filters.find((one) => one.id === id)?.label ?? id;
  for (const halo of measurement.halos) lines.push('', ...starLines(halo, labelOf(halo.filter)));
  for (const comparison of measurement.haloComparisons)
    lines.push('', ...starComparisonLines(comparison, labelOf));
  if (options.quotes) lines.push(...quoteLines(measurement));
  lines.push('', ...footLines(measurement));
  if (measurement.frames.rejected.length > 0) {
    lines.push('', 'Frames left out:');
    for (const scan of measurement.frames.rejected) {
      const column = scan.column === '' ? '' : ` (${scan.column})`;
      lines.push(...wrapText(`${scan.file}${column}: ${scan.reason}`, '  '));
    }
  }
  if (measurement.warnings.length > 0) {
    lines.push('', 'Warnings:');
    for (const warning of measurement.warnings)
      lines.push(...wrapText(`${warning.where}: ${warning.what}`, '  '));
  }
  lines.push('', `Written to ${options.out}`, '');
  return lines.join('\n');
}

function scaleLines({ calibration, filters }: Measurement): string[] {
  const used = calibration.lines.filter((line) => line.used).length;
  const [from, to] = calibration.coveredNm;
  return [
    ...wrapText(
      `Wavelengths: polynomial of order ${calibration.order} through ${used} of ${calibration.lines.length} lamp lines, ` +
        `${from.toFixed(1)} to ${to.toFixed(1)} nm, residual rms ${calibration.residualRmsNm.toFixed(4)} nm, ` +
        `leave-one-out rms ${calibration.leaveOneOutRmsNm.toFixed(4)} nm`,
      '',
    ),
    ...instrumentLine(calibration.instrumentScale),
    ...(filters.some(({ bands, outOfBand }) => bands.length > 0 || holdsNumbers(outOfBand))
      ? ['A number after ± is one standard uncertainty; in a claim of the data sheet it is the tolerance.']
      : []),
  ];
}

/** The instrument's own wavelengths against the lamps', where the frames carry them. */
function instrumentLine(own: Measurement['calibration']['instrumentScale']): string[] {
  if (own === null) return [];
  const nm = (value: number): string => {
    const size = Math.abs(value).toFixed(2);
    return `${Number(size) === 0 ? '' : value < 0 ? '−' : '+'}${size}`;
  };
  return wrapText(
    `The instrument's own wavelengths are not used; they differ from these by ${nm(own.startNm)} nm at the first pixel, ` +
      `${nm(own.middleNm)} in the middle, ${nm(own.endNm)} at the last, rms ${own.rmsNm.toFixed(2)} nm`,
    '',
  );
}

/** Whether blocking is told by numbers with uncertainties. */
function holdsNumbers(blocking: Measurement['filters'][number]['outOfBand']): boolean {
  return 'leaks' in blocking && (blocking.leaks.length > 0 || 'value' in blocking.meanOpticalDensity);
}

function quoteLines({ filters }: Measurement): string[] {
  const quotes = filters.flatMap((filter) =>
    filter.bands.flatMap(({ quote, furtherQuotes, target }) => [
      'text' in quote
        ? quote.text
        : `${filter.label}, ${target.join(', ') || 'no named line'}: no width to quote, ${quote.absent}`,
      ...furtherQuotes.map(({ text }) => text),
    ]),
  );
  return ['', 'To quote:', ...quotes.flatMap((text) => wrapText(text, '  '))];
}

/** What the verdicts rest on, and what was taken without being measured. */
function footLines({ decision, filters, assumptions, usage }: Measurement): string[] {
  const claims = filters.flatMap((filter) => filter.bands.flatMap((band) => band.claims));
  const lines: string[] = [];
  if (claims.length > 0) {
    const whose = decision.stated ? 'rule of the session' : 'default rule';
    lines.push(
      'Verdicts rest on the corrected numbers, but for optical density and where a line says otherwise.',
      ...wrapText(`A claim is (${whose}): ${decision.words}.`, ''),
      'Chance met: the chance that the true value lies within the tolerance, whatever the rule.',
    );
  }
  if (claims.some(({ step }) => step !== null)) {
    lines.push(
      ...wrapText(
        'A claimed value without a tolerance is known to half a step of its last digit (3 stands for 2.5 to 3.5; a ' +
          'transmittance for a whole per cent): that is in the uncertainty of its deviation.',
        '',
      ),
    );
  }
  if (assumptions.length > 0) {
    lines.push('Not measured and not stated, so assumed:');
    for (const { input, value, unit, source } of assumptions)
      lines.push(...wrapText(`${input}: ${value} ${unit} (${source})`, '  '));
  }
  if (usage.assumed.length > 0) {
    lines.push('Not stated of telescope, site and camera, so assumed:');
    for (const words of usage.assumed) lines.push(...wrapText(words, '  '));
  }
  return lines;
}
