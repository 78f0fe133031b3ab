import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { measureHalo } from './measureHalo.js';
import { starImage } from './starImage.js';

const SIZE = 160;
const STAR = 6e6;

/** Edges blurred by seeing of several powers: share of the light so many pixels within a straight edge. */
const EDGES: Readonly<Record<string, (distance: number) => number>> = {
  'a Moffat profile of power 4': (distance) => {
    const sine = distance / Math.hypot(distance, 2.8);
    return 0.5 + (15 / 16) * (sine - (2 * sine ** 3) / 3 + sine ** 5 / 5);
  },
  'a Moffat profile of power 3': (distance) => {
    const sine = distance / Math.hypot(distance, 2.4);
    return 0.5 + 0.75 * (sine - sine ** 3 / 3);
  },
  // (1 + u^2)^-2: its integral is (atan u + u / (1 + u^2)) 2 / pi between 0 and infinity.
  'a Moffat profile of power 2.5': (distance) => {
    const u = distance / 2.2;
    return 0.5 + (Math.atan(u) + u / (1 + u * u)) / Math.PI;
  },
};

describe('light of a bright disk', () => {
  it.each(Object.keys(EDGES))('is held by its interval with edges of %s', (shape) => {
    const inside = EDGES[shape]!;
    const share = 0.4;
    const [inner, outer] = [18, 50];
    const surface = (share * STAR) / (Math.PI * (outer ** 2 - inner ** 2));
    let held = 0;
    let relative = 0;
    const seeds = [1, 2];
    for (const seed of seeds) {
      const stream = randomStream(seed);
      const counts = new Float32Array(SIZE * SIZE);
      for (let y = 0; y < SIZE; y++) {
        for (let x = 0; x < SIZE; x++) {
          const r = Math.hypot(x - 79.3, y - 80.6);
          const star = ((STAR * 2) / (Math.PI * 9)) * (1 + (r * r) / 9) ** -3;
          const disk = surface * (inside(outer - r) - inside(inner - r));
          counts[y * SIZE + x] = Math.min(50000, 500 + star + disk + 10 * stream.normal());
        }
      }
      const { disks } = measureHalo(
        starImage(SIZE, SIZE, counts),
        {
          name: 'star.fits',
          pixelSizeUm: 4,
          fNumber: 5,
          saturationCounts: 49000,
          star: { counts: STAR, standardUncertainty: 0, source: 'made so' },
          draws: 100,
          mostDisks: 1,
        },
        randomStream(1),
      ).measurement;
      const light = disks[0]!.shareOfStar;
      if ('absent' in light) throw new Error(light.absent);
      if (light.interval95[0] <= share && share <= light.interval95[1]) held++;
      relative = light.standardUncertainty / share;
    }
    // The error is the shape's, alike for all seeds. It is below 1 % of the light, and so is what is stated.
    expect(held).toBe(seeds.length);
    expect(relative).toBeLessThan(0.01);
  });
});
