import { readFileSync } from 'node:fs';
import { describeBandTruth } from './bandTruth.mjs';
import { compactJson } from './compactJson.mjs';
import { createDetector, exposeFrame } from './detector.mjs';
import { createGrating } from './grating.mjs';
import { addLine, cutContinuum, imageContinuum, seenThrough } from './image.mjs';
import { drawLampLines } from './lamps.mjs';
import { spreadTable, spreadWidth } from './lineSpread.mjs';
import { createRandom } from './random.mjs';
import { createThroughput, lampBrightness } from './throughput.mjs';
import { transmittanceOf } from './transmittance.mjs';
import { writeFrameFiles } from './writers.mjs';

/**
 * @typedef {import('./image.mjs').Optics} Optics
 * @typedef {import('./bandTruth.mjs').BandTruth} BandTruth
 *
 * @typedef {object} InstrumentSpec
 * @property {import('./grating.mjs').GratingGeometry} geometry
 * @property {import('./lineSpread.mjs').LineSpreadSpec} lineSpread
 * @property {import('./throughput.mjs').ThroughputSpec} throughput
 *
 * @typedef {object} ScanSpec how open and filtered scans are taken
 * @property {number} exposureMs
 * @property {number} frames
 * @property {number} peakCounts of an open scan, above dark
 * @property {number} temperatureK of the broadband lamp
 * @property {number} driftPerHour relative, linear
 * @property {number} walkPerRootHour relative, random
 * @property {number} colourPerHour exponent of the wavelength
 * @property {number} flicker relative, from frame to frame
 * @property {number} minutesBetween two scans
 *
 * @typedef {import('./transmittance.mjs').FilterCurveSpec & {
 *   id: string, label: string, lines: readonly string[], claims: Record<string, unknown>,
 *   price?: { amount: number, currency: string }, exposuresMs?: readonly number[], frames?: number,
 * }} FilterSpec
 *
 * @typedef {object} TroubleSpec one frame that went wrong
 * @property {'unlit' | 'struck' | 'moved'} kind
 * @property {string} role of the entry
 * @property {string} [lamp]
 * @property {string} [filter]
 * @property {number} [exposureMs]
 * @property {number} [occurrence] which of the entries that fit, from 0
 * @property {number} frame from 0
 * @property {number} [pixel] `struck`: where
 * @property {number} [shiftPx] `moved`: by how much
 *
 * @typedef {object} SessionSpec
 * @property {string} title
 * @property {string} recorded ISO date
 * @property {InstrumentSpec} instrument
 * @property {import('./detector.mjs').DetectorSpec} detector
 * @property {{ startNm: number, endNm: number } | null} nominalRange
 * @property {number} darkFrames for each exposure time
 * @property {readonly import('./lamps.mjs').LampSpec[]} lamps
 * @property {ScanSpec | null} scan null for a session of lamps only
 * @property {readonly FilterSpec[]} filters
 * @property {readonly TroubleSpec[]} [trouble]
 * @property {Record<string, unknown>} [extra] further fields of the session file (site, beam)
 * @property {import('./writers.mjs').FormatRule[]} [formats] how the files are written
 * @property {readonly number[]} [ownScaleErrorNm] of the wavelength column in the files: at the middle, slope, bend
 *
 * @typedef {object} SimulatedScan
 * @property {string} file
 * @property {string} column
 * @property {Float64Array} counts
 * @property {Float64Array | null} wavelengthNm
 *
 * @typedef {object} SimulatedEntry one entry of the session's `frames`, its files read
 * @property {number} index
 * @property {'dark' | 'lamp' | 'open' | 'filtered'} role
 * @property {number} exposureMs
 * @property {string | null} lamp
 * @property {string | null} filter
 * @property {number | null} takenAtMs
 * @property {SimulatedScan[]} scans
 *
 * @typedef {object} LineTruth
 * @property {string} lamp
 * @property {string} species
 * @property {number} wavelengthNm
 * @property {string} kind
 * @property {number} pixel place of its centroid on the detector, the lamp's shift included
 * @property {number} countsPerMs in its highest pixel
 *
 * @typedef {object} FilterTruth
 * @property {string} id
 * @property {{
 *   lines: { name: string, wavelengthNm: number, transmittance: number, seenTransmittance: number }[],
 *   ideal: BandTruth, asMeasured: BandTruth, lineSpreadNm: number,
 * }[]} bands in order of wavelength; `asMeasured` is what a perfect bench with this line spread would find
 *
 * @typedef {object} Truth
 * @property {Float64Array} wavelengthNm at each pixel centre, for light that comes as the broadband lamp's does
 * @property {Float64Array} lineSpreadNm full width at half maximum at each pixel
 * @property {{ label: string, shiftPx: number }[]} lamps
 * @property {LineTruth[]} lines
 * @property {{ entry: number, level: number, colour: number }[]} lampLevels of the broadband lamp
 * @property {FilterTruth[]} filters
 * @property {{ entry: number, frame: number, kind: string }[]} trouble
 */

const emissionLines =
  /** @type {{ lines: { name: string, species: string, wavelengthNm: number, principal: boolean }[] }} */ (
    JSON.parse(readFileSync(new URL('../../shared/emission-lines.json', import.meta.url), 'utf8'))
  ).lines;

/**
 * Simulates a bench session with its files.
 *
 * @param {SessionSpec} spec
 * @param {number} seed the same spec and seed give the same bytes
 * @returns {ReturnType<typeof simulateFrames> & { files: { name: string, content: string | Uint8Array }[] }}
 */
export function simulateSession(spec, seed) {
  const simulated = simulateFrames(spec, seed);
  const { files, written } = writeFrameFiles(simulated.entries, simulated.truth.wavelengthNm, spec);
  const entries = simulated.entries.map((entry, i) => ({
    ...entry,
    scans: entry.scans.map((scan, k) => ({ ...scan, ...written[i]?.scans[k] })),
  }));
  const frames = simulated.manifest.frames.map((frame, i) => ({ ...frame, files: written[i]?.files ?? [] }));
  const manifest = { ...simulated.manifest, frames };
  files.unshift({ name: 'session.json', content: `${compactJson(manifest, 100)}\n` });
  return { ...simulated, manifest, entries, files };
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
   * @param {Pick<SimulatedEntry, 'role' | 'exposureMs' | 'lamp' | 'filter'>} entry
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

    /** @param {(shiftPx: number) => Float64Array} image @param {Pick<SimulatedEntry, 'role' | 'exposureMs' | 'lamp' | 'filter'>} entry @param {number} frames */
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
 * @param {Optics} optics
 * @param {import('./lamps.mjs').LampSpec} lamp
 * @param {import('./lamps.mjs').LampLine[]} lines
 * @param {(wavelengthNm: number) => number} throughput
 * @returns {{ image: Float64Array, rows: LineTruth[] }} counts per ms
 */
function imageLamp(optics, lamp, lines, throughput) {
  const image = new Float64Array(optics.pixels);
  const shift = lamp.shiftPx ?? 0;
  /** Height of a line of unit light: its share in the pixel where it falls, about. @param {number} pixel */
  const height = (pixel) => 0.94 / Math.max(1, optics.widthAt(pixel));
  const placed = lines
    .map((line) => ({ ...line, pixel: optics.grating.pixelAt(line.wavelengthNm) + shift }))
    .filter((line) => line.pixel > -50 && line.pixel < optics.pixels + 50);
  const inside = placed.filter((line) => line.pixel > 0 && line.pixel < optics.pixels - 1);
  const highest = inside.reduce((most, line) => Math.max(most, line.strength * height(line.pixel)), 0);
  for (const { wavelengthNm, relative } of lamp.foreign ?? []) {
    const pixel = optics.grating.pixelAt(wavelengthNm) + shift;
    placed.push({
      species: 'foreign',
      wavelengthNm,
      kind: 'foreign',
      pixel,
      strength: (relative * highest) / height(pixel),
    });
  }
  for (const line of placed) addLine(image, optics, line.pixel, line.strength);
  const scale =
    lamp.peakCounts /
    (lamp.exposuresMs[0] ?? 1) /
    (image.reduce((most, value) => Math.max(most, value), 0) || 1);
  const continuum = ((lamp.continuum ?? 0.002) * lamp.peakCounts) / (lamp.exposuresMs[0] ?? 1);
  for (let i = 0; i < image.length; i++) {
    image[i] = (image[i] ?? 0) * scale + continuum * throughput(optics.grating.wavelengthAt(i));
  }
  const rows = placed
    .filter((line) => line.pixel > -0.5 && line.pixel < optics.pixels - 0.5)
    .map((line) => ({
      lamp: lamp.label,
      species: line.species,
      wavelengthNm: line.wavelengthNm,
      kind: line.kind,
      pixel: line.pixel,
      countsPerMs: line.strength * height(line.pixel) * scale,
    }))
    .sort((a, b) => a.wavelengthNm - b.wavelengthNm);
  return { image, rows };
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

/**
 * @param {Optics} optics
 * @param {FilterSpec} filter
 * @param {(wavelengthNm: number) => number} brightness
 * @param {(wavelengthNm: number) => number} transmittance
 * @returns {FilterTruth}
 */
function filterTruth(optics, filter, brightness, transmittance) {
  const bands = [...filter.bands].sort((a, b) => a.centreNm - b.centreNm);
  const wanted = filter.lines.flatMap((name) =>
    emissionLines.filter((line) => line.name === name || (line.species === name && line.principal)),
  );
  return {
    id: filter.id,
    bands: bands.map((band, k) => {
      const pixel = optics.grating.pixelAt(band.centreNm);
      const spreadNm = optics.widthAt(pixel) * optics.grating.dispersionAt(pixel);
      const reach = 5.5 * band.fwhmNm + 3 * spreadNm;
      const previous = bands[k - 1]?.centreNm ?? Number.NEGATIVE_INFINITY;
      const next = bands[k + 1]?.centreNm ?? Number.POSITIVE_INFINITY;
      const fromNm = Math.max(band.centreNm - reach, (previous + band.centreNm) / 2);
      const toNm = Math.min(band.centreNm + reach, (next + band.centreNm) / 2);
      const seen = seenThrough(optics, brightness, transmittance, fromNm, toNm);
      const step = Math.min(band.fwhmNm, Math.hypot(spreadNm, band.fwhmNm / 2)) / 20;
      return {
        lines: wanted
          .filter((line) => line.wavelengthNm > fromNm && line.wavelengthNm < toNm)
          .map(({ name, wavelengthNm }) => ({
            name,
            wavelengthNm,
            transmittance: transmittance(wavelengthNm),
            seenTransmittance: seen(wavelengthNm),
          })),
        ideal: describeBandTruth(transmittance, fromNm, toNm, 0.005),
        asMeasured: describeBandTruth(seen, fromNm, toNm, step),
        lineSpreadNm: spreadNm,
      };
    }),
  };
}

/**
 * @param {SessionSpec} spec
 * @returns {number[]} every exposure time in use, shortest first
 */
function exposuresOf(spec) {
  const all = spec.lamps.flatMap((lamp) => [...lamp.exposuresMs]);
  if (spec.scan !== null)
    all.push(spec.scan.exposureMs, ...spec.filters.flatMap((filter) => [...(filter.exposuresMs ?? [])]));
  return [...new Set(all)].sort((a, b) => a - b);
}

/**
 * @param {Pick<SimulatedEntry, 'role' | 'exposureMs' | 'lamp' | 'filter'>} entry
 * @param {readonly SimulatedEntry[]} before
 * @returns {string} name of its files, without number
 */
function entryName(entry, before) {
  if (entry.role === 'dark') return `dark-${entry.exposureMs}ms`;
  if (entry.role === 'lamp') {
    const same = before.filter(
      (one) => one.lamp === entry.lamp && one.exposureMs === entry.exposureMs,
    ).length;
    return `lamp-${(entry.lamp ?? '').toLowerCase()}-${entry.exposureMs}ms${same > 0 ? `-again${same}` : ''}`;
  }
  if (entry.role === 'open') return `open-${before.filter((one) => one.role === 'open').length + 1}`;
  return `filtered-${entry.filter}-${entry.exposureMs}ms`;
}

/**
 * @param {SessionSpec} spec
 * @param {Pick<SimulatedEntry, 'role' | 'exposureMs' | 'lamp' | 'filter'>} entry
 * @param {readonly SimulatedEntry[]} before
 * @returns {TroubleSpec[]}
 */
function troublesOf(spec, entry, before) {
  return (spec.trouble ?? []).filter((trouble) => {
    /** @param {Pick<SimulatedEntry, 'role' | 'exposureMs' | 'lamp' | 'filter'>} one */
    const fits = (one) =>
      one.role === trouble.role &&
      (trouble.lamp === undefined || trouble.lamp === one.lamp) &&
      (trouble.filter === undefined || trouble.filter === one.filter) &&
      (trouble.exposureMs === undefined || trouble.exposureMs === one.exposureMs);
    return fits(entry) && before.filter(fits).length === (trouble.occurrence ?? 0);
  });
}

/**
 * A particle's track through a few pixels.
 *
 * @param {Float64Array} counts changed in place
 * @param {number} pixel
 * @param {number} clipCounts
 * @param {import('./random.mjs').RandomSource} random
 */
function strike(counts, pixel, clipCounts, random) {
  for (let k = 0; k < 3; k++) {
    counts[pixel + k] = Math.min(
      clipCounts,
      (counts[pixel + k] ?? 0) + Math.round(random.between(3000, 15000) / (1 + k)),
    );
  }
}
