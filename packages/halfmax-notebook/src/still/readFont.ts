/** What setting a line of text needs to know of a font. */
export interface FontMetrics {
  /** Advance width by code point, in parts of the font size. */
  readonly advances: ReadonlyMap<number, number>;
  /** Above and below the base line, in parts of the font size. */
  readonly ascent: number;
  readonly descent: number;
}

/**
 * Reads the advance widths of a TrueType font.
 *
 * @param bytes - the font file
 * @returns widths of all characters it maps, ascent and descent, over the font size
 * @throws {RangeError} no TrueType font, or one without the tables for Unicode
 * Source: OpenType specification (ISO/IEC 14496-22): tables head, hhea, hmtx, and cmap formats 4 and 12.
 */
export function readFont(bytes: Uint8Array): FontMetrics {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tables = new Map<string, number>();
  for (let i = 0; i < view.getUint16(4); i++) {
    const at = 12 + 16 * i;
    tables.set(String.fromCharCode(...bytes.subarray(at, at + 4)), view.getUint32(at + 8));
  }
  const table = (tag: string): number => {
    const offset = tables.get(tag);
    if (offset === undefined) throw new RangeError(`readFont requires the table ${tag}, got a font without`);
    return offset;
  };
  const unitsPerEm = view.getUint16(table('head') + 18);
  const hhea = table('hhea');
  const long = view.getUint16(hhea + 34);
  const advance = (glyph: number): number =>
    view.getUint16(table('hmtx') + 4 * Math.min(glyph, long - 1)) / unitsPerEm;
  const advances = new Map<number, number>();
  for (const [code, glyph] of glyphsOf(view, table('cmap'))) advances.set(code, advance(glyph));
  return {
    advances,
    ascent: view.getInt16(hhea + 4) / unitsPerEm,
    descent: -view.getInt16(hhea + 6) / unitsPerEm,
  };
}

function glyphsOf(view: DataView, cmap: number): Map<number, number> {
  const glyphs = new Map<number, number>();
  for (let i = 0; i < view.getUint16(cmap + 2); i++) {
    const platform = view.getUint16(cmap + 4 + 8 * i);
    if (platform !== 0 && platform !== 3) continue;
    const at = cmap + view.getUint32(cmap + 8 + 8 * i);
    const format = view.getUint16(at);
    if (format === 4) readSegments(view, at, glyphs);
    if (format === 12) readGroups(view, at, glyphs);
  }
  if (glyphs.size === 0) throw new RangeError('readFont requires a Unicode cmap of format 4 or 12, got none');
  return glyphs;
}

function readSegments(view: DataView, at: number, glyphs: Map<number, number>): void {
  const count = view.getUint16(at + 6) / 2;
  for (let i = 0; i < count; i++) {
    const end = view.getUint16(at + 14 + 2 * i);
    const start = view.getUint16(at + 16 + 2 * (count + i));
    const delta = view.getInt16(at + 16 + 2 * (2 * count + i));
    const rangeAt = at + 16 + 2 * (3 * count + i);
    const range = view.getUint16(rangeAt);
    for (let code = start; code <= end && code < 0xffff; code++) {
      const raw = range === 0 ? code : view.getUint16(rangeAt + range + 2 * (code - start));
      const glyph = range !== 0 && raw === 0 ? 0 : (raw + delta) & 0xffff;
      if (glyph !== 0) glyphs.set(code, glyph);
    }
  }
}

function readGroups(view: DataView, at: number, glyphs: Map<number, number>): void {
  for (let i = 0; i < view.getUint32(at + 12); i++) {
    const group = at + 16 + 12 * i;
    const start = view.getUint32(group);
    for (let code = start; code <= view.getUint32(group + 4); code++)
      glyphs.set(code, view.getUint32(group + 8) + code - start);
  }
}
