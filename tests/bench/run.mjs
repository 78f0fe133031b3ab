/**
 * The benchmarks of the Monte Carlo: `npm run bench`, or `npm run bench -- --json` for one JSON object per benchmark.
 * Nothing here is a test: a slow machine fails nothing.
 */
import { spawnSync } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { crossingReader, crossingRows } from 'halfmax/metrics';
import { propagateInThreads } from 'halfmax/session';
import { modelOfTables } from '../../packages/halfmax/dist/measure/bandModel.js';
import { bandKernel } from '../../packages/halfmax/dist/metrics/bandKernel.js';
import { planBand } from '../../packages/halfmax/dist/metrics/bandPlan.js';
import { patterns, peakPatterns, thinnedWeight } from '../../packages/halfmax/dist/metrics/smoothedPeak.js';
import { bandOf } from './bandOf.mjs';

const json = process.argv.includes('--json');
const cores = availableParallelism();
const modules = {
  asMeasured: new URL('./asMeasuredModels.mjs', import.meta.url).href,
  corrected: new URL('./correctedModel.mjs', import.meta.url).href,
};
const python = '/usr/bin/python3';
const RUNS = 10;
const SEED = 1;

function say(text) {
  if (!json) process.stdout.write(`${text}\n`);
}

/** Writes one benchmark; ratio above 1: ours is the faster. */
function report(result) {
  if (json) {
    process.stdout.write(`${JSON.stringify(result)}\n`);
    return;
  }
  const { name, ours, peer, ratio, limit, unit, note } = result;
  const shown = (value) =>
    value === null || value === undefined ? '–' : Number(value.toPrecision(3)).toLocaleString('en');
  say(`${name}: ${shown(ours)} ${unit}; peer ${shown(peer)}, ratio ${shown(ratio)}, limit ${shown(limit)}`);
  for (const [whose, runs] of Object.entries({ ours: result.oursRuns, peer: result.peerRuns }))
    if (runs) say(`  ${whose}, each run: ${runs.map((rate) => rate.toLocaleString('en')).join(' ')}`);
  if (note !== undefined) say(`  ${note}`);
}

/** Trials in threads: shortest of a few runs, workers' start included. */
async function timed({ module = modules.asMeasured, ...trials }, runs = RUNS) {
  const seconds = [];
  let result;
  for (let run = 0; run < runs; run++) {
    const start = performance.now();
    result = await propagateInThreads({ module, seed: SEED, allowedFailures: 0.02, ...trials });
    seconds.push((performance.now() - start) / 1000);
  }
  const rates = ratesOf(trials.draws, seconds);
  return { seconds: Math.min(...seconds), rate: Math.max(...rates), rates, output: result.outputs[0] };
}

/** Draws per second of each run, whole. */
function ratesOf(draws, seconds) {
  return seconds.map((one) => Math.round(draws / one));
}

/** The band's curve from two FWHM below its centre to two above, as a person would cut it out. */
function cutOut({ curve, nominal }) {
  const near = Array.from(curve.wavelengthNm.keys()).filter(
    (i) => Math.abs(curve.wavelengthNm[i] - nominal.centreNm) <= 2 * nominal.fwhmNm,
  );
  const pick = (values) => Float64Array.from(near, (i) => values[i]);
  return {
    wavelengthNm: pick(curve.wavelengthNm),
    transmittance: pick(curve.transmittance),
    standardUncertainty: pick(curve.standardUncertainty),
  };
}

/** The package's definitions of peak and crossings on these pixels, as numbers for the peer: weights and patterns. */
function definitions({ curve, range, lineSpreadNm }) {
  const { top, blueEdge, redEdge, firstPixel, endPixel } = bandKernel(
    planBand('bench', curve, range, { lineSpreadNm }),
  );
  const rows = (stretch, kind) =>
    stretch.weights.map((weights) => {
      const row = new Array(endPixel - firstPixel).fill(0);
      weights[kind].forEach((value, i) => {
        row[weights.from - firstPixel + i] = value;
      });
      return row;
    });
  const parts = (stretch) => ({
    atNm: Array.from(stretch.atNm),
    value: rows(stretch, 'value'),
    slope: rows(stretch, 'slope'),
  });
  const { noise, noiseSlopes } = peakPatterns(top, curve.standardUncertainty);
  const n = top.atNm.length;
  const perPattern = (values) =>
    Array.from({ length: patterns }, (_, p) => Array.from(values.subarray(p * n, (p + 1) * n)));
  const part = (values) => Array.from(values.subarray(firstPixel, endPixel));
  return {
    wavelengthNm: part(curve.wavelengthNm),
    transmittance: part(curve.transmittance),
    standardUncertainty: part(curve.standardUncertainty),
    top: parts(top),
    blueEdge: parts(blueEdge),
    redEdge: parts(redEdge),
    noise: perPattern(noise),
    noiseSlopes: perPattern(noiseSlopes),
    thinnedWeight,
  };
}

function numpy(data, reader, draws, cores_) {
  const whole = {
    wavelengthNm: Array.from(data.curve.wavelengthNm),
    transmittance: Array.from(data.curve.transmittance),
    standardUncertainty: Array.from(data.curve.standardUncertainty),
  };
  const task = {
    ...(reader === 'same' ? definitions(data) : whole),
    reader,
    windowNm: 0.6,
    seed: SEED,
    draws,
    batch: 2000,
    runs: RUNS,
  };
  const threads = String(cores_);
  const done = spawnSync(python, [new URL('./peer.py', import.meta.url).pathname], {
    input: JSON.stringify(task),
    encoding: 'utf8',
    maxBuffer: 1 << 26,
    env: {
      ...process.env,
      OMP_NUM_THREADS: threads,
      OPENBLAS_NUM_THREADS: threads,
      MKL_NUM_THREADS: threads,
    },
  });
  if (done.error !== undefined || done.status !== 0) {
    const why = done.error?.message ?? done.stderr.trim().split('\n').at(-1);
    return { absent: `no peer: ${python} with numpy does not run (${why})` };
  }
  return JSON.parse(done.stdout);
}

/** As-measured FWHM of a demonstration band, pixel noise alone, against numpy with the same curve. */
async function asMeasured(band) {
  const draws = 2_000_000;
  const cut = cutOut(band);
  const range = {
    ...band.range,
    fromNm: Math.max(band.range.fromNm, cut.wavelengthNm[0]),
    toNm: Math.min(band.range.toNm, cut.wavelengthNm.at(-1)),
  };
  const data = { curve: cut, range, lineSpreadNm: band.lineSpreadNm };
  const { firstPixel, endPixel, trials } = crossingRows(cut, range, { lineSpreadNm: band.lineSpreadNm });
  const peers = ['same', 'plain'].map((reader) => {
    const one = numpy(data, reader, draws, 1);
    return { reader, seconds: [one, cores > 1 ? numpy(data, reader, draws, 2) : one] };
  });
  const singly = await timed({ make: 'asMeasuredSingly', data, outputs: 1, draws, threads: 1 }, 3);
  for (const threads of cores > 1 ? [1, 2] : [1]) {
    const ours = await timed({ make: 'asMeasured', data, outputs: 1, draws, threads });
    const random = await timed({
      make: 'randomOnly',
      data: { curve: cut, firstPixel, endPixel, trials },
      outputs: 1,
      draws,
      threads,
    });
    if (threads === 1)
      report({
        name: 'as-measured FWHM, one core, trials side by side against one after the other',
        ours: ours.rate,
        peer: singly.rate,
        ratio: ours.rate / singly.rate,
        limit: random.rate,
        unit: 'draws/s',
        draws,
        note: agreement(ours.output, singly.output, draws),
      });
    for (const { reader, seconds } of peers) {
      const other = seconds[threads - 1];
      const peerRuns = 'absent' in other ? null : ratesOf(draws, other.seconds);
      const peerRate = peerRuns === null ? null : Math.max(...peerRuns);
      report({
        name: `as-measured FWHM, ${threads === 1 ? 'one core' : 'two cores'}, against numpy ${PEERS[reader].name}`,
        ours: ours.rate,
        peer: peerRate,
        ratio: peerRate === null ? null : ours.rate / peerRate,
        limit: random.rate,
        unit: 'draws/s',
        draws,
        oursRuns: ours.rates,
        peerRuns,
        pixels: cut.wavelengthNm.length,
        pixelsDrawn: endPixel - firstPixel,
        note: 'absent' in other ? other.absent : agreement(ours.output, other, draws) + PEERS[reader].note,
      });
    }
  }
  const [first] = peers[0].seconds;
  if (!('absent' in first)) say(`python ${first.python}, numpy ${first.numpy}`);
  return 'absent' in first ? null : first;
}

/** What the peer's readers do. */
const PEERS = {
  same: { name: 'by the same definitions', note: '' },
  plain: {
    name: 'by plainer definitions',
    note:
      ' Methods differ: this peer takes the highest pixel of the smoothed curve as the peak, which noise lifts, and ' +
      'straight lines between pixels at the edges; ours takes the lift off and reads smooth edges at half pixels.',
  },
};

/** Whether both programs found the same, within what their methods differ. */
function agreement(ours, peer, draws) {
  const u = ours.standardUncertainty;
  const apart = ours.mean - peer.mean;
  const error = Math.sqrt(2 / draws) * Math.max(u, peer.standardUncertainty);
  return (
    `mean ${ours.mean.toFixed(5)} and ${peer.mean.toFixed(5)} nm, apart ${apart.toFixed(5)} nm = ${(apart / u).toFixed(2)} u ` +
    `(sampling error ${error.toFixed(6)}); standard uncertainty ${u.toFixed(5)} and ${peer.standardUncertainty.toFixed(5)} nm.`
  );
}

/** One million draws of the corrected FWHM with every input that `halfmax measure` has. */
async function corrected(band) {
  const draws = 1_000_000;
  const { outputs } = modelOfTables(band.tables);
  const keep = [outputs.indexOf('corrected fwhm')];
  for (const threads of cores > 1 ? [1, 2] : [1]) {
    const trials = {
      module: modules.corrected,
      make: 'corrected',
      data: band.tables,
      outputs: outputs.length,
      keep,
      draws,
      threads,
    };
    const { seconds, output } = await timed(trials, 1);
    report({
      name: `corrected FWHM, a million draws, ${threads === 1 ? 'one core' : 'two cores'}`,
      ours: seconds,
      peer: null,
      ratio: null,
      limit: null,
      unit: 's',
      note:
        `${output.mean.toFixed(4)} ± ${output.standardUncertainty.toFixed(4)} nm. The fit is not made anew for each draw: ` +
        'its parameters follow pixels, line spread and prior to first order, and each draw reads the band shape itself.',
    });
  }
}

/** How the time of a run grows. */
async function growth(band) {
  const { outputs } = modelOfTables(band.tables);
  const base = {
    module: modules.corrected,
    make: 'corrected',
    outputs: outputs.length,
    keep: [0],
    threads: 1,
  };
  for (const draws of [50_000, 100_000, 200_000]) {
    const before = process.memoryUsage().rss;
    const { seconds, rate } = await timed({ ...base, data: band.tables, draws }, 2);
    const grown = (process.memoryUsage().rss - before) / 2 ** 20;
    report({
      name: `growth with draws: ${draws}`,
      ours: rate,
      peer: null,
      ratio: null,
      limit: null,
      unit: 'draws/s',
      note: `${seconds.toFixed(2)} s, memory grown by ${grown.toFixed(0)} MiB, ${((8 * draws) / 2 ** 20).toFixed(1)} MiB of it draws kept`,
    });
  }
  for (const every of [4, 2, 1]) {
    const curve = finer(band, every);
    const data = { curve, range: band.range, lineSpreadNm: band.lineSpreadNm };
    const { firstPixel, endPixel } = crossingReader(curve, band.range, { lineSpreadNm: band.lineSpreadNm });
    const { rate } = await timed({ make: 'asMeasured', data, outputs: 1, draws: 50_000, threads: 1 }, 2);
    report({
      name: `growth with pixels: ${endPixel - firstPixel} in the band`,
      ours: rate,
      peer: null,
      ratio: null,
      limit: null,
      unit: 'draws/s',
    });
  }
  for (const filters of [1, 2, 4]) {
    const { seconds } = await manyBands(band, filters);
    report({
      name: `growth with filters: ${filters}`,
      ours: seconds,
      peer: null,
      ratio: null,
      limit: null,
      unit: 's',
      note: '50 000 draws of the corrected FWHM each, one core',
    });
  }
}

/** The same band with its pixels 1, 1/2 or 1/4 as far apart, straight lines between. */
function finer({ curve }, every) {
  const parts = 4 / every;
  const n = (curve.wavelengthNm.length - 1) * parts + 1;
  const at = (values) =>
    Float64Array.from({ length: n }, (_, i) => {
      const k = Math.min(values.length - 2, Math.floor(i / parts));
      const share = i / parts - k;
      return values[k] * (1 - share) + values[k + 1] * share;
    });
  return {
    wavelengthNm: at(curve.wavelengthNm),
    transmittance: at(curve.transmittance),
    standardUncertainty: at(curve.standardUncertainty),
  };
}

async function manyBands(band, filters) {
  const { outputs } = modelOfTables(band.tables);
  let seconds = 0;
  for (let k = 0; k < filters; k++) {
    const trials = {
      module: modules.corrected,
      make: 'corrected',
      data: band.tables,
      outputs: outputs.length,
      keep: [0],
      threads: 1,
    };
    seconds += (await timed({ ...trials, seed: SEED + k, draws: 50_000 }, 1)).seconds;
  }
  return { seconds };
}

const band = await bandOf('ossenvale-ha', 0);
say(`node ${process.version}, ${cores} cores; rates are the best of ${RUNS} runs`);
const peer = await asMeasured(band);
await corrected(band);
await growth(band);
if (json)
  report({
    name: 'versions',
    node: process.version,
    python: peer?.python ?? null,
    numpy: peer?.numpy ?? null,
    cores,
  });
