// A small version of tests/simulation/halos.mjs, held against bounds that chance alone passes once in a thousand times.
import { haloTrials } from '../../simulation/haloTrials.mjs';

const CHANCE = 0.001;
const SIZE = 320;

/** Probability of at most k of n events of probability p. */
function binomialBelow(k, n, p) {
  let term = (1 - p) ** n;
  let sum = term;
  for (let i = 0; i < k; i++) {
    term *= ((n - i) / (i + 1)) * (p / (1 - p));
    sum += term;
  }
  return sum;
}

/** Most events of probability p that n trials give by chance. */
function mostBy(n, p) {
  let k = 0;
  while (1 - binomialBelow(k, n, p) > CHANCE) k++;
  return k;
}

/** Holds trials against the goals: false alarms below 1 %, intervals and limits of 95 %, radii within 2 %. */
export function checkSimulated(tools, check) {
  const trials = haloTrials(tools, SIZE);
  const images = 150;
  const { alarms } = trials.none(images, 3000);
  const allowed = mostBy(images, 0.01);
  check('without a halo', alarms.length <= allowed, `${alarms.length} of ${images} named one`);
  console.log(`without a halo: ${alarms.length} of ${images} name one, at most ${allowed} allowed`);

  const { holds, lost, surplus, disks, rows } = trials.coverage(40, 4000);
  for (const [name, list] of Object.entries(holds)) {
    const missed = list.filter((one) => !one).length;
    // Both axes of one displacement are one event at worst: half the number of trials, twice the misses.
    const pairs = name === 'displacement' ? 2 : 1;
    const most = pairs * mostBy(Math.floor(list.length / pairs), 0.07);
    check(
      `interval of the ${name}`,
      missed <= most,
      `${missed} of ${list.length} do not hold the truth, at most ${most} allowed`,
    );
    console.log(`interval of the ${name}: ${list.length - missed} of ${list.length} hold the truth`);
  }
  // Strengths of 60 and more: one is lost where the star's core hides its hole and most of its light.
  check('disks lost', lost.length <= mostBy(disks, 0.02), `${lost.length} of ${disks}`);
  check('disks that are none', surplus <= mostBy(disks, 0.02), `${surplus} for ${disks}`);
  const off = rows.filter(({ radiusError }) => Math.abs(radiusError) > 0.02).length;
  check(
    'outer radius',
    off <= mostBy(rows.length, 0.02),
    `${off} of ${rows.length} are off by more than 2 %`,
  );

  const { images: n, below, foundBelow } = trials.limit(30, 5000);
  check('upper limit', n >= 25, `only ${n} trials`);
  check(
    'upper limit',
    n - below - foundBelow <= mostBy(n, 0.05),
    `${n - below - foundBelow} of ${n} halos as bright as it lie above it`,
  );
  console.log(`upper limit: ${below + foundBelow} of ${n} halos as bright as it are held by it`);
}
