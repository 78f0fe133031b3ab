import { crossingRows, findBands } from 'halfmax/metrics';
import { splitStream } from 'halfmax/numeric';
import { propagate } from 'halfmax/uncertainty';

/** 200 trials of the FWHM of an invented band, with vectors. */
export function trialsOfABand() {
  const wavelengthNm = Float64Array.from({ length: 240 }, (_, i) => 636 + 0.17 * i);
  const transmittance = wavelengthNm.map((nm) => 0.9 / (1 + ((nm - 656.3) / 1.5) ** 8));
  const curve = { wavelengthNm, transmittance, standardUncertainty: new Float64Array(240).fill(0.003) };
  const { firstPixel, endPixel, trials, read } = crossingRows(curve, findBands(curve)[0], {
    lineSpreadNm: 1.1,
  });
  const found = new Float64Array(4 * trials);
  const run = (x, out) => {
    read(x, found);
    for (let k = 0; k < trials; k++) out[k] = found[3 * trials + k] - found[2 * trials + k];
  };
  const distribution = {
    kind: 'independentNormal',
    mean: transmittance.slice(firstPixel, endPixel),
    standardUncertainty: new Float64Array(endPixel - firstPixel).fill(0.003),
  };
  const options = { outputs: 1, draws: 200, streams: (block) => splitStream(5, block) };
  const { samples } = propagate({ trials, run }, [{ source: 'pixels', distribution }], options);
  return Array.from(samples[0]);
}
