import { createGrating, fitGrating } from './grating.mjs';
import { speciesOfLabel, tableLines } from './lamps.mjs';
import { createRandom } from './random.mjs';

/**
 * @typedef {import('./types.mjs').SessionSpec} SessionSpec
 *
 * @typedef {object} RandomSpecOptions
 * @property {boolean} [hint] whether the session tells a nominal range; half of them by default
 * @property {number} [hintErrorNm] largest error of each end of it, 30 by default
 * @property {readonly string[]} [lamps] labels; drawn by default
 * @property {number} [lampShiftPx] largest shift of one lamp against another, 0.1 by default
 * @property {readonly [number, number]} [lineSpreadNm] full width, 0.5 to 2.5 by default
 * @property {import('./lineSpread.mjs').SpreadShape} [shape] of the line spread; drawn by default
 * @property {readonly [number, number]} [rangeNm] ends that the array's range must lie in, 340 to 900
 * @property {readonly [number, number]} [spanNm] 150 to 550
 * @property {number} [pixels] drawn from 1024, 2048, 3648, 4096 by default
 * @property {number} [filters] how many filters; 0, hence lamps only, by default
 * @property {readonly [number, number]} [bandNm] full width of the bands, 3 to 8 by default
 * @property {number} [minimumLines] of the lamps inside the range, 6 by default
 * @property {number} [bentShare] share of the sessions whose converter is not linear, and that say so; 0.4 by default
 * @property {boolean} [foreign] foreign lines, ghosts of second order; true by default
 * @property {boolean} [trouble] unlit, struck and moved frames; false by default
 */

const targets = [
  { name: 'H-beta', nm: 486.1333 },
  { name: '[O III] 500.7', nm: 500.6843 },
  { name: 'H-alpha', nm: 656.2819 },
  { name: '[S II] 671.6', nm: 671.644 },
];

/**
 * Draws a plausible session.
 *
 * @param {number} seed
 * @param {RandomSpecOptions} [options]
 * @returns {SessionSpec}
 */
export function randomSpec(seed, options = {}) {
  const random = createRandom(seed, 'spec');
  const labels =
    options.lamps ??
    random.pick([
      ['Hg-Ar', 'Ne'],
      ['Hg-Ar', 'Ne'],
      ['Hg', 'Ne'],
      ['Hg-Ar'],
      ['Ne', 'Ar'],
      ['Hg', 'Ar', 'Ne'],
    ]);
  const lines = tableLines(labels.flatMap(speciesOfLabel)).filter((line) => !line.weak);
  const wantedFilters = options.filters ?? 0;
  const straight = !createRandom(seed, 'bent').happens(options.bentShare ?? 0.4);
  for (;;) {
    const geometry = drawGeometry(random, options);
    if (geometry === null) continue;
    const grating = createGrating(geometry);
    const ends = [grating.wavelengthAt(0), grating.wavelengthAt(geometry.pixels - 1)];
    const low = Math.min(...ends);
    const high = Math.max(...ends);
    const minimum = options.minimumLines ?? 6;
    if (lines.filter((line) => line.wavelengthNm > low && line.wavelengthNm < high).length < minimum)
      continue;
    const [narrowest, widest] = options.lineSpreadNm ?? [0.5, 2.5];
    const least = Math.max(
      narrowest,
      2.5 * Math.max(grating.dispersionAt(0), grating.dispersionAt(geometry.pixels - 1)),
    );
    if (least > widest) continue;
    const inRange = targets.filter((target) => target.nm > low + 20 && target.nm < high - 20);
    if (wantedFilters > 0 && inRange.length === 0) continue;
    const spread = random.between(least, widest);
    /** One end of the array is less well in focus. */
    const growth = random.between(0, 0.35) * (random.happens(0.5) ? 1 : -1);
    const middle = spread / (1 + Math.abs(growth) / 2);
    /** @param {number} width */
    const kept = (width) => Math.min(widest, Math.max(least, width));
    const hintError = options.hintErrorNm ?? 30;
    const clip = random.pick([16383, 64000, 65535]);
    const saturation = Math.round(clip * 0.96);
    const bend = straight ? 0 : createRandom(seed, 'linearity').between(0.005, 0.04);
    const exposuresMs = random.pick([
      [20, 200],
      [10, 100],
      [50, 400],
    ]);
    return {
      title: `Simulated session ${seed}`,
      recorded: '2025-03-14',
      instrument: {
        geometry,
        lineSpread: {
          shape: options.shape ?? random.pick(['gaussian', 'triangle', 'slit', 'skewed']),
          unit: 'nm',
          start: kept(middle * (1 - growth / 2 + random.between(-0.1, 0.1))),
          middle: kept(middle),
          end: kept(middle * (1 + growth / 2 + random.between(-0.1, 0.1))),
          blur: random.pick([0.3, 0.5, 0.8]),
          skew: random.pick([0.05, 0.1, 0.2]),
        },
        throughput: {
          centreNm: random.between(480, 640),
          widthNm: random.between(130, 220),
          blueEdgeNm: low + random.between(-30, 15),
          redEdgeNm: high + random.between(-15, 60),
          edgeNm: random.between(8, 20),
          etalon: random.happens(0.3)
            ? { depth: random.between(0.005, 0.03), periodNm: random.between(3, 15) }
            : null,
        },
      },
      detector: {
        offsetCounts: random.between(0.005, 0.03) * clip,
        fixedPatternCounts: random.between(0.0002, 0.001) * clip,
        darkCountsPerMs: random.between(0.000002, 0.00001) * clip,
        hotPixels: Array.from({ length: random.index(6) }, () => ({
          pixel: random.index(geometry.pixels),
          countsPerMs: random.between(0.00002, 0.0004) * clip,
        })),
        readNoiseCounts: random.between(0.00012, 0.0006) * clip,
        electronsPerCount: random.between(0.8, 4) * (65535 / clip),
        linearity: bend === 0 ? null : [1 + bend, (-1.2 * bend) / clip],
        declareLinearity: bend !== 0,
        clipCounts: clip,
        saturationCounts: saturation,
        pixelResponse: random.between(0.001, 0.008),
        zeroClipped: true,
      },
      nominalRange:
        (options.hint ?? random.happens(0.5))
          ? {
              startNm: Math.round((ends[0] ?? 0) + random.between(-hintError, hintError)),
              endNm: Math.round((ends[1] ?? 0) + random.between(-hintError, hintError)),
            }
          : null,
      darkFrames: 6,
      lamps: labels.map((label, which) => ({
        label,
        exposuresMs,
        frames: 4,
        peakCounts: random.between(0.3, 0.85) * clip,
        continuum: random.between(0.0005, 0.005),
        shiftPx: which === 0 ? 0 : random.between(-1, 1) * (options.lampShiftPx ?? 0.1),
        foreign: (options.foreign ?? true) ? drawForeign(random, label, low, high) : [],
        secondOrder: (options.foreign ?? true) && random.happens(0.2) ? random.between(0.002, 0.02) : 0,
      })),
      scan:
        wantedFilters === 0
          ? null
          : {
              exposureMs: random.pick([30, 60, 120]),
              frames: 5,
              peakCounts: random.between(0.6, 0.85) * saturation,
              temperatureK: random.between(2800, 3000),
              driftPerHour: random.between(-0.04, 0.04),
              walkPerRootHour: random.between(0, 0.004),
              colourPerHour: random.between(-0.03, 0.03),
              flicker: random.between(0.0005, 0.003),
              minutesBetween: 2,
            },
      filters: Array.from({ length: wantedFilters }, (_, k) =>
        drawFilter(random, k, random.pick(inRange), options.bandNm ?? [3, 8]),
      ),
      trouble: (options.trouble ?? false) ? drawTrouble(random, labels, wantedFilters) : [],
    };
  }
}

/**
 * @param {import('./random.mjs').RandomSource} random
 * @param {RandomSpecOptions} options
 * @returns {import('./grating.mjs').GratingGeometry | null}
 */
function drawGeometry(random, options) {
  const [lowest, highest] = options.rangeNm ?? [340, 900];
  const [least, most] = options.spanNm ?? [150, 550];
  const span = Math.min(highest - lowest, random.between(least, most));
  const start = random.between(lowest, highest - span);
  const pixels = options.pixels ?? random.pick([1024, 2048, 2048, 3648, 4096]);
  const geometry = fitGrating(
    {
      pixels,
      pixelUm:
        pixels === 1024
          ? random.pick([14, 25])
          : pixels === 2048
            ? random.pick([12.5, 14])
            : random.pick([7, 8]),
      focalMm: random.between(40, 150),
      includedAngleDeg: random.between(20, 50) * (random.happens(0.5) ? 1 : -1),
      tiltDeg: random.between(-12, 12),
      offsetPixels: random.between(-40, 40),
      reversed: random.happens(0.4),
    },
    start,
    start + span,
  );
  if (geometry === null || geometry.groovesPerMm > 2400 || geometry.groovesPerMm < 150) return null;
  const grating = createGrating(geometry);
  const ends = [grating.dispersionAt(0), grating.dispersionAt(pixels - 1)];
  const change = Math.max(...ends) / Math.min(...ends) - 1;
  return change >= 0.05 && change <= 0.35 ? geometry : null;
}

/**
 * @param {import('./random.mjs').RandomSource} random
 * @param {string} label
 * @param {number} lowNm
 * @param {number} highNm
 * @returns {{ wavelengthNm: number, relative: number }[]}
 */
function drawForeign(random, label, lowNm, highNm) {
  const foreign = Array.from({ length: random.index(3) }, () => ({
    wavelengthNm: random.between(lowNm, highNm),
    relative: random.between(0.01, 0.15),
  }));
  if (label.includes('Hg') && random.happens(0.3))
    foreign.push({ wavelengthNm: 656.2819, relative: random.between(0.01, 0.1) });
  return foreign;
}

/**
 * @param {import('./random.mjs').RandomSource} random
 * @param {number} which
 * @param {{ name: string, nm: number }} target
 * @param {readonly [number, number]} widths
 * @returns {import('./types.mjs').FilterSpec}
 */
function drawFilter(random, which, target, widths) {
  const fwhmNm = random.between(...widths);
  const peak = random.between(0.75, 0.97);
  const shape = random.pick(
    /** @type {const} */ (['butterworth', 'butterworth', 'butterworth', 'gaussian', 'rectangle']),
  );
  return {
    id: `filter-${which + 1}`,
    label: `Simulated ${target.name}`,
    lines: [target.name],
    claims: {
      fwhmNm: { value: Math.round(fwhmNm * 2) / 2, tolerance: 0.5 },
      peakTransmittance: { atLeast: 0.85 },
    },
    bands: [
      {
        shape,
        cavities: 1 + random.index(4),
        centreNm: target.nm + random.between(-0.25, 0.25) * fwhmNm,
        fwhmNm,
        peak,
        edgeNm: random.between(0.03, 0.25),
        lopsided: random.happens(0.3) ? random.between(-0.2, 0.2) : 0,
        slope: random.happens(0.3) ? random.between(-0.06, 0.06) : 0,
        ...(random.happens(0.3) && {
          ripple: { depth: random.between(0.01, 0.06), cycles: random.pick([2, 3, 4]) },
        }),
      },
    ],
    blockingOd: random.between(3, 5),
    leak: null,
  };
}

/**
 * @param {import('./random.mjs').RandomSource} random
 * @param {readonly string[]} labels
 * @param {number} filters
 * @returns {import('./types.mjs').TroubleSpec[]}
 */
function drawTrouble(random, labels, filters) {
  /** @type {import('./types.mjs').TroubleSpec[]} */
  const trouble = [
    { kind: 'unlit', role: 'lamp', lamp: random.pick(labels), frame: random.index(4) },
    { kind: 'struck', role: 'lamp', lamp: random.pick(labels), occurrence: 1, frame: random.index(4) },
  ];
  if (filters > 0) {
    trouble.push(
      { kind: 'struck', role: 'filtered', frame: random.index(5) },
      { kind: 'unlit', role: 'open', frame: random.index(5) },
    );
    trouble.push({
      kind: 'moved',
      role: 'filtered',
      frame: random.index(5),
      shiftPx: random.between(0.5, 2),
    });
  }
  return trouble;
}
