import { compactJson } from './compactJson.mjs';
import { createDetector, exposeFrame, strike } from './detector.mjs';
import { entryName, exposuresOf, troublesOf } from './entries.mjs';
import { filterTruth } from './filterTruth.mjs';
import { createGrating } from './grating.mjs';
import { cutContinuum, imageContinuum } from './image.mjs';
import { imageLamp } from './imageLamp.mjs';
import { drawLampLines } from './lamps.mjs';
import { spreadTable, spreadWidth } from './lineSpread.mjs';
import { createRandom } from './random.mjs';
import { simulateStars } from './simulateStars.mjs';
import { createThroughput, lampBrightness } from './throughput.mjs';
import { transmittanceOf } from './transmittance.mjs';
import { writeFrameFiles } from './writers.mjs';

/**
 * @typedef {import('./image.mjs').Optics} Optics
 * @typedef {import('./types.mjs').SessionSpec} SessionSpec
 * @typedef {import('./types.mjs').FilterSpec} FilterSpec
 * @typedef {import('./types.mjs').SimulatedEntry} SimulatedEntry
 * @typedef {import('./types.mjs').SimulatedScan} SimulatedScan
 * @typedef {import('./types.mjs').Truth} Truth
 * @typedef {import('./entries.mjs').EntryKind} EntryKind
 */

/**
 * Simulates a bench session with its files.
 *
 * @param {SessionSpec} spec
 * @param {number} seed the same spec and seed give the same bytes
 * @returns {ReturnType<typeof simulateFrames> & {
 *   files: { name: string, content: string | Uint8Array }[], stars: import('./simulateStars.mjs').StarTruth[],
 * }}
 */
export function simulateSession(spec, seed) {
  const simulated = simulateFrames(spec, seed);
  const { files, written } = writeFrameFiles(simulated.entries, simulated.truth.wavelengthNm, spec);
  const entries = simulated.entries.map((entry, i) => ({
    ...entry,
    scans: entry.scans.map((scan, k) => ({ ...scan, ...written[i]?.scans[k] })),
  }));
  const frames = simulated.manifest.frames.map((frame, i) => ({ ...frame, files: written[i]?.files ?? [] }));
  const images = (spec.stars?.images ?? []).filter(({ filter }) =>
    spec.filters.some(({ id }) => id === filter),
  );
  const stars = spec.stars
    ? simulateStars({ ...spec.stars, images }, seed)
    : { files: [], entries: [], truth: [] };
  const manifest = {
    ...simulated.manifest,
    frames,
    ...(stars.entries.length > 0 && { stars: stars.entries }),
  };
  files.unshift({ name: 'session.json', content: `${compactJson(manifest, 100)}\n` });
  files.push(...stars.files);
  return { ...simulated, manifest, entries, files, stars: stars.truth };
}

/**
 * Simulates a bench session in memory, without writing its files.
 *
 * @param {SessionSpec} spec
 * @param {number} seed
 */
export function simulateFrames(spec, seed) {
  const pixels = spec.instrument.geometry.pixels;
  const grating = createGrating(spec.instrument.geometry);
  const lineSpread = spec.instrument.lineSpread;
  const widthAt = spreadWidth(lineSpread, pixels, grating.dispersionAt);
  /** @type {Optics} */
  const optics = { pixels, grating, table: spreadTable(lineSpread), widthAt };
  const throughput = createThroughput(spec.instrument.throughput);
  const detector = createDetector(spec.detector, pixels, createRandom(seed, 'detector'));

  const wavelengthNm = new Float64Array(pixels);
  const lineSpreadNm = new Float64Array(pixels);
  for (let i = 0; i < pixels; i++) {
    wavelengthNm[i] = grating.wavelengthAt(i);
    lineSpreadNm[i] = widthAt(i) * grating.dispersionAt(i);
  }

  /** @type {SimulatedEntry[]} */
  const entries = [];
  /** @type {Truth} */
  const truth = {
    wavelengthNm,
    lineSpreadNm,
    lamps: [],
    lines: [],
    lampLevels: [],
    filters: [],
    trouble: [],
  };
  const startMs = Date.parse(`${spec.recorded}T18:00:00Z`);
  let minutes = 0;

  /**
   * @param {EntryKind} entry
   * @param {number} frames
   * @param {number} flicker
   * @param {(shiftPx: number) => Float64Array | null} light
   */
  const take = (entry, frames, flicker, light) => {
    const index = entries.length;
    const random = createRandom(seed, `frames ${index}`);
    const name = entryName(entry, entries);
    const troubles = troublesOf(spec, entry, entries);
    const steady = light(0);
    /** @type {SimulatedScan[]} */
    const scans = [];
    for (let k = 0; k < frames; k++) {
      const trouble = troubles.find((one) => one.frame === k);
      const level = trouble?.kind === 'unlit' ? 0 : 1 + flicker * random.normal();
      const shown = trouble?.kind === 'moved' ? light(trouble.shiftPx ?? 0.8) : steady;
      const counts = exposeFrame(spec.detector, detector, shown, level, entry.exposureMs, random);
      if (trouble?.kind === 'struck')
        strike(counts, trouble.pixel ?? random.index(pixels - 4), spec.detector.clipCounts, random);
      if (trouble) truth.trouble.push({ entry: index, frame: k, kind: trouble.kind });
      scans.push({
        file: `${name}-${String(k + 1).padStart(2, '0')}.txt`,
        column: '',
        counts,
        wavelengthNm: null,
      });
    }
    entries.push({
      index,
      ...entry,
      takenAtMs: entry.role === 'dark' ? null : startMs + Math.round(minutes * 60000),
      scans,
    });
  };

  for (const exposureMs of exposuresOf(spec)) {
    take({ role: 'dark', exposureMs, lamp: null, filter: null }, spec.darkFrames, 0, () => null);
  }

  spec.lamps.forEach((lamp, which) => {
    const random = createRandom(seed, `lamp ${which}`);
    const lines = drawLampLines(lamp, throughput, random);
    const shift = lamp.shiftPx ?? 0;
    const { image, rows } = imageLamp(optics, lamp, lines, throughput);
    truth.lamps.push({ label: lamp.label, shiftPx: shift });
    truth.lines.push(...rows);
    for (const exposureMs of lamp.exposuresMs) {
      minutes += 2;
      take(
        { role: 'lamp', exposureMs, lamp: lamp.label, filter: null },
        lamp.frames,
        lamp.flicker ?? 0.003,
        (moved) =>
          moved === 0
            ? image
            : imageLamp(optics, { ...lamp, shiftPx: shift + moved }, lines, throughput).image,
      );
    }
  });

  if (spec.scan !== null) {
    const scan = spec.scan;
    const brightness = lampBrightness(scan.temperatureK, throughput);
    const continuum = cutContinuum(optics, brightness);
    const open = imageContinuum(optics, continuum);
    const scale = scan.peakCounts / scan.exposureMs / open.reduce((most, value) => Math.max(most, value), 0);
    const drift = createRandom(seed, 'broadband lamp');
    const firstMinute = minutes + scan.minutesBetween;
    let walk = 0;

    /** @param {(shiftPx: number) => Float64Array} image @param {EntryKind} entry @param {number} frames */
    const takeScan = (image, entry, frames) => {
      minutes += scan.minutesBetween;
      const hours = (minutes - firstMinute) / 60;
      if (hours > 0) walk += scan.walkPerRootHour * Math.sqrt(scan.minutesBetween / 60) * drift.normal();
      const level = 1 + scan.driftPerHour * hours + walk;
      const colour = scan.colourPerHour * hours;
      truth.lampLevels.push({ entry: entries.length, level, colour });
      take(entry, frames, scan.flicker, (shift) =>
        image(shift).map((value, i) => scale * level * value * ((wavelengthNm[i] ?? 550) / 550) ** colour),
      );
    };
    const takeOpen = () =>
      takeScan(
        (shift) => (shift === 0 ? open : imageContinuum(optics, continuum, { shiftPx: shift })),
        { role: 'open', exposureMs: scan.exposureMs, lamp: null, filter: null },
        scan.frames,
      );

    takeOpen();
    for (const filter of spec.filters) {
      const transmittance = transmittanceOf(filter);
      const samples = sampling(filter, lineSpreadNm);
      const image = imageContinuum(optics, continuum, { transmittance, samples });
      for (const exposureMs of filter.exposuresMs ?? [scan.exposureMs]) {
        takeScan(
          (shift) =>
            shift === 0
              ? image
              : imageContinuum(optics, continuum, { transmittance, samples, shiftPx: shift }),
          { role: 'filtered', exposureMs, lamp: null, filter: filter.id },
          filter.frames ?? scan.frames,
        );
      }
      takeOpen();
      truth.filters.push(filterTruth(optics, filter, brightness, transmittance));
    }
  }

  const detectorField = {
    pixels,
    saturationCounts: spec.detector.saturationCounts,
    ...(spec.nominalRange && {
      wavelengthStartNm: spec.nominalRange.startNm,
      wavelengthEndNm: spec.nominalRange.endNm,
    }),
    ...(spec.detector.declareLinearity && spec.detector.linearity && { linearity: spec.detector.linearity }),
  };
  const manifest = {
    format: 'halfmax-session/1',
    title: spec.title,
    recorded: spec.recorded,
    ...spec.extra,
    detector: detectorField,
    filters: spec.filters.map(({ id, label, lines, claims, price }) => ({
      id,
      label,
      lines,
      claims,
      ...(price && { price }),
    })),
    frames: entries.map((entry) => ({
      role: entry.role,
      ...(entry.lamp !== null && { lamp: entry.lamp }),
      ...(entry.filter !== null && { filter: entry.filter }),
      exposureMs: entry.exposureMs,
      ...(entry.takenAtMs !== null && { takenAt: new Date(entry.takenAtMs).toISOString() }),
      files: entry.scans.map((scan) => scan.file),
    })),
  };
  return {
    manifest,
    /** In the shape that a session's reader gives. */
    entries,
    /** The same frames, flat. */
    frames: entries.flatMap((entry) =>
      entry.scans.map((scan) => ({ entry: entry.index, name: scan.file, counts: scan.counts })),
    ),
    /** The detector in the shape that a session's reader gives. */
    detector: {
      pixels,
      saturationCounts: spec.detector.saturationCounts,
      wavelengthStartNm: spec.nominalRange?.startNm ?? null,
      wavelengthEndNm: spec.nominalRange?.endNm ?? null,
      linearity: spec.detector.declareLinearity ? spec.detector.linearity : null,
    },
    truth,
  };
}

/**
 * Samples a cell: many near the bands, where a flank may be steep, one elsewhere.
 *
 * @param {FilterSpec} filter
 * @param {Float64Array} lineSpreadNm
 * @returns {(wavelengthNm: number) => number}
 */
function sampling(filter, lineSpreadNm) {
  const spread = lineSpreadNm.reduce((most, value) => Math.max(most, value), 0);
  return (nm) =>
    filter.bands.some((band) => Math.abs(nm - band.centreNm) < 1.2 * band.fwhmNm + 2 * spread) ? 5 : 1;
}
