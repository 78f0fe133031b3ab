import type { Figure, FigurePart } from '../still/index.js';
import { figureFont } from './layoutFor.js';
import { grounds } from './palette.js';

/** px below the axis that the slider takes. */
const SLIDER_HEIGHT = 70;

/** One place of a slider and the traces that are seen there. */
export interface SliderStep {
  /** Beside the slider: the value, without its unit. */
  readonly label: string;
  readonly data: readonly FigurePart[];
}

/** A figure with a slider. */
export interface SliderWishes {
  /** What the slider changes, such as `Tilt`. */
  readonly quantity: string;
  /** Such as `°`. */
  readonly unit?: string;
  readonly steps: readonly SliderStep[];
  /** Traces that are seen at every step, drawn first. */
  readonly always?: readonly FigurePart[];
  readonly layout: FigurePart;
  /** Step shown at first, from 0; left out: 0. */
  readonly active?: number;
  readonly caption?: string;
}

/**
 * A figure whose slider shows one of several sets of traces, all worked out beforehand: it works in a static page.
 *
 * @param wishes - steps, common traces and layout
 * @returns a figure for `showFigure`; its still shows the first step
 * @throws {RangeError} no steps, or an active one that is not there
 */
export function sliderFigure(wishes: SliderWishes): Figure {
  const { steps, always = [], active = 0 } = wishes;
  if (steps[active] === undefined)
    throw new RangeError(`sliderFigure requires an active step below ${steps.length}, got ${active}`);
  const shown = (step: number): boolean[] => [
    ...always.map(() => true),
    ...steps.flatMap(({ data }, index) => data.map(() => index === step)),
  ];
  const visible = shown(active);
  const margin = wishes.layout['margin'] as FigurePart | undefined;
  const bottom = typeof margin?.['b'] === 'number' ? margin['b'] : 48;
  const height = typeof wishes.layout['height'] === 'number' ? wishes.layout['height'] : 420;
  const { quiet, grid, ink } = grounds.light;
  return {
    data: [...always, ...steps.flatMap(({ data }) => data)].map((trace, index) => ({
      ...trace,
      visible: visible[index]!,
    })),
    layout: {
      ...wishes.layout,
      height: height + SLIDER_HEIGHT,
      margin: { ...margin, b: bottom + SLIDER_HEIGHT },
      meta: { sliderHeight: SLIDER_HEIGHT },
      sliders: [
        {
          active,
          currentvalue: {
            prefix: `${wishes.quantity} = `,
            suffix: wishes.unit === undefined ? '' : ` ${wishes.unit}`,
            xanchor: 'left',
            font: { family: figureFont, size: 13, color: ink },
          },
          pad: { t: 44 },
          len: 1,
          x: 0,
          bgcolor: grid,
          bordercolor: quiet,
          borderwidth: 0,
          tickcolor: quiet,
          font: { color: quiet, size: 11 },
          steps: steps.map(({ label }, index) => ({
            label,
            method: 'restyle',
            args: [{ visible: shown(index) }],
          })),
        },
      ],
    },
    ...(wishes.caption === undefined ? {} : { caption: wishes.caption }),
  };
}
