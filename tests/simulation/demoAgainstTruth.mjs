/**
 * Every number of the measured demonstration session against the truth that its generator wrote.
 *
 *     npm run demo && node tests/simulation/demoAgainstTruth.mjs [FOLDER]
 *
 * FOLDER holds measurement.json (default out/demo). Prints a table; a number more than 3 standard uncertainties off counts
 * as failed, and so does a halo too many or too few.
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
  const { bands, beam } = measurement.filters.find((candidate) => candidate.id === filter.id);
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
    for (const line of band.lines) {
      const inBeam = beam.find((candidate) => candidate.line === line.name);
      if (inBeam === undefined) continue;
      row(
        `${filter.id}, ${line.name}, in parallel light: transmittance`,
        inBeam.collimated,
        line.transmittance,
      );
    }
  }
}
for (const star of truth.stars) {
  const found = measurement.halos.find(({ image }) => image === star.file);
  const title = `star through ${star.filter}`;
  row(`${title}: x / pixels`, found.centre.x, star.x);
  row(`${title}: y / pixels`, found.centre.y, star.y);
  for (const halo of star.halos) {
    const away = (disk) => Math.abs(disk.outerRadiusPixels.value - halo.outerPixels);
    const [disk] = [...found.disks].sort((a, b) => away(a) - away(b));
    const named = `${title}, ${halo.faces}`;
    if (disk === undefined) {
      failed += 1;
      console.log(`| ${named} | a halo | none | |`);
      continue;
    }
    row(`${named}: outer radius / pixels`, disk.outerRadiusPixels, halo.outerPixels);
    row(`${named}: inner radius / pixels`, disk.innerRadiusPixels, halo.innerPixels);
    const { shareOfStar } = disk;
    const perMille = {
      ...shareOfStar,
      value: 1000 * shareOfStar.value,
      standardUncertainty: 1000 * shareOfStar.standardUncertainty,
    };
    row(`${named}: share of the star / per mille`, perMille, 1000 * halo.share);
    row(`${named}: spacing in air / mm`, disk.geometry.airSpacingMm, halo.airSpacingMm);
    if (!disk.displaced) continue;
    row(`${named}: displaced in x / pixels`, disk.displacementPixels.x, halo.dx);
    row(`${named}: displaced in y / pixels`, disk.displacementPixels.y, halo.dy);
  }
  const surplus = found.disks.length - star.halos.length;
  if (surplus === 0) passed += 1;
  else failed += 1;
  console.log(`| ${title}: number of halos | ${star.halos.length} | ${found.disks.length} | |`);
}
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
