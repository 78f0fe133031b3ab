/**
 * How well halos of known size and light are found and measured in simulated star fields with gradients, neighbours,
 * spikes, trails, hot pixels and overflowing columns.
 *
 *     node tests/simulation/halos.mjs [--images N] [--seed S] [--size P] [--part all|none|strength|coverage|spacing|limit]
 *
 * `none`: images without a halo, how often one is named. `strength`: how often one is found, against its strength.
 * `coverage`: errors of radius and light, share of 95 % intervals that hold the truth, displaced disks and two at once
 * included. `spacing`: spacing of the two faces recovered from the disk, and the pair named. `limit`: halos as bright
 * as the upper limit, how often the limit is above them. Strength is the disk's light over the noise of all its pixels,
 * sky and star's wings not reckoned: the ideal that no search can reach.
 */
import { parseArgs } from 'node:util';
import { haloTrials } from './haloTrials.mjs';

const dist = process.env.HALFMAX_DIST ?? new URL('../../packages/halfmax/dist', import.meta.url).pathname;
const halo = await import(`${dist}/halo/index.js`);
const { randomStream } = await import(`${dist}/numeric/index.js`);

const { values } = parseArgs({
  options: {
    images: { type: 'string', default: '300' },
    seed: { type: 'string', default: '1' },
    size: { type: 'string', default: '512' },
    part: { type: 'string', default: 'all' },
    verbose: { type: 'boolean', default: false },
  },
});
const images = Number(values.images);
const firstSeed = Number(values.seed);
const trials = haloTrials({ ...halo, randomStream }, Number(values.size));
const wants = (part) => values.part === 'all' || values.part === part;

const percent = (k, n) =>
  `${((100 * k) / n).toFixed(1)} +- ${(196 * Math.sqrt(((k / n) * (1 - k / n)) / n)).toFixed(1)} %`;
const quantile = (list, p) =>
  [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(p * list.length))];
const mean = (list) => list.reduce((sum, value) => sum + value, 0) / list.length;
const rms = (list) => Math.sqrt(mean(list.map((value) => value * value)));
/** Of errors as fractions: root mean square, 95th percentile of the amount, in percent. */
const errorWords = (list) =>
  `rms ${(100 * rms(list)).toFixed(2)} %, 95 % within ${(100 * quantile(list.map(Math.abs), 0.95)).toFixed(2)} %`;

if (wants('none')) {
  const { alarms, centreErrors, withLimits } = trials.none(images, firstSeed);
  console.log(
    `without a halo: ${alarms.length} of ${images} named one (${percent(alarms.length, images)}); limits in ${withLimits}`,
  );
  for (const alarm of alarms) console.log('  ', JSON.stringify(alarm));
  console.log(
    `centre: error over stated uncertainty, rms ${rms(centreErrors).toFixed(2)}, ` +
      `${percent(centreErrors.filter((e) => Math.abs(e) < 1.96).length, centreErrors.length)} within 1.96`,
  );
}

if (wants('strength')) {
  const n = Math.max(20, Math.round(images / 4));
  for (const strength of [5, 10, 15, 20, 30, 45, 70, 100]) {
    const { found, right, radiusErrors } = trials.strength(strength, n, firstSeed + 20000);
    console.log(
      `strength ${strength}: found ${percent(found, n)}, with the right radius ${percent(right, n)}` +
        (right > 0 ? `; radius ${errorWords(radiusErrors)}` : ''),
    );
  }
}

if (wants('coverage')) {
  const { disks, lost, surplus, holds, rows } = trials.coverage(images, firstSeed + 50000);
  console.log(
    `coverage: ${disks} disks in ${images} images, ${lost.length} lost, ${surplus} named that are none`,
  );
  for (const [name, list] of Object.entries(holds)) {
    console.log(
      `  ${name}: ${percent(list.filter(Boolean).length, list.length)} of ${list.length} intervals hold the truth`,
    );
  }
  const ratios = rows.map((row) => row.shareRatio);
  const shareErrors = rows.map((row) => row.shareError);
  console.log(
    `  share: median error ${(100 * quantile(shareErrors, 0.5)).toFixed(2)} %, ${errorWords(shareErrors)}; ` +
      `error over stated uncertainty: mean ${mean(ratios).toFixed(2)}, rms ${rms(ratios.map((r) => Math.max(-10, Math.min(10, r)))).toFixed(2)}`,
  );
  console.log(
    `  outer radius: ${errorWords(rows.map((row) => row.radiusError))}; ` +
      `hole, of the outer radius: ${errorWords(rows.flatMap((row) => row.holeError ?? []))}`,
  );
  if (values.verbose) {
    for (const row of rows.filter((_, k) => !holds.share[k])) console.log('  ', JSON.stringify(row));
    for (const row of lost) console.log('   lost', JSON.stringify(row));
  }
}

if (wants('spacing')) {
  const { found, errors, held, bestRight, amongFitting, alone } = trials.spacing(
    Math.max(20, Math.round(images / 3)),
    firstSeed + 90000,
  );
  console.log(
    `spacing of the faces: ${found} disks, ${errorWords(errors)}, intervals hold ${percent(held, found)}`,
  );
  console.log(
    `pair of faces: the best is right in ${percent(bestRight, found)}, the right one fits in ${percent(amongFitting, found)}, alone in ${percent(alone, found)}`,
  );
}

if (wants('limit')) {
  const { images: n, below, found, foundBelow, rows } = trials.limit(images, firstSeed + 120000);
  console.log(
    `limit: ${n} halos as bright as a limit: below the limit ${percent(below + foundBelow, n)}; ${found} of them found, ${foundBelow} of these with an interval that reaches it`,
  );
  if (values.verbose)
    for (const row of rows.filter(({ ratio }) => ratio < 1)) console.log('  ', JSON.stringify(row));
}
