/** What a measurement says of a quantity. */
export type Measured =
  /** A value whose error is taken as normal. */
  | { readonly value: number; readonly standardUncertainty: number }
  /** Monte Carlo draws of the quantity; `value` is the estimate reported, the mean of the draws where left out. */
  | { readonly samples: ArrayLike<number>; readonly value?: number }
  /** Only a lower bound could be found, such as an optical density beyond the reach of the instrument. */
  | { readonly atLeast: number }
  /** Only an upper bound could be found. */
  | { readonly atMost: number }
  /** No honest number, and why. */
  | { readonly absent: string };

/** A measurement with a number and its uncertainty. */
export type MeasuredValue = Exclude<
  Measured,
  { readonly atLeast: number } | { readonly atMost: number } | { readonly absent: string }
>;

/**
 * Value and standard uncertainty of a measurement given either way.
 *
 * @param measured - value with standard uncertainty, or draws (two or more)
 * @returns value and standard uncertainty (of draws: their standard deviation, divisor M - 1)
 * @throws {RangeError} numbers that are not finite, a negative uncertainty, or fewer than 2 draws
 */
export function measuredValue(measured: MeasuredValue): {
  readonly value: number;
  readonly standardUncertainty: number;
} {
  if ('samples' in measured) return fromSamples(measured.samples, measured.value);
  const { value, standardUncertainty } = measured;
  if (!Number.isFinite(value)) throw new RangeError(`measured value requires a finite number, got ${value}`);
  if (!(Number.isFinite(standardUncertainty) && standardUncertainty >= 0)) {
    throw new RangeError(`measured value requires standardUncertainty >= 0, got ${standardUncertainty}`);
  }
  return { value, standardUncertainty };
}

function fromSamples(
  samples: ArrayLike<number>,
  estimate: number | undefined,
): { readonly value: number; readonly standardUncertainty: number } {
  const m = samples.length;
  if (m < 2) throw new RangeError(`measured samples require at least 2 draws, got ${m}`);
  const mean = sumOf(samples) / m;
  if (!Number.isFinite(mean)) {
    const i = Array.prototype.findIndex.call(samples, (sample) => !Number.isFinite(sample));
    throw new RangeError(`measured samples require finite numbers, got ${samples[i]} at index ${i}`);
  }
  const squares = squaresAbout(samples, mean);
  const value = estimate ?? mean;
  if (!Number.isFinite(value)) throw new RangeError(`measured value requires a finite number, got ${value}`);
  return { value, standardUncertainty: Math.sqrt(squares / (m - 1)) };
}

function sumOf(samples: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < samples.length; i++) sum += samples[i]!;
  return sum;
}

function squaresAbout(samples: ArrayLike<number>, mean: number): number {
  let squares = 0;
  for (let i = 0; i < samples.length; i++) squares += (samples[i]! - mean) ** 2;
  return squares;
}
