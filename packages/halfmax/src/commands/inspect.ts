import { refuse } from '../errors.js';
import {
  type BandRange,
  describeBand,
  findBands,
  formatQuantity,
  isAbsent,
  outOfBand,
  type Quantity,
  transmittanceAt,
} from '../metrics/index.js';
import { emissionLines } from '../reference/index.js';
import { readCurve } from '../session/index.js';
import { blockingLines } from './blockingLines.js';
import { readOptions } from './readOptions.js';
import type { Terminal } from './terminal.js';
import { wrapText } from './wrapText.js';

/** Lines up to so many widths from the middle of a band stand with it: what it passes, and what it should not. */
const REACH_WIDTHS = 2;

function isNear({ blueNm, redNm }: BandRange, wavelengthNm: number): boolean {
  return Math.abs(wavelengthNm - (blueNm + redNm) / 2) <= REACH_WIDTHS * (redNm - blueNm);
}

const SCALE_NOTE =
  'The uncertainty of the wavelengths is not in these numbers, nor is the line spread of an instrument taken out.';

/**
 * `halfmax inspect`: the numbers of the passbands of a plain curve table.
 *
 * @param args - words after `inspect`
 * @param terminal - where to write
 * @returns exit code 0
 * @throws {BadInputError} a wrong command or a table that is no curve
 */
export function inspectCommand(args: readonly string[], terminal: Terminal): number {
  const words = readOptions(args, { json: 'flag' }, 'inspect');
  const [file, ...surplus] = words.positional;
  if (file === undefined)
    refuse('halfmax inspect', 'CURVE', 'no curve file given', 'name a table of wavelength and transmittance');
  if (surplus.length > 0)
    refuse('halfmax inspect', surplus[0]!, 'one curve at a time', 'inspect each with a command of its own');
  const table = readCurve(file);
  if (table.wavelengthNm.length < 5) {
    refuse(
      file,
      '',
      `holds ${table.wavelengthNm.length} points, at least 5 are needed`,
      'give a longer table',
    );
  }
  const curve = {
    wavelengthNm: table.wavelengthNm,
    transmittance: table.transmittance,
    standardUncertainty: table.standardUncertainty ?? new Float64Array(table.wavelengthNm.length),
  };
  const ranges = findBands(curve);
  const bands = ranges.map((range) => ({
    ...describeBand(curve, range),
    lines: emissionLines
      .filter(({ wavelengthNm }) => isNear(range, wavelengthNm))
      .map(({ name, wavelengthNm }) => ({
        name,
        wavelengthNm,
        transmittance: transmittanceAt(curve, wavelengthNm),
      })),
  }));
  const blocking = outOfBand(curve, ranges);
  if (words.options.has('json')) {
    terminal.out(
      `${JSON.stringify({ file, bands, outOfBand: blocking, warnings: table.warnings }, null, 1)}\n`,
    );
    return 0;
  }
  const first = curve.wavelengthNm[0]!;
  const last = curve.wavelengthNm[curve.wavelengthNm.length - 1]!;
  const lines = [`${file}: ${curve.wavelengthNm.length} points, ${first} to ${last} nm`];
  if (table.standardUncertainty === null) lines.push('the table gives no uncertainty, so none is stated');
  if (bands.length === 0) lines.push('no passband found');
  bands.forEach((band, index) => {
    const row = (name: string, number: Quantity): string =>
      `  ${name.padEnd(32)}${isAbsent(number) ? `– (${number.absent})` : formatQuantity(number)}`;
    lines.push(
      `band ${index + 1}`,
      row('FWHM / nm', band.fwhmNm),
      row('centre / nm', band.centreNm),
      row('peak at / nm', band.peakNm),
      row('peak transmittance', band.peakTransmittance),
      row('width at 10 % / nm', band.width10Nm),
      row('width at 1 % / nm', band.width1Nm),
      row('equivalent width / nm', band.equivalentWidthNm),
      row('blue edge 10 to 90 % / nm', band.edges.blue.width10To90Nm),
      row('red edge 10 to 90 % / nm', band.edges.red.width10To90Nm),
      row('centroid / nm', band.definitions.centroidNm),
      row('centre at 0.5 absolute / nm', band.definitions.absoluteHalf.centreNm),
      row('mean of the top', band.definitions.meanTop),
      ...band.lines.map(({ name, transmittance }) => row(`transmittance at ${name}`, transmittance)),
    );
  });
  lines.push(...blockingLines(blocking, ''));
  if (table.standardUncertainty !== null)
    lines.push('A number after ± is one standard uncertainty, from that of the points.');
  lines.push(...wrapText(SCALE_NOTE, '', ''));
  for (const warning of table.warnings) lines.push(`${warning.where}: ${warning.what}`);
  terminal.out(`${lines.join('\n')}\n`);
  return 0;
}
