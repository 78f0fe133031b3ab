import { expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { evaluate } from './diskCells.js';
import { disksFrom, layOut } from './diskLayout.js';
import type { DiskStart } from './diskShape.js';
import { normalEquations } from './normalEquations.js';
import type { RingTable } from './ringTable.js';
import { staticCells } from './staticCells.js';
import { wingModel } from './wings.js';

const rings = 40;

/** Noisy cells about a star, some of them masked, and one ring wholly. */
function starCells(sectors: number) {
  const stream = randomStream(5);
  const radius = Float64Array.from({ length: rings }, (_, i) => 5 + 2 * i);
  const cellRadius = Float64Array.from(
    { length: rings * sectors },
    (_, k) => radius[Math.floor(k / sectors)]! + 0.3 * stream.normal(),
  );
  const counts = cellRadius.map((r) => 600 + 4e4 * r ** -2 + 3 * stream.normal());
  for (let k = 0; k < counts.length; k += 7) counts[k] = Number.NaN;
  counts.fill(Number.NaN, 9 * sectors, 10 * sectors);
  const weights = counts.map((value) => (Number.isNaN(value) ? 0 : 0.1 + stream.uniform()));
  // The rest of a table plays no part here.
  const table = { sectors, radius, width: new Float64Array(rings).fill(2), cellRadius, counts } as RingTable;
  return { table, weights, cells: staticCells(table, wingModel(radius[0]!, radius[rings - 1]!, 5)) };
}

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

/** Seven disks: more than there is room for at first. */
const many = Array.from({ length: 7 }, (_, d) => ({ ...disk, ...free, dx: 0, dy: d, outer: 30 + 6 * d }));

const grids = cases.flatMap(([name, starts]) => [12, 11].map((sectors) => ({ name, starts, sectors })));
const all = [...grids, { name: 'seven disks', starts: many, sectors: 12 }];

it.each(all)('are those of all cells one by one: $name, $sectors sectors', ({ starts, sectors }) => {
  const { table, cells, weights } = starCells(sectors);
  const { counts } = table;
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
  const [model, light] = [new Float64Array(counts.length), new Float64Array(counts.length)];
  cells.vectors.model(disks, theta, model, light);
  for (let k = 0; k < counts.length; k++) {
    if (weights[k] === 0) continue;
    const value = evaluate(table, cells, layout, k, theta, disks, row);
    expect(model[k]! / value).toBeCloseTo(1, 12);
    const shares = disks.reduce((all, one, d) => all + one.surface * row[begins[d]!]!, 0);
    expect(Math.abs(light[k]! - shares)).toBeLessThan(1e-12 * (1 + shares));
    const residual = counts[k]! - value;
    sum += weights[k]! * residual * residual;
    for (let a = 0; a < p; a++) {
      right[a]! += weights[k]! * row[a]! * residual;
      for (let b = 0; b <= a; b++) matrix[a * p + b]! += weights[k]! * row[a]! * row[b]!;
    }
  }
  const sums = cells.vectors.sum(weights);
  const accumulate = normalEquations(cells, layout, sums, starts);
  const found = accumulate(theta);
  // The same again where other weights were summed up in between.
  cells.vectors.sum(weights.map((weight) => 2 * weight));
  expect(accumulate(theta)).toEqual(found);
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
