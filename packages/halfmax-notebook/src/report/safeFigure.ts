import { isRecord } from '../notebook/index.js';
import { type Figure, type FigurePart, withoutSliders } from '../still/index.js';

/** A slider of a figure, worked by the page itself. */
export interface FigureSlider {
  readonly prefix: string;
  readonly suffix: string;
  readonly active: number;
  readonly steps: readonly {
    readonly label: string;
    readonly method: string;
    readonly args: readonly unknown[];
  }[];
}

/** A figure as the page draws it. */
export interface SafeFigure {
  readonly data: readonly FigurePart[];
  readonly layout: FigurePart;
  readonly sliders: readonly FigureSlider[];
}

/** Kinds of traces that draw without WebGL, without maps from the net, and from numbers alone. */
const DRAWN: ReadonlySet<unknown> = new Set([
  undefined,
  ...'scatter bar histogram box violin contour heatmap histogram2d histogram2dcontour scatterpolar barpolar'.split(
    ' ',
  ),
]);
const METHODS: ReadonlySet<unknown> = new Set(['restyle', 'relayout', 'update', 'skip']);
/** What may stand in a figure's texts, without attributes. */
const TAG = /<(\/?)([a-z][a-z0-9]*)\b[^<>]*>/gi;
const MOST_PASSES = 5;
/** px; a taller figure is cut to this. */
const MOST_HEIGHT = 2000;
const TAGS: ReadonlySet<string> = new Set(['b', 'i', 'em', 'strong', 'sub', 'sup', 'br', 's', 'u']);
/** Parts of a layout that load or imitate something: pictures, maps, buttons, drawing in the page. */
const LEFT_OUT = [
  'images',
  'updatemenus',
  'sliders',
  'mapbox',
  'map',
  'geo',
  'scene',
  'selections',
  'activeselection',
];

/**
 * A figure of a notebook without anything that could run or load: plain traces, texts without links or styles.
 *
 * @param value - what the notebook has under Plotly's MIME type
 * @returns the figure, or null where it is none that the page can draw; its still is shown then
 */
export function safeFigure(value: unknown): SafeFigure | null {
  if (!isRecord(value) || !Array.isArray(value['data'])) return null;
  const { data, layout } = clean(value) as unknown as Figure;
  if (!data.every((trace) => isRecord(trace) && DRAWN.has(trace['type']))) return null;
  const whole = isRecord(layout) ? layout : {};
  return {
    data,
    layout: drawnLayout(whole),
    sliders: slidersOf(whole['sliders']),
  };
}

function drawnLayout(layout: FigurePart): FigurePart {
  const kept = Object.entries(withoutSliders(layout)).filter(
    ([key]) => !LEFT_OUT.includes(key.replace(/\d+$/, '')),
  );
  const plain = Object.fromEntries(kept);
  const height = plain['height'];
  return typeof height === 'number' && height > MOST_HEIGHT ? { ...plain, height: MOST_HEIGHT } : plain;
}

function clean(value: unknown): unknown {
  if (typeof value === 'string') return cleanText(value);
  if (Array.isArray(value)) return value.map(clean);
  if (!isRecord(value)) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([key]) => key !== '__proto__' && key !== 'constructor' && key !== 'prototype')
      .map(([key, part]) => [key, clean(part)]),
  );
}

/** Until nothing changes, so that no tag is put together from the pieces of another; a text that goes on so loses them all. */
function cleanText(text: string): string {
  let cleaned = text;
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const before = cleaned;
    cleaned = before.replace(TAG, (_, slash: string, name: string) =>
      TAGS.has(name.toLowerCase()) ? `<${slash}${name.toLowerCase()}>` : '',
    );
    if (cleaned === before) return cleaned;
  }
  return cleaned.replaceAll('<', '');
}

function slidersOf(value: unknown): FigureSlider[] {
  if (!Array.isArray(value)) return [];
  return value.flatMap((slider: unknown) => {
    if (!isRecord(slider) || !Array.isArray(slider['steps'])) return [];
    const steps = slider['steps'].flatMap((step: unknown) => {
      if (!isRecord(step) || !METHODS.has(step['method'] ?? 'restyle')) return [];
      const args = Array.isArray(step['args']) ? step['args'] : [];
      return [{ label: String(step['label'] ?? ''), method: String(step['method'] ?? 'restyle'), args }];
    });
    if (steps.length < 2 || steps.length !== slider['steps'].length) return [];
    const shown = isRecord(slider['currentvalue']) ? slider['currentvalue'] : {};
    const active = Number(slider['active'] ?? 0);
    return [
      {
        prefix: String(shown['prefix'] ?? ''),
        suffix: String(shown['suffix'] ?? ''),
        active: Number.isInteger(active) && active >= 0 && active < steps.length ? active : 0,
        steps,
      },
    ];
  });
}
