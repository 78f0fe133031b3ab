import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type FontMetrics, readFont } from './readFont.js';

/** The font of the figures, first in their lists of fonts. */
export const FIGURE_FONT: string = 'Noto Sans';

/** The file of the font. */
export const fontFile: string = fileURLToPath(new URL('../../fonts/NotoSans-figures.ttf', import.meta.url));

const M = 0x4d;
const ZERO_WIDTH_SPACE = 0x200b;
let metrics: FontMetrics | null = null;

/**
 * The metrics of the font of the figures, read once.
 *
 * @returns advance widths, ascent and descent
 */
export function figureFont(): FontMetrics {
  metrics ??= readFont(readFileSync(fontFile));
  return metrics;
}

/**
 * Width of a line of text in the font of the figures.
 *
 * @param text - one line
 * @param sizePx - font size
 * @returns px; a character that the font has not counts as wide as an M
 */
export function textWidth(text: string, sizePx: number): number {
  const { advances } = figureFont();
  let width = 0;
  for (const character of text) {
    const code = character.codePointAt(0)!;
    if (code !== ZERO_WIDTH_SPACE) width += advances.get(code) ?? advances.get(M)!;
  }
  return width * sizePx;
}
