/**
 * The star of the demonstration: one evening, one telescope, one bright star through three of the filters.
 *
 * A halo is given by the distance of two parallel faces: light of an f/N cone that runs 2 d further is spread over a
 * disk of diameter 2 d / N, with the hole of the obstruction.
 *
 * @type {import('./simulateStars.mjs').StarsSpec}
 */
export const demoStars = {
  star: 'the bright star of the field',
  camera: {
    pixelSizeUm: 5.4,
    fNumber: 4,
    obstruction: 0.38,
    electronsPerCount: 0.4,
    readNoiseCounts: 14,
    offsetCounts: 1000,
    fullCounts: 62500,
  },
  focalLengthMm: 530,
  saturationCounts: 62000,
  spread: { fwhmPixels: 2.7, beta: 3.1, aureoleShare: 0.04, aureolePower: 2.6 },
  spikes: { angleDeg: 31, share: 0.004 },
  exposureS: 300,
  shortExposureS: 1.5,
  size: 512,
  shortSize: 160,
  hotPixels: { count: 32, countsPerS: [2, 90] },
  neighbours: { count: 26, faintest: 5e-6, brightest: 4e-3 },
  layers: [
    { name: 'filter', thicknessMm: 3, index: 1.52 },
    { name: 'gap', thicknessMm: 17.5, uncertaintyMm: 0.2 },
    { name: 'sensor window', thicknessMm: 0.8, index: 1.52 },
    { name: 'gap to the sensor', thicknessMm: 3.3 },
  ],
  images: [
    {
      filter: 'ossenvale-ha',
      counts: 6.1e7,
      skyCounts: 75,
      slope: [0.012, -0.02],
      place: [251.4, 262.7],
      halos: [{ faces: 'both faces of the filter', airSpacingMm: 3 / 1.52, share: 0.0046 }],
      light: 'short exposure',
      extra: { limit: { kind: 'share', atMost: 0.002 }, fNumberBefore: 5.6 },
    },
    {
      filter: 'ossenvale-s2',
      counts: 4.4e7,
      skyCounts: 62,
      slope: [-0.015, -0.008],
      place: [258.9, 249.2],
      halos: [],
      light: 'short exposure',
      extra: { limit: { kind: 'surface', atLeast: 15 } },
    },
    {
      filter: 'ossenvale-o3',
      counts: 7.9e7,
      skyCounts: 96,
      slope: [0.021, 0.017],
      place: [246.3, 255.8],
      halos: [
        { faces: 'both faces of the filter', airSpacingMm: 3 / 1.52, share: 0.0033 },
        {
          faces: 'the window and the sensor',
          airSpacingMm: 3.3,
          share: 0.0071,
          displacement: [5.5, -3],
        },
      ],
      light: 'magnitude',
      magnitude: { magnitude: 3.9, uncertainty: 0.02 },
      extra: { limit: { kind: 'noise', hours: 8, electronsPerCount: 0.4 }, fNumberBefore: 5.6 },
    },
  ],
};
