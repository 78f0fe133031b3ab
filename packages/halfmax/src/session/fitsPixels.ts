import type { FitsImage } from './parseFits.js';

/** Reads the stored value at a byte. */
type Reader = (view: DataView, at: number) => number;

const readers: Readonly<Record<number, Reader>> = {
  8: (view, at) => view.getUint8(at),
  16: (view, at) => view.getInt16(at),
  32: (view, at) => view.getInt32(at),
  [-32]: (view, at) => view.getFloat32(at),
  [-64]: (view, at) => view.getFloat64(at),
};

/** 64-bit integers: a whole BZERO is added before the value becomes a double, so that each is rounded once. */
function readLong(view: DataView, image: FitsImage, out: Float64Array): void {
  const { bscale, bzero, blank } = image;
  const wholeOffset = bscale === 1 && Number.isInteger(bzero) ? BigInt(bzero) : null;
  const blankLong = blank === null ? null : BigInt(Math.trunc(blank));
  for (let i = 0; i < out.length; i++) {
    const stored = view.getBigInt64(8 * i);
    if (stored === blankLong) out[i] = Number.NaN;
    else out[i] = wholeOffset === null ? bzero + bscale * Number(stored) : Number(stored + wholeOffset);
  }
}

/**
 * The physical values of a FITS image: BZERO + BSCALE x stored.
 *
 * @param bytes - the whole file
 * @param image - as found by `parseFits` in the same bytes
 * @returns values in file order, axis 1 fastest; NaN where undefined (BLANK of integers, NaN of floats)
 * Source: FITS Standard 4.0, sections 4.4.2.5 and 5. Cost: O(values).
 */
export function fitsPixels(bytes: Uint8Array, image: FitsImage): Float64Array {
  const length = image.axes.reduce((product, n) => product * n, 1);
  const size = Math.abs(image.bitpix) / 8;
  const view = new DataView(bytes.buffer, bytes.byteOffset + image.dataStart, length * size);
  const out = new Float64Array(length);
  if (image.bitpix === 64) {
    readLong(view, image, out);
    return out;
  }
  const read = readers[image.bitpix]!;
  const { bscale, bzero, blank } = image;
  for (let i = 0; i < length; i++) {
    const stored = read(view, i * size);
    out[i] = stored === blank ? Number.NaN : bzero + bscale * stored;
  }
  return out;
}
