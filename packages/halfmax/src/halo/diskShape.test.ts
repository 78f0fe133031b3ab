import { describe, expect, it } from 'vitest';
import { normalCdf } from '../numeric/index.js';
import { type DiskShape, diskColumn, diskColumns, diskShare, shareDoubt } from './diskShape.js';
import { ringEdges } from './ringEdges.js';

const centred: DiskShape = { inner: 20, outer: 60, dx: 0, dy: 0 };

describe('diskShare', () => {
  it('is the share of a star’s light on one side of a line, for a Moffat profile of power 4', () => {
    const out = new Float64Array(6);
    const softness = 1.5;
    const alpha = (15 / 16) * Math.sqrt(2 * Math.PI) * softness;
    // Ring by ring: 3 / (pi alpha^2) (1 + (r / alpha)^2)^-4 on the arc beyond the line, 2 arccos(x / r) of it.
    const beyond = (x: number): number => {
      const n = 40_000;
      let sum = 0;
      for (let k = 0; k < n; k++) {
        // r = x / cos(v) takes the root at the beginning of the arc away.
        const v = ((k + 0.5) / n) * (Math.PI / 2);
        const r = x / Math.cos(v);
        const profile = (3 / (Math.PI * alpha ** 2)) * (1 + (r / alpha) ** 2) ** -4;
        sum += (profile * r * 2 * v * r * Math.tan(v) * (Math.PI / 2)) / n;
      }
      return sum;
    };
    for (const t of [0.3, 0.7, 2, 4.5, 9]) {
      diskShare(centred, 60 + t * softness, 0, softness, out);
      expect(Math.abs(out[0]! - beyond(t * softness))).toBeLessThan(1e-8);
      diskShare(centred, 60 - t * softness, 0, softness, out);
      expect(Math.abs(1 - out[0]! - beyond(t * softness))).toBeLessThan(1e-8);
    }
    diskShare(centred, 60, 0, softness, out);
    expect(out[0]).toBe(0.5);
    // As steep as a normal law of the softness.
    expect(out[1]! * softness * Math.sqrt(2 * Math.PI)).toBeCloseTo(1, 12);
  });

  it('gives derivatives that small steps confirm', () => {
    const shape: DiskShape = { inner: 20, outer: 60, dx: 2, dy: -3 };
    const value = (change: Partial<DiskShape>, x: number, y: number, softness = 1.4): number => {
      const out = new Float64Array(6);
      diskShare({ ...shape, ...change }, x, y, softness, out);
      return out[0]!;
    };
    const h = 1e-4;
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
      // The square of the step.
      slopes.forEach((slope, k) => {
        expect(Math.abs(slope - out[k + 1]!)).toBeLessThan(1e-7);
      });
    }
  });
});

describe('shareDoubt', () => {
  it('is half the difference between profiles of power 2.5 and normal ones over the root of 3, at both edges', () => {
    const softness = 1.2;
    const alpha = (2 / Math.PI) * Math.sqrt(2 * Math.PI) * softness;
    // The line integral of power 2.5, (1 + (x / alpha)^2)^-2, summed in steps.
    const low = (t: number): number => {
      const n = 20_000;
      let sum = 0;
      for (let k = 0; k < n; k++) {
        sum += (1 + ((((k + 0.5) / n) * t * softness) / alpha) ** 2) ** -2 * ((t * softness) / n);
      }
      return 0.5 + (sum / alpha) * (2 / Math.PI);
    };
    for (const t of [-6, -1.5, 0.5, 2, 8]) {
      const expected = (low(t) - normalCdf(t)) / Math.sqrt(12);
      expect(shareDoubt(centred, 60 - t * softness, 0, softness)).toBeCloseTo(expected, 8);
      expect(shareDoubt(centred, 0, 20 - t * softness, softness)).toBeCloseTo(-expected, 8);
    }
    expect(shareDoubt(centred, 40, 0, softness)).toBe(0);
    expect(shareDoubt({ ...centred, inner: 0 }, 0, 20, softness)).toBe(0);
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
    expect([column[2], column[40], column[80]]).toEqual([0, 1, 0]);
    expect([byOuter[40], byInner[40]]).toEqual([0, 0]);
  });
});
