/**
 * Trials of the halo search on simulated pictures: each draws scenes by seeds, measures them and gives plain numbers.
 * `halos.mjs` prints them, `tests/further/halos` holds a few against bounds.
 */
import { numbers, picture, randomScene } from './starField.mjs';

const F_NUMBER = 5;
const PIXEL_UM = 3.76;

/**
 * Trials with a built package.
 *
 * tools: measureHalo, starImage, haloGeometry, matchSpacings, randomStream; size: of the pictures, pixels.
 */
export function haloTrials(tools, size) {
  const { measureHalo, starImage, haloGeometry, matchSpacings, randomStream } = tools;

  function measure(scene, seed, change = {}) {
    const { counts } = picture(scene, seed);
    const setup = {
      name: `simulated ${seed}`,
      pixelSizeUm: PIXEL_UM,
      fNumber: F_NUMBER,
      focalLengthMm: 500,
      saturationCounts: 0.97 * scene.full,
      star: { counts: scene.starCounts, standardUncertainty: 0, source: 'simulated' },
      ...change,
    };
    return measureHalo(starImage(size, size, counts), setup, randomStream(seed)).measurement;
  }

  /** Pictures without a halo: how often one is named, and the centre's errors over their stated uncertainty. */
  function none(images, firstSeed) {
    const alarms = [];
    const centreErrors = [];
    let withLimits = 0;
    for (let k = 0; k < images; k++) {
      const seed = firstSeed + k;
      const scene = randomScene(seed, size);
      const found = measure(scene, seed);
      if (found.disks.length > 0) {
        alarms.push({
          seed,
          radii: found.disks.map((disk) => [disk.outerRadiusPixels.value, disk.significance]),
        });
      }
      for (const axis of ['x', 'y']) {
        const quantity = found.centre[axis];
        if ('value' in quantity)
          centreErrors.push((quantity.value - 1 - scene[axis]) / quantity.standardUncertainty);
      }
      if (found.limits.length > 0) withLimits++;
    }
    return { images, alarms, centreErrors, withLimits };
  }

  /** Halos of one strength: found at all, found with the right radius. */
  function strength(wanted, images, firstSeed) {
    let found = 0;
    let right = 0;
    const radiusErrors = [];
    for (let k = 0; k < images; k++) {
      const seed = firstSeed + k;
      const random = numbers(seed + 99);
      const scene = randomScene(seed, size);
      const outer = (0.08 + 0.24 * random.uniform()) * size;
      const halo = haloOf(scene, outer, random.uniform() * 0.5, wanted, 0, 0);
      const { disks } = measure({ ...scene, halos: [halo] }, seed);
      if (disks.length > 0) found++;
      const near = nearest(disks, outer, 0.05);
      if (near === null) continue;
      right++;
      radiusErrors.push(near.outerRadiusPixels.value / outer - 1);
    }
    return { images, found, right, radiusErrors };
  }

  /** One centred disk, one displaced, or two: errors, and whether the intervals hold the truth. */
  function coverage(images, firstSeed, lowest = 60) {
    const result = { disks: 0, lost: [], surplus: 0, holds: {}, rows: [] };
    result.holds = { share: [], radius: [], hole: [], displacement: [] };
    for (let k = 0; k < images; k++) {
      const seed = firstSeed + k;
      const random = numbers(seed + 99);
      const scene = randomScene(seed, size);
      const power = () => lowest * 8 ** random.uniform();
      const outer = (0.08 + 0.24 * random.uniform()) * size;
      const kind = random.uniform();
      const moved = () => (random.uniform() < 0.4 ? 0.12 * random.uniform() : 0);
      const hole = 0.2 + 0.3 * random.uniform();
      const halos = [haloOf(scene, outer, hole, power(), moved(), 6.28 * random.uniform())];
      if (kind < 0.25) {
        // A second one, edges well apart, stronger or fainter.
        const second = outer * (outer > 0.2 * size ? 0.55 : 1.6);
        halos.push(haloOf(scene, second, hole, power() * 1.3, moved(), 6.28 * random.uniform()));
      }
      const { disks } = measure({ ...scene, halos }, seed);
      const used = new Set();
      for (const halo of halos) {
        result.disks++;
        const disk = nearest(
          disks.filter((one) => !used.has(one)),
          halo.outer,
          0.08,
        );
        if (disk === null) {
          result.lost.push({ seed, outer: halo.outer });
          continue;
        }
        used.add(disk);
        note(result, seed, halo, disk, halos.length);
      }
      result.surplus += disks.length - used.size;
    }
    return result;
  }

  /** Spacing of two faces from the disk that they make, and the pair named among the faces of a filter and a window. */
  function spacing(images, firstSeed) {
    const result = { images, found: 0, errors: [], held: 0, bestRight: 0, amongFitting: 0, alone: 0 };
    const pixelUm = 9;
    for (let k = 0; k < images; k++) {
      const seed = firstSeed + k;
      const random = numbers(seed + 99);
      const scene = randomScene(seed, size);
      const layers = [
        { name: 'filter', thicknessMm: 2, uncertaintyMm: 0.02, index: 1.52 },
        { name: 'gap', thicknessMm: 2.5, uncertaintyMm: 0.02 },
        { name: 'window', thicknessMm: 1, uncertaintyMm: 0.02, index: 1.52 },
        { name: 'gap', thicknessMm: 1.6, uncertaintyMm: 0.02 },
      ];
      // As built: each layer off by its uncertainty. The sensor is the last face; the window's own faces are too close.
      const places = [0];
      for (const layer of layers) {
        const thickness = layer.thicknessMm + layer.uncertaintyMm * random.normal();
        places.push(places.at(-1) + thickness / (layer.index ?? 1));
      }
      const names = [
        'front of the filter',
        'back of the filter',
        'front of the window',
        'back of the window',
      ];
      const faces = [...names.map((name) => `the ${name}`), 'the sensor'];
      const pairs = faces
        .flatMap((_, i) => faces.map((__, j) => [i, j]))
        .filter(([i, j]) => i < j && !(i === 2 && j === 3));
      const [i, j] = pairs[Math.floor(random.uniform() * pairs.length)];
      const spacingMm = places[j] - places[i];
      // The twice reflected light runs 2 d further: a disk of 2 d / N across.
      const outer = (spacingMm * 1000) / F_NUMBER / pixelUm;
      const halos = [haloOf(scene, outer, 0.35, 150, 0, 0)];
      const { disks } = measure({ ...scene, halos }, seed, { pixelSizeUm: pixelUm });
      const disk = nearest(disks, outer, 0.1);
      if (disk === null) continue;
      result.found++;
      const { airSpacingMm } = haloGeometry(disk, { fNumber: F_NUMBER });
      result.errors.push(airSpacingMm.value / spacingMm - 1);
      if (holds(airSpacingMm, spacingMm)) result.held++;
      const match = matchSpacings(disk, { fNumber: F_NUMBER }, layers);
      const isTrue = (pair) => pair.faces[0] === faces[i] && pair.faces[1] === faces[j];
      const fitting = match.pairs.filter((pair) => pair.fits);
      if (isTrue(match.pairs[0])) result.bestRight++;
      if (fitting.some(isTrue)) result.amongFitting++;
      if (fitting.length === 1 && isTrue(fitting[0])) result.alone++;
    }
    return result;
  }

  /**
   * Halos exactly as bright as the limit that another picture of the same scene gives: the limit of 95 % must lie above
   * in 95 % of the pictures, or the halo be found with an interval that reaches it.
   */
  function limit(images, firstSeed) {
    const result = { images: 0, below: 0, found: 0, foundBelow: 0, rows: [] };
    for (let k = 0; k < images; k++) {
      const seed = firstSeed + k;
      const random = numbers(seed + 99);
      const scene = randomScene(seed, size);
      const obstruction = random.uniform() < 0.5 ? 0 : 0.3;
      const without = measure(scene, seed + 500_000, { obstruction, draws: 100 });
      if (without.disks.length > 0 || without.limits.length === 0) continue;
      const one = without.limits[Math.floor(random.uniform() * without.limits.length)];
      const { innerRadiusPixels: inner, outerRadiusPixels: outer, surfaceCounts: surface } = one;
      const share = (surface * Math.PI * (outer ** 2 - inner ** 2)) / scene.starCounts;
      const again = measure({ ...scene, halos: [{ inner, outer, dx: 0, dy: 0, share }] }, seed, {
        obstruction,
        draws: 100,
      });
      result.images++;
      const disk = again.disks[0];
      if (disk !== undefined) {
        result.found++;
        if (disk.surfaceCounts.interval95[1] >= surface) result.foundBelow++;
        continue;
      }
      const same = again.limits.reduce((best, other) =>
        Math.abs(other.outerRadiusPixels - outer) < Math.abs(best.outerRadiusPixels - outer) ? other : best,
      );
      if (surface <= same.surfaceCounts) result.below++;
      result.rows.push({ seed, outer, inner, ratio: same.surfaceCounts / surface });
    }
    return result;
  }

  return { none, strength, coverage, spacing, limit };
}

/** A halo of a wanted strength: light over the noise of its pixels. */
function haloOf(scene, outer, hole, strength, displacement, angle) {
  const inner = hole * outer;
  const noise = Math.sqrt(scene.sky / scene.gain + (scene.readNoise / scene.gain) ** 2);
  const area = Math.PI * (outer ** 2 - inner ** 2);
  const share = (strength * noise * Math.sqrt(area)) / scene.starCounts;
  const [dx, dy] = [displacement * outer * Math.cos(angle), displacement * outer * Math.sin(angle)];
  return { inner, outer, dx, dy, share };
}

function nearest(disks, outer, within) {
  const off = (disk) => Math.abs(disk.outerRadiusPixels.value / outer - 1);
  return disks.filter((disk) => off(disk) < within).sort((a, b) => off(a) - off(b))[0] ?? null;
}

function holds(quantity, truth) {
  return quantity.interval95[0] <= truth && truth <= quantity.interval95[1];
}

function note(result, seed, halo, disk, halos) {
  const share = disk.shareOfStar;
  result.holds.share.push(holds(share, halo.share));
  result.holds.radius.push(holds(disk.outerRadiusPixels, halo.outer));
  const hole = disk.innerRadiusPixels;
  if ('value' in hole) result.holds.hole.push(holds(hole, halo.inner));
  if (disk.displaced) {
    result.holds.displacement.push(holds(disk.displacementPixels.x, halo.dx));
    result.holds.displacement.push(holds(disk.displacementPixels.y, halo.dy));
  }
  result.rows.push({
    seed,
    halos,
    shareError: share.value / halo.share - 1,
    shareRatio: (share.value - halo.share) / share.standardUncertainty,
    radiusError: disk.outerRadiusPixels.value / halo.outer - 1,
    holeError: 'value' in hole ? (hole.value - halo.inner) / halo.outer : null,
    outer: halo.outer,
    significance: disk.significance,
    displaced: disk.displaced,
  });
}
