import { type Quantity, quantity } from '../metrics/index.js';
import { splitStream } from '../numeric/index.js';
import { budget, compareLinear, linearInterval, propagate, propagateLinear } from '../uncertainty/index.js';
import type { BandModel, OutputName } from './bandModel.js';
import { filledModel } from './filledModel.js';
import type { MonteCarloReport, QuantityBudgets } from './measurement.js';

/** How trials are made. */
export interface TrialOptions {
  readonly seed: number;
  /** A fixed count of draws, or null: as many as the results need to be stable. */
  readonly draws: number | null;
  /** Told from time to time how many draws there are by then. */
  readonly onBlock?: (draws: number) => void;
}

/** The Monte Carlo of one band. */
export interface BandSpread {
  /** A number with the uncertainty and the 95 % interval of its draws. */
  readonly quantity: (name: OutputName, value: number, linear?: number) => Quantity;
  /** Draws of an output, moved so that they surround the value reported; null where there are none. */
  readonly samples: (name: OutputName, value: number) => Float64Array | null;
  readonly budget: (name: OutputName) => readonly { source: string; standardUncertainty: number }[];
  readonly budgets: (kind: 'measured' | 'corrected') => QuantityBudgets;
  /** Share of the draws in which the band had no reading of an output: left out of its numbers and its budget. */
  readonly failedShare: (name: OutputName) => number;
  readonly summary: (name: OutputName) => MonteCarloReport;
}

/** Draws behind each share of a budget: its standard deviation is good to about 3 %. */
const BUDGET_DRAWS = 600;
/** Significant digits of a standard uncertainty that an adaptive run makes stable. */
const STABLE_DIGITS = 1;
/** Share of draws that may have no reading, such as a band that a draw splits. */
const ALLOWED_FAILURES = 0.02;
/** An adaptive run ends here, stable or not. */
const MOST_DRAWS = 100_000;

/**
 * Runs the trials of a band's model.
 *
 * @param band - model, inputs and outputs
 * @param options - seed and draws
 * @returns numbers, budgets and the check of the first-order law
 * Source: JCGM 101:2008, 7.9 (adaptive procedure) and 8.1 (validation of the first-order law).
 */
export function bandSpread(band: BandModel, options: TrialOptions): BandSpread {
  const { model, stated, parted, inputs, outputs } = band;
  const run = propagate(model, inputs, {
    outputs: outputs.length,
    streams: (block) => splitStream(options.seed, block),
    digits: STABLE_DIGITS,
    allowedFailures: ALLOWED_FAILURES,
    stableOutputs: outputs.flatMap((name, k) => (isAwaited(name) ? [k] : [])),
    maximumDraws: MOST_DRAWS,
    ...(options.draws === null ? {} : { draws: options.draws }),
    ...(options.onBlock === undefined ? {} : { onBlock: options.onBlock }),
  });
  const centre = new Float64Array(outputs.length).fill(Number.NaN);
  stated(new Float64Array(inputSize(band)), centre);
  const shares = budget(filledModel(parted.model, centre), parted.inputs, {
    outputs: outputs.length,
    draws: BUDGET_DRAWS,
    stream: splitStream(options.seed, BUDGET_STREAM),
  });
  const place = (name: OutputName): number => outputs.indexOf(name);
  const sharesOf = (name: OutputName): { source: string; standardUncertainty: number }[] => {
    const own = shares[place(name)];
    if (own === undefined || 'absent' in own) return [];
    return own.shares.filter((share) => share.standardUncertainty > 0).map((share) => ({ ...share }));
  };
  return {
    quantity: (name, nominal, linear) => {
      const k = place(name);
      const value = nominal;
      const own = run.outputs[k];
      if (own === undefined)
        return linear === undefined ? { absent: 'not measured' } : quantity(value, linear);
      if ('absent' in own) return { absent: `no honest uncertainty: ${own.absent}` };
      const [low, high] = own.symmetric;
      // The draws are placed with their mean on the number reported. A peak is a maximum, which noise lifts both in the
      // fit and again in the draws: without this the interval would count the lift twice.
      const shift = value - own.mean;
      return { value, standardUncertainty: own.standardUncertainty, interval95: [low + shift, high + shift] };
    },
    samples: (name, value) => {
      const k = place(name);
      const own = run.outputs[k];
      if (own === undefined || 'absent' in own) return null;
      const shift = value - own.mean;
      const drawn = run.samples[k]!;
      const moved = new Float64Array(drawn.length - own.failedDraws);
      let count = 0;
      for (let i = 0; i < drawn.length; i++)
        if (Math.abs(drawn[i]!) < Infinity) moved[count++] = drawn[i]! + shift;
      return moved;
    },
    budget: sharesOf,
    budgets: (kind) => ({
      fwhmNm: sharesOf(`${kind} fwhm`),
      centreNm: sharesOf(`${kind} centre`),
      peakTransmittance: sharesOf(`${kind} peak`),
      transmittanceAtLine: sharesOf(`${kind} line 0`),
    }),
    failedShare: (name) => {
      const own = run.outputs[place(name)];
      return own === undefined || 'absent' in own ? 0 : own.failedDraws / run.draws;
    },
    summary: (name) => {
      const k = place(name);
      const own = run.outputs[k];
      const linearCheck =
        own === undefined || 'absent' in own ? { absent: 'no draws' } : firstOrder(band, k, centre[k]!, own);
      return { draws: run.draws, stopped: run.stopped, linearCheck };
    },
  };
}

/** The place of a flat top's peak wanders, and lines beside the band are asides: trials do not wait for them. */
function isAwaited(name: OutputName): boolean {
  return !name.endsWith('peak place') && (!name.includes('line') || name.endsWith('line 0'));
}

/** Stream of the budget, far from those of the blocks. */
const BUDGET_STREAM = 1000;

function inputSize(band: BandModel): number {
  return band.inputs.reduce((sum, { distribution }) => sum + sizeOf(distribution), 0);
}

function sizeOf(distribution: BandModel['inputs'][number]['distribution']): number {
  return 'mean' in distribution && typeof distribution.mean !== 'number' ? distribution.mean.length : 1;
}

/** The first-order law on the same model, held against the Monte Carlo. */
function firstOrder(
  band: BandModel,
  output: number,
  value: number,
  monteCarlo: { standardUncertainty: number; symmetric: readonly [number, number] },
): MonteCarloReport['linearCheck'] {
  if (!(monteCarlo.standardUncertainty > 0)) return { absent: 'nothing varies' };
  const variances = band.inputs.flatMap(({ distribution }) => variancesOf(distribution));
  const size = variances.length;
  const covariance = Array.from({ length: size }, (_, j) => {
    const row = new Float64Array(size);
    row[j] = variances[j]!;
    return row;
  });
  let at = 0;
  for (const { distribution } of band.inputs) {
    if (distribution.kind === 'multivariateNormal') {
      const own = distribution.covariance;
      for (let j = 0; j < own.length; j++) {
        for (let k = 0; k < own.length; k++) covariance[at + j]![at + k] = own[j]![k]!;
      }
    }
    at += sizeOf(distribution);
  }
  const all = new Float64Array(band.outputs.length);
  const one = (x: Float64Array, out: Float64Array): void => {
    all.fill(Number.NaN);
    band.stated(x, all);
    out[0] = all[output]!;
  };
  const linear = propagateLinear(one, new Float64Array(size), covariance, 1);
  const standardUncertainty = linear.standardUncertainties[0]!;
  const interval = linearInterval(value, standardUncertainty, 0.95);
  const check = compareLinear(
    { standardUncertainty: monteCarlo.standardUncertainty, interval: monteCarlo.symmetric },
    { interval },
    STABLE_DIGITS,
  );
  return { standardUncertainty, ...check };
}

function variancesOf(distribution: BandModel['inputs'][number]['distribution']): number[] {
  switch (distribution.kind) {
    case 'normal':
      return [distribution.standardUncertainty ** 2];
    case 'rectangular':
      return [(distribution.upper - distribution.lower) ** 2 / 12];
    case 'independentNormal':
      return Array.from(distribution.standardUncertainty, (u) => u * u);
    case 'multivariateNormal':
      return Array.from(distribution.mean, (_, k) => distribution.covariance[k]![k]!);
    default:
      throw new RangeError(`bandSpread requires inputs of a kind it knows, got ${distribution.kind}`);
  }
}
