import { refuse } from '../errors.js';
import { blockSize, type FitsCard, type FitsValue, parseFitsHeader } from './parseFitsHeader.js';
import { quoteValue } from './quoteValue.js';

/** An image of a FITS file: its header, and where its data lie. Values come from {@link fitsPixels}. */
export interface FitsImage {
  /** Position in the file, 0 for the primary. */
  readonly hdu: number;
  /** EXTNAME, empty where there is none. */
  readonly name: string;
  readonly cards: readonly FitsCard[];
  /** NAXIS1, NAXIS2, ...; the first runs fastest. */
  readonly axes: readonly number[];
  readonly bitpix: 8 | 16 | 32 | 64 | -32 | -64;
  readonly bscale: number;
  readonly bzero: number;
  /** Stored value that means undefined; integers only. */
  readonly blank: number | null;
  /** First byte of the data. */
  readonly dataStart: number;
}

const bitpixValues: readonly number[] = [8, 16, 32, 64, -32, -64];

/**
 * Value of the first card with a keyword.
 *
 * @param cards - of one header, in their order
 * @param keyword - up to eight characters, without blanks
 * @returns the value, null where the header leaves it undefined; undefined where there is no such card
 */
export function fitsValue(cards: readonly FitsCard[], keyword: string): FitsValue | undefined {
  return cards.find((card) => card.keyword === keyword)?.value;
}

function wholeNumber(cards: readonly FitsCard[], keyword: string, hdu: number, file: string): number {
  const value = fitsValue(cards, keyword);
  const place = `HDU ${hdu}, ${keyword}`;
  const fix = 'the file is damaged: write it again';
  if (value === undefined) refuse(file, place, 'is missing', fix);
  if (typeof value !== 'number' || !Number.isSafeInteger(value) || value < 0) {
    const shown = typeof value === 'number' ? String(value) : quoteValue(value);
    refuse(file, place, `is ${shown}, must be a whole number of at least 0`, fix);
  }
  return value;
}

function optionalNumber(
  cards: readonly FitsCard[],
  keyword: string,
  fallback: number,
  hdu: number,
  file: string,
): number {
  const value = fitsValue(cards, keyword) ?? fallback;
  if (typeof value === 'number' && Number.isFinite(value)) return value;
  return refuse(
    file,
    `HDU ${hdu}, ${keyword}`,
    `is ${quoteValue(value)}, not a number`,
    'write the file again',
  );
}

function readAxes(cards: readonly FitsCard[], hdu: number, file: string): number[] {
  const count = wholeNumber(cards, 'NAXIS', hdu, file);
  if (count > 999)
    refuse(file, `HDU ${hdu}, NAXIS`, `is ${count}, at most 999 is allowed`, 'write the file again');
  return Array.from({ length: count }, (_, i) => wholeNumber(cards, `NAXIS${i + 1}`, hdu, file));
}

/** Bytes of an HDU's data without padding; checked against the file before anything is set aside for it. */
function dataSize(
  cards: readonly FitsCard[],
  axes: readonly number[],
  bitpix: number,
  hdu: number,
  file: string,
): number {
  if (axes.length === 0) return 0;
  const groups = hdu === 0 ? 1 : optionalNumber(cards, 'GCOUNT', 1, hdu, file);
  const parameters = hdu === 0 ? 0 : optionalNumber(cards, 'PCOUNT', 0, hdu, file);
  const size = (Math.abs(bitpix) / 8) * groups * (parameters + axes.reduce((product, n) => product * n, 1));
  if (groups >= 0 && parameters >= 0 && Number.isSafeInteger(size)) return size;
  return refuse(
    file,
    `HDU ${hdu}`,
    `says that it holds ${size} bytes, which cannot be`,
    'the file is damaged: write it again',
  );
}

function checkFirstCard(cards: readonly FitsCard[], hdu: number, file: string): void {
  const first = cards[0];
  if (hdu === 0) {
    if (first?.keyword !== 'SIMPLE')
      refuse(file, 'header', 'does not begin with SIMPLE', 'is it a FITS file?');
    if (first.value !== true)
      refuse(
        file,
        'SIMPLE',
        'says that the file does not follow the FITS standard',
        'write it as standard FITS',
      );
    if (fitsValue(cards, 'GROUPS') === true && fitsValue(cards, 'NAXIS1') === 0) {
      refuse(file, 'GROUPS', 'says random groups, which are not read here', 'save it as a plain image');
    }
  } else if (fitsValue(cards, 'ZIMAGE') === true) {
    refuse(
      file,
      `HDU ${hdu}`,
      'is a tile-compressed image, which is not read here',
      'save it without compression',
    );
  }
}

/**
 * Finds the images of a FITS file. Tables and other extensions are stepped over; an image without data (NAXIS = 0) is
 * left out.
 *
 * @param bytes - the whole file
 * @param file - name for messages
 * @returns the images in file order, without their values
 * @throws {BadInputError} not FITS, random groups, tile compression, a damaged header, data cut short
 * Source: FITS Standard 4.0, sections 3, 4.4, 5.3, 7 and appendix A; unsigned integers by BZERO as in section 5.2.5.
 */
export function parseFits(bytes: Uint8Array, file: string): FitsImage[] {
  const images: FitsImage[] = [];
  let at = 0;
  for (let hdu = 0; at < bytes.length; hdu++) {
    const begins = String.fromCharCode(...bytes.subarray(at, at + 8));
    // What follows the last HDU and is no extension are special records or padding: not ours to judge.
    if (hdu > 0 && begins !== 'XTENSION') break;
    const { cards, dataStart } = parseFitsHeader(bytes, at, file);
    checkFirstCard(cards, hdu, file);
    const bitpix = fitsValue(cards, 'BITPIX');
    if (typeof bitpix !== 'number' || !bitpixValues.includes(bitpix)) {
      const shown = bitpix === undefined ? 'is missing' : `is ${quoteValue(bitpix)}`;
      refuse(file, `HDU ${hdu}, BITPIX`, shown, 'it must be 8, 16, 32, 64, -32 or -64');
    }
    const axes = readAxes(cards, hdu, file);
    const size = dataSize(cards, axes, bitpix, hdu, file);
    if (dataStart + size > bytes.length) {
      const held = Math.max(0, bytes.length - dataStart);
      refuse(
        file,
        `HDU ${hdu}`,
        `is cut short: ${size} bytes of data are announced, the file holds ${held}`,
        'copy or write it again',
      );
    }
    const isImage = hdu === 0 || fitsValue(cards, 'XTENSION') === 'IMAGE';
    if (isImage && size > 0) {
      const blank = bitpix > 0 ? fitsValue(cards, 'BLANK') : undefined;
      const name = fitsValue(cards, 'EXTNAME');
      images.push({
        hdu,
        name: typeof name === 'string' ? name : '',
        cards,
        axes,
        bitpix: bitpix as FitsImage['bitpix'],
        bscale: optionalNumber(cards, 'BSCALE', 1, hdu, file),
        bzero: optionalNumber(cards, 'BZERO', 0, hdu, file),
        blank: typeof blank === 'number' ? blank : null,
        dataStart,
      });
    }
    at = dataStart + Math.ceil(size / blockSize) * blockSize;
  }
  return images;
}
