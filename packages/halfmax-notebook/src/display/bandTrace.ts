import type { FigurePart } from '../still/index.js';
import { faded } from './palette.js';

/** How a band looks. */
export interface BandOptions {
  readonly name?: string;
  /** `#rrggbb`, that of the line it goes with. */
  readonly colour: string;
  /** 0 to 1; left out: 0.22. */
  readonly opacity?: number;
}

/**
 * A band of uncertainty around a line, as one trace.
 *
 * @param x - length n
 * @param lower - length n
 * @param upper - length n
 * @param options - name and colour
 * @returns a filled trace without an outline; points without a number break the band
 * @throws {RangeError} lengths that differ, or fewer than 2 points
 */
export function bandTrace(
  x: ArrayLike<number>,
  lower: ArrayLike<number>,
  upper: ArrayLike<number>,
  options: BandOptions,
): FigurePart {
  const n = x.length;
  if (n < 2 || lower.length !== n || upper.length !== n)
    throw new RangeError(
      `bandTrace requires three arrays of one length from 2, got ${n}, ${lower.length}, ${upper.length}`,
    );
  const xs: (number | null)[] = [];
  const ys: (number | null)[] = [];
  const add = (at: number | null, value: number | null): void => {
    xs.push(at);
    ys.push(value);
  };
  let from = 0;
  const close = (end: number): void => {
    if (end - from >= 2) {
      if (xs.length > 0) add(null, null);
      for (let i = from; i < end; i++) add(x[i]!, upper[i]!);
      for (let i = end - 1; i >= from; i--) add(x[i]!, lower[i]!);
      add(x[from]!, upper[from]!);
    }
    from = end + 1;
  };
  for (let i = 0; i < n; i++)
    if (!Number.isFinite(x[i]!) || !Number.isFinite(lower[i]!) || !Number.isFinite(upper[i]!)) close(i);
  close(n);
  return {
    type: 'scatter',
    mode: 'lines',
    x: xs,
    y: ys,
    fill: 'toself',
    fillcolor: faded(options.colour, options.opacity ?? 0.22),
    line: { width: 0, color: faded(options.colour, 0) },
    hoverinfo: 'skip',
    showlegend: false,
    ...(options.name === undefined ? {} : { name: options.name }),
  };
}
