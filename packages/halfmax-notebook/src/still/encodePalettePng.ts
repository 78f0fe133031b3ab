import { choosePalette } from './choosePalette.js';
import { pngFile } from './pngFile.js';

/** Colours of a file; the format allows 256. Some drawings have 1000, nearly all of them along edges. */
const MOST_COLOURS = 128;

/**
 * Pixels of a drawing as a small PNG file: a palette, and one byte a pixel. The same pixels always give the same bytes.
 *
 * Up to 128 colours are kept exactly; of more, see `choosePalette`. Rows have no filter, which suits numbers of colours
 * best.
 *
 * @param rgba - four bytes a pixel, row by row, length 4 x width x height
 * @param width - pixels
 * @param height - pixels
 * @returns the file
 * @throws {RangeError} as many bytes as the size does not want
 * Source: ISO/IEC 15948 (PNG): indexed colour, and its advice on the choice of filters.
 */
export function encodePalettePng(rgba: Uint8Array, width: number, height: number): Uint8Array {
  if (rgba.length !== 4 * width * height)
    throw new RangeError(`encodePalettePng requires ${4 * width * height} bytes, got ${rgba.length}`);
  const pixels = new DataView(rgba.buffer, rgba.byteOffset, rgba.length);
  const counts = new Map<number, number>();
  for (let at = 0; at < rgba.length; ) {
    const colour = pixels.getUint32(at);
    const from = at;
    do at += 4;
    while (at < rgba.length && pixels.getUint32(at) === colour);
    counts.set(colour, (counts.get(colour) ?? 0) + (at - from) / 4);
  }
  const { colours, placeOf } = choosePalette(counts, MOST_COLOURS);
  const rows = new Uint8Array((width + 1) * height);
  for (let y = 0, at = 0; y < height; y++) {
    const row = (width + 1) * y + 1;
    for (let x = 0; x < width; x++, at += 4) rows[row + x] = placeOf.get(pixels.getUint32(at))!;
  }
  const opacities = Uint8Array.from(colours, (colour) => colour & 255);
  const chunks: [string, Uint8Array][] = [
    ['PLTE', Uint8Array.from(colours.flatMap((c) => [c >>> 24, (c >>> 16) & 255, (c >>> 8) & 255]))],
  ];
  if (opacities.some((opacity) => opacity < 255)) chunks.push(['tRNS', opacities]);
  return pngFile(width, height, { colourType: 3, chunks, rows });
}
