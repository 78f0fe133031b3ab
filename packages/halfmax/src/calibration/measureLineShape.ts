import { median, medianAbsoluteDeviation } from '../numeric/index.js';
import { type FittedLine, fitLineGroup } from './fitLineGroup.js';
import { flooredNoise } from './flooredNoise.js';
import { type LineShape, lineShape, RESIDUAL_LENGTH, RESIDUAL_REACH, RESIDUAL_STEP } from './lineShape.js';
import type { NamedLine } from './nameLines.js';
import { singleLines } from './singleLines.js';
import type { LampSpectrum } from './types.js';

/** Bright lines that the shape is taken from. */
const SHAPE_LINES = 16;
/** Shapes tried: the Gaussian, then one box and two like or unlike boxes with more and more of the variance. */
const TRIAL_SHAPES: readonly (readonly [boxShare: number, boxRatio: number])[] = [
  [0, 1],
  ...[0.2, 0.35, 0.5, 0.65, 0.8, 0.9].map((share) => [share, 0.1] as const),
  ...[0.3, 0.5, 0.7, 0.85, 0.98].flatMap((share) => [[share, 0.55] as const, [share, 1] as const]),
];

const trialShapes: LineShape[] = [];

/** The trial shapes, made when they are first asked for. */
function shapesToTry(): readonly LineShape[] {
  if (trialShapes.length === 0)
    for (const [share, ratio] of TRIAL_SHAPES) trialShapes.push(lineShape(share, ratio, 0));
  return trialShapes;
}

/** The shape of a session's lines. */
export interface CommonShape {
  readonly shape: LineShape;
  /** Relative uncertainty of every width from the choice of the shape. */
  readonly widthShareUncertainty: number;
  readonly skewnessUncertainty: number;
}

/**
 * The shape that the clear, single lines of a session share.
 *
 * @param named - all found lines with their names
 * @param spectra - the lamp spectra they were found in
 * @returns the shape; a Gaussian where no line stands alone and clear of the noise
 */
export function measureLineShape(named: readonly NamedLine[], spectra: readonly LampSpectrum[]): CommonShape {
  const clean = singleLines(named).slice(0, SHAPE_LINES);
  const noises = new Map(spectra.map((spectrum) => [spectrum, flooredNoise(spectrum)]));
  const trials = shapesToTry()
    .map((shape) => {
      const fits = clean.flatMap((line) => fitAlone(line, spectra, noises, shape, true));
      return { shape, fits, chiSquare: fits.reduce((sum, fit) => sum + fit.chiSquare, 0) };
    })
    .filter((trial) => trial.fits.length === clean.length);
  const gaussian = trials[0];
  if (clean.length === 0 || gaussian === undefined) {
    return { shape: lineShape(0, 1, 0), widthShareUncertainty: 0.05, skewnessUncertainty: 0.1 };
  }
  const best = trials.reduce((a, b) => (b.chiSquare < a.chiSquare ? b : a));
  const freedom = best.fits.reduce((sum, fit) => sum + fit.degreesOfFreedom, 0);
  // The misfit that is left sets the scale on which shapes are told apart.
  const scale = Math.max(1, best.chiSquare / Math.max(1, freedom));
  const chosen = (gaussian.chiSquare - best.chiSquare) / scale > 9 ? best : gaussian;
  const alike = trials.filter((trial) => (trial.chiSquare - best.chiSquare) / scale < 4);
  const widths = alike.map((trial) => median(trial.fits.map((fit) => fit.fwhmPixels)));
  const middle = median(chosen.fits.map((fit) => fit.fwhmPixels));
  const skews = chosen.fits.map((fit) => fit.skewness);
  const skewness = Math.abs(median(skews)) > 0.01 ? Math.max(-0.6, Math.min(0.6, median(skews))) : 0;
  const spread = medianAbsoluteDeviation(skews);
  let shape = lineShape(chosen.shape.boxShare, chosen.shape.boxRatio, skewness);
  for (let round = 0; round < RESIDUAL_ROUNDS && clean.length >= LEAST_FOR_RESIDUAL; round++) {
    const fits = clean.flatMap((line) => fitAlone(line, spectra, noises, shape, false));
    const residual = stackResiduals(fits).map((value, n) => value + shape.residual[n]!);
    shape = lineShape(shape.boxShare, shape.boxRatio, skewness, residual);
  }
  return {
    shape,
    widthShareUncertainty: Math.max(
      0.003,
      (Math.max(middle, ...widths) - Math.min(middle, ...widths)) / (4 * middle),
    ),
    skewnessUncertainty: Math.max(0.01, spread / Math.sqrt(skews.length)),
  };
}

/** Lines that a residual of the shape is stacked from, at least, and how often it is refined. */
const LEAST_FOR_RESIDUAL = 4;
const RESIDUAL_ROUNDS = 2;

/**
 * What the lines share beyond the closed form: the median of their residuals place by place, drawn towards zero where
 * it does not stand clear of the lines' scatter.
 */
function stackResiduals(fits: readonly FittedLine[]): Float64Array {
  return Float64Array.from({ length: RESIDUAL_LENGTH }, (_, n) => {
    const centre = n * RESIDUAL_STEP - RESIDUAL_REACH;
    const values: number[] = [];
    let noise = 0;
    for (const { left } of fits) {
      for (let i = 0; i < left.z.length; i++) {
        if (Math.abs(left.z[i]! - centre) > RESIDUAL_STEP) continue;
        values.push(left.residual[i]!);
        noise += left.noise[i]! ** 2;
      }
    }
    if (values.length < 3) return 0;
    const middle = median(values);
    const scatter = medianAbsoluteDeviation(values);
    // Variance of a median: pi/2 that of a mean.
    const variance = (1.57 * Math.max(scatter ** 2, noise / values.length)) / values.length;
    return (middle * middle ** 2) / (middle ** 2 + variance);
  });
}

function fitAlone(
  line: NamedLine,
  spectra: readonly LampSpectrum[],
  noises: ReadonlyMap<LampSpectrum, Float64Array>,
  shape: LineShape,
  freeSkew: boolean,
): FittedLine[] {
  const spectrum = spectra.find((candidate) => candidate.label === line.lamp);
  if (spectrum === undefined) return [];
  const group = {
    counts: spectrum.countsPerMs,
    noise: noises.get(spectrum)!,
    masked: spectrum.masked,
    centres: [line.found.pixel],
    hidden: [],
    width: line.found.fwhmPixels,
    before: Number.NEGATIVE_INFINITY,
    after: Number.POSITIVE_INFINITY,
  };
  return fitLineGroup(group, shape, freeSkew);
}
