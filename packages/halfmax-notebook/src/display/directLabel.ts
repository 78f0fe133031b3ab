import type { FigurePart } from '../still/index.js';
import { labelInk } from './palette.js';

/** A name set beside the line it belongs to. */
export interface LabelPlace {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  /** That of the line; the text gets a darker one where the line is too light to be read. */
  readonly colour: string;
  /** Where the text stands, seen from the point; left out: right. */
  readonly side?: 'left' | 'right' | 'above' | 'below';
}

const SIDES = {
  left: { xanchor: 'right', yanchor: 'middle', xshift: -6, yshift: 0 },
  right: { xanchor: 'left', yanchor: 'middle', xshift: 6, yshift: 0 },
  above: { xanchor: 'center', yanchor: 'bottom', xshift: 0, yshift: 4 },
  below: { xanchor: 'center', yanchor: 'top', xshift: 0, yshift: -4 },
} as const;

/**
 * A line's name at one of its points, which reads more easily than a legend.
 *
 * @param place - text, point and colour
 * @returns an annotation for `layoutFor`
 */
export function directLabel(place: LabelPlace): FigurePart {
  return {
    text: place.text,
    x: place.x,
    y: place.y,
    showarrow: false,
    font: { color: labelInk(place.colour), size: 13 },
    ...SIDES[place.side ?? 'right'],
  };
}
