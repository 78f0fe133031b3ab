import { closeSync, constants, fstatSync, openSync, readSync } from 'node:fs';
import { BadInputError, refuse } from '../errors.js';
import type { Place, StarImage } from '../halo/index.js';
import { fileFault } from './fileFault.js';
import { frameFormat } from './frameFormat.js';
import { type StarImageHeader, starImageHeader } from './starImageHeader.js';
import { starRowDecoder } from './starRowDecoder.js';

/** What of an image is kept. */
export interface StarImageOptions {
  /** Rough place of the star, pixels from (0, 0); left out: the brightest is looked for. */
  readonly near?: Place;
  /** Counts at and above which a pixel is full. */
  readonly saturationCounts: number;
  /** Pixels to each side of the star that are kept of a large image; left out: 1400. */
  readonly reach?: number;
}

/** The image of a star, and what its header says of the exposure. */
export interface StarFile extends StarImage {
  /** Seconds; null where the header does not say. */
  readonly exposureS: number | null;
}

/** Images of at most this many pixels are kept whole. */
const WHOLE = 8_000_000;
const REACH = 1400;
const CHUNK_BYTES = 8 * 1048576;
const BLOCK = 8;
/** Rows from one that is looked at for the star to the next. */
const ROUGH_ROWS = 4;

/**
 * Reads the image of a star from a FITS file, row after row: of a large frame only the surroundings of the star are
 * kept, so that memory is bounded whatever the size of the frame (32 MB of pixels).
 *
 * @param path - file to read
 * @param where - its name in messages
 * @param options - see there
 * @returns the image or a cut-out; numbers in single precision, NaN where undefined
 * @throws {BadInputError} not a FITS file with a 2-D image, cut short, too large
 */
export function readStarImage(path: string, where: string, options: StarImageOptions): StarFile {
  let handle: number | null = null;
  // Without O_NONBLOCK the opening of a pipe would wait for a writer.
  try {
    handle = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    const stats = fstatSync(handle);
    if (!stats.isFile()) refuse(where, '', 'is not a regular file', 'name a FITS file');
    const head = new Uint8Array(Math.min(stats.size, 512));
    readSync(handle, head, 0, head.length, 0);
    if (frameFormat(head) !== 'fits') refuse(where, '', 'is not a FITS file', 'a star image must be FITS');
    const header = starImageHeader(handle, stats.size, where);
    const { width, height, exposureS } = header;
    if (width * height <= WHOLE) {
      const counts = readWindow(handle, header, 0, 0, width, height, where);
      return { width, height, counts, offset: [0, 0], frame: [width, height], exposureS };
    }
    const star = options.near ?? roughStar(handle, header, options.saturationCounts, where);
    const reach = Math.max(64, Math.ceil(options.reach ?? REACH));
    const x0 = Math.max(0, Math.round(star.x) - reach);
    const y0 = Math.max(0, Math.round(star.y) - reach);
    const x1 = Math.min(width, Math.round(star.x) + reach + 1);
    const y1 = Math.min(height, Math.round(star.y) + reach + 1);
    if (x1 <= x0 || y1 <= y0) refuse(where, '', 'does not hold the place named', 'name a place in the image');
    return {
      width: x1 - x0,
      height: y1 - y0,
      counts: readWindow(handle, header, x0, y0, x1 - x0, y1 - y0, where),
      offset: [x0, y0],
      frame: [width, height],
      exposureS,
    };
  } catch (error) {
    if (error instanceof BadInputError) throw error;
    return refuse(where, '', `cannot be read: ${fileFault(error)}`, 'check the name and the permissions');
  } finally {
    if (handle !== null) closeSync(handle);
  }
}

/** What of the rows of an image is gone through: columns from x0 to before x1, every `step`th row from y0 to before y1. */
interface RowRange {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
  readonly step: number;
}

/** Goes through rows in chunks; `each` gets every row of the range, to be decoded. */
function eachRow(
  handle: number,
  header: StarImageHeader,
  range: RowRange,
  where: string,
  each: (decode: (out: Float32Array) => void, y: number) => void,
): void {
  const { bytesPerPixel, dataStart } = header;
  const { x0, y0, y1, step } = range;
  const width = range.x1 - x0;
  const rowBytes = width * bytesPerPixel;
  const rows = Math.max(1, Math.floor(CHUNK_BYTES / rowBytes));
  const buffer = new Uint8Array(rows * rowBytes);
  const decode = starRowDecoder(header, buffer);
  const fill = (y: number, begin: number, end: number): void => {
    const from = dataStart + (y * header.width + x0) * bytesPerPixel;
    let filled = begin;
    while (filled < end) {
      const got = readSync(handle, buffer, filled, end - filled, from + filled - begin);
      if (got === 0) refuse(where, '', 'became shorter while it was read', 'try again');
      filled += got;
    }
  };
  let start = 0;
  const decodeRow = (out: Float32Array): void => decode.row(start, out);
  for (let y = y0; y < y1; y += rows * step) {
    const count = Math.min(rows, Math.ceil((y1 - y) / step));
    if (step === 1 && width === header.width) fill(y, 0, count * rowBytes);
    else for (let k = 0; k < count; k++) fill(y + k * step, k * rowBytes, (k + 1) * rowBytes);
    decode.turn(count * rowBytes);
    for (let k = 0; k < count; k++) {
      start = k * width;
      each(decodeRow, y + k * step);
    }
  }
}

function readWindow(
  handle: number,
  header: StarImageHeader,
  x0: number,
  y0: number,
  width: number,
  height: number,
  where: string,
): Float32Array {
  const counts = new Float32Array(width * height);
  eachRow(handle, header, { x0, x1: x0 + width, y0, y1: y0 + height, step: 1 }, where, (decode, y) => {
    decode(counts.subarray((y - y0) * width, (y - y0 + 1) * width));
  });
  return counts;
}

/**
 * The block about which most pixels are full, or which is brightest where none are; a lone hot pixel is outvoted by
 * the blocks beside it.
 */
function roughStar(handle: number, header: StarImageHeader, saturation: number, where: string): Place {
  const { width, height } = header;
  const across = Math.ceil(width / BLOCK);
  const down = Math.ceil(height / BLOCK);
  const light = new Float32Array(across * down);
  const full = new Uint8Array(across * down);
  const row = new Float32Array(width);
  eachRow(handle, header, { x0: 0, x1: width, y0: 0, y1: height, step: ROUGH_ROWS }, where, (decode, y) => {
    decode(row);
    const start = Math.floor(y / BLOCK) * across;
    for (let i = 0; i < across; i++) {
      const end = Math.min(width, (i + 1) * BLOCK);
      let number = 0;
      let sum = 0;
      for (let x = i * BLOCK; x < end; x++) {
        const value = row[x]!;
        if (value >= saturation) {
          number++;
          sum += saturation;
        } else if (!Number.isNaN(value)) sum += value;
      }
      full[start + i]! += number;
      light[start + i]! += sum;
    }
  });
  let best = 0;
  let most = -1;
  let mostLight = Number.NEGATIVE_INFINITY;
  for (let j = 1; j < down - 1; j++) {
    for (let i = 1; i < across - 1; i++) {
      let number = 0;
      let sum = 0;
      for (let v = -1; v <= 1; v++) {
        for (let u = -1; u <= 1; u++) {
          const at = (j + v) * across + i + u;
          number += full[at]!;
          sum += light[at]!;
        }
      }
      // Fewer full pixels than half a dozen in those rows are hits, no star.
      const count = number < 6 ? 0 : number;
      if (count < most || (count === most && sum <= mostLight)) continue;
      most = count;
      mostLight = sum;
      best = j * across + i;
    }
  }
  return { x: ((best % across) + 0.5) * BLOCK, y: (Math.floor(best / across) + 0.5) * BLOCK };
}
