import { isRecord } from '../notebook/index.js';
import type { Figure, FigurePart } from './figure.js';
import { withoutSliders } from './withoutSliders.js';

/** Kinds of traces that are drawn right without a browser; others need WebGL, a map or a font engine. */
const DRAWN: ReadonlySet<string> = new Set([
  'scatter',
  'bar',
  'histogram',
  'box',
  'violin',
  'contour',
  'histogram2dcontour',
  'heatmap',
  'histogram2d',
  'scatterpolar',
  'barpolar',
]);

/** Size of a figure whose layout states none, px. */
export const defaultSize = { width: 760, height: 420 } as const;
const MOST_PX = 4000;

/**
 * Refuses a figure that cannot be drawn without a browser; draws nothing.
 *
 * @param figure - plain data
 * @throws {RangeError} a kind of trace that needs a browser (WebGL, maps, tables), or a size beyond 10 to 4000 px
 */
export function requireDrawable({ data, layout }: Figure): void {
  for (const trace of data) {
    const type = isRecord(trace) ? (trace['type'] ?? 'scatter') : 'none';
    if (typeof type !== 'string' || !DRAWN.has(type))
      throw new RangeError(
        `drawStill requires traces of the kinds ${[...DRAWN].join(', ')}, got ${String(type)}`,
      );
  }
  const sized: FigurePart = { ...defaultSize, ...withoutSliders(layout ?? {}) };
  for (const side of ['width', 'height'] as const)
    if (!(Number(sized[side]) >= 10 && Number(sized[side]) <= MOST_PX))
      throw new RangeError(
        `drawStill requires a ${side} from 10 to ${MOST_PX} px, got ${String(sized[side])}`,
      );
}
