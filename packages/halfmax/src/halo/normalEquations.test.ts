import { expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { evaluate, staticCells } from './diskCells.js';
import { disksFrom, layOut } from './diskLayout.js';
import type { DiskStart } from './diskShape.js';
import { normalEquations } from './normalEquations.js';
import { ringSums } from './ringSums.js';
import type { RingTable } from './ringTable.js';
import { wingModel } from './wings.js';

const sectors = 12;
const rings = 40;
const stream = randomStream(5);
const radius = Float64Array.from({ length: rings }, (_, i) => 5 + 2 * i);
const cellRadius = Float64Array.from(
  { length: rings * sectors },
  (_, k) => radius[Math.floor(k / sectors)]! + 0.3 * stream.normal(),
);
const counts = cellRadius.map((r) => 600 + 4e4 * r ** -2 + 3 * stream.normal());
// Some cells are masked, and one ring wholly.
for (let k = 0; k < counts.length; k += 7) counts[k] = Number.NaN;
counts.fill(Number.NaN, 9 * sectors, 10 * sectors);
const weights = counts.map((value) => (Number.isNaN(value) ? 0 : 0.1 + stream.uniform()));
// The rest of a table plays no part here.
const table = { sectors, radius, width: new Float64Array(rings).fill(2), cellRadius, counts } as RingTable;
const cells = staticCells(table, wingModel(radius[0]!, radius[rings - 1]!, 5));

const disk = { surface: 20, inner: 12, outer: 40, blur: 0.5, dx: 0, dy: 0 };
const free = { radiusFree: true, holeFree: true, placeFree: true };
const held = { radiusFree: false, holeFree: false, placeFree: false };
const cases: readonly (readonly [string, readonly DiskStart[]])[] = [
  ['no disk', []],
  ['a centred disk', [{ ...disk, ...free, placeFree: false }]],
  ['a displaced disk', [{ ...disk, ...free, dx: 3, dy: -2 }]],
  [
    'two disks, one of them held',
    [
      { ...disk, ...free },
      { ...disk, ...held, inner: 0, outer: 60 },
    ],
  ],
];

it.each(cases)('are those of all cells one by one: %s', (_, starts) => {
  const layout = layOut(starts, cells.fixed);
  const { size: p, fixed, begins } = layout;
  const theta = Float64Array.from({ length: p }, (_, j) => (j === 0 ? 590 : j < fixed ? 50 / (j + 1) : 0));
  starts.forEach((start, d) => {
    const values = [start.surface];
    if (start.radiusFree) values.push(start.outer, start.blur);
    if (start.holeFree) values.push(start.inner);
    if (start.placeFree) values.push(start.dx, start.dy);
    theta.set(values, begins[d]!);
  });
  const disks = disksFrom(theta, starts, begins);
  const matrix = new Float64Array(p * p);
  const right = new Float64Array(p);
  let sum = 0;
  const row = new Float64Array(p);
  for (let k = 0; k < counts.length; k++) {
    if (weights[k] === 0) continue;
    const residual = counts[k]! - evaluate(table, cells, layout, k, theta, disks, row);
    sum += weights[k]! * residual * residual;
    for (let a = 0; a < p; a++) {
      right[a]! += weights[k]! * row[a]! * residual;
      for (let b = 0; b <= a; b++) matrix[a * p + b]! += weights[k]! * row[a]! * row[b]!;
    }
  }
  const found = normalEquations(table, cells, layout, ringSums(table, cells, weights), starts)(theta);
  expect(found.sum / sum).toBeCloseTo(1, 10);
  for (let a = 0; a < p; a++) {
    // Compared with what the sums are made of: they may cancel.
    const scale = Math.sqrt(matrix[a * p + a]! * sum);
    expect(Math.abs(found.right[a]! - right[a]!)).toBeLessThan(1e-10 * scale);
    for (let b = 0; b <= a; b++) {
      const size = Math.sqrt(matrix[a * p + a]! * matrix[b * p + b]!);
      expect(Math.abs(found.matrix[a * p + b]! - matrix[a * p + b]!)).toBeLessThan(1e-10 * size);
    }
  }
});
