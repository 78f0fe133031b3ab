import { modelOfTables } from '../../packages/halfmax/dist/measure/bandModel.js';
import { crossingReader } from '../../packages/halfmax/dist/metrics/index.js';

/** Corrected FWHM and its fellows of a band: what a worker makes its model from. */
export function corrected(tables) {
  const { stated, inputs, outputs } = modelOfTables(tables);
  return { model: stated, inputs, outputs };
}

/** FWHM as measured of a band whose pixels are uncertain, each on its own. */
export function asMeasured({ curve, range, lineSpreadNm }) {
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

/** The random numbers of a draw alone: the model only looks at one of them. */
export function randomOnly({ curve, firstPixel, endPixel }) {
  return {
    model: (x, out) => {
      out[0] = x[0];
    },
    inputs: [noise(curve, firstPixel, endPixel)],
  };
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
