import { readSync } from 'node:fs';
import { refuse } from '../errors.js';
import { fitsValue } from './parseFits.js';
import { parseFitsHeader } from './parseFitsHeader.js';
import { quoteValue } from './quoteValue.js';

/** Where the pixels of a 2-D image lie in a FITS file, and what they mean. */
export interface StarImageHeader {
  readonly width: number;
  readonly height: number;
  readonly bitpix: 8 | 16 | 32 | 64 | -32 | -64;
  readonly bytesPerPixel: number;
  readonly bscale: number;
  readonly bzero: number;
  readonly blank: number | null;
  readonly dataStart: number;
  /** Exposure that the header states, s; null where it does not. */
  readonly exposureS: number | null;
}

const BLOCK_BYTES = 2880;
const HEADER_BYTES = 64 * BLOCK_BYTES;
const MOST_PIXELS = 400_000_000;
const BITPIX: readonly number[] = [8, 16, 32, 64, -32, -64];

/**
 * Finds the first 2-D image of a FITS file by its headers, without reading any pixel.
 *
 * @param handle - open file
 * @param size - of the file, bytes
 * @param where - its name in messages
 * @returns place and meaning of the pixels
 * @throws {BadInputError} no 2-D image, a compressed one, one cut short, a header that makes no sense
 *
 * Source: FITS Standard 4.0, sections 3, 4.4 and 5.3.
 */
export function starImageHeader(handle: number, size: number, where: string): StarImageHeader {
  let at = 0;
  for (let hdu = 0; at < size; hdu++) {
    const bytes = new Uint8Array(Math.min(HEADER_BYTES, size - at));
    readSync(handle, bytes, 0, bytes.length, at);
    if (hdu > 0 && String.fromCharCode(...bytes.subarray(0, 8)) !== 'XTENSION') break;
    const { cards, dataStart } = parseFitsHeader(bytes, 0, where);
    const number = (keyword: string, fallback: number): number => {
      const value = fitsValue(cards, keyword) ?? fallback;
      if (typeof value === 'number' && Number.isFinite(value)) return value;
      return refuse(
        where,
        `HDU ${hdu}, ${keyword}`,
        `is ${quoteValue(value)}, not a number`,
        'write the file again',
      );
    };
    if (fitsValue(cards, 'ZIMAGE') === true) {
      refuse(
        where,
        `HDU ${hdu}`,
        'is a tile-compressed image, which is not read here',
        'save it without compression',
      );
    }
    const bitpix = number('BITPIX', 0);
    if (!BITPIX.includes(bitpix))
      refuse(where, `HDU ${hdu}, BITPIX`, `is ${bitpix}`, 'it must be 8, 16, 32, 64, -32 or -64');
    const axes = Array.from({ length: Math.min(9, number('NAXIS', 0)) }, (_, k) =>
      number(`NAXIS${k + 1}`, 0),
    );
    if (axes.some((axis) => !Number.isSafeInteger(axis) || axis < 0))
      refuse(where, `HDU ${hdu}`, `has the size ${axes.join(' x ')}`, 'the file is damaged: write it again');
    const start = at + dataStart;
    const isImage = hdu === 0 || fitsValue(cards, 'XTENSION') === 'IMAGE';
    const values = axes.length === 0 ? 0 : axes.reduce((product, axis) => product * axis, 1);
    const dataBytes =
      (Math.abs(bitpix) / 8) * (hdu === 0 ? values : number('GCOUNT', 1) * (number('PCOUNT', 0) + values));
    // A third axis of length 1 is common in what programs write.
    const flat = axes.length >= 2 && axes.slice(2).every((axis) => axis === 1);
    if (isImage && values > 0 && flat) {
      if (values > MOST_PIXELS)
        refuse(where, '', `has ${values} pixels, at most ${MOST_PIXELS} are read`, 'cut the star out');
      if (start + dataBytes > size) {
        refuse(
          where,
          `HDU ${hdu}`,
          `is cut short: ${dataBytes} bytes of data are announced, the file holds ${Math.max(0, size - start)}`,
          'copy or write it again',
        );
      }
      const blank = bitpix > 0 ? fitsValue(cards, 'BLANK') : undefined;
      const exposure = fitsValue(cards, 'EXPTIME') ?? fitsValue(cards, 'EXPOSURE');
      return {
        width: axes[0]!,
        height: axes[1]!,
        bitpix: bitpix as StarImageHeader['bitpix'],
        bytesPerPixel: Math.abs(bitpix) / 8,
        bscale: number('BSCALE', 1),
        bzero: number('BZERO', 0),
        blank: typeof blank === 'number' ? blank : null,
        dataStart: start,
        exposureS: typeof exposure === 'number' && exposure > 0 ? exposure : null,
      };
    }
    if (isImage && values > 0 && axes.length > 2) {
      refuse(
        where,
        `HDU ${hdu}`,
        `is an image of ${axes.join(' x ')}`,
        'give one plane: a colour is measured by itself',
      );
    }
    at = start + Math.ceil(dataBytes / BLOCK_BYTES) * BLOCK_BYTES;
  }
  return refuse(where, '', 'holds no 2-D image', 'give the image of a star');
}
