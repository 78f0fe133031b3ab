import type { FigurePart } from '../still/index.js';
import { type AxisMeaning, type LayoutWishes, layoutFor, uprightAxis, uprightTitle } from './layoutFor.js';

/** What a layout of panels is made from. */
export interface PanelWishes extends Omit<LayoutWishes, 'y'> {
  /** From above; each with its share of the height, left out: 1. */
  readonly panels: readonly (AxisMeaning & { readonly share?: number })[];
}

/** px between two panels: a line of text and some air. */
const GAP = 44;

/**
 * A layout of panels above each other with one common axis below, such as a curve and its residuals.
 *
 * The traces of the first panel have no `yaxis`, those of the second `yaxis: 'y2'`, and so on.
 *
 * @param wishes - the common axis and the panels
 * @returns Plotly's layout
 * @throws {RangeError} no panel, or a share that is not above 0
 */
export function panelsFor(wishes: PanelWishes): FigurePart {
  const { panels, ...others } = wishes;
  const [first, ...further] = panels;
  if (first === undefined) throw new RangeError('panelsFor requires at least 1 panel, got none');
  const shares = panels.map(({ share = 1 }) => share);
  const bad = shares.find((share) => !(share > 0 && share < Infinity));
  if (bad !== undefined) throw new RangeError(`panelsFor requires shares above 0, got ${bad}`);
  const layout = layoutFor({ ...others, y: first, height: wishes.height ?? 300 + 160 * further.length });
  const margin = layout['margin'] as { readonly t: number; readonly b: number };
  const gap = GAP / (Number(layout['height']) - margin.t - margin.b);
  const whole = shares.reduce((sum, share) => sum + share, 0);
  let top = 1;
  const domains = shares.map((share): [number, number] => {
    const height = ((1 - gap * further.length) * share) / whole;
    const domain: [number, number] = [Math.max(0, top - height), top];
    top -= height + gap;
    return domain;
  });
  const axes = further.map((panel, index) => [
    `yaxis${index + 2}`,
    { ...uprightAxis(panel), domain: domains[index + 1]!, anchor: 'x' },
  ]);
  const titles = further.map((panel, index) => uprightTitle(panel, domains[index + 1]![1]));
  return {
    ...layout,
    xaxis: { ...(layout['xaxis'] as object), anchor: further.length === 0 ? 'y' : `y${panels.length}` },
    yaxis: { ...(layout['yaxis'] as object), domain: domains[0]! },
    ...Object.fromEntries(axes),
    annotations: [...titles, ...(layout['annotations'] as readonly FigurePart[])],
  };
}
