import { bandTrace, dashes, directLabel, layoutFor, panelsFor, traceColour } from 'halfmax-notebook/display';

const x = Array.from({ length: 240 }, (_, i) => 648 + i * 0.075);
const band = (centre, height, width) =>
  x.map((at) => height * Math.exp(-((Math.abs(at - centre) / width) ** 4)));
const wavelength = { quantity: 'Wavelength in air', unit: 'nm' };
const transmittance = { quantity: 'Transmittance', range: [-0.03, 1.03] };
const line = (y, index, name) => ({
  type: 'scatter',
  mode: 'lines',
  x,
  y,
  name,
  line: { color: traceColour(index), width: 2, dash: dashes[index % dashes.length] },
});
const y = band(656.3, 0.92, 1.8);

/** Figures of the kinds that notebooks show, by name. */
export const figures = {
  'curve with a band of uncertainty': {
    data: [
      bandTrace(
        x,
        y.map((v) => v - 0.02),
        y.map((v) => v + 0.02),
        { colour: traceColour(0) },
      ),
      line(y, 0, 'A'),
      line(band(658.4, 0.86, 2.1), 1, 'B'),
    ],
    layout: layoutFor({
      x: wavelength,
      y: transmittance,
      annotations: [
        directLabel({ text: 'Hα, 3 nm', x: 654.4, y: 0.5, colour: traceColour(0), side: 'left' }),
        { x: 656.28, y: 0.92, text: 'H<sub>α</sub> ≤ λ<br>± 0.01 nm', ax: -110, ay: 30 },
      ],
    }),
  },
  'legend and title': {
    data: [0, 1, 2, 3].map((index) =>
      line(band(652 + 3 * index, 0.9, 1.5), index, `filter number ${index + 1}`),
    ),
    layout: layoutFor({ x: wavelength, y: transmittance, title: 'Four filters, one lamp', legend: true }),
  },
  'bars with errors on a logarithmic axis': {
    data: [
      {
        type: 'bar',
        name: 'sky',
        x: ['zenith', 'at 30°', 'horizon'],
        y: [1.2, 14, 160],
        error_y: { type: 'data', array: [0.3, 2, 20] },
      },
    ],
    layout: layoutFor({
      x: { quantity: 'Direction' },
      y: { quantity: 'Radiance', unit: 'W m⁻² nm⁻¹', log: true },
    }),
  },
  'points with texts': {
    data: [
      {
        type: 'scatter',
        mode: 'markers+text',
        x: [1, 2, 3],
        y: [-0.002, 0.001, 0.003],
        text: ['Ne', 'Ar', 'Hg'],
        textposition: 'top center',
        error_y: { type: 'constant', value: 0.001 },
      },
    ],
    layout: layoutFor({ x: { quantity: 'Line' }, y: { quantity: 'Residual', unit: 'nm' } }),
  },
  histogram: {
    data: [
      {
        type: 'histogram',
        x: x.map((_, i) => Math.sin(i * 12.9898) * 3),
        xbins: { start: -3, end: 3, size: 0.5 },
      },
    ],
    layout: layoutFor({ x: { quantity: 'Draw', unit: 'nm' }, y: { quantity: 'Count' } }),
  },
  contours: {
    data: [
      {
        type: 'contour',
        x: [0, 1, 2, 3],
        y: [0, 1, 2],
        z: [
          [1, 2, 3, 4],
          [2, 3, 5, 9],
          [3, 4, 6, 7],
        ],
        colorbar: { title: { text: 'T / %' } },
      },
    ],
    layout: layoutFor({ x: { quantity: 'Tilt', unit: '°' }, y: wavelength }),
  },
  'heat map': {
    data: [
      {
        type: 'heatmap',
        x: [0, 1, 2, 3],
        y: [0, 1, 2],
        z: [
          [1, 2, 3, 4],
          [2, 3, 5, 9],
          [3, 4, 6, 7],
        ],
      },
    ],
    layout: layoutFor({ x: { quantity: 'Pixel' }, y: { quantity: 'Frame' } }),
  },
  'two panels': {
    data: [
      line(y, 0, 'A'),
      {
        ...line(
          y.map((v) => v / 10),
          1,
          'B',
        ),
        yaxis: 'y2',
      },
    ],
    layout: panelsFor({
      x: wavelength,
      panels: [
        { ...transmittance, share: 2 },
        { quantity: 'Residual', unit: 'nm' },
      ],
    }),
  },
  boxes: {
    data: [{ type: 'box', y: [1, 2, 2.5, 3, 3.2, 4, 9], name: 'dark frames' }],
    layout: layoutFor({ x: { quantity: 'Set' }, y: { quantity: 'Counts' } }),
  },
};
