import type { Dispersion } from '../calibration/index.js';
import type { Model, UncertainInput } from '../uncertainty/index.js';

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
  model: Model,
  inputs: readonly UncertainInput[],
  { noise, scale }: InputParts,
): { readonly model: Model; readonly inputs: readonly UncertainInput[] } {
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
    model: (x, out) => {
      const size = x.length - surplus - 1;
      if (summed.length !== size) summed = new Float64Array(size);
      summed.set(x.subarray(surplus + pixels, x.length - 1), pixels);
      for (let i = 0; i < pixels; i++) {
        let value = 0;
        for (let at = i; at <= surplus + i; at += pixels) value += x[at]!;
        summed[i] = value;
      }
      summed[scale.at]! += x[x.length - 1]!;
      model(summed, out);
    },
  };
}
