/**
 * Every number of the measured demonstration session against the truth that its generator wrote.
 *
 *     npm run demo && node tests/simulation/demoAgainstTruth.mjs [FOLDER]
 *
 * FOLDER holds measurement.json (default out/demo). Prints a table; a number more than 3 standard uncertainties off counts
 * as failed.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const root = new URL('../..', import.meta.url).pathname;
const folder = process.argv[2] ?? join(root, 'out/demo');
const read = (file) => JSON.parse(readFileSync(file, 'utf8'));
const measurement = read(join(folder, 'measurement.json'));
const truth = read(join(root, 'data-demo/truth.json'));
let passed = 0;
let failed = 0;

function row(name, number, expected) {
  if (expected === undefined) return;
  if (number.absent !== undefined) {
    console.log(`| ${name} | ${expected.toFixed(4)} | – (${number.absent}) | |`);
    return;
  }
  const { value, standardUncertainty } = number;
  const ratio = (value - expected) / standardUncertainty;
  if (Math.abs(ratio) <= 3) passed += 1;
  else failed += 1;
  console.log(
    `| ${name} | ${expected.toFixed(4)} | ${value.toFixed(4)} ± ${standardUncertainty.toFixed(4)} | ${ratio.toFixed(1)} |`,
  );
}

console.log('| number | truth | measured | off, in standard uncertainties |');
console.log('| --- | --- | --- | --- |');
const { coefficients, covariance, pivotPixel, pixelScale } = measurement.calibration;
for (const pixel of [300, 700, 1100, 1500, 1900]) {
  const powers = coefficients.map((_, k) => ((pixel - pivotPixel) / pixelScale) ** k);
  const value = coefficients.reduce((sum, c, k) => sum + c * powers[k], 0);
  const variance = covariance.reduce(
    (sum, line, j) => sum + line.reduce((part, c, k) => part + c * powers[j] * powers[k], 0),
    0,
  );
  row(
    `wavelength of pixel ${pixel} / nm`,
    { value, standardUncertainty: Math.sqrt(variance) },
    truth.wavelengthNm?.[pixel],
  );
}
for (const filter of truth.filters) {
  const bands = measurement.filters.find((candidate) => candidate.id === filter.id).bands;
  for (const band of filter.bands) {
    const away = (candidate) => Math.abs(candidate.asMeasured.centreNm.value - band.ideal.centreNm);
    const found = [...bands].sort((a, b) => away(a) - away(b))[0];
    for (const [kind, expected] of [
      ['as measured', band.asMeasured],
      ['corrected', band.ideal],
    ]) {
      const numbers = kind === 'corrected' ? found.corrected : found.asMeasured;
      const title = `${filter.id}, ${found.target[0]}, ${kind}`;
      for (const key of ['fwhmNm', 'centreNm', 'peakTransmittance'])
        row(`${title}: ${key}`, numbers[key], expected[key]);
      for (const line of band.lines) {
        const own = found.lines.find((candidate) => candidate.name === line.name);
        if (own === undefined) continue;
        const at = kind === 'corrected' ? own.corrected : own.transmittance;
        row(
          `${title}: transmittance at ${line.name}`,
          at,
          kind === 'corrected' ? line.transmittance : line.seenTransmittance,
        );
      }
    }
  }
}
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
