import { readSession } from '../../packages/halfmax/dist/session/index.js';

const dist = new URL('../../packages/halfmax/dist/', import.meta.url);
const load = (path) => import(new URL(path, dist).href);

/**
 * A passband of the demonstration session, ready for its Monte Carlo.
 *
 * @param {string} filterId the filter
 * @param {number} index which of its bands
 * @returns curve, range, line spread and the tables of the band's model
 */
export async function bandOf(filterId, index) {
  const [{ planMeasurement }, { bandTables }, { curveOnScale }, { bandTargets }] = await Promise.all([
    load('measure/index.js'),
    load('measure/bandTables.js'),
    load('measure/curveOnScale.js'),
    load('measure/bandTargets.js'),
  ]);
  const { transmittanceCurve } = await load('transmittance/index.js');
  const { describeBand, findBands } = await load('metrics/index.js');
  const { correctBand } = await load('correction/index.js');
  const { lineSpreadAt } = await load('calibration/index.js');
  const folder = new URL('../../data-demo/session', import.meta.url).pathname;
  const provenance = { package: 'halfmax', version: 'bench', node: process.version, seed: 1, draws: 0 };
  const { jobs } = planMeasurement(readSession(folder), { provenance });
  const { filter, frames, calibration, options } = jobs.find((job) => job.filter.id === filterId);
  const scans = frames.spectra;
  const measured = transmittanceCurve(
    scans.filter((scan) => scan.role === 'filtered' && scan.filter === filterId),
    scans.filter((scan) => scan.role === 'open'),
    { noise: frames.noise },
  );
  const scaled = curveOnScale(measured, calibration.dispersion);
  const ranges = findBands(scaled.curve);
  const range = ranges[index];
  const lineSpreadNm = lineSpreadAt(calibration.lineSpread, range.peakNm).fwhmNm;
  const metrics = describeBand(scaled.curve, range, { lineSpreadNm, floor: scaled.floor });
  const nominal = {
    centreNm: metrics.centreNm.value,
    fwhmNm: metrics.fwhmNm.value,
    peakTransmittance: metrics.peakTransmittance.value,
  };
  const { targets, neighbours } = bandTargets(filter.lines, ranges)[index];
  const tables = bandTables({
    curve: scaled.curve,
    noiseParts: scaled.noiseParts,
    range,
    lineSpreadNm,
    lines: [...targets, ...neighbours],
    calibration,
    pixels: measured.transmittance.length,
    correction: correctBand(scaled.curve, scaled.openCounts, range, nominal, calibration),
    levels: { drift: 0.001, flicker: options.flicker, repeat: 0.0005, nonLinearity: options.nonLinearity },
  });
  return { curve: scaled.curve, range, lineSpreadNm, nominal, tables };
}
