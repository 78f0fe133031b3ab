import { encodeFits } from './encodeFits.mjs';

/**
 * @typedef {import('./types.mjs').SimulatedEntry} SimulatedEntry
 * @typedef {import('./types.mjs').SimulatedScan} SimulatedScan
 * @typedef {'plain' | 'decimal comma' | 'wavelength' | 'columns' | 'fits' | 'jcamp'} FrameFormat
 *
 * @typedef {object} FormatRule the first rule that fits a frame decides; one plain column otherwise
 * @property {FrameFormat} format
 * @property {string} [role]
 * @property {string} [lamp]
 * @property {string} [filter]
 * @property {number} [exposureMs]
 * @property {number} [frame] only this frame of the entry, from 0; it should be the last
 *
 * @typedef {object} WrittenEntry
 * @property {string[]} files as the session file names them
 * @property {Pick<SimulatedScan, 'file' | 'column' | 'wavelengthNm'>[]} scans what a reader will call each frame
 */

const folders = { dark: 'darks', lamp: 'lamps', open: 'scans', filtered: 'scans' };
const extensions = {
  plain: 'txt',
  'decimal comma': 'csv',
  wavelength: 'tsv',
  columns: 'csv',
  fits: 'fits',
  jcamp: 'jdx',
};

/**
 * Writes the frames of a session in the formats its rules ask for.
 *
 * @param {readonly SimulatedEntry[]} entries
 * @param {Float64Array} wavelengthNm the true scale; the files get the instrument's own, slightly wrong one
 * @param {import('./types.mjs').SessionSpec} spec
 * @returns {{ files: { name: string, content: string | Uint8Array }[], written: WrittenEntry[] }}
 */
export function writeFrameFiles(entries, wavelengthNm, spec) {
  const own = ownScale(wavelengthNm, spec.ownScaleErrorNm ?? [0.2, -0.15, 0.1]);
  /** @type {{ name: string, content: string | Uint8Array }[]} */
  const files = [];
  const written = entries.map((entry) => {
    const stem = `${folders[entry.role]}/${(entry.scans[0]?.file ?? '').replace(/-\d+\.txt$/, '')}`;
    const formats = entry.scans.map((_, frame) => formatOf(spec.formats ?? [], entry, frame));
    if (formats[0] === 'columns') {
      const name = `${stem}.csv`;
      files.push({ name, content: columnsText(entry) });
      const scans = entry.scans.map((_, frame) => ({
        file: name,
        column: `frame ${frame + 1}`,
        wavelengthNm: null,
      }));
      return { files: [name], scans };
    }
    const scans = entry.scans.map((scan, frame) => {
      const format = formats[frame] ?? 'plain';
      const name = `${stem}-${String(frame + 1).padStart(2, '0')}.${extensions[format]}`;
      files.push({ name, content: frameContent(format, scan.counts, own, entry) });
      return { file: name, column: '', wavelengthNm: format === 'wavelength' ? own : null };
    });
    const patterns = [...new Set(formats)].map((format) => {
      const count = formats.filter((one) => one === format).length;
      const only = String(formats.indexOf(format) + 1).padStart(2, '0');
      return `${stem}-${count === 1 ? only : '*'}.${extensions[format]}`;
    });
    return { files: patterns, scans };
  });
  return { files, written };
}

/**
 * @param {readonly FormatRule[]} rules
 * @param {SimulatedEntry} entry
 * @param {number} frame
 * @returns {FrameFormat}
 */
function formatOf(rules, entry, frame) {
  const rule = rules.find(
    (one) =>
      (one.role === undefined || one.role === entry.role) &&
      (one.lamp === undefined || one.lamp === entry.lamp) &&
      (one.filter === undefined || one.filter === entry.filter) &&
      (one.exposureMs === undefined || one.exposureMs === entry.exposureMs) &&
      (one.frame === undefined || one.frame === frame),
  );
  return rule?.format ?? 'plain';
}

/**
 * The scale that the instrument has stored: off by a parabola, and rounded.
 *
 * @param {Float64Array} wavelengthNm
 * @param {readonly number[]} errorNm at the middle, growth to the red end, bend
 * @returns {Float64Array}
 */
function ownScale(wavelengthNm, errorNm) {
  const half = (wavelengthNm.length - 1) / 2;
  const [middle = 0, slope = 0, bend = 0] = errorNm;
  return wavelengthNm.map((nm, i) => {
    const t = (i - half) / half;
    return Math.round((nm + middle + slope * t + bend * t * t) * 100) / 100;
  });
}

/**
 * @param {FrameFormat} format
 * @param {Float64Array} counts
 * @param {Float64Array} own
 * @param {SimulatedEntry} entry
 * @returns {string | Uint8Array}
 */
function frameContent(format, counts, own, entry) {
  switch (format) {
    case 'decimal comma':
      return `Exposure;${entry.exposureMs},0;ms\npixel;counts\n${Array.from(counts, (value, i) => `${i};${value},0`).join('\n')}\n`;
    case 'wavelength':
      return (
        `Bench spectrometer, raw counts\nLamp\t${entry.lamp ?? 'broadband'}\nIntegration time (ms)\t${entry.exposureMs}\n` +
        `Wavelength (nm)\tCounts\n${Array.from(counts, (value, i) => `${(own[i] ?? 0).toFixed(2)}\t${value}`).join('\n')}\n`
      );
    case 'fits':
      return encodeFits(counts, [
        ['EXPTIME', entry.exposureMs / 1000, 'exposure in seconds'],
        ['BUNIT', 'count', 'raw counts'],
      ]);
    case 'jcamp':
      return jcampText(counts, entry);
    default:
      return `${Array.from(counts).join('\n')}\n`;
  }
}

/**
 * All frames of an entry side by side.
 *
 * @param {SimulatedEntry} entry
 * @returns {string}
 */
function columnsText(entry) {
  const head = `pixel,${entry.scans.map((_, frame) => `frame ${frame + 1}`).join(',')}`;
  const pixels = entry.scans[0]?.counts.length ?? 0;
  const rows = Array.from(
    { length: pixels },
    (_, i) => `${i},${entry.scans.map((scan) => scan.counts[i]).join(',')}`,
  );
  return `${[head, ...rows].join('\n')}\n`;
}

/**
 * One frame as JCAMP-DX, in the plain form (AFFN) with pixel numbers for the abscissa.
 *
 * Source: McDonald, Wilks, Appl. Spectrosc. 42, 151 (1988).
 *
 * @param {Float64Array} counts
 * @param {SimulatedEntry} entry
 * @returns {string}
 */
function jcampText(counts, entry) {
  const rows = [];
  for (let i = 0; i < counts.length; i += 8)
    rows.push(`${i} ${Array.from(counts.subarray(i, i + 8)).join(' ')}`);
  const last = counts.length - 1;
  return `${[
    `##TITLE=${entry.lamp ?? entry.role} ${entry.exposureMs} ms`,
    '##JCAMP-DX=4.24',
    '##DATA TYPE=UV-VIS SPECTRUM',
    '##ORIGIN=simulated bench',
    '##OWNER=nobody',
    '##XUNITS=ARBITRARY UNITS',
    '##YUNITS=ARBITRARY UNITS',
    '##XFACTOR=1',
    '##YFACTOR=1',
    '##FIRSTX=0',
    `##LASTX=${last}`,
    '##DELTAX=1',
    `##NPOINTS=${counts.length}`,
    `##FIRSTY=${counts[0]}`,
    `##MAXY=${counts.reduce((most, value) => Math.max(most, value))}`,
    `##MINY=${counts.reduce((least, value) => Math.min(least, value))}`,
    '##XYDATA=(X++(Y..Y))',
    ...rows,
    '##END=',
  ].join('\n')}\n`;
}
