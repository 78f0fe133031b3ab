/**
 * How often blind identification is right, and how far the wavelength scale is off, over simulated sessions.
 *
 *     node tests/simulation/identification.mjs [--sessions N] [--seed S] [--lines L] [--verbose]
 *
 * L is the least number of listed lines of the lamps inside the detector's range.
 *
 * Each session is drawn by data-demo/generator (grating equation, own line spread, foreign and missing lines, no
 * nominal range, either direction) and goes through the built package: frames, line finding, naming, fit.
 */
import { parseArgs } from 'node:util';
import { randomSpec } from '../../data-demo/generator/randomSpec.mjs';
import { simulateFrames } from '../../data-demo/generator/simulate.mjs';
import {
  calibrate,
  lineSpreadAt,
  wavelengthAt,
  wavelengthCovariance,
} from '../../packages/halfmax/dist/calibration/index.js';
import { BadInputError } from '../../packages/halfmax/dist/errors.js';
import { combineExposures, reduceFrames } from '../../packages/halfmax/dist/frames/index.js';

const { values } = parseArgs({
  options: {
    sessions: { type: 'string', default: '300' },
    seed: { type: 'string', default: '1' },
    lines: { type: 'string', default: '10' },
    verbose: { type: 'boolean', default: false },
  },
});
const sessions = Number(values.sessions);
const firstSeed = Number(values.seed);

/** A scale is right when no pixel inside the range of its lines is off by half of the smallest distance of two clear lines. */
const RIGHT_WITHIN_NM = 0.5;

const outcome = { right: 0, wrong: 0, refused: 0 };
const directions = { rising: 0, falling: 0 };
const pixelErrors = [];
const sessionErrors = [];
const pulls = [];
const spreadErrors = [];
const times = [];
let seed = firstSeed - 1;
for (let count = 0; count < sessions; count++) {
  const simulated = nextSession();
  const { wavelengthNm, lineSpreadNm } = simulated.truth;
  const pixels = wavelengthNm.length;
  directions[wavelengthNm[pixels - 1] > wavelengthNm[0] ? 'rising' : 'falling'] += 1;
  const start = performance.now();
  let calibration;
  try {
    calibration = calibrate(lampSpectra(simulated), simulated.detector);
  } catch (fault) {
    if (!(fault instanceof BadInputError)) throw fault;
    outcome.refused += 1;
    console.log(`seed ${seed}: refused: ${fault.message}`);
    continue;
  }
  times.push(performance.now() - start);
  const [from, to] = calibration.coveredNm;
  let worst = 0;
  let worstPull = 0;
  for (let pixel = 0; pixel < pixels; pixel += 4) {
    if (wavelengthNm[pixel] < from || wavelengthNm[pixel] > to) continue;
    const error = wavelengthAt(calibration.dispersion, pixel) - wavelengthNm[pixel];
    worst = Math.max(worst, Math.abs(error));
    worstPull = Math.max(
      worstPull,
      Math.abs(error) / Math.sqrt(wavelengthCovariance(calibration.dispersion, pixel, pixel)),
    );
    if (pixel % 32 !== 0) continue;
    pixelErrors.push(Math.abs(error));
    pulls.push(Math.abs(error) / Math.sqrt(wavelengthCovariance(calibration.dispersion, pixel, pixel)));
    const nmPerPixel =
      Math.abs(wavelengthNm[Math.min(pixel + 1, pixels - 1)] - wavelengthNm[Math.max(0, pixel - 1)]) / 2;
    // A pixel adds its own box: variance 1/12 pixel^2, in FWHM 0.68 pixel in quadrature.
    const seen = Math.hypot(lineSpreadNm[pixel], 0.68 * nmPerPixel);
    spreadErrors.push(Math.abs(lineSpreadAt(calibration.lineSpread, wavelengthNm[pixel]).fwhmNm / seen - 1));
  }
  const right = worst < RIGHT_WITHIN_NM;
  outcome[right ? 'right' : 'wrong'] += 1;
  sessionErrors.push(worst);
  if (values.verbose || !right) {
    const { order } = calibration.dispersion;
    console.log(
      `seed ${seed}: ${right ? 'right' : 'WRONG'} ${wavelengthNm[0].toFixed(0)} to ${wavelengthNm[pixels - 1].toFixed(0)} nm, ` +
        `${pixels} px, order ${order}, largest error ${worst.toFixed(4)} nm (${worstPull.toFixed(1)} stated) in ${from.toFixed(0)} to ${to.toFixed(0)} nm`,
    );
  }
}

const share = (count, all) => `${((100 * count) / Math.max(1, all)).toFixed(1)} %`;
const quantile = (list, p) =>
  [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(p * list.length))];
const below = (list, limit) => list.filter((value) => value < limit).length;
console.log(
  `sessions ${sessions} (seeds ${firstSeed} to ${seed}), ${directions.rising} rising, ${directions.falling} falling`,
);
console.log(
  `identified rightly ${share(outcome.right, sessions)}, refused ${outcome.refused}, wrong ${outcome.wrong}`,
);
console.log(
  `error inside the covered range: below 0.03 nm at ${share(below(pixelErrors, 0.03), pixelErrors.length)} of places, ` +
    `median ${quantile(pixelErrors, 0.5).toFixed(4)} nm, 95 % ${quantile(pixelErrors, 0.95).toFixed(4)} nm`,
);
console.log(
  `largest error of a session: below 0.03 nm in ${share(below(sessionErrors, 0.03), sessionErrors.length)} of sessions, ` +
    `median ${quantile(sessionErrors, 0.5).toFixed(4)} nm, 95 % ${quantile(sessionErrors, 0.95).toFixed(4)} nm`,
);
console.log(
  `error within 1.96 stated standard uncertainties: ${share(below(pulls, 1.96), pulls.length)} of places`,
);
console.log(
  `line spread: median error ${(100 * quantile(spreadErrors, 0.5)).toFixed(1)} %, 95 % ${(100 * quantile(spreadErrors, 0.95)).toFixed(1)} %`,
);
console.log(
  `time of one calibration: median ${quantile(times, 0.5).toFixed(0)} ms, 95 % ${quantile(times, 0.95).toFixed(0)} ms`,
);
const goals = [outcome.right >= 0.99 * sessions, below(pixelErrors, 0.03) >= 0.95 * pixelErrors.length];
console.log(`${goals.filter(Boolean).length} passed, ${goals.filter((goal) => !goal).length} failed`);
process.exitCode = goals.every(Boolean) ? 0 : 1;

/** The next session in which every lamp has a listed line in the detector's range: a bench does not record empty lamps. */
function nextSession() {
  for (;;) {
    seed += 1;
    const simulated = simulateFrames(
      randomSpec(seed, { filters: 0, hint: false, minimumLines: Number(values.lines) }),
      seed,
    );
    const labels = new Set(
      simulated.entries.filter((entry) => entry.role === 'lamp').map((entry) => entry.lamp),
    );
    const listed = new Set(
      simulated.truth.lines.filter((line) => line.kind === 'listed').map((line) => line.lamp),
    );
    if ([...labels].every((label) => listed.has(label))) return simulated;
  }
}

function lampSpectra({ entries, detector }) {
  const { spectra } = reduceFrames(entries, detector);
  const labels = [...new Set(spectra.map((spectrum) => spectrum.lamp))];
  return labels.map((label) => {
    const own = spectra.filter((spectrum) => spectrum.lamp === label);
    return {
      label,
      where: own.map((spectrum) => `frames[${spectrum.entry}]`).join(', '),
      ...combineExposures(own),
    };
  });
}
