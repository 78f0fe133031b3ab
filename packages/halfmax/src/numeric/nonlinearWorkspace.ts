import { centralJacobian } from './centralJacobian.js';
import { requireWeights } from './requireWeights.js';

/** How to fit. */
export interface NonlinearOptions {
  /** 1/variance of each value, each >= 0; all 1 when left out. */
  readonly weights?: ArrayLike<number>;
  /** Fills the n rows of p derivatives at `parameters`; central differences when left out. */
  readonly jacobian?: (parameters: Float64Array, rows: Float64Array[]) => void;
  /** @default 200 */
  readonly maxIterations?: number;
  /** Least value of each parameter; -Infinity for none. */
  readonly lower?: ArrayLike<number>;
  /** Greatest value of each parameter, above the least; Infinity for none. */
  readonly upper?: ArrayLike<number>;
}

/** What one nonlinear fit works on; made anew for each fit and altered in place, so that no step allocates. */
export interface NonlinearWorkspace {
  readonly n: number;
  readonly p: number;
  parameters: Float64Array;
  trial: Float64Array;
  values: Float64Array;
  trialValues: Float64Array;
  /** Weighted sum of squares at the parameters. */
  best: number;
  /** Derivatives, n rows of p one after the other. */
  readonly jacobian: Float64Array;
  /** J'WJ, p x p, lower half. */
  readonly normal: Float64Array;
  /** J'Wr. */
  readonly gradient: Float64Array;
  /** Largest diagonal of J'WJ so far. */
  readonly scale: Float64Array;
  /** Largest absolute value of each parameter so far. */
  readonly size: Float64Array;
  readonly step: Float64Array;
  /** 1 where a parameter sits on a bound and the descent would cross it. */
  readonly held: Uint8Array;
  readonly damped: Float64Array;
  readonly y: ArrayLike<number>;
  /** Square roots of the weights. */
  readonly roots: Float64Array;
  readonly lower: ArrayLike<number>;
  readonly upper: ArrayLike<number>;
  readonly model: (parameters: Float64Array, out: Float64Array) => void;
  readonly differentiate: () => void;
}

/** Checks the arguments of a fit and lays out its workspace, with the start as its first trial. */
export function createWorkspace(
  model: NonlinearWorkspace['model'],
  y: ArrayLike<number>,
  start: ArrayLike<number>,
  options: NonlinearOptions,
): NonlinearWorkspace {
  const n = y.length;
  const p = start.length;
  if (p < 1 || n < p) {
    throw new RangeError(`fitNonlinear requires at least as many values as parameters, got ${n} for ${p}`);
  }
  const roots = requireWeights('fitNonlinear', options.weights, n);
  const lower = options.lower ?? new Float64Array(p).fill(Number.NEGATIVE_INFINITY);
  const upper = options.upper ?? new Float64Array(p).fill(Number.POSITIVE_INFINITY);
  requireBounds(start, lower, upper);
  const jacobian = new Float64Array(n * p);
  const size = Float64Array.from(start, Math.abs);
  const given = options.jacobian;
  const rows = given ? Array.from({ length: n }, (_, i) => jacobian.subarray(i * p, (i + 1) * p)) : [];
  const central = centralJacobian(model, n, p, lower, upper, size);
  const workspace: NonlinearWorkspace = {
    n,
    p,
    parameters: Float64Array.from(start),
    trial: Float64Array.from(start),
    values: new Float64Array(n),
    trialValues: new Float64Array(n),
    best: Number.POSITIVE_INFINITY,
    jacobian,
    normal: new Float64Array(p * p),
    gradient: new Float64Array(p),
    scale: new Float64Array(p),
    size,
    step: new Float64Array(p),
    held: new Uint8Array(p),
    damped: new Float64Array(p * p),
    y,
    roots,
    lower,
    upper,
    model,
    differentiate: () =>
      given ? given(workspace.parameters, rows) : central(workspace.parameters, jacobian),
  };
  return workspace;
}

function requireBounds(start: ArrayLike<number>, lower: ArrayLike<number>, upper: ArrayLike<number>): void {
  if (lower.length !== start.length || upper.length !== start.length) {
    throw new RangeError(
      `fitNonlinear requires ${start.length} bounds each, got ${lower.length} and ${upper.length}`,
    );
  }
  for (let a = 0; a < start.length; a++) {
    if (!(lower[a]! < upper[a]! && start[a]! >= lower[a]! && start[a]! <= upper[a]!)) {
      const found = `${start[a]} in ${lower[a]} .. ${upper[a]}`;
      throw new RangeError(
        `fitNonlinear requires a start within bounds that differ, got ${found} at index ${a}`,
      );
    }
  }
}
