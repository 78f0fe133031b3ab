// Skies and lamps of the package against open data: an observatory's dark-sky spectrum, scans of its filters, and the
// tables of the International Commission on Illumination.
//
//   node tests/further/sky/check.mjs FOLDER
//
// FOLDER holds dark-sky/*.csv (nm, photons/s/nm/arcsec2/m2), observatory-filters/*.csv (nm, fraction) and
// cie-light-sources/*.csv (nm and one column a lamp). Build the package first.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const load = (room) =>
  import(new URL(`../../../packages/halfmax/dist/${room}/index.js`, import.meta.url).href);
const { curveInBeam } = await load('beam');
const sky = await load('sky');

const folder = process.argv[2];
if (folder === undefined) {
  console.error('give the folder with the data: node tests/further/sky/check.mjs FOLDER');
  process.exit(2);
}
let passed = 0;
let failed = 0;
const tableOf = (path) =>
  readFileSync(path, 'utf8')
    .split(/\r?\n/)
    .map((line) => line.split(',').map(Number))
    .filter((row) => row.length > 1 && row.every(Number.isFinite));

const linear = (x, y) => {
  let k = 0;
  return (at) => {
    while (k > 0 && x[k] > at) k--;
    while (k < x.length - 2 && x[k + 1] < at) k++;
    return y[k] + ((at - x[k]) / (x[k + 1] - x[k])) * (y[k + 1] - y[k]);
  };
};

const rows = tableOf(join(folder, 'dark-sky', 'gemini_dark_sky_50pct.csv'));
const dark = sky.skyFromSpectrum({
  wavelengthNm: rows.map((row) => row[0]),
  values: rows.map((row) => row[1]),
  unit: 'photons/s/m2/arcsec2/nm',
});

// 1. The airglow lines of the package's table stand where the spectrum has them.
for (const [name, at] of [
  ['[O I] 557.7', 557.7338],
  ['[O I] 630.0', 630.0304],
  ['[O I] 636.4', 636.3776],
  ['Na 589.0', 588.995],
]) {
  let best = 0;
  for (let i = 0; i < rows.length; i++)
    if (Math.abs(rows[i][0] - at) < 1 && (best === 0 || rows[i][1] > rows[best][1])) best = i;
  // The lines of the spectrum are some 0.3 nm wide.
  report(`${name}: highest at ${rows[best][0]}`, Math.abs(rows[best][0] - at) < 0.15);
}

// 2. Zero point: V = 0 is 995.5 photons/s/cm2/A at 545 nm (Bessell, Castelli, Plez 1998), a figure that the package does
// not use; the spectrum summed plainly over the band with it.
const { photometryTable } = await load('reference');
const brightness = sky.vMagnitude(dark);
const band = linear(
  photometryTable.vBand.map((row) => row[0]),
  photometryTable.vBand.map((row) => row[1]),
);
const light = linear(dark.wavelengthNm, dark.photons);
let [counted, area] = [0, 0];
for (let at = 470.005; at < 700; at += 0.01) {
  counted += (light(at) * band(at) * 545) / at;
  area += band(at);
}
const byZeroPoint = -2.5 * Math.log10(counted / area / 9.955e7);
report(
  `V of the spectrum ${brightness.toFixed(4)}, by the photons of V = 0 ${byZeroPoint.toFixed(4)}`,
  // 995.5 and 363.1e-11 erg/s/cm2/A agree to 0.07 %, the steps of the sum to as much.
  Math.abs(brightness - byZeroPoint) < 0.002,
);
const kept = rows.filter(
  ([at]) => Math.abs(at - 557.7) > 1 && Math.abs(at - 630) > 1 && Math.abs(at - 589.3) > 1.5,
);
const bare = sky.skyFromSpectrum({
  wavelengthNm: kept.map((row) => row[0]),
  values: kept.map((row) => row[1]),
  unit: 'photons/s/m2/arcsec2/nm',
});
const ratio = sky.luminanceOfSky(bare) / sky.luminance(sky.vMagnitude(bare));
// The published relation has one factor for all spectra; 5 % for even ones.
report(
  `luminance by V(lambda) over that by V, without lines: ${ratio.toFixed(3)}`,
  Math.abs(ratio - 1) < 0.05,
);

// 3. Continuum of the package's natural sky, set to the same brightness, between the lines.
const natural = sky.siteSky({ skyBrightness: 22 }).sky;
const same = sky.setBrightness(natural, brightness);
for (const [from, to] of [
  [500, 510],
  [522, 540],
  [560, 567],
  [600, 610],
  [645, 652],
  [672, 682],
]) {
  const window = {
    wavelengthNm: Float64Array.of(from, to),
    transmittance: Float64Array.of(1, 1),
    standardUncertainty: new Float64Array(2),
  };
  const ratio =
    sky.weightBySky(window, { ...same, lines: [] }).photons / sky.weightBySky(window, dark).photons;
  // The spectrum has moonlight in it, the package's sky has none: a third.
  report(`continuum ${from} to ${to} nm: ${ratio.toFixed(2)} of the spectrum's`, ratio > 0.67 && ratio < 1.5);
}

// 4. Photons behind real filters: a plain sum over steps of 0.005 nm, in parallel light and at f/4.
for (const name of readdirSync(join(folder, 'observatory-filters')).filter((file) =>
  /_(Ha|OIII|SII)_/.test(file),
)) {
  const scan = tableOf(join(folder, 'observatory-filters', name));
  const curve = {
    wavelengthNm: Float64Array.from(scan, (row) => row[0]),
    transmittance: Float64Array.from(scan, (row) => row[1]),
    standardUncertainty: new Float64Array(scan.length),
  };
  for (const [place, seen] of [
    ['parallel', curve],
    ['f/4', curveInBeam(curve, { fNumber: 4 }, { effectiveIndex: 2 })],
  ]) {
    const found = sky.weightBySky(seen, dark).photons;
    const [transmit, light] = [
      linear(seen.wavelengthNm, seen.transmittance),
      linear(dark.wavelengthNm, dark.photons),
    ];
    let sum = 0;
    const [from, to] = [seen.wavelengthNm[0], seen.wavelengthNm[seen.wavelengthNm.length - 1]];
    for (let at = from + 0.0025; at < to; at += 0.005) sum += 0.005 * transmit(at) * light(at);
    const area = seen.transmittance.reduce(
      (total, t, i) =>
        total +
        (i === 0
          ? 0
          : ((seen.wavelengthNm[i] - seen.wavelengthNm[i - 1]) * (t + seen.transmittance[i - 1])) / 2),
      0,
    );
    const text = `${name} ${place}: ${found.toFixed(4)} photons/s/m2/arcsec2, mean ${(found / area).toFixed(3)} per nm, sum ${sum.toFixed(4)}`;
    report(text, Math.abs(found / sum - 1) < 2e-4);
  }
}

// 5. Lamps against the tables: shares of the light in narrow bands, and lumens per watt.
const cie = (file, column) => {
  const table = tableOf(join(folder, 'cie-light-sources', file)).filter(
    (row) => row[0] >= 380 && row[0] <= 780,
  );
  return linear(
    table.map((row) => row[0]),
    table.map((row) => row[column]),
  );
};
const { luminousEfficiency } = photometryTable;
const eye = linear(
  luminousEfficiency.map((row) => row[0]),
  luminousEfficiency.map((row) => row[1]),
);
for (const [name, file, column, label] of [
  ['LED 2733 K', 'CIE_illum_LEDs_1nm.csv', 1, 'LED-B1'],
  ['LED 2998 K', 'CIE_illum_LEDs_1nm.csv', 2, 'LED-B2'],
  ['LED 4103 K', 'CIE_illum_LEDs_1nm.csv', 3, 'LED-B3'],
  ['LED 5109 K', 'CIE_illum_LEDs_1nm.csv', 4, 'LED-B4'],
  ['LED 6598 K', 'CIE_illum_LEDs_1nm.csv', 5, 'LED-B5'],
  ['high-pressure sodium', 'CIE_illum_HPs.csv', 1, 'HP1'],
  ['metal halide', 'CIE_illum_HPs.csv', 3, 'HP3'],
  ['halophosphate fluorescent', 'CIE_illum_FLs_1nm.csv', 2, 'FL2'],
  ['fluorescent', 'CIE_illum_FLs_1nm.csv', 11, 'FL11'],
]) {
  const table = cie(file, column);
  const lamp = sky.lightSource(name);
  const model = (from, to, weight) => {
    let sum = 0;
    for (let at = from + 0.05; at < to; at += 0.1) sum += 0.1 * lamp.powerAt(at) * weight(at);
    for (const line of lamp.lines)
      if (line.wavelengthNm > from && line.wavelengthNm < to) sum += line.power * weight(line.wavelengthNm);
    return sum;
  };
  const data = (from, to, weight) => {
    let sum = 0;
    for (let at = from + 0.05; at < to; at += 0.1) sum += 0.1 * table(at) * weight(at);
    return sum;
  };
  const one = () => 1;
  for (const at of [656.3, 501, 672]) {
    const found = (100 * model(at - 3.45, at + 3.45, one)) / model(380, 780, one);
    const expected = (100 * data(at - 3.45, at + 3.45, one)) / data(380, 780, one);
    // A smooth band does not follow every hump: 20 %, and 0.15 % of the lamp's light.
    report(
      `${name} at ${at} nm: ${found.toFixed(2)} %, ${label} ${expected.toFixed(2)} %`,
      Math.abs(found - expected) < 0.2 * expected + 0.15,
    );
  }
  const efficacy = (683 * model(380, 780, eye)) / model(380, 780, one);
  const listed = (683 * data(380, 780, eye)) / data(380, 780, one);
  report(
    `${name}: ${efficacy.toFixed(0)} lm/W, ${label} ${listed.toFixed(0)}`,
    Math.abs(efficacy / listed - 1) < 0.04,
  );
}

console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);

function report(text, good) {
  if (good) passed++;
  else failed++;
  console.log(`${good ? 'pass' : 'FAIL'}  ${text}`);
}
