import { expect, it } from 'vitest';
import { findBands } from '../metrics/index.js';
import { randomStream } from '../numeric/index.js';
import { blockMaker, distributionSize, rowTrials } from '../uncertainty/index.js';
import { modelOfTables } from './bandModel.js';
import type { BandTables } from './bandTables.js';
import type { ShapeResponse } from './shapeResponse.js';

const trials = rowTrials;
const stream = randomStream(8);
const some = (length: number, size: number): Float64Array =>
  Float64Array.from({ length }, () => size * stream.normal());

/** A band on 120 pixels of 0.2 nm, 4 nm wide. */
const wavelengthNm = Float64Array.from({ length: 120 }, (_, i) => 488.7 + 0.2 * i);
const transmittance = wavelengthNm.map((nm) => 0.9 / (1 + Math.abs((nm - 500.6) / 2) ** 8));
const curve = { wavelengthNm, transmittance, standardUncertainty: wavelengthNm.map(() => 0.002) };
const ripples = 12;
const size = 8 + ripples;
const pixels = 60;
const held = 17;

/** A likely shape whose parameters answer to the pixels as random numbers would: it is to be followed, whatever it is. */
function shapeOf(share: number, tail: number, ripple: number): ShapeResponse {
  const parameters = new Float64Array(size);
  parameters.set([0.9, 0.1, Math.log(4), 0.02, 1.2, -0.05, tail, 1e-4]);
  for (let j = 0; j < ripples; j++) parameters[8 + j] = ripple * stream.normal();
  return {
    shape: { originNm: 500.5, ripples, size },
    parameters,
    transmittance: transmittance.slice(30, 30 + pixels),
    share,
    held,
    byPixel: some(Math.ceil(size / 8) * 8 * pixels, 0.3),
    byFew: some(size * (2 + size + held), 0.01),
  };
}

const tables: BandTables = {
  curve,
  noiseParts: {
    filtered: wavelengthNm.map(() => 0.002),
    open: wavelengthNm.map(() => 0.001),
    dark: wavelengthNm.map(() => 0.0005),
  },
  range: findBands(curve)[0]!,
  lineSpreadNm: 1,
  lines: [
    { name: 'near', wavelengthNm: 500.684 },
    { name: 'on the edge', wavelengthNm: 498.7 },
    { name: 'beside', wavelengthNm: 495.891 },
  ] as unknown as BandTables['lines'],
  dispersion: {
    order: 2,
    coefficients: Float64Array.of(500, 200, 3),
    covariance: [
      Float64Array.of(4e-4, 1e-5, 0),
      Float64Array.of(1e-5, 1e-4, 1e-6),
      Float64Array.of(0, 1e-6, 1e-5),
    ],
    pivotPixel: 1000,
    pixelScale: 1000,
  },
  couplingNm: 0.01,
  pixels: 2048,
  levels: { drift: 0.004, flicker: 0.002, repeat: 0.001, nonLinearity: 0.01, darkLevel: 0.0004 },
  misfit: 1.2,
  shapes: [shapeOf(0.3, 0.7, 0.003), shapeOf(0.5, 0.1, 0.02), shapeOf(0.2, 1.5, 0.05)],
  correction: { width: 0.02, skewness: 0.05, secondWay: { fwhmNm: 0.03, centreNm: 0.004, peak: 0.006 } },
  offset: 30,
};
const measuredOnly: BandTables = { ...tables, shapes: [], correction: null };

/** Rows of draws of a model's inputs. */
function drawnRows({ inputs }: ReturnType<typeof modelOfTables>): Float64Array {
  let rows = new Float64Array(0);
  const keep = {
    trials,
    run: (x: Float64Array): void => {
      rows = x.slice();
    },
  };
  blockMaker(keep, inputs, 1)(trials, randomStream(3));
  return rows;
}

it.each([
  ['corrected', tables],
  ['as measured', measuredOnly],
] as const)('gives each trial the numbers of the model for one trial: %s', (_, given) => {
  const model = modelOfTables(given);
  const x = drawnRows(model);
  const rows = new Float64Array(model.outputs.length * trials).fill(Number.NaN);
  model.statedRows().run(x, rows);
  const own = new Float64Array(x.length / trials);
  const out = new Float64Array(model.outputs.length);
  let compared = 0;
  for (let k = 0; k < trials; k++) {
    for (let i = 0; i < own.length; i++) own[i] = x[i * trials + k]!;
    out.fill(Number.NaN);
    model.stated(own, out);
    out.forEach((value, o) => {
      const other = rows[o * trials + k]!;
      if (Number.isNaN(value)) expect(other).toBeNaN();
      else {
        // A maximum is known to the root of a rounding.
        const tolerance = model.outputs[o]!.endsWith('peak place') ? 1e-7 : 1e-10;
        expect(Math.abs(other - value)).toBeLessThan(tolerance * Math.max(1, Math.abs(value)));
        compared++;
      }
    });
  }
  expect(compared).toBe(trials * 7);
});

it('has both in the model of all numbers', () => {
  const model = modelOfTables(tables);
  const x = drawnRows(model);
  const [all, stated] = [model.rows(), model.statedRows()].map(({ run }) => {
    const out = new Float64Array(model.outputs.length * trials).fill(Number.NaN);
    run(x, out);
    return out;
  }) as [Float64Array, Float64Array];
  const half = 7 * trials;
  expect(all.subarray(half)).toEqual(stated.subarray(half));
  expect(stated.subarray(0, half).every(Number.isNaN)).toBe(true);
  expect(all.subarray(0, half).every(Number.isFinite)).toBe(true);
});

it('draws the curve whose numbers it gives', () => {
  const model = modelOfTables(tables);
  const x = drawnRows(model);
  // Scale and level are shared by the curve: neither is in its draws.
  const noise = distributionSize(model.inputs[0]!.distribution);
  x.fill(0, noise * trials, (noise + 5 + 3) * trials);
  const numbers = new Float64Array(model.outputs.length * trials);
  model.statedRows().run(x, numbers);
  const nm = tables.lines.map((line) => line.wavelengthNm);
  const out = new Float64Array(nm.length * trials);
  model.shapeRows!()(x, Float64Array.from(nm), out);
  const second = x.subarray((x.length / trials - 1) * trials);
  for (let k = 0; k < trials; k++) {
    if (Math.abs(second[k]!) > 0.02) continue;
    // Without the second way of the correction the curve goes through the numbers at the lines.
    for (let m = 0; m < nm.length; m++)
      expect(Math.abs(out[m * trials + k]! - numbers[(7 + 4 + m) * trials + k]!)).toBeLessThan(1e-3);
  }
});
