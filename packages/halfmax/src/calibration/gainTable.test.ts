import { describe, expect, it } from 'vitest';
import { blendStretches, gainAt, gainTable, lineGain } from './gainTable.js';

const known = Object.freeze([435.8335, 546.075, 576.961, 579.067]);

describe('lineGain', () => {
  it('speaks for a scale that lays a line on a known one, against one that does not', () => {
    const gain = lineGain(known, 0.3);
    for (const nm of known) expect(gain(nm)).toBeGreaterThan(0);
    for (const nm of [300, 480, 560, 700]) expect(gain(nm)).toBe(Math.log(0.15));
  });

  it('is the logarithm of the ratio of the two likelihoods', () => {
    // One known line within 20 nm: chance puts a line there at a density of 2 / 40 nm; written out from the definition.
    const gain = lineGain([546.075], 0.3);
    for (const offset of [0, 0.1, -0.3, 0.9]) {
      const likelihood = (0.85 * Math.exp(-0.5 * (offset / 0.3) ** 2)) / (Math.sqrt(2 * Math.PI) * 0.3);
      expect(gain(546.075 + offset)).toBeCloseTo(Math.log(likelihood / (2 / 40) + 0.15), 10);
    }
  });

  it('falls with the distance, alike on both sides', () => {
    const gain = lineGain([546.075], 0.3);
    for (let offset = 0; offset < 1.5; offset += 0.1) {
      expect(gain(546.075 + offset + 0.1)).toBeLessThan(gain(546.075 + offset));
      expect(gain(546.075 - offset)).toBeCloseTo(gain(546.075 + offset), 9);
    }
  });

  it('says less where known lines crowd', () => {
    const crowd = Array.from({ length: 20 }, (_, k) => 600 + 2 * k);
    expect(lineGain(crowd, 0.3)(618)).toBeLessThan(lineGain([618], 0.3)(618) - 2);
  });

  it('lets a line lie anywhere between two known ones that the line spread joins', () => {
    const pair = [600, 601.5];
    const plain = lineGain(pair, 0.1);
    const joined = lineGain(pair, 0.1, blendStretches(pair, 2));
    expect(plain(600.75)).toBe(Math.log(0.15));
    expect(joined(600.75)).toBeGreaterThan(0);
    // Evenly over the stretch and a tolerance on either side of it.
    expect(joined(600.75)).toBeCloseTo(Math.log(0.85 / 1.7 / (4 / 40) + 0.15), 10);
    for (const nm of [599, 600, 601.5, 603]) expect(joined(nm)).toBe(plain(nm));
  });

  it('gives every line the cost of a foreign one without known lines', () => {
    expect(lineGain([], 0.3)(500)).toBe(Math.log(0.15));
  });
});

describe('blendStretches', () => {
  it('joins neighbours nearer than the width', () => {
    expect(blendStretches([600, 601, 603, 603.5], 1.2)).toEqual([
      { fromNm: 600, toNm: 601 },
      { fromNm: 603, toNm: 603.5 },
    ]);
    expect(blendStretches([600, 601], 1)).toEqual([]);
    expect(blendStretches([], 1)).toEqual([]);
  });
});

describe('gainTable', () => {
  const table = gainTable(lineGain(known, 0.45));

  it('holds the gain at its nearest step', () => {
    const gain = lineGain(known, 0.45);
    for (const nm of [290, 400, 435.85, 546.05, 578, 999.95]) {
      expect(gainAt(table, nm)).toBeCloseTo(gain(nm), 9);
    }
    // Half a step off: 0.025 nm times the steepest slope, six tolerances out, 6 / 0.45 a nanometre.
    for (let nm = 430; nm < 585; nm += 0.0137) {
      expect(Math.abs(gainAt(table, nm) - gain(nm))).toBeLessThan((0.025 * 6) / 0.45);
    }
  });

  it('costs a foreign line outside', () => {
    for (const nm of [200, 289, 1011, 5000]) expect(gainAt(table, nm)).toBe(Math.log(0.15));
  });
});
