import { crossingReader, crossingRows } from 'halfmax/metrics';

/** FWHM as measured of a band whose pixels are uncertain, each on its own: many trials side by side. */
export function asMeasured({ curve, range, lineSpreadNm }) {
  const { firstPixel, endPixel, trials, read } = crossingRows(curve, range, { lineSpreadNm });
  const found = new Float64Array(4 * trials);
  const run = (x, out) => {
    read(x, found);
    for (let trial = 0; trial < trials; trial++)
      out[trial] = found[3 * trials + trial] - found[2 * trials + trial];
  };
  return { model: { trials, run }, inputs: [noise(curve, firstPixel, endPixel)] };
}

/** The same, one trial after the other. */
export function asMeasuredSingly({ curve, range, lineSpreadNm }) {
  const { firstPixel, endPixel, read } = crossingReader(curve, range, { lineSpreadNm });
  const drawn = Float64Array.from(curve.transmittance);
  const found = new Float64Array(4);
  const count = endPixel - firstPixel;
  return {
    model: (x, out) => {
      for (let i = 0; i < count; i++) drawn[firstPixel + i] = x[i];
      if (read(drawn, found)) out[0] = found[3] - found[2];
    },
    inputs: [noise(curve, firstPixel, endPixel)],
  };
}

/** The random numbers of a trial alone: the model only looks at one of them. */
export function randomOnly({ curve, firstPixel, endPixel, trials }) {
  const run = (x, out) => {
    for (let trial = 0; trial < trials; trial++) out[trial] = x[trial];
  };
  return { model: { trials, run }, inputs: [noise(curve, firstPixel, endPixel)] };
}

function noise(curve, first, end) {
  return {
    source: 'pixel noise',
    distribution: {
      kind: 'independentNormal',
      mean: curve.transmittance.slice(first, end),
      standardUncertainty: curve.standardUncertainty.slice(first, end),
    },
  };
}
