import { refuse } from '../errors.js';
import { quoteValue } from './quoteValue.js';

/** Value of a header card; null where the standard says undefined, or where it is a complex number. */
export type FitsValue = string | number | boolean | null;

/** One card of a FITS header that has a value. */
export interface FitsCard {
  readonly keyword: string;
  readonly value: FitsValue;
}

/** Bytes of a FITS block: headers and data fill whole ones. FITS Standard 4.0, section 3.1. */
export const blockSize: number = 2880;
const cardSize = 80;
const maxBlocks = 4000;
const numberForm = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[ED][+-]?\d+)?$/i;

/** The value in columns 11 to 80: quoted text, logical, number; a comment after the slash is left out. */
function cardValue(field: string, keyword: string, file: string): FitsValue {
  const text = field.trim();
  if (text.startsWith("'")) {
    const match = /^'((?:[^']|'')*)'/.exec(text);
    if (match === null)
      refuse(
        file,
        `header keyword ${keyword}`,
        'has a text without its closing quote',
        'write the file again',
      );
    return match[1]!.replaceAll("''", "'").trimEnd();
  }
  const slash = text.indexOf('/');
  const token = (slash < 0 ? text : text.slice(0, slash)).trim();
  if (token === '' || token.startsWith('(')) return null;
  if (token === 'T') return true;
  if (token === 'F') return false;
  if (numberForm.test(token)) return Number(token.replace(/d/i, 'e'));
  return refuse(
    file,
    `header keyword ${keyword}`,
    `has the value ${quoteValue(token)}, which is none that FITS knows`,
    'write the file again',
  );
}

/**
 * Reads one FITS header.
 *
 * @param bytes - the whole file
 * @param start - where the header begins, a multiple of 2880
 * @param file - name for messages
 * @returns the cards that have values, in order, and where the data begin
 * @throws {BadInputError} characters other than ASCII 32 to 126, an unreadable value, no END card
 * Source: FITS Standard 4.0, sections 3.3.1 and 4 (cards of 80 characters in blocks of 2880, value indicator "= " in
 * columns 9 and 10).
 */
export function parseFitsHeader(
  bytes: Uint8Array,
  start: number,
  file: string,
): { cards: FitsCard[]; dataStart: number } {
  const cards: FitsCard[] = [];
  const limit = Math.min(bytes.length, start + maxBlocks * blockSize);
  for (let at = start, n = 1; at + cardSize <= limit; at += cardSize, n++) {
    let card = '';
    for (let i = at; i < at + cardSize; i++) {
      const c = bytes[i]!;
      if (c < 32 || c > 126) {
        refuse(
          file,
          `header card ${n}`,
          `holds the byte ${c}, which is no plain text`,
          'the file is damaged: write it again',
        );
      }
      card += String.fromCharCode(c);
    }
    const keyword = card.slice(0, 8).trimEnd();
    if (keyword === 'END' && card.slice(8).trim() === '') {
      return { cards, dataStart: start + Math.ceil((at + cardSize - start) / blockSize) * blockSize };
    }
    if (card.slice(8, 10) === '= ' && keyword !== '' && keyword !== 'COMMENT' && keyword !== 'HISTORY') {
      cards.push({ keyword, value: cardValue(card.slice(10), keyword, file) });
    }
  }
  const what =
    limit < bytes.length
      ? `has no END within ${maxBlocks} blocks`
      : 'ends before its header does: no END card';
  return refuse(file, 'header', what, 'the file is cut short or damaged: write it again');
}
