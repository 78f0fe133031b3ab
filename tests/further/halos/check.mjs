// Puts halos of known size and light into open images of saturated stars and looks for them, looks for halos where none
// were put, compares profiles with numpy's on the same pixels, reads frames of every kind, and repeats a small part of
// the simulation.
// Run: npm run build && node tests/further/halos/check.mjs DIR [PYTHON]
//   DIR  folder of FITS cut-outs of saturated stars
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { checkFullFrame, checkKinds } from './frames.mjs';
import { checkSimulated } from './simulated.mjs';

const [folder, python = '/usr/bin/python3'] = process.argv.slice(2);
if (folder === undefined) {
  console.error('name the folder of the images');
  process.exit(2);
}
const dist = process.env.HALFMAX_DIST ?? new URL('../../../packages/halfmax/dist', import.meta.url).pathname;
const halo = await import(`${dist}/halo/index.js`);
const { measureHalo, polarGrid, ringEdges, haloGeometry } = halo;
const { readStarImage } = await import(`${dist}/session/readStarImage.js`);
const { randomStream } = await import(`${dist}/numeric/index.js`);

let passed = 0;
let failed = 0;
function check(name, good, detail = '') {
  if (good) passed++;
  else {
    failed++;
    console.error(`${name}: ${detail}`);
  }
}

// The cores of these images are clipped well above this; 0.26 arcseconds a pixel of 15 micrometres.
const SATURATION = 40000;
const setup = (name) => ({
  name,
  pixelSizeUm: 15,
  fNumber: 2.7,
  focalLengthMm: (15 * 206.26480625) / 0.26,
  saturationCounts: SATURATION,
  star: { counts: 1e7, standardUncertainty: 0, source: 'nominal' },
});
const numberOf = (quantity) => quantity.value ?? Number.NaN;

const files = readdirSync(folder).filter((file) => file.endsWith('.fits'));
check(folder, files.length > 0, 'holds no FITS image');
const work = mkdtempSync(join(tmpdir(), 'halfmax-halos-'));
let found = 0;
let sought = 0;
let held = 0;
const errors = [];
try {
  for (const file of files) {
    const image = readStarImage(join(folder, file), file, { saturationCounts: SATURATION });
    const { measurement } = measureHalo(image, setup(file), randomStream(1));
    check(file, measurement.disks.length === 0, `names ${measurement.disks.length} halos where none was put`);
    check(file, measurement.limits.length > 0, 'gives no upper limit');
    const centre = { x: numberOf(measurement.centre.x) - 1, y: numberOf(measurement.centre.y) - 1 };
    compareWithNumpy(file, image, centre);

    const { noise } = measurement.background;
    const reach = measurement.coveredPixels[1];
    for (const [inner, outer] of [
      [0.36 * reach, 0.7 * reach],
      [0.3 * reach, 0.78 * reach],
    ]) {
      sought++;
      const surface = 10 * noise;
      const counts = Float32Array.from(image.counts, (value, k) => {
        const r = Math.hypot((k % image.width) - centre.x, Math.floor(k / image.width) - centre.y);
        const inside = (radius) => 1 / (1 + Math.exp((r - radius) / 0.6));
        // A clipped pixel stays clipped.
        return value + surface * (inside(outer) - inside(inner));
      });
      const again = measureHalo({ ...image, counts }, setup(file), randomStream(1)).measurement;
      const disk = again.disks.find((one) => Math.abs(numberOf(one.outerRadiusPixels) / outer - 1) < 0.1);
      if (disk === undefined) {
        console.log(
          `${file}: a halo of ${outer.toFixed(1)} pixels and ${surface.toFixed(0)} counts is not found`,
        );
        continue;
      }
      found++;
      const error = Math.abs(numberOf(disk.outerRadiusPixels) / outer - 1);
      errors.push(error);
      check(file, error < 0.02, `outer radius ${numberOf(disk.outerRadiusPixels)} for ${outer}`);
      check(file, again.disks.length === 1, `names ${again.disks.length} halos for one`);
      const [low, high] = disk.surfaceCounts.interval95;
      if (low <= surface && surface <= high) held++;
      const spacing = numberOf(haloGeometry(disk, { fNumber: 2.7 }).airSpacingMm);
      const truth = (2 * outer * 0.015 * 2.7) / 2;
      check(file, Math.abs(spacing / truth - 1) < 0.02, `spacing ${spacing} mm for ${truth}`);
    }
    for (const limit of measurement.limits)
      check(
        file,
        Number.isFinite(limit.surfaceCounts) && limit.surfaceCounts > 0,
        'limit is no number above 0',
      );
  }
  checkKinds(readStarImage, python, work, check);
  checkFullFrame(dist, work, check);
} finally {
  rmSync(work, { recursive: true, force: true });
}
// Ten times the noise of a pixel over hundreds of pixels: nearly all must be found.
check('injected halos', found >= 0.85 * sought, `${found} of ${sought} found`);
console.log(
  `${found} of ${sought} injected halos found; outer radius within ${(100 * Math.max(...errors)).toFixed(2)} %; ` +
    `${held} of ${found} intervals hold the surface brightness`,
);
checkSimulated({ ...halo, randomStream }, check);
console.log(`${passed} passed, ${failed} failed`);
if (failed > 0 || passed === 0) process.exitCode = 1;

/** Medians of whole rings and of every cell, by numpy from the file itself. */
function compareWithNumpy(file, image, centre) {
  const edges = ringEdges(Math.min(40, centre.x - 1, centre.y - 1));
  const sectors = 12;
  const mask = Uint8Array.from(image.counts, (value) => (value >= SATURATION ? 1 : 0));
  const grid = polarGrid(image, mask, centre, edges, sectors);
  const job = join(work, 'job.json');
  writeFileSync(
    job,
    JSON.stringify({
      file: join(folder, file),
      centre: [centre.x, centre.y],
      edges: [...edges],
      sectors,
      SATURATION,
    }),
  );
  const script = `
import json, sys
import numpy
from astropy.io import fits
job = json.load(open(sys.argv[1]))
image = fits.getdata(job['file']).astype(numpy.float64)
y, x = numpy.mgrid[0:image.shape[0], 0:image.shape[1]]
dx, dy = x - job['centre'][0], y - job['centre'][1]
ring = numpy.digitize(dx * dx + dy * dy, numpy.array(job['edges']) ** 2) - 1
sector = numpy.floor((numpy.arctan2(dy, dx) % (2 * numpy.pi)) / (2 * numpy.pi) * job['sectors']).astype(int)
out = []
for i in range(len(job['edges']) - 1):
    for s in range(job['sectors']):
        values = numpy.sort(image[(ring == i) & (sector == s) & ~(image >= job['SATURATION'])])
        n = values.size
        middle = None if n == 0 else float(numpy.median(values))
        out.append([int(n), middle, middle if n < 4 else float(values[n // 4:n - n // 4].mean())])
print(json.dumps(out))
`;
  const expected = JSON.parse(execFileSync(python, ['-c', script, job], { encoding: 'utf8' }));
  let worst = 0;
  let cells = 0;
  expected.forEach(([n, median, mean], c) => {
    check(file, grid.pixels[c] === n, `cell ${c} has ${grid.pixels[c]} pixels, numpy ${n}`);
    if (median === null) return;
    cells++;
    worst = Math.max(worst, Math.abs(grid.medians[c] / median - 1), Math.abs(grid.counts[c] / mean - 1));
  });
  // Rounding of means of single-precision pixels.
  check(file, worst < 1e-9, `profile differs from numpy by ${worst}`);
  check(file, cells > 100, `only ${cells} cells compared`);
}
