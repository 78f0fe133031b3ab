import { crc32, deflateSync } from 'node:zlib';

/** What a PNG file is made of, beside its size. */
export interface PngParts {
  /** 6: red, green, blue and opacity; 3: numbers of colours in a palette. */
  readonly colourType: 3 | 6;
  /** Between the header and the pixels, such as `PLTE`. */
  readonly chunks?: readonly (readonly [type: string, data: Uint8Array])[];
  /** 8 bits a sample, row by row, each row without a filter and with the byte that says so before it. */
  readonly rows: Uint8Array;
}

/**
 * A PNG file of 8 bits a sample.
 *
 * @param width - pixels
 * @param height - pixels
 * @param parts - what is in it
 * @returns the file
 * Source: ISO/IEC 15948 (PNG).
 */
export function pngFile(width: number, height: number, parts: PngParts): Uint8Array {
  const header = new Uint8Array(13);
  const view = new DataView(header.buffer);
  view.setUint32(0, width);
  view.setUint32(4, height);
  header.set([8, parts.colourType, 0, 0, 0], 8);
  return Buffer.concat([
    Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a),
    chunk('IHDR', header),
    ...(parts.chunks ?? []).map(([type, data]) => chunk(type, data)),
    // Smaller blocks, each with a code of its own: some hundredths shorter on drawings than the usual 8.
    chunk('IDAT', deflateSync(parts.rows, { level: 9, memLevel: 6 })),
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
