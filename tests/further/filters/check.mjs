// Measures scans of delivered observatory filters and compares with plain half-peak readings of the same curves.
//
//   node tests/further/filters/check.mjs FOLDER
//
// FOLDER holds the scans as CSV (comment lines with #, then wavelength_nm,transmittance). Build the package first.
// Expected values: the published curves read with straight lines between samples (numpy interp) at half of the peak.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const { describeBand, findBands } = await import(
  new URL('../../../packages/halfmax/dist/metrics/index.js', import.meta.url).href
);

// peak, centre nm, FWHM nm
const readings = {
  gmos_n_Ha: [0.898, 657.65, 7.24],
  gmos_s_Ha: [0.873, 656.68, 7.16],
  gmos_n_OIII: [0.79, 499.58, 4.79],
  gmos_s_OIII: [0.805, 498.77, 4.43],
  gmos_n_SII: [0.858, 671.93, 5.28],
  gmos_s_SII: [0.885, 671.71, 4.44],
};

// The tables round the wavelength to 0.1 nm at true steps of 0.2 to 0.35 nm, so that each edge may lie 0.05 nm off
// whichever way it is read: 0.05 for the centre and 0.07 for the width. Peak: the last digit of the table, 0.001,
// and as much for one high sample that a smoothed peak does not follow.
const bounds = { peak: 0.002, centre: 0.05, fwhm: 0.07 };

const folder = process.argv[2];
if (folder === undefined) {
  console.error('give the folder with the scans: node tests/further/filters/check.mjs FOLDER');
  process.exit(2);
}
const files = readdirSync(folder);
let passed = 0;
let failed = 0;
for (const [name, [peak, centre, fwhm]] of Object.entries(readings)) {
  const file = files.find((entry) => entry.startsWith(`${name}_`) && entry.endsWith('.csv'));
  if (file === undefined) {
    report(name, 'file', 'not found in the folder', false);
    continue;
  }
  const curve = read(join(folder, file));
  const bands = findBands(curve);
  report(name, 'bands', `${bands.length}, expected 1`, bands.length === 1);
  if (bands.length !== 1) continue;
  const metrics = describeBand(curve, bands[0]);
  compare(name, 'peak', metrics.peakTransmittance, peak, bounds.peak);
  compare(name, 'centre', metrics.centreNm, centre, bounds.centre);
  compare(name, 'fwhm', metrics.fwhmNm, fwhm, bounds.fwhm);
}
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);

function read(path) {
  const rows = readFileSync(path, 'utf8')
    .split(/\r?\n/)
    .filter((line) => line !== '' && !line.startsWith('#'))
    .slice(1)
    .map((line) => line.split(',').map(Number));
  return {
    wavelengthNm: Float64Array.from(rows, (row) => row[0]),
    transmittance: Float64Array.from(rows, (row) => row[1]),
    standardUncertainty: new Float64Array(rows.length),
  };
}

function compare(name, what, found, expected, bound) {
  if ('absent' in found) return report(name, what, `absent: ${found.absent}`, false);
  const difference = found.value - expected;
  report(
    name,
    what,
    `${found.value.toFixed(4)}, expected ${expected} within ${bound}`,
    Math.abs(difference) <= bound,
  );
}

function report(name, what, text, good) {
  if (good) passed++;
  else failed++;
  console.log(`${good ? 'pass' : 'FAIL'}  ${name} ${what}: ${text}`);
}
