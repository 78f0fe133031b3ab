/**
 * How often the stated 95 % intervals hold the truth, over simulated sessions measured by the whole chain.
 *
 *     node tests/simulation/coverage.mjs [--sessions N] [--seed S] [--draws D] [--verbose]
 *
 * Sessions are drawn by data-demo/generator, unlike the demo: Gaussian, Butterworth and rectangular bands of 2.8 to 8 nm,
 * even, tilted, asymmetric and rippled, line spreads of 0.7 to 2.2 nm of four shapes, other noise, drift and detectors.
 */
import { parseArgs } from 'node:util';
import { randomSpec } from '../../data-demo/generator/randomSpec.mjs';
import { simulateFrames } from '../../data-demo/generator/simulate.mjs';
import { BadInputError } from '../../packages/halfmax/dist/errors.js';
import { measureSession } from '../../packages/halfmax/dist/measure/index.js';

const { values } = parseArgs({
  options: {
    sessions: { type: 'string', default: '400' },
    seed: { type: 'string', default: '5001' },
    draws: { type: 'string', default: '2000' },
    verbose: { type: 'boolean', default: false },
  },
});
const sessions = Number(values.sessions);
const firstSeed = Number(values.seed);

const NUMBERS = ['fwhmNm', 'centreNm', 'peakTransmittance', 'transmittanceAtLine'];
const tally = { corrected: {}, asMeasured: {} };
for (const kind of Object.keys(tally))
  for (const name of NUMBERS) tally[kind][name] = { held: 0, count: 0, errors: [], ratios: [] };
/** Numbers as measured less what the filter itself has: the errors of a person who corrects nothing. */
const uncorrected = Object.fromEntries(NUMBERS.map((name) => [name, []]));
const lost = new Map();
let measured = 0;
let seed = firstSeed - 1;
let spec;
while (measured < sessions) {
  seed += 1;
  spec = randomSpec(seed, {
    filters: 1,
    hint: false,
    lamps: ['Hg-Ar', 'Ne'],
    minimumLines: 14,
    lineSpreadNm: [0.7, 2.2],
    bandNm: [2.8, 8],
    spanNm: [200, 450],
  });
  const simulated = simulateFrames(spec, seed);
  measured += 1;
  let measurement;
  try {
    measurement = measureSession(sessionOf(simulated), {
      provenance: { package: 'halfmax', version: 'study', node: '', seed, draws: Number(values.draws) },
    }).measurement;
  } catch (fault) {
    if (!(fault instanceof BadInputError)) throw fault;
    lose(`refused: ${fault.message}`);
    continue;
  }
  for (const filter of simulated.truth.filters) {
    const bands = measurement.filters.find((candidate) => candidate.id === filter.id).bands;
    for (const truth of filter.bands) compare(bands, truth);
  }
}

const quantile = (list, p) =>
  [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(p * list.length))];
const mean = (list) => list.reduce((sum, value) => sum + value, 0) / list.length;
console.log(`sessions ${sessions} (seeds ${firstSeed} to ${seed}), ${values.draws} draws a band`);
for (const [reason, count] of lost) console.log(`  left out ${count}: ${reason}`);
for (const kind of ['corrected', 'asMeasured']) {
  for (const name of NUMBERS) {
    const { held, count, errors, ratios } = tally[kind][name];
    const share = held / count;
    const margin = 1.96 * Math.sqrt((share * (1 - share)) / count);
    console.log(
      `${kind} ${name}: ${(100 * share).toFixed(1)} +- ${(100 * margin).toFixed(1)} % of ${count} intervals hold the truth; ` +
        `bias ${mean(errors).toFixed(5)}, 95 % of errors below ${quantile(errors.map(Math.abs), 0.95).toFixed(4)}, ` +
        `error over stated uncertainty rms ${Math.sqrt(mean(ratios.map((r) => Math.min(r * r, 100)))).toFixed(2)}`,
    );
  }
}
for (const name of NUMBERS)
  console.log(
    `without correction ${name}: bias ${mean(uncorrected[name]).toFixed(5)}, ` +
      `95 % of errors below ${quantile(uncorrected[name].map(Math.abs), 0.95).toFixed(4)}`,
  );
const { errors } = tally.corrected.fwhmNm;
const goals = [
  ...NUMBERS.map((name) => {
    const { held, count } = tally.corrected[name];
    return held / count >= 0.93 && held / count <= 0.97;
  }),
  Math.abs(mean(errors)) < 0.02,
  quantile(errors.map(Math.abs), 0.95) < 0.1,
];
console.log(`${goals.filter(Boolean).length} passed, ${goals.filter((goal) => !goal).length} failed`);
process.exitCode = goals.every(Boolean) ? 0 : 1;

function compare(bands, truth) {
  const near = (band) => Math.abs((band.asMeasured.centreNm.value ?? Number.NaN) - truth.ideal.centreNm);
  const band = [...bands].sort((a, b) => near(a) - near(b))[0];
  if (band === undefined || !(near(band) < 3)) return lose('the band is not found or runs off the detector');
  const line = truth.lines.find((candidate) => candidate.name === band.target[0]);
  for (const [kind, ideal, at] of [
    ['corrected', truth.ideal, line?.transmittance],
    ['asMeasured', truth.asMeasured, line?.seenTransmittance],
  ]) {
    for (const name of NUMBERS) {
      const number = band[kind][name];
      const expected = name === 'transmittanceAtLine' ? at : ideal[name];
      if (number.absent !== undefined || expected === undefined) {
        lose(`${kind} ${name}: ${number.absent ?? 'no truth'}`.replace(/[\d.]+/g, '#'));
        continue;
      }
      if (kind === 'asMeasured') {
        const own = name === 'transmittanceAtLine' ? line?.transmittance : truth.ideal[name];
        uncorrected[name].push(number.value - own);
      }
      const [low, high] = number.interval95;
      const entry = tally[kind][name];
      entry.count += 1;
      if (expected >= low && expected <= high) entry.held += 1;
      entry.errors.push(number.value - expected);
      entry.ratios.push((number.value - expected) / number.standardUncertainty);
      if (values.verbose && kind === 'corrected' && !(expected >= low && expected <= high)) {
        console.log(
          `seed ${seed} ${name}: ${number.value.toFixed(4)} u ${number.standardUncertainty.toFixed(4)} truth ${expected.toFixed(4)}, ` +
            `line spread ${truth.lineSpreadNm.toFixed(2)}, FWHM ${truth.ideal.fwhmNm.toFixed(2)}, misfit ${band.correction.misfit.toFixed(2)} ${JSON.stringify(spec.filters[0].bands[0])}`,
        );
      }
    }
  }
}

function lose(reason) {
  const short = reason.slice(0, 140);
  lost.set(short, (lost.get(short) ?? 0) + 1);
}

function sessionOf({ manifest, entries, detector }) {
  return {
    title: manifest.title ?? 'simulated',
    recorded: null,
    detector,
    entries,
    filters: manifest.filters.map((filter) => ({ price: null, claims: {}, ...filter })),
    decision: null,
    bench: { fNumber: null, temperatureC: null, spot: null },
    manifest,
    inputs: [],
    warnings: [],
  };
}
