import { describe, expect, it } from 'vitest';
import { normalCdf } from '../numeric/index.js';
import { type DiskShape, diskColumn, diskColumns, diskShare } from './diskShape.js';
import { ringEdges } from './ringEdges.js';

const centred: DiskShape = { inner: 20, outer: 60, dx: 0, dy: 0 };

describe('diskShare', () => {
  it('is the normal probability along an edge', () => {
    const out = new Float64Array(6);
    for (const t of [-4.5, -2, -0.3, 0, 0.7, 3]) {
      diskShare(centred, 60 - 1.5 * t, 0, 1.5, out);
      // Error of the series: 7.5e-8.
      expect(Math.abs(out[0]! - normalCdf(t))).toBeLessThan(8e-8);
    }
  });

  it('gives derivatives that small steps confirm', () => {
    const shape: DiskShape = { inner: 20, outer: 60, dx: 2, dy: -3 };
    const value = (change: Partial<DiskShape>, x: number, y: number, softness = 1.4): number => {
      const out = new Float64Array(6);
      diskShare({ ...shape, ...change }, x, y, softness, out);
      return out[0]!;
    };
    const h = 1e-3;
    for (const [x, y] of [
      [61, -2],
      [-15, 10],
      [3, 57.5],
    ] as const) {
      const out = new Float64Array(6);
      diskShare(shape, x, y, 1.4, out);
      const slopes = (['outer', 'inner', 'dx', 'dy'] as const).map(
        (key) => (value({ [key]: shape[key] + h }, x, y) - value({ [key]: shape[key] - h }, x, y)) / (2 * h),
      );
      slopes.push((value({}, x, y, 1.4 + h) - value({}, x, y, 1.4 - h)) / (2 * h));
      // 7.5e-8 of the series over the step of 2e-3.
      slopes.forEach((slope, k) => {
        expect(Math.abs(slope - out[k + 1]!)).toBeLessThan(8e-5);
      });
    }
  });
});

describe('diskColumn', () => {
  const edges = ringEdges(100);
  const n = edges.length - 1;
  const radius = new Float64Array(n);
  const width = new Float64Array(n);
  const area = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const [a, b] = [edges[i]!, edges[i + 1]!];
    radius[i] = ((2 / 3) * (b ** 3 - a ** 3)) / (b * b - a * a);
    width[i] = b - a;
    area[i] = Math.PI * (b * b - a * a);
  }

  it('holds the area of the disk in all rings together: pi (R^2 - r^2)', () => {
    const column = diskColumn(centred, radius, width, 1.3);
    const sum = column.reduce((total, share, i) => total + share * area[i]!, 0);
    // Blurring adds pi s^2 to both circles; rings of one pixel sample the edge to better than 1e-4 of the area.
    expect(Math.abs(sum / (Math.PI * (60 ** 2 - 20 ** 2)) - 1)).toBeLessThan(1e-4);
  });

  it('keeps nearly that area when the disk is displaced', () => {
    const column = diskColumn({ ...centred, dx: 5, dy: -2 }, radius, width, 1.3);
    const sum = column.reduce((total, share, i) => total + share * area[i]!, 0);
    // 36 places about each ring.
    expect(Math.abs(sum / (Math.PI * (60 ** 2 - 20 ** 2)) - 1)).toBeLessThan(2e-3);
  });

  it('is 0 beyond the disk and within the hole, 1 between', () => {
    const [column, byOuter, byInner] = diskColumns(centred, radius, width, 1.3);
    expect([column[5], column[40], column[80]]).toEqual([0, 1, 0]);
    expect([byOuter[40], byInner[40]]).toEqual([0, 0]);
  });
});
