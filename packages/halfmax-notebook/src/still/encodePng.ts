import { pngFile } from './pngFile.js';

/**
 * Pixels as a PNG file, each with its own colour.
 *
 * @param rgba - four bytes a pixel, row by row, length 4 x width x height
 * @param width - pixels
 * @param height - pixels
 * @returns the file
 * @throws {RangeError} as many bytes as the size does not want
 * Source: ISO/IEC 15948 (PNG).
 */
export function encodePng(rgba: Uint8Array, width: number, height: number): Uint8Array {
  if (rgba.length !== 4 * width * height)
    throw new RangeError(`encodePng requires ${4 * width * height} bytes, got ${rgba.length}`);
  const rows = new Uint8Array((4 * width + 1) * height);
  for (let y = 0; y < height; y++)
    rows.set(rgba.subarray(4 * width * y, 4 * width * (y + 1)), (4 * width + 1) * y + 1);
  return pngFile(width, height, { colourType: 6, rows });
}
