/**
 * How well halos of known size and light are found and measured in simulated star fields with gradients, neighbours,
 * spikes, trails, hot pixels and overflowing columns.
 *
 *     node tests/simulation/halos.mjs [--images N] [--seed S] [--size P] [--part all|none|strength|coverage|spacing]
 *
 * `none`: images without a halo, how often one is named. `strength`: how often one is found, against its strength.
 * `coverage`: errors of radius and light, share of 95 % intervals that hold the truth, displaced disks and two at once
 * included. `spacing`: spacing of the two faces recovered from the disk. Strength is the disk's light over the noise
 * of all its pixels, sky and star's wings not reckoned: the ideal that no search can reach.
 */
import { parseArgs } from 'node:util';
import { numbers, picture, randomScene } from './starField.mjs';

const dist = process.env.HALFMAX_DIST ?? new URL('../../packages/halfmax/dist', import.meta.url).pathname;
const { haloGeometry, measureHalo, starImage } = await import(`${dist}/halo/index.js`);
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
const size = Number(values.size);
const wants = (part) => values.part === 'all' || values.part === part;

function measure(scene, seed) {
  const { counts } = picture(scene, seed);
  const setup = {
    name: `simulated ${seed}`,
    pixelSizeUm: 3.76,
    fNumber: 5,
    focalLengthMm: 500,
    saturationCounts: 0.97 * scene.full,
    star: { counts: scene.starCounts, standardUncertainty: 0, source: 'simulated' },
  };
  return measureHalo(starImage(size, size, counts), setup, randomStream(seed)).measurement;
}

/** A halo of a wanted strength: light over the noise of its pixels. */
function haloOf(scene, outer, hole, strength, displacement, angle) {
  const inner = hole * outer;
  const noise = Math.sqrt(scene.sky / scene.gain + (scene.readNoise / scene.gain) ** 2);
  const area = Math.PI * (outer ** 2 - inner ** 2);
  const share = (strength * noise * Math.sqrt(area)) / scene.starCounts;
  return {
    inner,
    outer,
    dx: displacement * outer * Math.cos(angle),
    dy: displacement * outer * Math.sin(angle),
    share,
  };
}

const percent = (k, n) =>
  `${((100 * k) / n).toFixed(1)} +- ${(196 * Math.sqrt(((k / n) * (1 - k / n)) / n)).toFixed(1)} %`;
const quantile = (list, p) =>
  [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(p * list.length))];
const mean = (list) => list.reduce((sum, value) => sum + value, 0) / list.length;

if (wants('none')) {
  let alarms = 0;
  let held = 0;
  let limits = 0;
  const errors = [];
  for (let k = 0; k < images; k++) {
    const seed = firstSeed + k;
    const scene = randomScene(seed, size);
    const found = measure(scene, seed);
    if (found.disks.length > 0) alarms++;
    if (found.disks.length > 0 && values.verbose) {
      for (const disk of found.disks)
        console.log(
          `  seed ${seed}: ${disk.outerRadiusPixels.value.toFixed(1)}, significance ${disk.significance.toFixed(1)}`,
        );
    }
    if ('value' in found.centre.x) {
      errors.push((found.centre.x.value - 1 - scene.x) / found.centre.x.standardUncertainty);
      errors.push((found.centre.y.value - 1 - scene.y) / found.centre.y.standardUncertainty);
    }
    limits++;
    if (found.limits.length > 0) held++;
  }
  console.log(
    `without a halo: ${alarms} of ${images} named one (${percent(alarms, images)}); limits in ${held} of ${limits}`,
  );
  console.log(
    `centre: error over stated uncertainty, rms ${Math.sqrt(mean(errors.map((e) => e * e))).toFixed(2)}, ` +
      `${percent(errors.filter((e) => Math.abs(e) < 1.96).length, errors.length)} within 1.96`,
  );
}

if (wants('strength')) {
  for (const strength of [5, 10, 15, 20, 30, 45, 70, 100]) {
    let found = 0;
    let right = 0;
    let covered = 0;
    const n = Math.max(20, Math.round(images / 4));
    for (let k = 0; k < n; k++) {
      const seed = firstSeed + 20000 + k;
      const random = numbers(seed + 99);
      const scene = randomScene(seed, size);
      const outer = (0.08 + 0.24 * random.uniform()) * size;
      const halo = haloOf(scene, outer, random.uniform() * 0.5, strength, 0, 0);
      const result = measure({ ...scene, halos: [halo] }, seed);
      if (result.disks.length > 0) found++;
      if (result.disks.some((disk) => Math.abs(disk.outerRadiusPixels.value / outer - 1) < 0.05)) right++;
      const limit = result.limits.reduce((best, one) =>
        Math.abs(one.outerRadiusPixels - outer) < Math.abs(best.outerRadiusPixels - outer) ? one : best,
      );
      if (
        result.disks.length === 0 &&
        limit.surfaceCounts >=
          (halo.share * scene.starCounts) / (Math.PI * (halo.outer ** 2 - halo.inner ** 2))
      )
        covered++;
    }
    const missed = n - found;
    console.log(
      `strength ${strength}: found ${percent(found, n)}, with the right radius ${percent(right, n)}` +
        (missed > 0
          ? `; not found: surface brightness below the nearest limit in ${percent(covered, missed)}`
          : ''),
    );
  }
}

if (wants('coverage')) {
  const tally = { share: [], radius: [], hole: [], displacement: [] };
  const radiusErrors = [];
  const holeErrors = [];
  const shareErrors = [];
  const ratios = [];
  let lost = 0;
  let surplus = 0;
  let disks = 0;
  for (let k = 0; k < images; k++) {
    const seed = firstSeed + 50000 + k;
    const random = numbers(seed + 99);
    const scene = randomScene(seed, size);
    const strength = () => 60 * 8 ** random.uniform();
    const outer = (0.08 + 0.24 * random.uniform()) * size;
    const kind = random.uniform();
    const moved = () => (random.uniform() < 0.4 ? 0.12 * random.uniform() : 0);
    const hole = 0.2 + 0.3 * random.uniform();
    const halos = [haloOf(scene, outer, hole, strength(), moved(), 6.28 * random.uniform())];
    if (kind < 0.25) {
      // A second one, edges well apart, stronger or fainter.
      const second = outer * (outer > 0.2 * size ? 0.55 : 1.6);
      halos.push(haloOf(scene, second, hole, strength() * 1.3, moved(), 6.28 * random.uniform()));
    }
    const result = measure({ ...scene, halos }, seed);
    const used = new Set();
    for (const halo of halos) {
      disks++;
      const near = result.disks.findIndex(
        (disk, d) => !used.has(d) && Math.abs(disk.outerRadiusPixels.value / halo.outer - 1) < 0.08,
      );
      if (near < 0) {
        lost++;
        if (values.verbose)
          console.log(
            `  seed ${seed}: lost`,
            halo,
            result.disks.map((d) => d.outerRadiusPixels.value),
          );
        continue;
      }
      used.add(near);
      const disk = result.disks[near];
      const holds = (quantity, truth) => quantity.interval95[0] <= truth && truth <= quantity.interval95[1];
      tally.share.push(holds(disk.shareOfStar, halo.share));
      ratios.push((disk.shareOfStar.value - halo.share) / disk.shareOfStar.standardUncertainty);
      shareErrors.push(disk.shareOfStar.value / halo.share - 1);
      if (values.verbose && !holds(disk.shareOfStar, halo.share))
        console.log(
          `  seed ${seed}: share ${(disk.shareOfStar.value / halo.share).toFixed(3)} of truth, ratio ${ratios.at(-1).toFixed(1)}, hole ${disk.innerRadiusPixels.value?.toFixed(1)} for ${halo.inner.toFixed(1)}, outer ${disk.outerRadiusPixels.value.toFixed(1)} for ${halo.outer.toFixed(1)}, halos ${halos.length}, significance ${disk.significance.toFixed(0)}, moved ${Math.hypot(halo.dx, halo.dy).toFixed(1)} ${disk.displaced}, terms ${result.wings.terms} core ${result.coveredPixels[0].toFixed(0)}`,
        );
      tally.radius.push(holds(disk.outerRadiusPixels, halo.outer));
      radiusErrors.push(Math.abs(disk.outerRadiusPixels.value / halo.outer - 1));
      if ('value' in disk.innerRadiusPixels) {
        tally.hole.push(holds(disk.innerRadiusPixels, halo.inner));
        holeErrors.push(Math.abs(disk.innerRadiusPixels.value - halo.inner) / halo.outer);
      }
      if (disk.displaced) {
        tally.displacement.push(holds(disk.displacementPixels.x, halo.dx));
        tally.displacement.push(holds(disk.displacementPixels.y, halo.dy));
      }
    }
    surplus += result.disks.length - used.size;
  }
  console.log(`coverage: ${disks} disks in ${images} images, ${lost} lost, ${surplus} named that are none`);
  for (const [name, list] of Object.entries(tally)) {
    console.log(
      `  ${name}: ${percent(list.filter(Boolean).length, list.length)} of ${list.length} intervals hold the truth`,
    );
  }
  console.log(
    `  share: median error ${(100 * quantile(shareErrors, 0.5)).toFixed(2)} %, 95 % within ${(100 * quantile(shareErrors.map(Math.abs), 0.95)).toFixed(1)} %, ` +
      `error over stated uncertainty: mean ${mean(ratios).toFixed(2)}, rms ${Math.sqrt(mean(ratios.map((r) => Math.min(r * r, 100)))).toFixed(2)}`,
  );
  console.log(
    `  outer radius: median error ${(100 * quantile(radiusErrors, 0.5)).toFixed(2)} %, 95 % within ${(100 * quantile(radiusErrors, 0.95)).toFixed(2)} %; ` +
      `hole: 95 % within ${(100 * quantile(holeErrors, 0.95)).toFixed(2)} % of the outer radius`,
  );
}

if (wants('spacing')) {
  let n = 0;
  let held = 0;
  const errors = [];
  for (let k = 0; k < Math.round(images / 3); k++) {
    const seed = firstSeed + 90000 + k;
    const random = numbers(seed + 99);
    const scene = randomScene(seed, size);
    const spacingMm = 0.4 + 2.2 * random.uniform();
    // The twice reflected light runs 2 d further: at f/5 a disk of 2 d / 5 across.
    const outer = (spacingMm * 1000) / 5 / 3.76;
    const result = measure({ ...scene, halos: [haloOf(scene, outer, 0.35, 150, 0, 0)] }, seed);
    const disk = result.disks.find((one) => Math.abs(one.outerRadiusPixels.value / outer - 1) < 0.1);
    if (disk === undefined) continue;
    n++;
    const { airSpacingMm } = haloGeometry(disk, { fNumber: 5 });
    errors.push(Math.abs(airSpacingMm.value / spacingMm - 1));
    if (airSpacingMm.interval95[0] <= spacingMm && spacingMm <= airSpacingMm.interval95[1]) held++;
  }
  console.log(
    `spacing of the faces: ${n} disks, error median ${(100 * quantile(errors, 0.5)).toFixed(2)} %, 95 % within ${(100 * quantile(errors, 0.95)).toFixed(2)} %, intervals hold ${percent(held, n)}`,
  );
}
