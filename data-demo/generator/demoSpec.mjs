import { demoStars } from './demoStars.mjs';

/** Seed of the committed session. */
export const demoSeed = 20250314;

/**
 * The demonstration: one evening at the bench of an observatory that does not exist, with filters that no one sells.
 *
 * @type {import('./types.mjs').SessionSpec}
 */
export const demoSpec = {
  title: 'Four narrowband filters on the bench of Grimsdale Knap Observatory (invented)',
  recorded: '2025-03-14',
  instrument: {
    geometry: {
      pixels: 2048,
      pixelUm: 14,
      focalMm: 116,
      includedAngleDeg: 36,
      tiltDeg: 4,
      offsetPixels: 12,
      groovesPerMm: 600,
      axisNm: 559,
      reversed: false,
    },
    lineSpread: { shape: 'slit', unit: 'nm', start: 1.36, middle: 1.14, end: 1.26, blur: 0.8 },
    throughput: {
      centreNm: 560,
      widthNm: 160,
      blueEdgeNm: 372,
      redEdgeNm: 760,
      edgeNm: 14,
      etalon: { depth: 0.012, periodNm: 7 },
    },
  },
  detector: {
    offsetCounts: 640,
    fixedPatternCounts: 24,
    darkCountsPerMs: 0.22,
    hotPixels: [
      { pixel: 1437, countsPerMs: 9 },
      { pixel: 302, countsPerMs: 2.5 },
    ],
    readNoiseCounts: 11,
    electronsPerCount: 1.26,
    linearity: [1.031, -9e-7, 4e-12],
    declareLinearity: true,
    clipCounts: 64000,
    saturationCounts: 61500,
    pixelResponse: 0.004,
    zeroClipped: true,
  },
  nominalRange: { startNm: 385, endNm: 725 },
  darkFrames: 8,
  lamps: [
    {
      label: 'Hg-Ar',
      exposuresMs: [60, 600],
      frames: 5,
      peakCounts: 43000,
      intensityScatter: 0.3,
      missing: 0,
      continuum: 0.002,
      shiftPx: 0,
      foreign: [
        { wavelengthNm: 656.2819, relative: 0.02 },
        { wavelengthNm: 612.31, relative: 0.03 },
      ],
    },
    {
      label: 'Ne',
      exposuresMs: [30, 300],
      frames: 5,
      peakCounts: 82000,
      intensityScatter: 0.3,
      missing: 0,
      continuum: 0.001,
      shiftPx: 0.05,
    },
  ],
  scan: {
    exposureMs: 60,
    frames: 5,
    peakCounts: 47000,
    temperatureK: 2900,
    driftPerHour: -0.09,
    walkPerRootHour: 0.004,
    colourPerHour: 0.04,
    flicker: 0.001,
    minutesBetween: 4,
  },
  filters: [
    {
      id: 'ossenvale-ha',
      label: 'Ossenvale H-alpha 3',
      lines: ['H-alpha'],
      bands: [{ shape: 'butterworth', cavities: 3, centreNm: 656.45, fwhmNm: 3.2, peak: 0.905 }],
      blockingOd: 4.2,
      exposuresMs: [60, 600],
      claims: {
        fwhmNm: { value: 3, tolerance: 0.4 },
        centreNm: { value: 656.3, tolerance: [0.3, 0.5] },
        peakTransmittance: { atLeast: 0.88 },
        transmittanceAtLine: { atLeast: 0.85 },
        opticalDensity: { atLeast: 4, fromNm: 400, toNm: 630 },
      },
      price: { amount: 349, currency: 'EUR' },
    },
    {
      id: 'ossenvale-s2',
      label: 'Ossenvale S II 3',
      lines: ['[S II] 671.6', '[S II] 673.1'],
      bands: [
        {
          shape: 'butterworth',
          cavities: 4,
          centreNm: 672.25,
          fwhmNm: 4.5,
          peak: 0.87,
          ripple: { depth: 0.05, cycles: 3 },
          lopsided: 0.06,
        },
      ],
      blockingOd: 3.8,
      claims: {
        fwhmNm: { value: 3, tolerance: 0.5 },
        centreNm: { value: 672.4 },
        peakTransmittance: { atLeast: 0.9 },
        transmittanceAtLine: { atLeast: 0.8 },
      },
      price: { amount: 349, currency: 'EUR' },
    },
    {
      id: 'ossenvale-o3',
      label: 'Ossenvale O III 3',
      lines: ['[O III] 500.7'],
      bands: [{ shape: 'butterworth', cavities: 2, centreNm: 501.05, fwhmNm: 3, peak: 0.88 }],
      blockingOd: 4,
      leak: { centreNm: 604, fwhmNm: 16, opticalDensity: 1.7 },
      claims: {
        fwhmNm: { atMost: 3 },
        centreNm: { value: 500.7, tolerance: 0.2 },
        peakTransmittance: { value: 0.9, tolerance: 0.05 },
        opticalDensity: { atLeast: 3, fromNm: 540, toNm: 700 },
      },
      price: { amount: 349, currency: 'EUR' },
    },
    {
      id: 'brennick-twin',
      label: 'Brennick Twin 7',
      lines: ['[O III] 500.7', 'H-alpha'],
      bands: [
        { shape: 'butterworth', cavities: 3, centreNm: 499.7, fwhmNm: 6.4, peak: 0.92, slope: 0.03 },
        { shape: 'rectangle', centreNm: 657.1, fwhmNm: 6.9, peak: 0.94, edgeNm: 0.18 },
      ],
      blockingOd: 3.5,
      claims: {
        fwhmNm: { value: 7 },
        peakTransmittance: { atLeast: 0.9 },
        transmittanceAtLine: { atLeast: 0.9 },
      },
      price: { amount: 219, currency: 'EUR' },
    },
  ],
  trouble: [
    { kind: 'unlit', role: 'open', occurrence: 1, frame: 2 },
    { kind: 'struck', role: 'filtered', filter: 'ossenvale-ha', exposureMs: 60, frame: 3, pixel: 1573 },
  ],
  extra: {
    site: {
      skyBrightness: 19.8,
      lightSources: [
        { source: 'high-pressure sodium', share: 0.4 },
        { source: 'LED 4000 K', share: 0.35 },
        { source: 'LED 3000 K', share: 0.25 },
      ],
      moon: { illuminatedFraction: 0.35, altitudeDeg: 20, separationDeg: 70 },
      airmass: 1.3,
      quantumEfficiency: [
        [400, 0.62],
        [500, 0.86],
        [550, 0.88],
        [600, 0.82],
        [656, 0.72],
        [700, 0.6],
        [750, 0.48],
      ],
    },
    beam: { fNumber: [2.8, 4, 6], centralObstruction: 0.38, effectiveIndex: [1.7, 2.1] },
  },
  stars: demoStars,
  ownScaleErrorNm: [-0.14, 0.16, -0.08],
  formats: [
    { role: 'dark', format: 'decimal comma' },
    { lamp: 'Hg-Ar', format: 'wavelength' },
    { lamp: 'Ne', exposureMs: 300, frame: 4, format: 'jcamp' },
    { lamp: 'Ne', format: 'plain' },
    { role: 'open', format: 'columns' },
    { filter: 'ossenvale-s2', format: 'fits' },
    { filter: 'brennick-twin', format: 'columns' },
    { filter: 'ossenvale-o3', format: 'plain' },
    { role: 'filtered', format: 'wavelength' },
  ],
};
