import { describe, expect, it } from 'vitest';
import { normalCdf, randomStream } from '../numeric/index.js';
import { type FittedLine, fitLineGroup } from './fitLineGroup.js';
import { type LineShape, lineShape } from './lineShape.js';

const FWHM_PER_SIGMA = 2 * Math.sqrt(2 * Math.LN2);
const gaussian = lineShape(0, 1, 0);

/** Cumulative profile: what lies below x, as a share of the line. */
type Cumulative = (x: number) => number;

const bell =
  (centre: number, sigma: number): Cumulative =>
  (x) =>
    normalCdf((x - centre) / sigma);

const triangle =
  (centre: number, fwhm: number): Cumulative =>
  (x) => {
    const u = Math.max(-1, Math.min(1, (x - centre) / fwhm));
    return u < 0 ? (1 + u) ** 2 / 2 : 1 - (1 - u) ** 2 / 2;
  };

/** A Gaussian with an exponential tail; its centroid is at `centroid`. */
const tailed =
  (centroid: number, sigma: number, tail: number): Cumulative =>
  (x) => {
    const u = x - (centroid - tail);
    const grown = Math.exp(-u / tail + sigma ** 2 / (2 * tail ** 2));
    return normalCdf(u / sigma) - grown * normalCdf(u / sigma - sigma / tail);
  };

/** Counts of pixels that each collect the light between their edges. */
function draw(
  lines: readonly { profile: Cumulative; area: number }[],
  ground = 0,
  length = 60,
): Float64Array {
  return Float64Array.from({ length }, (_, i) =>
    lines.reduce((sum, { profile, area }) => sum + area * (profile(i + 0.5) - profile(i - 0.5)), ground),
  );
}

function fit(
  counts: Float64Array,
  centres: readonly number[],
  width: number,
  shape: LineShape = gaussian,
  noise = 1,
  freeSkew = false,
): FittedLine[] {
  const group = {
    counts,
    noise: new Float64Array(counts.length).fill(noise),
    masked: new Uint8Array(counts.length),
  };
  const alone = { before: Number.NEGATIVE_INFINITY, after: Number.POSITIVE_INFINITY };
  return fitLineGroup({ ...group, ...alone, centres, hidden: [], width }, shape, freeSkew);
}

describe('fitLineGroup', () => {
  it.each([29.0, 29.1, 29.25, 29.41, 29.5, 30.37])(
    'finds a Gaussian at %d from integrated pixels',
    (centre) => {
      const sigma = 1.7;
      const [line] = fit(draw([{ profile: bell(centre, sigma), area: 5000 }], 40), [Math.round(centre)], 4);
      expect(Math.abs(line!.pixel - centre)).toBeLessThan(1e-3);
      // A pixel widens the line as a box of one pixel does: variance 1/12 more.
      expect(Math.abs(line!.fwhmPixels / FWHM_PER_SIGMA / Math.sqrt(sigma ** 2 + 1 / 12) - 1)).toBeLessThan(
        2e-3,
      );
      expect(line!.trouble).toBeNull();
      expect(line!.nearestPixels).toBe(Number.POSITIVE_INFINITY);
    },
  );

  it.each([29.0, 29.2, 29.4])(
    'finds a triangle at %d with its own shape, and hardly worse with a Gaussian',
    (centre) => {
      const counts = draw([{ profile: triangle(centre, 5), area: 8000 }], 10);
      const own = fit(counts, [29], 5, lineShape(0.98, 1, 0));
      expect(Math.abs(own[0]!.pixel - centre)).toBeLessThan(2e-3);
      // A pixel takes the mean of |x| over it, 1/4, off the top: the flanks then cross half height 5 + 1/4 apart.
      expect(Math.abs(own[0]!.fwhmPixels / 5.25 - 1)).toBeLessThan(0.01);
      expect(Math.abs(fit(counts, [29], 5)[0]!.pixel - centre)).toBeLessThan(5e-3);
    },
  );

  it('finds the centroid of a line with a tail when it knows its skewness', () => {
    const [sigma, tail, centroid] = [2, 1, 30.3];
    const skewness = (2 * tail ** 3) / (sigma ** 2 + tail ** 2 + 1 / 12) ** 1.5;
    const counts = draw([{ profile: tailed(centroid, sigma, tail), area: 9000 }], 5);
    const [plain] = fit(counts, [30], 5);
    const [skewed] = fit(counts, [30], 5, lineShape(0, 1, skewness));
    // Beyond the third moment the tail has a fourth that the series leaves out: 1 % of a width is left of 5 %.
    expect(Math.abs(skewed!.pixel - centroid)).toBeLessThan(0.05);
    expect(Math.abs(skewed!.pixel - centroid)).toBeLessThan(Math.abs(plain!.pixel - centroid) / 2);
  });

  it('measures a skewness, of either sign', () => {
    for (const sign of [1, -1]) {
      const counts = draw([{ profile: tailed(30.3, 2, 1), area: 9000 }], 5);
      if (sign < 0) counts.reverse();
      const expected = (sign * 2) / (5 + 1 / 12) ** 1.5;
      const [line] = fit(counts, [sign > 0 ? 30 : 29], 5, gaussian, 1, true);
      // The series stops at the third moment; the tail's higher ones leave a third of the skewness unseen.
      expect(line!.skewness / expected).toBeGreaterThan(0.6);
      expect(line!.skewness / expected).toBeLessThan(1.1);
    }
  });

  it('tells two lines apart that stand 1.5 widths from each other', () => {
    const sigma = 2;
    const width = sigma * FWHM_PER_SIGMA;
    const places = [25.3, 25.3 + 1.5 * width];
    const lines = places.map((centre, k) => ({ profile: bell(centre, sigma), area: k === 0 ? 3000 : 9000 }));
    const found = fit(draw(lines, 20), places.map(Math.round), width);
    expect(found).toHaveLength(2);
    found.forEach((line, k) => {
      expect(Math.abs(line.pixel - places[k]!)).toBeLessThan(2e-3);
      expect(Math.abs(line.nearestPixels - 1.5 * width)).toBeLessThan(0.7);
    });
    expect(Math.abs(found[1]!.height / found[0]!.height - 3)).toBeLessThan(0.02);
  });

  it('takes a hidden line of known place along', () => {
    const sigma = 2;
    const lines = [
      { profile: bell(30, sigma), area: 9000 },
      { profile: bell(33.5, sigma), area: 1500 },
    ];
    const counts = draw(lines, 20);
    const group = {
      counts,
      noise: new Float64Array(60).fill(1),
      masked: new Uint8Array(60),
      centres: [30],
      width: 4.7,
    };
    const alone = { before: Number.NEGATIVE_INFINITY, after: Number.POSITIVE_INFINITY };
    const [without] = fitLineGroup({ ...group, ...alone, hidden: [] }, gaussian, false);
    const [along] = fitLineGroup({ ...group, ...alone, hidden: [33.5] }, gaussian, false);
    expect(Math.abs(without!.pixel - 30)).toBeGreaterThan(0.1);
    expect(Math.abs(along!.pixel - 30)).toBeLessThan(2e-3);
  });

  it.each([
    ['one line', [30.27]],
    ['two lines 1.5 widths apart', [27.1, 33.7]],
  ])('states an uncertainty that the scatter of 300 noisy draws bears out: %s', (_, places) => {
    const random = randomStream(20250314);
    const sigma = 1.9;
    const clean = draw(
      places.map((centre) => ({ profile: bell(centre, sigma), area: 1500 })),
      200,
    );
    const noise = clean.map((counts) => Math.sqrt(counts / 2 + 9));
    const pulls: number[] = [];
    const widthPulls: number[] = [];
    const trueWidth = FWHM_PER_SIGMA * Math.sqrt(sigma ** 2 + 1 / 12);
    for (let n = 0; n < 300; n++) {
      const counts = clean.map((value, i) => value + noise[i]! * random.normal());
      const group = {
        counts,
        noise,
        masked: new Uint8Array(60),
        centres: places.map(Math.round),
        hidden: [],
        width: 4.4,
      };
      const alone = { before: Number.NEGATIVE_INFINITY, after: Number.POSITIVE_INFINITY };
      const found = fitLineGroup({ ...group, ...alone }, gaussian, false);
      expect(found).toHaveLength(places.length);
      for (const [k, line] of found.entries()) pulls.push((line.pixel - places[k]!) / line.pixelUncertainty);
      widthPulls.push((found[0]!.fwhmPixels - trueWidth) / found[0]!.fwhmUncertaintyPixels);
    }
    for (const list of [pulls, widthPulls]) {
      const mean = list.reduce((sum, value) => sum + value, 0) / list.length;
      const deviation = Math.sqrt(
        list.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (list.length - 1),
      );
      // 300 draws: the deviation itself scatters by 4 %, the mean by 0.06.
      expect(deviation).toBeGreaterThan(0.8);
      expect(deviation).toBeLessThan(1.25);
      expect(Math.abs(mean)).toBeLessThan(0.25);
    }
  });

  it('widens the uncertainty where the shape does not fit', () => {
    const counts = draw([{ profile: triangle(30.2, 6), area: 90000 }]);
    const honest = fit(counts, [30], 6, lineShape(0.98, 1, 0));
    const wrong = fit(counts, [30], 6);
    expect(wrong[0]!.chiSquare / wrong[0]!.degreesOfFreedom).toBeGreaterThan(100);
    expect(wrong[0]!.pixelUncertainty).toBeGreaterThan(2 * honest[0]!.pixelUncertainty);
  });

  it('marks a line whose core is masked and still locates it by its flanks', () => {
    const counts = draw([{ profile: bell(30.4, 3), area: 9000 }], 20);
    const masked = Uint8Array.from(counts, (value) => (value > 900 ? 1 : 0));
    expect(masked.reduce((sum, bit) => sum + bit, 0)).toBeGreaterThan(2);
    const shown = counts.map((value, i) => (masked[i] ? 0 : value));
    const noise = new Float64Array(60).fill(1);
    const alone = { before: Number.NEGATIVE_INFINITY, after: Number.POSITIVE_INFINITY };
    const [line] = fitLineGroup(
      { counts: shown, noise, masked, centres: [30], hidden: [], width: 7, ...alone },
      gaussian,
      false,
    );
    expect(line!.trouble).toBe('saturated');
    expect(Math.abs(line!.pixel - 30.4)).toBeLessThan(0.02);
  });

  it('gives nothing where there are fewer pixels than numbers to fit', () => {
    expect(fit(Float64Array.of(1, 5, 9), [1], 2)).toEqual([]);
  });

  it('leaves its input alone', () => {
    const counts = draw([{ profile: bell(30, 2), area: 500 }]);
    const before = counts.slice();
    fit(counts, Object.freeze([30]), 5);
    expect(counts).toEqual(before);
  });
});
