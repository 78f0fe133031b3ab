import { rowTrials } from 'halfmax/uncertainty';

/** A sum and a product of three inputs, for runs in threads; `data` is the mean of the first. */
export function make(data) {
  return {
    model: (x, out) => {
      out[0] = x[0] + x[1] + x[2];
      if (x[1] < 2.9) out[1] = x[1] * x[2];
    },
    inputs: [
      { source: 'a', distribution: { kind: 'normal', mean: data, standardUncertainty: 0.1 } },
      {
        source: 'b',
        distribution: { kind: 'independentNormal', mean: [2, 3], standardUncertainty: [0.2, 0.3] },
      },
    ],
  };
}

/** The same for many trials side by side. */
export function makeRows(data) {
  const { model, inputs } = make(data);
  const trials = rowTrials;
  const [one, result] = [new Float64Array(3), new Float64Array(2)];
  const run = (x, out) => {
    for (let trial = 0; trial < trials; trial++) {
      for (let i = 0; i < 3; i++) one[i] = x[i * trials + trial];
      result.fill(Number.NaN);
      model(one, result);
      for (let k = 0; k < 2; k++) out[k * trials + trial] = result[k];
    }
  };
  return { model: { trials, run }, inputs };
}

/** So many inputs and five outputs: the sum of the inputs up to the k-th fifth. */
export function wide(inputs) {
  return {
    model: (x, out) => {
      for (let k = 0; k < 5; k++) {
        out[k] = 0;
        for (let i = 0; i <= (k * (inputs - 1)) / 4; i++) out[k] += x[i];
      }
    },
    inputs: [
      {
        source: 'all',
        distribution: {
          kind: 'independentNormal',
          mean: new Array(inputs).fill(1),
          standardUncertainty: new Array(inputs).fill(0.1),
        },
      },
    ],
  };
}

/** A model that fails in a thread. */
export function broken() {
  throw new RangeError('broken on purpose');
}
