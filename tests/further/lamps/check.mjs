// Calibrates from real lamp frames of a slit spectrograph through the built package.
//
//   npm run build && node tests/further/lamps/check.mjs FOLDER
//
// FOLDER holds hg-lamp.fits and ne-lamp.fits: open 8-bit camera frames, 1600 x 1200, of a mercury and a neon lamp through
// a slit behind a mask of seven holes. The spectrum is a tilted band of seven rows of beads; wavelength falls with pixel,
// from about 562 to 399 nm; the bright lines are clipped at 255 but in the dark rows between the beads. No dark frame:
// the rows above and below the band stand in for it.
//
// What is known of them without the package:
// - Hg I 546.0750, 435.8335 and 404.6565 nm (air; Sansonetti, Salit, Reader, Applied Optics 35, 74 (1996)) are the three
//   lines of a mercury lamp between 399 and 562 nm that are bright; their distances are 110.24 : 31.18 nm, and the three
//   lines of the frame stand 1079 : 307 pixels apart, the same ratio within 1 %, falling. Their places are measured here
//   from the counts alone.
// - Ne I 540.0562 nm (Saloman, Sansonetti, J. Phys. Chem. Ref. Data 33, 1113 (2004)) is the brightest neon line in the
//   green but for the group at 533 to 534 nm.
// - Hg 577/579 and the red neon lines lie outside the frames: a scale that uses one of them is false.
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const home = process.env.HALFMAX_DIST ?? join(here, '..', '..', '..', 'packages', 'halfmax', 'dist');
const { extractSpectrum, findTrace, fitsPixels, fitsValue, parseFits } = await import(
  join(home, 'session/index.js')
);
const { calibrate, findLines, fitDispersion, identifyScale, nameLines, wavelengthAt, wavelengthCovariance } =
  await import(join(home, 'calibration/index.js'));
const { lampLines } = await import(join(home, 'reference/index.js'));

const folder = process.argv[2];
if (folder === undefined) {
  console.error('usage: node tests/further/lamps/check.mjs FOLDER');
  process.exit(2);
}

const SATURATION = 255;
const PIXELS = 1600;
const MERCURY = [546.075, 435.8335, 404.6565];
/** Half of the height of a window of rows. */
const HALF_ROWS = 1.5;
const WINDOWS = 4;

let passed = 0;
let failed = 0;

function check(name, good, detail) {
  if (good) passed++;
  else failed++;
  console.log(`${good ? 'pass' : 'FAIL'}  ${name}: ${detail}`);
}

/** One frame with the mean of the rows far from the band as its background, column by column. */
function read(name) {
  const bytes = new Uint8Array(readFileSync(join(folder, name)));
  const [image] = parseFits(bytes, name);
  const [pixels, rows] = image.axes;
  const counts = fitsPixels(bytes, image);
  const background = new Float64Array(pixels);
  const far = Array.from({ length: rows }, (_, row) => row).filter((row) => row < 600 || row > 900);
  let squares = 0;
  for (let p = 0; p < pixels; p++) {
    const column = far.map((row) => counts[row * pixels + p]);
    background[p] = column.reduce((sum, value) => sum + value, 0) / far.length;
    squares += column.reduce((sum, value) => sum + (value - background[p]) ** 2, 0) / (far.length - 1);
  }
  const light = counts.map((value, i) => value - background[i % pixels]);
  const bits = fitsValue(image.cards, 'BITPIX');
  return { name, bits, pixels, rows, counts, background, light, noise: Math.sqrt(squares / pixels) };
}

const frames = [read('hg-lamp.fits'), read('ne-lamp.fits')];
const labels = ['Hg', 'Ne'];

for (const { name, bits, pixels, rows, counts, noise } of frames) {
  const clipped = counts.reduce((sum, value) => sum + (value >= SATURATION ? 1 : 0), 0);
  const whole = counts.every((value) => Number.isInteger(value) && value >= 0 && value <= SATURATION);
  const good = bits === 8 && pixels === PIXELS && rows === 1200 && whole && clipped > 1000;
  check(
    `${name} is read`,
    good,
    `${pixels} x ${rows}, ${bits} bits, ${clipped} pixels clipped, noise ${noise.toFixed(2)} counts`,
  );
}

const both = frames[0].light.map((value, i) => value + frames[1].light[i]);
const trace = findTrace({ pixels: PIXELS, rows: 1200, counts: both });
const height = trace.below + trace.above;
const tilt = trace.centreRow[PIXELS - 1] - trace.centreRow[0];
// By eye: beads from row 683 to 794 at pixel 60, from 692 to 807 at pixel 1200.
check(
  'the band of both lamps is found',
  trace.centreRow.every((row) => row > 730 && row < 760) &&
    tilt > 8 &&
    tilt < 25 &&
    height > 105 &&
    height < 130,
  `centre row ${trace.centreRow[0].toFixed(1)} to ${trace.centreRow[PIXELS - 1].toFixed(1)}, ${height.toFixed(1)} rows high`,
);

/** A lamp's spectrum from the rows at an offset from the middle of the band. */
function spectrumOf(which, offset, below, above) {
  const { counts, background, noise } = frames[which];
  const rows = { centreRow: trace.centreRow.map((row) => row + offset), below, above };
  const extracted = extractSpectrum({ pixels: PIXELS, rows: 1200, counts }, rows, SATURATION);
  const masked = Uint8Array.from(extracted, (value) => (Number.isNaN(value) ? 1 : 0));
  return {
    label: labels[which],
    where: frames[which].name,
    countsPerMs: extracted.map((value, p) => (masked[p] ? 0 : value - background[p])),
    // The light's own noise is not known: the fits widen their uncertainties by what misfit they see.
    standardUncertainty: new Float64Array(PIXELS).fill(noise / Math.sqrt(below + above)),
    masked,
  };
}

/** Offsets of the windows of rows that clip least, at least ten rows apart: the dark rows between the beads. */
function darkWindows() {
  const offsets = [];
  for (let offset = -50; offset <= 50; offset++) {
    const clipped = [0, 1].reduce(
      (sum, which) => sum + spectrumOf(which, offset, HALF_ROWS, HALF_ROWS).masked.reduce((a, b) => a + b, 0),
      0,
    );
    offsets.push({ offset, clipped });
  }
  offsets.sort((a, b) => a.clipped - b.clipped);
  const chosen = [];
  for (const entry of offsets) {
    if (chosen.every((other) => Math.abs(other.offset - entry.offset) >= 10)) chosen.push(entry);
    if (chosen.length === WINDOWS) break;
  }
  return chosen.map(({ offset }) => offset);
}

/** Middle of the pixels above half of the height, of what light is there in a stretch: no code of the package. */
function middleOf({ countsPerMs, masked }, from, to) {
  const seen = Array.from({ length: to - from }, (_, k) =>
    masked[from + k] ? Number.POSITIVE_INFINITY : countsPerMs[from + k],
  );
  const top = Math.max(...seen.filter(Number.isFinite));
  const above = seen.flatMap((value, k) => (value > top / 2 ? [from + k] : []));
  return (above[0] + above[above.length - 1]) / 2;
}

const wavelengthOf = (scale) => (pixel) => {
  const t = (pixel - scale.pivotPixel) / scale.pixelScale;
  return Array.from(scale.coefficients).reduceRight((sum, c) => sum * t + c, 0);
};

/** How far a scale lies from the three mercury lines, nm; Infinity where it rises. */
function offMercury(at, places) {
  if (at(0) < at(PIXELS - 1)) return Number.POSITIVE_INFINITY;
  return Math.max(...places.map((pixel, k) => Math.abs(at(pixel) - MERCURY[k])));
}

const detector = (startNm, endNm) => ({
  pixels: PIXELS,
  saturationCounts: SATURATION,
  wavelengthStartNm: startNm,
  wavelengthEndNm: endNm,
  linearity: null,
});

/** A calibration, or the words of the refusal. */
function attempt(spectra, startNm, endNm) {
  try {
    return { calibration: calibrate(spectra, detector(startNm, endNm)), refusal: null };
  } catch (error) {
    if (error.name !== 'BadInputError') throw error;
    return { calibration: null, refusal: error.message };
  }
}

/** A line of 3 nm width, out of focus, sets the bound: half of it. A false name is 5 nm off and more. */
const TOLERANCE_NM = 1.5;

const whole = {
  title: 'full height',
  spectra: [0, 1].map((which) => spectrumOf(which, 0, trace.below, trace.above)),
};
const views = [
  whole,
  ...darkWindows().map((offset) => ({
    title: `rows at ${offset}`,
    spectra: [0, 1].map((which) => spectrumOf(which, offset, HALF_ROWS, HALF_ROWS)),
  })),
];

let identified = 0;
let calibrated = 0;
for (const { title, spectra } of views) {
  const masked = spectra.map((spectrum) => spectrum.masked.reduce((a, b) => a + b, 0));
  const places = [
    [120, 200],
    [1190, 1290],
    [1480, 1599],
  ].map(([from, to]) => middleOf(spectra[0], from, to));
  const ratio = (places[1] - places[0]) / (places[2] - places[1]);
  check(
    `${title}: the three mercury lines`,
    Math.abs(ratio / ((MERCURY[0] - MERCURY[1]) / (MERCURY[1] - MERCURY[2])) - 1) < 0.015,
    `at ${places.map((pixel) => pixel.toFixed(1)).join(', ')}, spacing ${ratio.toFixed(3)} for ` +
      `${((MERCURY[0] - MERCURY[1]) / (MERCURY[1] - MERCURY[2])).toFixed(3)}; ${masked.join(' and ')} pixels clipped`,
  );

  // A scale is right or there is none: with both lamps, with one, without a hint and with a rough one.
  for (const [kind, given, startNm, endNm] of [
    ['both lamps, no hint', spectra, null, null],
    ['both lamps, 575 to 410 nm stated', spectra, 575, 410],
    ['mercury alone', spectra.slice(0, 1), null, null],
    ['neon alone', spectra.slice(1), null, null],
  ]) {
    const { calibration, refusal } = attempt(given, startNm, endNm);
    if (calibration === null) {
      const tells = refusal.includes('no wavelength scale') || refusal.includes('not those of that lamp');
      check(`${title}: ${kind}`, tells, `refused: ${refusal.slice(0, 160)}`);
      continue;
    }
    const off = offMercury((pixel) => wavelengthAt(calibration.dispersion, pixel), places);
    const used = calibration.lines.filter((line) => line.used);
    // Beyond the lines used the scale is extrapolated: there it must keep to what it says of itself.
    const stated = Math.max(
      ...places.map((pixel) => Math.sqrt(wavelengthCovariance(calibration.dispersion, pixel, pixel))),
    );
    if (kind === 'both lamps, no hint') calibrated++;
    check(
      `${title}: ${kind}`,
      off < Math.max(TOLERANCE_NM, 3 * stated),
      `calibrated with ${used.length} lines, rms ${calibration.residualRmsNm.toFixed(3)} nm, mercury within ${off.toFixed(2)} nm, stated ${stated.toFixed(2)} nm`,
    );
  }

  // The search itself, with every neon line of the table counted as one that a lamp may show clearly: those of the
  // green, weak beside the red ones, are all that these frames hold.
  const lamps = spectra.map((spectrum, which) => ({
    lamp: { label: spectrum.label, where: spectrum.where, lines: findLines(spectrum) },
    known: lampLines
      .filter((line) => line.species === `${labels[which]} I`)
      .map((line) => (line.wavelengthNm < 560 ? { ...line, weak: false } : line)),
  }));
  const rough = identifyScale(lamps, PIXELS, null);
  if ('absent' in rough) {
    console.log(`      ${title}: blind search: ${rough.absent}`);
    continue;
  }
  const at = wavelengthOf(rough);
  const off = offMercury(at, places);
  identified++;
  check(
    `${title}: the blind search`,
    off < TOLERANCE_NM,
    `${at(0).toFixed(1)} to ${at(PIXELS - 1).toFixed(1)} nm, mercury within ${off.toFixed(2)} nm, ` +
      `gain ${rough.score.toFixed(1)}, next ${rough.runnerUp.toFixed(1)}, ${rough.matched} lines laid`,
  );

  const named = nameLines(lamps, at, () => 1.15, 0.5);
  const carrying = named.filter(
    (line) => line.known !== null && (line.trouble === null || line.trouble.startsWith('blended')),
  );
  const fit = fitDispersion(
    carrying.map(({ lamp, found, known }) => ({
      lamp,
      pixel: found.pixel,
      // Blends are let in here, with a tenth of a width of doubt: the frames hold few lines without a neighbour.
      pixelUncertainty: Math.hypot(found.pixelUncertainty, 0.1 * found.fwhmPixels),
      wavelengthNm: known.wavelengthNm,
    })),
    PIXELS,
  );
  const names = carrying.map(({ known }) => known.wavelengthNm.toFixed(2));
  const far = offMercury((pixel) => wavelengthAt(fit.dispersion, pixel), places);
  // A tenth of the line width of 1.15 nm is what blends of neighbours leave; a false name would add 0.5 nm and more.
  check(
    `${title}: the scale through ${carrying.length} lines`,
    carrying.length >= 8 && fit.residualRmsNm < 0.15 && far < TOLERANCE_NM,
    `order ${fit.dispersion.order}, rms ${fit.residualRmsNm.toFixed(3)} nm, leave-one-out ${fit.leaveOneOutRmsNm.toFixed(3)} nm, ` +
      `${fit.rejected.length} rejected, mercury within ${far.toFixed(2)} nm: ${names.join(' ')}`,
  );
}
check(
  'the blind search finds a scale in most of the views',
  identified >= 4,
  `${identified} of ${views.length}`,
);
check(
  'both lamps together are calibrated without a hint in most of the views',
  calibrated >= 3,
  `${calibrated}`,
);

// Clipped cores are found and marked, never used.
const clippedPlaces = [
  [0, middleOf(whole.spectra[0], 120, 200), 'Hg 546.07'],
  [0, middleOf(whole.spectra[0], 1190, 1290), 'Hg 435.83'],
  [1, middleOf(whole.spectra[1], 195, 240), 'Ne 540.06'],
];
for (const [which, pixel, name] of clippedPlaces) {
  const near = findLines(whole.spectra[which]).filter((line) => Math.abs(line.pixel - pixel) < 10);
  check(
    `full height: clipped ${name}`,
    near.length > 0 && near.every((line) => line.trouble === 'saturated'),
    near.length === 0
      ? 'not found'
      : near.map((line) => `${line.pixel.toFixed(1)} ${line.trouble}`).join(', '),
  );
}

console.log(`${passed} passed, ${failed} failed`);
if (failed > 0 || passed === 0) process.exitCode = 1;
