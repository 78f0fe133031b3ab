import { acceptTrial, proposeStep, trySum } from './nonlinearSteps.js';
import { createWorkspace, type NonlinearOptions, type NonlinearWorkspace } from './nonlinearWorkspace.js';
import { covarianceFromInverse, weightedQr } from './weightedQr.js';

/** A weighted nonlinear least-squares fit of n points by p parameters. */
export interface NonlinearFit {
  /** Length p. */
  readonly parameters: Float64Array;
  /**
   * (J'WJ)^-1 at the solution, p rows of p, not scaled. Infinite on the diagonal and 0 beside it where the
   * derivatives are not independent: nothing is known of the parameters then.
   */
  readonly covariance: Float64Array[];
  /** Sum of weight times residual squared. */
  readonly weightedSumOfSquares: number;
  /** n - p. */
  readonly degreesOfFreedom: number;
  /** sqrt(weightedSumOfSquares / degreesOfFreedom); Infinity, "not known", without degrees of freedom. */
  readonly residualStandardDeviation: number;
  /** Steps tried. */
  readonly iterations: number;
  /** Whether the full step that is left is negligible beside the uncertainty or the size of every parameter. */
  readonly converged: boolean;
}

/** The full step left at the end, in standard uncertainties: below this no reader of the result would see it. */
const NEGLIGIBLE_OFFSET = 1e-3;
/** The full step left at the end beside the parameter itself: for data that the model meets exactly. */
const NEGLIGIBLE_STEP = 1e-8;
const SMALLEST_STEP = 1e-14;
const SMALLEST_REDUCTION = 1e-14;
const POLISHING_STEPS = 10;
const POLISHED = 1e-10;

/**
 * Weighted nonlinear least squares by damped Gauss-Newton steps, with a test of convergence and a covariance.
 *
 * Written here because the small fitting packages at hand stop after a count of iterations without a test of
 * convergence and give no covariance, and both are needed for an uncertainty.
 *
 * @param model - fills `out` (length n) with the values at `parameters`; must not keep or alter either
 * @param y - measured values, length n >= p
 * @param start - first guess, length p, within the bounds, at which the model is finite
 * @param options - weights, derivatives, bounds, limit of iterations
 * @returns the best parameters met; look at `converged` before use
 * @throws {RangeError} arrays not as described, or a model that is not finite at the start
 *
 * Source: Marquardt, J. SIAM 11, 431 (1963); scaling by the largest derivative so far: More, Lecture Notes in
 * Mathematics 630, 105 (1978); damping: Nielsen, IMM-REP-1999-05 (1999); relative offset as the test of
 * convergence: Bates, Watts, Technometrics 23, 179 (1981). Cost: O(iterations (2 p model + n p^2 + p^3)).
 * @example
 * const line = (p, out) => { for (let i = 0; i < 3; i++) out[i] = p[0] * Math.exp(p[1] * i); };
 * Array.from(fitNonlinear(line, [1, 2, 4], [1, 1]).parameters, (v) => v.toFixed(6)); // => ['1.000000', '0.693147']
 */
export function fitNonlinear(
  model: (parameters: Float64Array, out: Float64Array) => void,
  y: ArrayLike<number>,
  start: ArrayLike<number>,
  options: NonlinearOptions = {},
): NonlinearFit {
  const workspace = createWorkspace(model, y, start, options);
  const first = trySum(workspace);
  if (!Number.isFinite(first)) {
    throw new RangeError('fitNonlinear requires a model and values finite at the start, got others');
  }
  acceptTrial(workspace, first);
  const maxIterations = options.maxIterations ?? 200;
  const descended = descend(workspace, maxIterations);
  const iterations = descended + polish(workspace, maxIterations - descended);

  const { n, p, parameters, jacobian, roots, step, size, best } = workspace;
  const stepKnown = proposeStep(workspace, 0);
  for (let i = 0; i < n; i++) {
    for (let a = 0; a < p; a++) jacobian[i * p + a]! *= roots[i]!;
  }
  const factors = weightedQr(jacobian, p);
  const covariance =
    factors === null
      ? Array.from({ length: p }, (_, a) => new Float64Array(p).fill(Number.POSITIVE_INFINITY, a, a + 1))
      : covarianceFromInverse(factors.inverseR);
  const degreesOfFreedom = n - p;
  const deviation = degreesOfFreedom > 0 ? Math.sqrt(best / degreesOfFreedom) : Number.POSITIVE_INFINITY;
  const negligible = step.every((left, a) => {
    const uncertainty = degreesOfFreedom > 0 ? deviation * Math.sqrt(covariance[a]![a]!) : 0;
    return Math.abs(left) <= Math.max(NEGLIGIBLE_OFFSET * uncertainty, NEGLIGIBLE_STEP * size[a]!);
  });
  return {
    parameters,
    covariance,
    weightedSumOfSquares: best,
    degreesOfFreedom,
    residualStandardDeviation: deviation,
    iterations,
    converged: factors !== null && stepKnown && negligible,
  };
}

/** Damped steps until the sum of squares cannot be seen to fall any more; returns how many were tried. */
function descend(workspace: NonlinearWorkspace, maxIterations: number): number {
  const { p, gradient, scale, size } = workspace;
  let damping = 1e-3;
  let growth = 2;
  let iterations = 0;
  while (iterations < maxIterations && workspace.best > 0 && damping < 1e100) {
    iterations++;
    let moved = 0;
    let predicted = 0;
    let actual = Number.NaN;
    let sum = Number.NaN;
    if (proposeStep(workspace, damping)) {
      for (let a = 0; a < p; a++) {
        const change = workspace.trial[a]! - workspace.parameters[a]!;
        moved = Math.max(moved, Math.abs(change) / (size[a]! || 1));
        predicted += change * (damping * (scale[a]! || 1) * change + gradient[a]!);
      }
      sum = trySum(workspace);
      actual = workspace.best - sum;
    }
    const limit = SMALLEST_REDUCTION * workspace.best;
    const settled =
      Number.isFinite(actual) && (moved <= SMALLEST_STEP || (predicted <= limit && actual <= limit));
    if (actual > 0) {
      acceptTrial(workspace, sum);
      const ratio = predicted > 0 ? actual / predicted : 0;
      damping = Math.max(1e-20, damping * Math.max(1 / 3, 1 - (2 * ratio - 1) ** 3));
      growth = 2;
    } else {
      damping *= growth;
      growth *= 2;
    }
    if (settled) break;
  }
  return iterations;
}

/**
 * Near the solution the gradient still tells right from wrong when sums of squares no longer differ: takes the
 * undamped steps that are left as long as they shrink and the sum does not grow beyond its rounding.
 */
function polish(workspace: NonlinearWorkspace, maxIterations: number): number {
  const { step, size } = workspace;
  const relativeStep = (): number =>
    step.reduce((most, part, a) => Math.max(most, Math.abs(part) / (size[a]! || 1)), 0);
  let before = 1e-4;
  for (let pass = 0; ; pass++) {
    if (pass === Math.min(POLISHING_STEPS, maxIterations) || !proposeStep(workspace, 0)) return pass;
    const present = relativeStep();
    if (present < POLISHED || !(present <= before)) return pass;
    const sum = trySum(workspace);
    if (!(sum <= workspace.best * (1 + 1e-12))) return pass;
    acceptTrial(workspace, sum);
    before = 0.9 * present;
  }
}
