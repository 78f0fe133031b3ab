// Frames as cameras write them: kinds of pixels written by astropy, and a full frame of 60 megapixels in bounded memory.
import { execFileSync, spawnSync } from 'node:child_process';
import { closeSync, openSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { numbers, picture, randomScene } from '../../simulation/starField.mjs';

const MOST_MEGABYTES = 600;

/** Every kind of pixels that the standard knows gives the numbers that were written. */
export function checkKinds(readStarImage, python, work, check) {
  const script = `
import sys
import numpy
from astropy.io import fits
y, x = numpy.mgrid[0:40, 0:50]
truth = (x * 7 + y * 13) % 250
folder = sys.argv[1]
for kind in ('uint8', 'int16', 'int32', 'int64', 'float32', 'float64'):
    fits.PrimaryHDU(truth.astype(kind)).writeto(f'{folder}/{kind}.fits')
fits.PrimaryHDU((truth + 65000).astype('uint16')).writeto(f'{folder}/uint16.fits')
scaled = fits.PrimaryHDU(truth.astype('float64'))
scaled.scale('int16', bscale=0.5, bzero=100)
scaled.writeto(f'{folder}/scaled.fits')
hdus = [fits.PrimaryHDU(), fits.ImageHDU(truth.astype('int16'))]
fits.HDUList(hdus).writeto(f'{folder}/extension.fits')
`;
  execFileSync(python, ['-c', script, work]);
  const kinds = ['uint8', 'int16', 'int32', 'int64', 'float32', 'float64', 'uint16', 'scaled', 'extension'];
  for (const kind of kinds) {
    const { counts, width, height } = readStarImage(join(work, `${kind}.fits`), kind, {
      saturationCounts: 1e6,
    });
    const added = kind === 'uint16' ? 65000 : 0;
    const wrong = counts.findIndex(
      (value, k) => value !== added + (((k % 50) * 7 + Math.floor(k / 50) * 13) % 250),
    );
    check(kind, width === 50 && height === 40 && wrong < 0, `pixel ${wrong} differs from what astropy wrote`);
  }
}

/** `halfmax halo` on 9600 x 6400 pixels of 16 bits: the halo is found, and the memory stays bounded. */
export function checkFullFrame(dist, work, check) {
  const file = join(work, 'full.fits');
  const truth = writeFullFrame(file);
  const program = join(work, 'run.mjs');
  writeFileSync(
    program,
    `import { main } from ${JSON.stringify(`${dist}/bundle/cli.js`)};
process.exitCode = await main(process.argv.slice(2));
// Since the process began.
const seconds = performance.now() / 1000;
const { maxRSS, userCPUTime } = process.resourceUsage();
process.stderr.write(JSON.stringify({ megabytes: maxRSS / 1024, seconds, processorSeconds: userCPUTime / 1e6 }));
`,
  );
  const words = ['halo', file, '--pixel-um', '3.76', '--f-number', '5', '--saturation', '58000', '--json'];
  const run = spawnSync(process.execPath, [program, ...words], { encoding: 'utf8', maxBuffer: 1e8 });
  check('full frame', run.status === 0, `exit ${run.status}: ${run.stderr}`);
  if (run.status !== 0) return;
  const { megabytes, seconds, processorSeconds } = JSON.parse(run.stderr);
  console.log(
    `60 megapixels: ${megabytes.toFixed(0)} MB at most, ${seconds.toFixed(1)} s, ${processorSeconds.toFixed(1)} s of a processor`,
  );
  check('full frame', megabytes < MOST_MEGABYTES, `takes ${megabytes.toFixed(0)} MB`);
  const [measurement] = JSON.parse(run.stdout).halos;
  check('full frame', measurement.disks.length === 1, `names ${measurement.disks.length} halos for one`);
  const disk = measurement.disks[0];
  if (disk === undefined) return;
  const radius = disk.outerRadiusPixels.value;
  check('full frame', Math.abs(radius / truth.outer - 1) < 0.02, `radius ${radius} for ${truth.outer}`);
  // Counted from 1, well within the seeing.
  check('full frame', Math.abs(measurement.centre.x.value - 1 - truth.x) < 0.3, 'centre along x');
  check('full frame', Math.abs(measurement.centre.y.value - 1 - truth.y) < 0.3, 'centre along y');
}

function writeFullFrame(file) {
  const [width, height, size, x0, y0] = [9600, 6400, 1600, 4700, 2500];
  const scene = { ...randomScene(4, size), neighbours: [], trail: null, sky: 600, slope: [0, 0] };
  const halo = { inner: 60, outer: 200, dx: 0, dy: 0, share: 0.3 };
  const { counts } = picture({ ...scene, halos: [halo] }, 4);
  const card = (keyword, value) => `${keyword.padEnd(8)}= ${String(value).padStart(20)}`.padEnd(80);
  const cards = { SIMPLE: 'T', BITPIX: 16, NAXIS: 2, NAXIS1: width, NAXIS2: height, BSCALE: 1, BZERO: 32768 };
  const head = Object.entries(cards).map(([keyword, value]) => card(keyword, value));
  const random = numbers(9);
  const noise = Float32Array.from({ length: 100_003 }, () => 25 * random.normal());
  const handle = openSync(file, 'w');
  writeSync(
    handle,
    [...head, 'END']
      .map((text) => text.padEnd(80))
      .join('')
      .padEnd(2880),
  );
  const row = Buffer.alloc(2 * width);
  for (let y = 0; y < height; y++) {
    const j = y - y0;
    for (let x = 0; x < width; x++) {
      const i = x - x0;
      const isNear = i >= 0 && i < size && j >= 0 && j < size;
      const value = isNear ? counts[j * size + i] : scene.sky + noise[(y * 7919 + x) % noise.length];
      row.writeInt16BE(Math.max(0, Math.min(65535, Math.round(value))) - 32768, 2 * x);
    }
    writeSync(handle, row);
  }
  const left = (2 * width * height) % 2880;
  if (left > 0) writeSync(handle, Buffer.alloc(2880 - left));
  closeSync(handle);
  return { x: scene.x + x0, y: scene.y + y0, outer: halo.outer };
}
