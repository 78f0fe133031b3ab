import { convert, type Spectrum } from 'jcampconverter';
import { BadInputError, refuse } from '../errors.js';
import type { Scan } from '../frames/types.js';
import { prepareJcamp } from './prepareJcamp.js';
import { quoteValue } from './quoteValue.js';

const fix = 'export the frame again';

/** nm per unit of the abscissa, or null where it is no wavelength. */
function nmPerUnit(units: unknown): number | null {
  const text = typeof units === 'string' ? units : '';
  if (/nanomet|\bnm\b/i.test(text)) return 1;
  if (/micromet|micron|[µμu]m\b/i.test(text)) return 1000;
  return /angstr|[åÅ]/i.test(text) ? 0.1 : null;
}

function scanOf(spectrum: Spectrum, column: string, file: string): Scan {
  const place = column === '' ? 'XYDATA' : `block ${quoteValue(column)}`;
  const units = spectrum['yUnits'] as unknown;
  if (typeof units === 'string' && /transmi|absorb|reflect|kubelka/i.test(units)) {
    refuse(file, place, `holds ${quoteValue(units)}`, 'a frame must hold raw counts');
  }
  const x = spectrum.data['x'] ?? [];
  const y = spectrum.data['y'] ?? [];
  const announced = spectrum.nbPoints;
  if (announced !== undefined && announced !== y.length) {
    refuse(
      file,
      place,
      `holds ${y.length} values, ##NPOINTS= says ${announced}`,
      'the file is cut short or damaged: export it again',
    );
  }
  const bad = y.findIndex((value) => !Number.isFinite(value));
  if (bad >= 0) refuse(file, place, `value ${bad + 1} is not a number`, fix);
  const scale = nmPerUnit(spectrum['xUnits']);
  const stepKnown =
    spectrum['isPeaktable'] === true || (spectrum.firstX !== undefined && spectrum.deltaX !== undefined);
  const wavelengthNm =
    scale !== null && stepKnown && x.length === y.length ? Float64Array.from(x, (v) => v * scale) : null;
  return { file, column, counts: Float64Array.from(y), wavelengthNm };
}

/**
 * The spectra of a JCAMP-DX file: XYDATA in all packed forms, XYPOINTS, several blocks. The order of the file is kept,
 * whichever way the abscissa runs.
 *
 * @param text - the whole file
 * @param file - name relative to the session folder
 * @returns one scan per spectrum
 * @throws {BadInputError} a non-number, fewer values than announced, a failed check ordinate, no spectrum, peaks only
 * Source: JCAMP-DX 4.24 as in {@link prepareJcamp}; decoding by the package jcampconverter.
 */
export function parseJcamp(text: string, file: string): Scan[] {
  const prepared = prepareJcamp(text, file);
  const complaints: string[] = [];
  const note = (first: unknown, second?: unknown): void => {
    complaints.push(typeof first === 'string' ? first : String(second));
  };
  const quiet = (): void => {};
  const logger = {
    trace: note,
    debug: quiet,
    info: quiet,
    warn: note,
    error: note,
    fatal: note,
    child: () => logger,
  };
  try {
    const { flatten } = convert(prepared, { noContour: true, keepSpectra: true, logger: logger as never });
    // A difference-coded line must begin with the last value of the line before: a lost line shows here.
    const broken = complaints.find((text) =>
      /should repeat the same value|^Format error: .*\S|Wrong number of columns/.test(text),
    );
    if (broken !== undefined)
      refuse(file, 'XYDATA', `does not decode (${broken})`, 'the file is damaged: export it again');
    const blocks = flatten.filter((entry) => entry.spectra.length > 0);
    const several = blocks.length > 1 || (blocks[0]?.spectra.length ?? 0) > 1;
    if (blocks.length === 0) refuse(file, '', 'holds no spectrum', 'export it with XYDATA');
    return blocks.flatMap((entry, b) =>
      entry.spectra.map((spectrum, s) => {
        const title = entry.title?.trim() || `block ${b + 1}`;
        const name = entry.spectra.length > 1 ? `${title}, page ${s + 1}` : title;
        return scanOf(spectrum, several ? name : '', file);
      }),
    );
  } catch (error) {
    if (error instanceof BadInputError) throw error;
    const reason = error instanceof Error ? error.message : String(error);
    return refuse(file, '', `is no JCAMP-DX that can be decoded (${reason})`, fix);
  }
}
