import { isRecord } from '../notebook/index.js';
import type { FigurePart } from './figure.js';

/**
 * A layout without sliders and buttons, and without the room that `sliderFigure` made for them.
 *
 * @param layout - Plotly's layout
 * @returns a new layout
 */
export function withoutSliders(layout: FigurePart): FigurePart {
  const { sliders, updatemenus: _menus, ...rest } = layout;
  const { meta, margin, height } = rest;
  const room = isRecord(meta) && sliders !== undefined ? Number(meta['sliderHeight']) : Number.NaN;
  if (!(room > 0 && room < 200) || !isRecord(margin) || typeof height !== 'number') return rest;
  return { ...rest, height: height - room, margin: { ...margin, b: Number(margin['b']) - room } };
}
