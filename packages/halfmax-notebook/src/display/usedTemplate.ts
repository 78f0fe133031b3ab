import { isRecord } from '../notebook/index.js';
import type { FigurePart } from '../still/index.js';

/**
 * A layout whose template keeps the style of those kinds of traces alone that the figure has.
 *
 * @param layout - Plotly's layout
 * @param data - its traces
 * @returns a new layout, without a template where nothing of it is left
 */
export function usedTemplate(layout: FigurePart, data: readonly FigurePart[]): FigurePart {
  const { template, ...rest } = layout;
  if (!isRecord(template) || !isRecord(template['data'])) return layout;
  const kinds = new Set(data.map((trace) => trace['type'] ?? 'scatter'));
  const styles = Object.entries(template['data']).filter(([kind]) => kinds.has(kind));
  const { data: _, ...others } = template;
  const kept = { ...others, ...(styles.length === 0 ? {} : { data: Object.fromEntries(styles) }) };
  return Object.keys(kept).length === 0 ? rest : { ...rest, template: kept };
}
