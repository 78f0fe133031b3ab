import { expect, it } from 'vitest';
import { candidateDisks, ownDirection, rawCandidates, visibleDisks } from './diskCandidates.js';
import { diskColumn } from './diskShape.js';
import { dot, leastSquares } from './leastSquares.js';
import { ringColumns, wingModel } from './wings.js';

const n = 60;
const radius = Float64Array.from({ length: n }, (_, i) => 6 + 1.5 * i);
const width = new Float64Array(n).fill(1.5);
const variance = radius.map((r) => 1 + 20 / r);
const disks = candidateDisks(radius, width, 1.2);
const base = leastSquares(ringColumns(radius, wingModel(6, 94.5, 5), []), radius, variance);

it('keep of each disk the rings that its light reaches, and no others', () => {
  expect(disks.length).toBeGreaterThan(100);
  for (const { inner, outer, first, column } of disks) {
    const whole = diskColumn({ inner, outer, dx: 0, dy: 0 }, radius, width, 1.2);
    const kept = new Float64Array(n);
    kept.set(column, first);
    expect(kept).toEqual(whole);
    expect([column[0], column.at(-1)]).not.toContain(0);
  }
});

it('have as own what a projection leaves of them, ring by ring', () => {
  const visible = visibleDisks(rawCandidates(disks, variance), base);
  expect(visible.length).toBeGreaterThan(100);
  for (const candidate of visible) {
    const rest = new Float64Array(n);
    rest.set(candidate.column, candidate.first);
    for (const direction of base.orthonormal) {
      const share = dot(rest, direction);
      for (let i = 0; i < n; i++) rest[i]! -= share * direction[i]!;
    }
    const length = Math.sqrt(dot(rest, rest));
    expect(candidate.own / length).toBeCloseTo(1, 9);
    const direction = ownDirection(candidate, base);
    for (let i = 0; i < n; i++) expect(direction[i]! - rest[i]! / length).toBeCloseTo(0, 9);
  }
});
