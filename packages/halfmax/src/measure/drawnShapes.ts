import { rowTrials } from '../uncertainty/index.js';
import { type PlacedInputs, rowsOf } from './placedInputs.js';
import { shapeRows } from './shapeRows.js';

/**
 * Makes what gives the parameters of the fitted shape in each trial: which of the likely shapes it is, and how that
 * follows pixels, line spread and prior.
 *
 * @param placed - tables with one shape or more
 * @param pixels - rows of the pixels that are drawn, to be filled before each call
 * @returns function of the rows of the argument; what it returns is filled again by the next call
 */
export function drawnShapes(
  { tables, first, atSpread, atKind }: PlacedInputs,
  pixels: Float64Array,
): (x: Float64Array) => Float64Array {
  const trials = rowTrials;
  const { shapes, offset } = tables;
  const { shape, transmittance } = shapes[0]!;
  const fitted = rowsOf(pixels, offset - first, offset - first + transmittance.length);
  const follower = shapeRows(shapes);
  const parameters = new Float64Array(shape.size * trials);
  const kinds = new Uint8Array(trials);
  /** Shares of the shapes added up, but for the last, which takes what is left. */
  const ends = shapes
    .slice(0, -1)
    .map((_, n) => shapes.slice(0, n + 1).reduce((sum, { share }) => sum + share, 0));
  return (x) => {
    for (let k = 0; k < trials; k++) {
      let kind = 0;
      while (kind < ends.length && x[atKind * trials + k]! >= ends[kind]!) kind++;
      kinds[k] = kind;
    }
    follower.follow(kinds, fitted, rowsOf(x, atSpread, atKind), parameters);
    return parameters;
  };
}
