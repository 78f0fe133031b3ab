import { absent, type Quantity } from '../metrics/index.js';
import { describeOutput } from '../uncertainty/index.js';

/**
 * A number from its trials.
 *
 * @param trials - values, 50 or more; one that is not finite marks a trial without a result
 * @param why - the reason to give where more than one trial in twenty has no result
 * @returns mean, standard deviation and the central 95 %, or the reason
 */
export function summaryOf(trials: Float64Array, why: string): Quantity {
  const output = describeOutput(trials, 0.95, 0.05);
  if ('absent' in output) return absent(why);
  return {
    value: output.mean,
    standardUncertainty: output.standardUncertainty,
    interval95: output.symmetric,
  };
}
