import type { FigurePart } from '../still/index.js';
import { grounds, palette } from './palette.js';

/** What an axis shows. */
export interface AxisMeaning {
  /** Such as `Wavelength in air`. */
  readonly quantity: string;
  /** Such as `nm`; left out or `1` where the quantity has none. */
  readonly unit?: string;
  readonly range?: readonly [number, number];
  readonly log?: boolean;
  /** Further settings of Plotly's axis. */
  readonly more?: FigurePart;
}

/** What a figure's layout is made from. */
export interface LayoutWishes {
  readonly x: AxisMeaning;
  readonly y: AxisMeaning;
  /** A few words above the figure; the whole sentence belongs into its caption. */
  readonly title?: string;
  /** px; left out: 420. */
  readonly height?: number;
  /** Left out: no legend; name the traces at their ends with `directLabel`. */
  readonly legend?: boolean;
  readonly annotations?: readonly FigurePart[];
  readonly shapes?: readonly FigurePart[];
  /** Further settings of Plotly's layout. */
  readonly more?: FigurePart;
}

/** Arrows of annotations that have one. */
const ARROW: FigurePart = { arrowcolor: grounds.light.quiet, arrowwidth: 1, arrowhead: 2, arrowsize: 1.2 };

/** px of a line of text. */
const LEGEND_LINE = 20;

/** Fonts of the figures, first that is there. */
export const figureFont: string = "'Noto Sans', 'DejaVu Sans', sans-serif";

/**
 * Colours of maps.
 *
 * Source: J. R. Nunez, C. R. Anderton, R. S. Renslow, PLoS ONE 13(7), e0199239 (2018): cividis, even in lightness and seen
 * alike with and without deficient colour vision.
 */
const SCALE: FigurePart = {
  colorscale: 'Cividis',
  colorbar: { thickness: 12, outlinewidth: 0, tickfont: { size: 12 }, title: { font: { size: 13 } } },
};

/**
 * The style of all figures, as settings of a layout: white ground, dark ink, horizontal grid lines only, ticks outwards.
 *
 * @returns settings for light ground
 */
export function figureStyle(): FigurePart {
  const { paper, ink, quiet } = grounds.light;
  return {
    paper_bgcolor: paper,
    plot_bgcolor: paper,
    colorway: palette,
    font: { family: figureFont, size: 13, color: ink },
    margin: { l: 56, r: 24, t: 52, b: 48 },
    hovermode: 'closest',
    template: {
      data: { contour: [SCALE], heatmap: [SCALE], histogram2d: [SCALE], histogram2dcontour: [SCALE] },
    },
    hoverlabel: { font: { family: figureFont, size: 12 } },
    legend: {
      orientation: 'h',
      x: 1,
      xanchor: 'right',
      y: 1.02,
      yanchor: 'bottom',
      font: { color: quiet },
      bgcolor: 'rgba(0,0,0,0)',
    },
  };
}

/**
 * A layout in the style of all figures, with quantities and units on the axes.
 *
 * The name of the upright axis stands above it, written as one reads.
 *
 * @param wishes - what the axes show, and further settings
 * @returns Plotly's layout
 * @throws {RangeError} an axis without a quantity
 */
export function layoutFor(wishes: LayoutWishes): FigurePart {
  const { ink, quiet } = grounds.light;
  const style = figureStyle();
  const height = wishes.height ?? 420;
  const own = style['margin'] as { readonly t: number; readonly b: number };
  const above = (wishes.title === undefined ? 0 : 24) + (wishes.legend === true ? LEGEND_LINE : 0);
  const margin = { ...own, t: own.t + above };
  return {
    ...style,
    height,
    showlegend: wishes.legend ?? false,
    margin,
    ...(wishes.legend === true ? { legend: legendAbove(style, height - margin.t - margin.b) } : {}),
    xaxis: {
      ...axis(wishes.x),
      title: { text: axisTitle(wishes.x), font: { color: quiet, size: 13 }, standoff: 10 },
    },
    yaxis: uprightAxis(wishes.y),
    annotations: [
      uprightTitle(wishes.y, 1),
      ...(wishes.annotations ?? []).map((note) =>
        note['showarrow'] === false ? note : { ...ARROW, ...note },
      ),
    ],
    ...(wishes.shapes === undefined ? {} : { shapes: wishes.shapes }),
    ...(wishes.title === undefined
      ? {}
      : {
          title: {
            text: wishes.title,
            font: { size: 15, color: ink },
            x: 0,
            xref: 'container',
            xanchor: 'left',
            pad: { l: 12, t: 14 },
            y: 1,
            yref: 'container',
            yanchor: 'top',
          },
        }),
    ...wishes.more,
  };
}

/**
 * Quantity and unit as one label.
 *
 * @param meaning - what the axis shows
 * @returns such as `Wavelength in air / nm`
 * @throws {RangeError} no quantity
 * Source: ISO 80000-1, quantity over unit on axes and in tables.
 * @example
 * axisTitle({ quantity: 'Wavelength in air', unit: 'nm' }); // => 'Wavelength in air / nm'
 */
export function axisTitle(meaning: AxisMeaning): string {
  if (meaning.quantity.trim() === '')
    throw new RangeError('axisTitle requires a quantity, got an empty text');
  const unit = meaning.unit ?? '1';
  if (unit === '1' || unit === '') return meaning.quantity;
  return `${meaning.quantity} / ${/[ ·/]/.test(unit) ? `(${unit})` : unit}`;
}

/** The legend, a line above the name of the upright axis: both may be long. */
function legendAbove(style: FigurePart, drawnHeight: number): FigurePart {
  const y = 1 + (8 + LEGEND_LINE) / Math.max(LEGEND_LINE, drawnHeight);
  return { ...(style['legend'] as object), y };
}

function axis(meaning: AxisMeaning): FigurePart {
  const { quiet } = grounds.light;
  return {
    ...(meaning.log === true ? { type: 'log' } : {}),
    showgrid: false,
    zeroline: false,
    showline: true,
    linecolor: quiet,
    linewidth: 1,
    ticks: 'outside',
    ticklen: 4,
    tickcolor: quiet,
    tickfont: { color: quiet, size: 12 },
    nticks: 8,
    exponentformat: 'power',
    separatethousands: false,
    ...(meaning.range === undefined ? {} : { range: meaning.range, autorange: false }),
    ...meaning.more,
  };
}

/**
 * An upright axis in the style of all figures: grid lines, no line of its own.
 *
 * @param meaning - what it shows
 * @returns Plotly's settings of a y axis
 */
export function uprightAxis(meaning: AxisMeaning): FigurePart {
  return {
    ...axis(meaning),
    showline: false,
    ticks: '',
    ticklabelstandoff: 6,
    showgrid: true,
    gridcolor: grounds.light.grid,
    gridwidth: 1,
    nticks: 6,
    ...meaning.more,
  };
}

/**
 * The name of an upright axis, above its upper end.
 *
 * @param meaning - what the axis shows
 * @param top - its upper end, part of the drawing's height from below
 * @returns an annotation
 */
export function uprightTitle(meaning: AxisMeaning, top: number): FigurePart {
  return {
    name: 'y-title',
    text: axisTitle(meaning),
    xref: 'paper',
    yref: 'paper',
    x: 0,
    xanchor: 'left',
    xshift: -44,
    y: top,
    yanchor: 'bottom',
    yshift: 8,
    showarrow: false,
    font: { color: grounds.light.quiet, size: 13 },
  };
}
