import { crc32, deflateSync } from 'node:zlib';

/**
 * Pixels as a PNG file.
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
  const header = new Uint8Array(13);
  const view = new DataView(header.buffer);
  view.setUint32(0, width);
  view.setUint32(4, height);
  header.set([8, 6, 0, 0, 0], 8);
  const rows = new Uint8Array((4 * width + 1) * height);
  for (let y = 0; y < height; y++)
    rows.set(rgba.subarray(4 * width * y, 4 * width * (y + 1)), (4 * width + 1) * y + 1);
  return Buffer.concat([
    Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(rows)),
    chunk('IEND', new Uint8Array(0)),
  ]);
}

function chunk(type: string, data: Uint8Array): Uint8Array {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const check = Buffer.alloc(4);
  check.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, check]);
}
