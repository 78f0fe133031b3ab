import type { Dispersion } from '../calibration/index.js';
import type { RowModel, UncertainInput } from '../uncertainty/index.js';

/** How the inputs of a band's model part further. */
export interface InputParts {
  /** Parts of the noise of the pixels, the first of the inputs. */
  readonly noise: readonly { readonly source: string; readonly standardUncertainty: Float64Array }[];
  /** Place of the scale's input in the model's argument, and the part of it that is the coupling of the light. */
  readonly scale: { readonly at: number; readonly dispersion: Dispersion; readonly couplingNm: number };
}

export const LAMP_LINES = 'lamp lines and the fit of the wavelength scale';
export const COUPLING = 'light of lamps and scans falling in unlike';

/**
 * Parts what a model takes as one input into its sources, for a budget: the draws of a run need no more than their sum.
 *
 * @param model - takes the noise of the pixels first
 * @param inputs - of the model
 * @param parts - how they part
 * @returns a model and inputs that give the same distribution, source by source
 */
export function partInputs(
  { trials, run }: RowModel,
  inputs: readonly UncertainInput[],
  { noise, scale }: InputParts,
): { readonly model: RowModel; readonly inputs: readonly UncertainInput[] } {
  const pixels = noise[0]!.standardUncertainty.length;
  const surplus = (noise.length - 1) * pixels;
  const covariance = scale.dispersion.covariance.map((row) => Float64Array.from(row));
  covariance[0]![0] = Math.max(0, covariance[0]![0]! - scale.couplingNm ** 2);
  const own = inputs
    .slice(1)
    .map(
      (input): UncertainInput =>
        input.distribution.kind === 'multivariateNormal'
          ? { source: LAMP_LINES, distribution: { ...input.distribution, covariance } }
          : input,
    );
  let summed = new Float64Array(0);
  return {
    inputs: [
      ...noise.map(
        ({ source, standardUncertainty }): UncertainInput => ({
          source,
          distribution: { kind: 'independentNormal', mean: new Float64Array(pixels), standardUncertainty },
        }),
      ),
      ...own,
      { source: COUPLING, distribution: { kind: 'normal', mean: 0, standardUncertainty: scale.couplingNm } },
    ],
    model: {
      trials,
      run: (x, out) => {
        const size = x.length / trials - surplus - 1;
        if (summed.length !== size * trials) summed = new Float64Array(size * trials);
        summed.set(x.subarray((surplus + pixels) * trials, x.length - trials), pixels * trials);
        for (let at = 0; at < pixels * trials; at++) {
          let value = 0;
          for (let part = at; part <= surplus * trials + at; part += pixels * trials) value += x[part]!;
          summed[at] = value;
        }
        for (let k = 0; k < trials; k++) summed[scale.at * trials + k]! += x[x.length - trials + k]!;
        run(summed, out);
      },
    },
  };
}
