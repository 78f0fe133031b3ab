import type { Figure, FigurePart } from './figure.js';

/**
 * Significant digits of the numbers in a figure: 656.281 nm, 0.912345. A drawing is some 700 px wide, so that even a
 * tenth of it, drawn as large, shows no more. A small difference of large numbers is to be taken before it is drawn.
 */
const DIGITS = 6;

/**
 * A figure as plain JSON: typed arrays become arrays, numbers keep six significant digits, what is not finite becomes
 * null (a gap in a line), functions and undefined fields go.
 *
 * @param figure - left as it is
 * @returns a new figure, equal to what is read back from its JSON
 * @throws {RangeError} a value that JSON cannot hold, or a circle
 */
export function plainFigure(figure: Figure): Figure {
  const parts = (list: readonly FigurePart[]): FigurePart[] =>
    list.map((part) => plain(part, []) as FigurePart);
  return {
    data: parts(figure.data),
    layout: plain(figure.layout ?? {}, []) as FigurePart,
    ...(figure.config === undefined ? {} : { config: plain(figure.config, []) as FigurePart }),
    ...(figure.frames === undefined ? {} : { frames: parts(figure.frames) }),
    ...(figure.caption === undefined ? {} : { caption: figure.caption }),
  };
}

function plain(value: unknown, above: readonly object[]): unknown {
  switch (typeof value) {
    case 'number':
      return rounded(value);
    case 'string':
    case 'boolean':
      return value;
    case 'undefined':
    case 'function':
      return undefined;
    case 'object':
      break;
    default:
      throw new RangeError(`showFigure requires plain data, got a ${typeof value}`);
  }
  if (value === null) return null;
  if (value instanceof Date) return Number.isNaN(value.getTime()) ? null : value.toISOString();
  if (above.includes(value))
    throw new RangeError('showFigure requires plain data, got a circle of references');
  const path = [...above, value];
  if (Array.isArray(value)) return value.map((item) => plain(item, path) ?? null);
  if (ArrayBuffer.isView(value) && !(value instanceof DataView))
    return Array.from(value as unknown as ArrayLike<number>, (item) => plain(item, path));
  return Object.fromEntries(
    Object.entries(value)
      .map(([key, item]) => [key, plain(item, path)])
      .filter(([, item]) => item !== undefined),
  );
}

function rounded(value: number): number | null {
  if (!Number.isFinite(value)) return null;
  if (Number.isInteger(value) && Math.abs(value) < 1e15) return value;
  // Adding 0 turns -0, which JSON does not know, into 0.
  return Number(value.toPrecision(DIGITS)) + 0;
}
