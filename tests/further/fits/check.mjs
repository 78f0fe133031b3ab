// Reads the FITS files that generate.py writes with astropy, through the built package, and compares every value.
// Run: npm run build && node tests/further/fits/check.mjs [PYTHON]
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const room =
  process.env.HALFMAX_SESSION ??
  join(here, '..', '..', '..', 'packages', 'halfmax', 'dist', 'session', 'index.js');
const { fitsPixels, fitsValue, parseFits } = await import(room);
const python = process.argv[2] ?? '/usr/bin/python3';
const folder = mkdtempSync(join(tmpdir(), 'halfmax-fits-'));
let passed = 0;
let failed = 0;

function check(name, good, detail = '') {
  if (good) passed++;
  else {
    failed++;
    console.error(`${name}: ${detail}`);
  }
}

/** Index of the first value that differs in any bit, or -1. Zeros of either sign are one. */
function firstDifference(got, expected) {
  if (got.length !== expected.length) return Math.min(got.length, expected.length);
  return expected.findIndex((value, i) => (value === null ? !Number.isNaN(got[i]) : got[i] !== value));
}

try {
  console.log(execFileSync(python, [join(here, 'generate.py'), folder], { encoding: 'utf8' }).trim());
  const { cases, refused, versions } = JSON.parse(readFileSync(join(folder, 'expected.json'), 'utf8'));
  console.log(`astropy ${versions.astropy}, numpy ${versions.numpy}`);
  let values = 0;
  for (const { file, images } of cases) {
    const bytes = new Uint8Array(readFileSync(join(folder, file)));
    const found = parseFits(bytes, file);
    check(file, found.length === images.length, `${found.length} images, expected ${images.length}`);
    images.forEach((expected, k) => {
      const image = found[k];
      if (image === undefined) return;
      const head = JSON.stringify([image.hdu, image.name, image.axes]);
      check(
        file,
        head === JSON.stringify([expected.hdu, expected.name, expected.axes]),
        `header gives ${head}`,
      );
      const got = fitsPixels(bytes, image);
      const at = firstDifference(got, expected.values);
      values += got.length;
      check(file, at < 0, `value ${at} is ${got[at]}, expected ${expected.values[at]}`);
      for (const [keyword, value] of Object.entries(expected.cards)) {
        const read = fitsValue(image.cards, keyword);
        check(
          file,
          read === value,
          `${keyword} is ${JSON.stringify(read)}, expected ${JSON.stringify(value)}`,
        );
      }
    });
  }
  for (const { file, says } of refused) {
    let message = 'accepted';
    try {
      parseFits(new Uint8Array(readFileSync(join(folder, file))), file);
    } catch (error) {
      message = error.name === 'BadInputError' ? error.message : `a fault of ours: ${error.stack}`;
    }
    check(file, message.startsWith(`${file}: `) && message.includes(says), message);
  }
  console.log(`${values} values compared`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
console.log(`${passed} passed, ${failed} failed`);
if (failed > 0 || passed === 0) process.exitCode = 1;
