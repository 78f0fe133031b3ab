import type { NonlinearWorkspace } from './nonlinearWorkspace.js';
import { solveCholesky } from './solveCholesky.js';

/** Weighted sum of squares at the trial parameters; fills trialValues. */
export function trySum(workspace: NonlinearWorkspace): number {
  const { n, y, roots, trial, trialValues } = workspace;
  workspace.model(trial, trialValues);
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const residual = (y[i]! - trialValues[i]!) * roots[i]!;
    sum += residual * residual;
  }
  return sum;
}

/** Makes the trial the present state and linearises there. */
export function acceptTrial(workspace: NonlinearWorkspace, sum: number): void {
  const { p, normal, gradient, scale, size, held, lower, upper } = workspace;
  [workspace.parameters, workspace.trial] = [workspace.trial, workspace.parameters];
  [workspace.values, workspace.trialValues] = [workspace.trialValues, workspace.values];
  const { parameters } = workspace;
  workspace.best = sum;
  for (let a = 0; a < p; a++) size[a] = Math.max(size[a]!, Math.abs(parameters[a]!));
  workspace.differentiate();
  sumProducts(workspace);
  for (let a = 0; a < p; a++) {
    const onLower = parameters[a]! <= lower[a]! && gradient[a]! < 0;
    const onUpper = parameters[a]! >= upper[a]! && gradient[a]! > 0;
    held[a] = onLower || onUpper ? 1 : 0;
    scale[a] = Math.max(scale[a]!, normal[a * p + a]!);
  }
}

/** J'WJ and J'Wr. A function of its own, so that the engine compiles the loops alone, and once. */
function sumProducts({ n, p, y, values, roots, jacobian, normal, gradient }: NonlinearWorkspace): void {
  normal.fill(0);
  gradient.fill(0);
  for (let i = 0; i < n; i++) {
    const base = i * p;
    const weight = roots[i]! * roots[i]!;
    const residual = y[i]! - values[i]!;
    for (let a = 0; a < p; a++) {
      const left = jacobian[base + a]! * weight;
      const row = a * p;
      gradient[a]! += left * residual;
      for (let b = 0; b <= a; b++) normal[row + b]! += left * jacobian[base + b]!;
    }
  }
}

/**
 * Works out the step for a damping and the trial parameters it leads to, within the bounds.
 *
 * @returns false where the derivatives of the free parameters are not independent
 */
export function proposeStep(workspace: NonlinearWorkspace, damping: number): boolean {
  const { p, normal, damped, gradient, scale, step, held, parameters, trial, lower, upper } = workspace;
  for (let a = 0; a < p; a++) {
    for (let b = 0; b <= a; b++) damped[a * p + b] = held[a] || held[b] ? 0 : normal[a * p + b]!;
    if (held[a]) damped[a * p + a] = 1;
    else damped[a * p + a]! += damping * (scale[a]! || 1);
    step[a] = held[a] ? 0 : gradient[a]!;
  }
  if (!solveCholesky(damped, step, p)) return false;
  for (let a = 0; a < p; a++) trial[a] = Math.min(upper[a]!, Math.max(lower[a]!, parameters[a]! + step[a]!));
  return true;
}
