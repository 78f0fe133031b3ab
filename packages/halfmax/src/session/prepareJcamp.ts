import { refuse } from '../errors.js';
import { quoteValue } from './quoteValue.js';

/** Records whose value the converter turns into a number without a check: a comma or a remark would become 1 or 0. */
const numericRecords = ['FIRSTX', 'LASTX', 'FIRSTY', 'NPOINTS', 'XFACTOR', 'YFACTOR', 'DELTAX'];
const fix = 'export the frame again';

function withoutRemark(line: string): string {
  const at = line.indexOf('$$');
  return at < 0 ? line : line.slice(0, at);
}

/** One line of (X++(Y..Y)) data in the only form that the converter reads right. */
function packedLine(line: string, place: string, file: string): string {
  const spoilt = /[^\d+\-.,%@A-Za-s\s]/.exec(line);
  if (spoilt !== null) refuse(file, place, `holds ${quoteValue(spoilt[0])}, which is no ordinate`, fix);
  const word = /(?:^|\s)([+-]?(?:nan|inf(?:inity)?))(?=\s|$)/i.exec(line);
  if (word !== null) refuse(file, place, `${quoteValue(word[1])} is not a number`, fix);
  // E is also a digit of the squeezed form; only with a sign behind it can it be an exponent.
  const plain = line.replace(/[+-]?(?:\d+\.?\d*|\.\d+)[eE][+-]\d{1,3}/g, (text) => {
    const value = Number(text);
    return Math.abs(value) < 1e21 ? ` ${value.toFixed(12)}` : ` ${text}`;
  });
  if (!plain.includes(',')) return plain;
  const separates = plain.includes('.') || /,\S*,|,\s|,$/.test(plain);
  return separates ? plain.replaceAll(',', ' ') : plain;
}

/** One line of (XY..XY) data: every token must be a number. */
function pairLine(line: string, place: string, file: string): string {
  for (const token of line.split(/[\s,;]+/)) {
    if (token === '' || /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/.test(token)) continue;
    refuse(file, place, `${quoteValue(token)} is not a number`, fix);
  }
  return line;
}

/**
 * Checks a JCAMP-DX text line by line and rewrites what the converter would silently misread: remarks behind numbers,
 * exponents and commas in packed ordinates, and the record name XYPOINTS.
 *
 * @param text - the whole file
 * @param file - name for messages
 * @returns text of the same meaning
 * @throws {BadInputError} a non-number, a peak table, or no END record
 * Source: McDonald and Wilks, Appl. Spectrosc. 42, 151 (1988), JCAMP-DX 4.24, from memory.
 */
export function prepareJcamp(text: string, file: string): string {
  let data: 'none' | 'packed' | 'pairs' = 'none';
  let ended = false;
  const lines = text.split(/\r\n|\n|\r/).map((raw, i) => {
    const place = `line ${i + 1}`;
    const record = /^\s*##([^=]*)=(.*)$/s.exec(raw);
    if (record === null) {
      const line = withoutRemark(raw);
      if (data === 'packed') return packedLine(line, place, file);
      return data === 'pairs' ? pairLine(line, place, file) : raw;
    }
    const label = record[1]!.replace(/[\s_\-/]/g, '').toUpperCase();
    const value = record[2]!;
    data = 'none';
    if (label === 'END') ended = true;
    if (label === 'PEAKTABLE' || label === 'PEAKASSIGNMENTS') {
      refuse(file, place, 'holds a table of peaks, not a spectrum', 'export the whole spectrum');
    }
    if (label === 'XYDATA' || label === 'XYPOINTS' || label === 'DATATABLE') {
      data = value.includes('++') ? 'packed' : 'pairs';
      return label === 'XYPOINTS' ? `##XYDATA=${value}` : raw.trim();
    }
    if (numericRecords.includes(label)) {
      const number = withoutRemark(value).trim();
      if (number === '' || !Number.isFinite(Number(number))) {
        refuse(file, place, `##${label}= is ${quoteValue(number)}, not a number`, fix);
      }
      return `##${label}= ${number}`;
    }
    return raw.trim();
  });
  if (!ended) refuse(file, '', 'is cut short: it has no ##END= record', 'copy or export it again');
  return lines.join('\n');
}
