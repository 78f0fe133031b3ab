import { refuse } from '../errors.js';
import { lookAtSession, type SessionLook } from '../measure/index.js';
import { formatQuantity, isAbsent, type Quantity } from '../metrics/index.js';
import { readSession } from '../session/index.js';
import { readOptions } from './readOptions.js';
import type { Terminal } from './terminal.js';
import { textColumns } from './textColumns.js';
import { wrapText } from './wrapText.js';

const PLACE = 'halfmax look';
const WHAT_IT_IS =
  'A first look: the line spread of the instrument is in these numbers. A number after ± is one standard uncertainty ' +
  'from count noise, wavelength scale and drift of the lamp alone. For what the filters do, with intervals, verdicts ' +
  'and what they rest on: halfmax measure.';

/**
 * `halfmax look`: what a session holds, while the filters are still on the bench. Writes no file.
 *
 * @param args - words after `look`
 * @param terminal - where to write
 * @returns exit code 0
 * @throws {BadInputError} a wrong command or session
 */
export function lookCommand(args: readonly string[], terminal: Terminal): number {
  const words = readOptions(args, { json: 'flag' }, 'look');
  const [folder, ...surplus] = words.positional;
  if (folder === undefined)
    refuse(PLACE, 'SESSION', 'no session folder given', 'name the folder that holds session.json');
  if (surplus.length > 0)
    refuse(PLACE, surplus[0]!, 'one session at a time', 'look at each with a command of its own');
  const look = lookAtSession(readSession(folder));
  terminal.out(words.options.has('json') ? `${JSON.stringify(look, null, 1)}\n` : lookText(look));
  return 0;
}

/** A number with its uncertainty, or why there is none. */
function shown(number: Quantity): string {
  return isAbsent(number) ? `– (${number.absent})` : formatQuantity(number);
}

function lookText({ title, frames, scale, filters, warnings }: SessionLook): string {
  const [from, to] = scale.coveredNm;
  const lines = [
    title,
    '',
    ...wrapText(
      `Wavelengths: polynomial of order ${scale.order} through ${scale.linesUsed} of ${scale.linesFound} lamp lines, ` +
        `${from.toFixed(1)} to ${to.toFixed(1)} nm, residual rms ${scale.residualRmsNm.toFixed(4)} nm`,
      '',
    ),
    `Frames: ${frames.used} in use, ${frames.rejected.length} left out`,
  ];
  for (const { file, column, reason } of frames.rejected)
    lines.push(...wrapText(`${file}${column === '' ? '' : ` (${column})`}: ${reason}`, '  '));
  for (const { id, label, bands } of filters) {
    lines.push('', `${label} (${id})`);
    if (bands.length === 0) lines.push('  no passband found');
    for (const band of bands) {
      const target =
        band.target.length === 0 ? 'band without a named line' : `band for ${band.target.join(', ')}`;
      const rows = [
        ['FWHM / nm', shown(band.fwhmNm)],
        ['centre / nm', shown(band.centreNm)],
        ['peak transmittance', shown(band.peakTransmittance)],
        ...band.lines.map(({ name, transmittance }) => [`transmittance at ${name}`, shown(transmittance)]),
      ];
      lines.push(
        `  ${target}; line spread of the instrument there: ${band.lineSpreadNm.toFixed(2)} nm`,
        ...textColumns(rows, '    '),
      );
    }
  }
  if (warnings.length > 0) lines.push('', 'Warnings:');
  for (const { where, what } of warnings) lines.push(...wrapText(`${where}: ${what}`, '  '));
  lines.push('', ...wrapText(WHAT_IT_IS, ''), '');
  return lines.join('\n');
}
