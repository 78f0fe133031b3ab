import { describe, expect, it } from 'vitest';
import { fitNonlinear } from '../../packages/halfmax/src/numeric/index.js';
import { agreeingDigits, type NonlinearSet, readNonlinearSets } from './strd.js';

const { exp, cos, sin, PI } = Math;
type Model = (x: number, b: ArrayLike<number> & Iterable<number>) => number;
const twoGaussians: Model = (x, [b1, b2, b3, b4, b5, b6, b7, b8]) =>
  b1! * exp(-b2! * x) + b3! * exp(-((x - b4!) ** 2) / b5! ** 2) + b6! * exp(-((x - b7!) ** 2) / b8! ** 2);
const cubicOverCubic: Model = (x, [b1, b2, b3, b4, b5, b6, b7]) =>
  (b1! + x * (b2! + x * (b3! + x * b4!))) / (1 + x * (b5! + x * (b6! + x * b7!)));
const saturation: Model = (x, [b1, b2]) => b1! * (1 - exp(-b2! * x));
const models: Record<string, Model> = {
  Gauss1: twoGaussians,
  Gauss2: twoGaussians,
  Gauss3: twoGaussians,
  Eckerle4: (x, [b1, b2, b3]) => (b1! / b2!) * exp(-0.5 * ((x - b3!) / b2!) ** 2),
  Misra1a: saturation,
  BoxBOD: saturation,
  Chwirut2: (x, [b1, b2, b3]) => exp(-b1! * x) / (b2! + b3! * x),
  DanWood: (x, [b1, b2]) => b1! * x ** b2!,
  Lanczos3: (x, [b1, b2, b3, b4, b5, b6]) => b1! * exp(-b2! * x) + b3! * exp(-b4! * x) + b5! * exp(-b6! * x),
  Kirby2: (x, [b1, b2, b3, b4, b5]) => (b1! + x * (b2! + x * b3!)) / (1 + x * (b4! + x * b5!)),
  Hahn1: cubicOverCubic,
  Thurber: cubicOverCubic,
  MGH17: (x, [b1, b2, b3, b4, b5]) => b1! + b2! * exp(-x * b4!) + b3! * exp(-x * b5!),
  ENSO: (x, [b1, b2, b3, b4, b5, b6, b7, b8, b9]) =>
    b1! + b2! * cos((2 * PI * x) / 12) + b3! * sin((2 * PI * x) / 12) +
    b5! * cos((2 * PI * x) / b4!) + b6! * sin((2 * PI * x) / b4!) +
    b8! * cos((2 * PI * x) / b7!) + b9! * sin((2 * PI * x) / b7!),
  MGH09: (x, [b1, b2, b3, b4]) => (b1! * (x ** 2 + x * b2!)) / (x ** 2 + x * b3! + b4!),
  MGH10: (x, [b1, b2, b3]) => b1! * exp(b2! / (x + b3!)),
  Rat42: (x, [b1, b2, b3]) => b1! / (1 + exp(b2! - b3! * x)),
  Rat43: (x, [b1, b2, b3, b4]) => b1! / (1 + exp(b2! - b3! * x)) ** (1 / b4!),
  Bennett5: (x, [b1, b2, b3]) => b1! * (b2! + x) ** (-1 / b3!),
};

const fitSet = (set: NonlinearSet, start: number) =>
  fitNonlinear((b, out) => set.x.forEach((x, i) => { out[i] = models[set.name]!(x, b); }), set.y, set.starts[start]!, { maxIterations: 2000 });

describe('certified', () => {
  it.each(readNonlinearSets().flatMap((set) => [0, 1].map((start) => [set.name, start, set] as const)))('%s from start %i', (name, start, set) => {
    const t = performance.now();
    const fit = fitSet(set, start);
    const dev = fit.covariance.map((row, i) => fit.residualStandardDeviation * Math.sqrt(row[i]!));
    console.log(name, start, agreeingDigits(fit.parameters, set.certified).toFixed(1), agreeingDigits(dev, set.standardDeviations).toFixed(1), agreeingDigits([fit.weightedSumOfSquares],[set.residualSumOfSquares]).toFixed(1), fit.iterations, fit.converged, (performance.now()-t).toFixed(0));
    expect(fit.converged).toBe(true);
  });
});
