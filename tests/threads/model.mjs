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

/** A model that fails in a thread. */
export function broken() {
  throw new RangeError('broken on purpose');
}
