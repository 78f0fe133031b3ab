import { describe, expect, it } from 'vitest';
import { BadInputError } from '../errors.js';
import { type RandomStream, randomStream } from '../numeric/index.js';
import { combineExposures, reduceFrames } from './index.js';
import type { CleanSpectrum, Detector, FrameEntry, FrameRole, ReducedFrames } from './types.js';

const pixels = 600;
const detector: Detector = {
  pixels,
  saturationCounts: 64000,
  wavelengthStartNm: null,
  wavelengthEndNm: null,
  linearity: null,
};
const gain = 0.8;
const readNoise = 6;

/** Offset and dark current with a pattern of its own. */
const darkLevel = (i: number, exposureMs: number): number =>
  680 + 25 * Math.sin(i * 1.7) + exposureMs * (0.2 + 0.1 * Math.cos(i));
const lampLines = [60, 150, 155.5, 240, 330, 420, 540];
const lines = (i: number): number =>
  lampLines.reduce((sum, at, k) => sum + (30 + 40 * k) * Math.exp(-0.5 * ((i - at) / 1.6) ** 2), 0);
const halogen = (i: number): number => 40 + 380 * Math.exp(-0.5 * ((i - 330) / 170) ** 2);
const band = (i: number): number => 0.9 / (1 + ((i - 300) / 7) ** 6);

interface Taken {
  role: FrameRole;
  exposureMs: number;
  frames: number;
  /** Counts per ms that fall on a pixel. */
  light?: (pixel: number, frame: number) => number;
  /** What the converter makes of true counts with noise. */
  read?: (counts: number, pixel: number, frame: number) => number;
  filter?: string;
  lamp?: string;
  takenAtMs?: number;
}

function take(random: RandomStream, list: readonly Taken[]): FrameEntry[] {
  return list.map((taken, index) => ({
    index,
    role: taken.role,
    exposureMs: taken.exposureMs,
    lamp: taken.lamp ?? null,
    filter: taken.filter ?? null,
    takenAtMs: taken.takenAtMs ?? null,
    scans: Array.from({ length: taken.frames }, (_, k) => ({
      file: `${taken.role}-${index}-${k}.csv`,
      column: '',
      wavelengthNm: null,
      counts: Float64Array.from({ length: pixels }, (_, i) => {
        const light = (taken.light?.(i, k) ?? 0) * taken.exposureMs;
        const noisy =
          darkLevel(i, taken.exposureMs) +
          light +
          random.normal() * Math.sqrt(readNoise ** 2 + gain * Math.max(0, light));
        return taken.read === undefined ? Math.min(64000, Math.round(noisy)) : taken.read(noisy, i, k);
      }),
    })),
  }));
}

const darks = (...exposures: number[]): Taken[] =>
  exposures.map((exposureMs) => ({ role: 'dark' as const, exposureMs, frames: 10 }));
const open = (exposureMs: number, frames = 8): Taken => ({
  role: 'open',
  exposureMs,
  frames,
  light: halogen,
});
const filtered = (exposureMs: number, frames = 8): Taken => ({
  role: 'filtered',
  filter: 'f1',
  exposureMs,
  frames,
  light: (i) => halogen(i) * band(i),
});
const lamp = (exposureMs: number, frames = 5): Taken => ({
  role: 'lamp',
  lamp: 'Ne',
  exposureMs,
  frames,
  light: lines,
});

const reduce = (seed: number, list: readonly Taken[], use: Detector = detector): ReducedFrames =>
  reduceFrames(take(randomStream(seed), list), use);

/** Root mean square of (counts - truth) over the stated uncertainty: 1 where the uncertainty is right. */
function pull(spectrum: CleanSpectrum, truth: (i: number) => number): number {
  let sum = 0;
  let n = 0;
  for (let i = 0; i < pixels; i++) {
    if (spectrum.masked[i] === 1) continue;
    sum += (spectrum.counts[i]! - truth(i)) ** 2 / (spectrum.noise[i]! ** 2 + spectrum.darkNoise[i]! ** 2);
    n++;
  }
  return Math.sqrt(sum / n);
}

describe('reduceFrames on a good session', () => {
  const session = [...darks(20, 100, 400), open(100), filtered(100), filtered(400), lamp(20), lamp(100)];
  const reduced = reduce(1, session);

  it('gives one spectrum for each entry that is not dark, in order, without warnings or rejected frames', () => {
    expect(reduced.spectra.map((s) => s.entry)).toEqual([3, 4, 5, 6, 7]);
    expect(reduced.spectra.map((s) => s.frames)).toEqual([8, 8, 8, 5, 5]);
    expect(reduced.rejected).toEqual([]);
    expect(reduced.warnings).toEqual([]);
  });

  it('finds the light, with an uncertainty that covers the error', () => {
    const truths = [
      halogen,
      (i: number) => halogen(i) * band(i),
      (i: number) => halogen(i) * band(i),
      lines,
      lines,
    ];
    reduced.spectra.forEach((spectrum, k) => {
      // 600 pixels: the root mean square of the pull scatters by 1/sqrt(1200) = 0.03
      const found = pull(spectrum, (i) => truths[k]!(i) * spectrum.exposureMs);
      expect(found).toBeGreaterThan(0.9);
      expect(found).toBeLessThan(1.1);
    });
  });

  it('recovers gain and read noise from the scatter between frames', () => {
    expect(reduced.noise.gain / gain).toBeCloseTo(1, 1);
    // rounding to whole counts adds 1/12
    expect(reduced.noise.readVariance / (readNoise ** 2 + 1 / 12)).toBeCloseTo(1, 1);
    expect(reduced.noise.method).toMatch(/scatter between the frames/);
  });

  it('does not depend on the order of the frames of an entry', () => {
    const entries = take(randomStream(1), session);
    const mirrored = entries.map((entry) => ({ ...entry, scans: [...entry.scans].reverse() }));
    const other = reduceFrames(mirrored, detector);
    reduced.spectra.forEach((spectrum, k) => {
      for (let i = 0; i < pixels; i++) {
        expect(other.spectra[k]!.counts[i]!).toBeCloseTo(spectrum.counts[i]!, 8);
        expect(other.spectra[k]!.noise[i]!).toBeCloseTo(spectrum.noise[i]!, 8);
      }
    });
  });

  it('scales with the counts', () => {
    const entries = take(randomStream(1), session);
    const doubled = entries.map((entry) => ({
      ...entry,
      scans: entry.scans.map((scan) => ({ ...scan, counts: scan.counts.map((value) => 2 * value) })),
    }));
    const other = reduceFrames(doubled, { ...detector, saturationCounts: 2 * detector.saturationCounts });
    expect(other.noise.gain).toBeCloseTo(2 * reduced.noise.gain, 8);
    reduced.spectra.forEach((spectrum, k) => {
      for (let i = 0; i < pixels; i++) {
        expect(other.spectra[k]!.counts[i]!).toBeCloseTo(2 * spectrum.counts[i]!, 7);
        expect(other.spectra[k]!.noise[i]!).toBeCloseTo(2 * spectrum.noise[i]!, 7);
      }
    });
  });

  it('leaves its input as it was', () => {
    const entries = take(randomStream(1), session);
    const before = entries.map((entry) => entry.scans.map((scan) => scan.counts.slice()));
    reduceFrames(entries, detector);
    expect(entries.map((entry) => entry.scans.map((scan) => scan.counts))).toEqual(before);
  });

  it('is free of false alarms: 20 sessions of good frames', { tags: ['long'] }, () => {
    for (let seed = 100; seed < 120; seed++) {
      const other = reduce(seed, session);
      expect(other.rejected).toEqual([]);
      expect(other.warnings).toEqual([]);
    }
  });
});

describe('saturation', () => {
  it('masks saturated pixels with their neighbours, and undefined pixels alone', () => {
    const clipped = filtered(1000);
    clipped.read = (counts, i) => (i === 10 ? Number.NaN : Math.min(64000, Math.round(counts)));
    const { spectra } = reduce(2, [...darks(1000), clipped]);
    const [spectrum] = spectra;
    const over = (i: number): boolean => 1000 * halogen(i) * band(i) + darkLevel(i, 1000) > 64000;
    for (let i = 1; i + 1 < pixels; i++) {
      const expected = over(i - 1) || over(i) || over(i + 1) || i === 10;
      expect(spectrum!.masked[i]).toBe(expected ? 1 : 0);
    }
    expect(spectrum!.counts[10]).toBe(0);
  });

  it('refuses an open beam that is saturated everywhere, by file and place', () => {
    const bright: Taken = { role: 'open', exposureMs: 100, frames: 2, light: () => 2000 };
    const error = problem(() => reduce(3, [...darks(100), bright]));
    expect(error).toMatchObject({ where: 'open-1-0.csv, open-1-1.csv', place: 'frames[1]' });
    expect(error.what).toMatch(/every pixel .* saturated/);
  });
});

function problem(run: () => unknown): { where: string; place: string; what: string; fix: string } {
  try {
    run();
  } catch (error) {
    if (error instanceof BadInputError) return error.problems[0]!;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('bad frames', () => {
  const good = [...darks(100), open(100)];

  it('leaves out an unlit frame and says how dark it was', () => {
    const off = filtered(100, 4);
    off.light = (i, k) => (k === 2 ? 0 : halogen(i) * band(i));
    const { rejected, spectra } = reduce(4, [...good, off]);
    expect(rejected).toHaveLength(1);
    expect(rejected[0]).toMatchObject({ file: 'filtered-2-2.csv' });
    expect(rejected[0]!.reason).toMatch(/^unlit: .* % of the \d+ of the other frames$/);
    expect(spectra[1]!.frames).toBe(3);
  });

  it('leaves out unlit frames where they are the majority', () => {
    const off = lamp(100, 3);
    off.light = (i, k) => (k === 1 ? lines(i) : 0);
    const { rejected, spectra } = reduce(5, [...good, off]);
    expect(rejected.map((one) => one.file)).toEqual(['lamp-2-0.csv', 'lamp-2-2.csv']);
    expect(spectra[1]!.frames).toBe(1);
  });

  it('refuses an entry without light', () => {
    const off = lamp(100);
    off.light = () => 0;
    const error = problem(() => reduce(6, [...good, off]));
    expect(error.place).toBe('frames[2]');
    expect(error.where).toMatch(/lamp-2-0\.csv/);
    expect(error.what).toBe('no frame shows light above the dark');
  });

  it('refuses a session without darks', () => {
    expect(problem(() => reduce(7, [open(100)])).what).toMatch(/dark/);
  });

  it.each([0.5, -1, 6])('leaves out a lamp frame that moved by %f pixels', (shift) => {
    const moved = lamp(100);
    moved.light = (i, k) => lines(k === 3 ? i - shift : i);
    const { rejected } = reduce(8, [...good, moved]);
    expect(rejected.map((one) => one.file)).toEqual(['lamp-2-3.csv']);
    const found = Number(/moved by (\S+) pixels/.exec(rejected[0]!.reason)![1]);
    expect(Math.abs(found - shift)).toBeLessThan(0.1);
  });

  it('keeps a lamp frame that moved by a tenth of a pixel', () => {
    const moved = lamp(100);
    moved.light = (i, k) => lines(k === 3 ? i - 0.1 : i);
    expect(reduce(9, [...good, moved]).rejected).toEqual([]);
  });

  it('keeps lamp frames whose lines warm up one by one', () => {
    const warming = lamp(100, 6);
    warming.light = (i, k) => lines(i) * (i < 200 ? 1 - 0.05 * k : 1 + 0.01 * k);
    expect(reduce(10, [...good, warming]).rejected).toEqual([]);
  });

  it('leaves out a frame of another level', () => {
    const changed = filtered(100, 6);
    changed.light = (i, k) => halogen(i) * band(i) * (k === 0 ? 0.9 : 1);
    const { rejected } = reduce(11, [...good, changed]);
    expect(rejected.map((one) => one.file)).toEqual(['filtered-2-0.csv']);
    expect(rejected[0]!.reason).toMatch(/^its level is (9\.\d|10) % below/);
  });

  it('keeps all frames of a lamp that drifts evenly', () => {
    const drifting = filtered(100, 6);
    drifting.light = (i, k) => halogen(i) * band(i) * (1 + 0.02 * k);
    const { rejected, warnings } = reduce(12, [...good, drifting]);
    expect(rejected).toEqual([]);
    expect(warnings.map((one) => one.what).join()).toMatch(/wanders by/);
  });

  it('leaves out a filtered frame whose band lies elsewhere', () => {
    const moved = filtered(100, 5);
    moved.light = (i, k) => halogen(i) * band(k === 4 ? i - 1 : i);
    const { rejected } = reduce(13, [...good, moved]);
    expect(rejected.map((one) => one.file)).toEqual(['filtered-2-4.csv']);
    expect(rejected[0]!.reason).toMatch(/shape differs by/);
  });

  it('leaves out a struck frame where three good ones stay', () => {
    const struck = filtered(100, 5);
    struck.read = (counts, i, k) => Math.round(counts) + (k === 1 && (i === 297 || i === 298) ? 4000 : 0);
    const { rejected, spectra } = reduce(14, [...good, struck]);
    expect(rejected.map((one) => one.file)).toEqual(['filtered-2-1.csv']);
    expect(rejected[0]!.reason).toMatch(/^struck by a particle: 2 pixels .*\(pixel 29[78]\)/);
    expect(spectra[1]!.frames).toBe(4);
  });

  it('leaves out only the struck pixels where frames are few', () => {
    const struck = lamp(100, 3);
    struck.read = (counts, i, k) => Math.min(64000, Math.round(counts) + (k === 1 && i === 200 ? 70000 : 0));
    const { rejected, warnings, spectra } = reduce(15, [...good, struck]);
    expect(rejected).toEqual([]);
    expect(warnings).toEqual([
      {
        where: 'lamp-2-1.csv',
        what: 'struck by a particle at pixel 200: those pixels of the frame are left out',
      },
    ]);
    expect(spectra[1]!.masked[200]).toBe(0);
    expect(Math.abs(spectra[1]!.counts[200]!)).toBeLessThan(30);
    expect(spectra[1]!.noise[200]! / spectra[1]!.noise[195]!).toBeCloseTo(Math.sqrt(3 / 2), 1);
  });

  it('keeps two frames that disagree and says so', () => {
    const pair = filtered(100, 2);
    pair.light = (i, k) => halogen(i) * band(i) * (1 + 0.1 * k);
    const { rejected, warnings } = reduce(16, [...good, pair]);
    expect(rejected).toEqual([]);
    expect(warnings.map((one) => one.what).join()).toMatch(/two frames differ by .* both kept/);
  });

  it('scales the noise up where frames scatter more than the model allows', () => {
    const random = randomStream(99);
    const shaky = open(100);
    shaky.read = (counts, i) => Math.round(counts + 0.01 * 100 * halogen(i) * random.normal());
    const { spectra, warnings, noise } = reduce(17, [...darks(100), open(100), open(100), open(100), shaky]);
    // the three good entries decide on the model
    expect(Math.abs(noise.gain / gain - 1)).toBeLessThan(0.1);
    let excess = 0;
    for (let i = 0; i < pixels; i++) {
      const light = 100 * halogen(i);
      excess += 1 + (0.01 * light) ** 2 / (readNoise ** 2 + gain * light);
    }
    excess = Math.sqrt(excess / pixels);
    expect(Math.abs(spectra[3]!.noise[20]! / spectra[0]!.noise[20]! / excess - 1)).toBeLessThan(0.1);
    expect(warnings.map((one) => one.what).join()).toMatch(/scatter .* times as much/);
  });

  it('scales the noise of the few lit pixels of a narrow band by their own scatter', () => {
    const random = randomStream(98);
    const shaky = filtered(100);
    const light = (i: number): number => 100 * halogen(i) * band(i);
    shaky.read = (counts, i) => Math.round(counts + 0.01 * light(i) * random.normal());
    const { spectra } = reduce(18, [...darks(100), open(100), open(100), open(100), shaky]);
    const [, , , spectrum] = spectra;
    // at the peak a hundredth of the light is twice the photon noise; the mean of the band holds a little less
    const expected = Math.sqrt((readNoise ** 2 + gain * light(300) + (0.01 * light(300)) ** 2) / 8);
    expect(spectrum!.noise[300]! / expected).toBeGreaterThan(0.7);
    expect(spectrum!.noise[300]! / expected).toBeLessThan(1.1);
    expect(spectrum!.noise[20]! / (readNoise / Math.sqrt(8))).toBeLessThan(1.15);
  });
});

describe('darks', () => {
  const truth = (exposure: number) => (i: number) => halogen(i) * exposure;

  it('interpolates between two exposures without a word', () => {
    const { spectra, warnings } = reduce(20, [...darks(20, 200), open(100)]);
    expect(warnings).toEqual([]);
    expect(Math.abs(pull(spectra[0]!, truth(100)) - 1)).toBeLessThan(0.1);
    // weights 5/9 and 4/9 of two means of ten frames
    const expected = (readNoise / Math.sqrt(10)) * Math.hypot(5 / 9, 4 / 9);
    expect(spectra[0]!.darkNoise[0]! / expected).toBeCloseTo(1, 1);
  });

  it('carries on beyond them with a warning that names both', () => {
    const { spectra, warnings } = reduce(21, [...darks(20, 50), open(100)]);
    expect(warnings).toHaveLength(1);
    expect(warnings[0]!.what).toMatch(/100 ms.*20 and 50 ms/);
    expect(pull(spectra[0]!, truth(100))).toBeLessThan(1.1);
    let mean = 0;
    for (let i = 0; i < pixels; i++) mean += (spectra[0]!.counts[i]! - 100 * halogen(i)) / pixels;
    // offset and dark current are a straight line in time here: what stays is the noise of the means
    expect(Math.abs(mean)).toBeLessThan(2);
  });

  it('uses a single other exposure with a warning', () => {
    const { warnings } = reduce(22, [...darks(50), open(100)]);
    expect(warnings).toHaveLength(1);
    expect(warnings[0]!.what).toMatch(/50 ms .*100 ms/);
  });

  it('is not misled by a particle in one dark', () => {
    const struck = darks(100)[0]!;
    struck.read = (counts, i, k) => Math.round(counts) + (k === 3 && i === 50 ? 5000 : 0);
    const { spectra, warnings } = reduce(23, [struck, open(100)]);
    expect(warnings).toEqual([]);
    expect(Math.abs(spectra[0]!.counts[50]! - 100 * halogen(50))).toBeLessThan(4 * spectra[0]!.noise[50]!);
  });

  it('gives an unstable pixel its own noise and names it', () => {
    const random = randomStream(7);
    const read = (counts: number, i: number): number =>
      Math.round(counts + (i === 77 ? 300 * random.normal() : 0));
    const { spectra, warnings } = reduce(24, [
      { ...darks(100)[0]!, read },
      { ...open(100), read },
    ]);
    expect(warnings.map((one) => one.what).join()).toMatch(/1 unstable pixel .*\(77\)/);
    expect(spectra[0]!.masked[77]).toBe(0);
    expect(spectra[0]!.darkNoise[77]!).toBeGreaterThan(40);
    expect(spectra[0]!.noise[77]!).toBeGreaterThan(60);
  });

  it.each([
    [-3, 690, true],
    [0, 690, true],
    [20, 0, false],
  ])('warns of values cut off at the floor (offset %i below)', (above, below, warned) => {
    // the real case of an offset below the converter's zero: a third of the values and more at the floor
    const read = (counts: number): number => Math.max(0, Math.round(counts - below + above));
    const { warnings } = reduce(25, [
      { ...darks(100)[0]!, read },
      { ...open(100), read },
    ]);
    expect(warnings.some((one) => /equal the lowest one, 0/.test(one.what))).toBe(warned);
  });
});

describe('linearity', () => {
  it('is applied to raw counts, darks too, before the dark is taken off', () => {
    // measured m of true t: t = m (1 + 1e-6 m)
    const read = (counts: number): number => (-1 + Math.sqrt(1 + 4e-6 * counts)) / 2e-6;
    const list = [
      { ...darks(100)[0]!, read },
      { ...open(100), read },
    ];
    const corrected = reduce(30, list, { ...detector, linearity: [1, 1e-6] }).spectra[0]!;
    expect(Math.abs(pull(corrected, (i) => 100 * halogen(i)) - 1)).toBeLessThan(0.1);
    const plain = reduce(30, list).spectra[0]!;
    expect(pull(plain, (i) => 100 * halogen(i))).toBeGreaterThan(3);
  });
});

describe('soft saturation', () => {
  /** Straight up to 60 000 counts, then rising ever more slowly: 775 counts/ms become 623 at 100 ms. */
  const soft = (counts: number): number => {
    const excess = counts - 60000;
    if (excess <= 0) return Math.round(counts);
    return Math.round(60000 + excess / (1 + excess / 3592));
  };
  const strength = 775 / 270;
  const list = (drift: number): Taken[] => [
    ...darks(20, 100),
    { role: 'lamp', lamp: 'Ne', exposureMs: 20, frames: 6, light: (i) => strength * lines(i), read: soft },
    {
      role: 'lamp',
      lamp: 'Ne',
      exposureMs: 100,
      frames: 6,
      light: (i) => strength * (1 + drift) * lines(i),
      read: soft,
    },
  ];

  it('is found from rates that fall, with the level and the rates', () => {
    // detector states a limit that no pixel reaches
    const { warnings, spectra } = reduce(40, list(0), { ...detector, saturationCounts: 65535 });
    const said = warnings.map((one) => one.what).join();
    expect(said).toMatch(/saturates softly: .* rate falls from \d+ to \d+ counts\/ms above \d+ counts/);
    const level = Number(/above (\d+) counts/.exec(said)![1]);
    expect(level).toBeGreaterThan(57000);
    expect(level).toBeLessThan(62000);
    const top = lampLines[6]!;
    const [from, to] = /from (\d+) to (\d+) counts/.exec(said)!.slice(1).map(Number);
    expect(Math.abs(from! - 775)).toBeLessThan(8);
    expect(Math.abs(to! - 623)).toBeLessThan(8);
    expect(spectra[1]!.masked[top]).toBe(1);
    expect(spectra[0]!.masked[top]).toBe(0);
    // the joined spectrum is straight again
    const joined = combineExposures(spectra);
    expect(joined.countsPerMs[top]! / (strength * lines(top))).toBeCloseTo(1, 2);
  });

  it('is found all the same when the lamp drifts by a tenth', () => {
    const { warnings } = reduce(41, list(0.1), { ...detector, saturationCounts: 65535 });
    expect(warnings.some((one) => /saturates softly/.test(one.what))).toBe(true);
  });

  it('is not claimed of a lamp that drifts, or whose bright lines fade', () => {
    const drift: Taken[] = [
      ...darks(20, 100),
      lamp(20),
      { ...lamp(100), light: (i) => 0.9 * lines(i) },
      { ...lamp(100), light: (i) => lines(i) * (i > 380 ? 0.85 : 1.1) },
      { ...open(20) },
      { ...open(100), light: (i) => halogen(i) * (0.97 + (0.02 * i) / pixels) },
    ];
    for (let seed = 42; seed < 52; seed++) expect(reduce(seed, drift).warnings).toEqual([]);
  });

  it('reports exposures of the open beam whose rates differ', () => {
    const { warnings } = reduce(53, [
      ...darks(20, 100),
      open(20),
      { ...open(100), light: (i) => 0.9 * halogen(i) },
    ]);
    expect(warnings.map((one) => one.what)).toEqual([expect.stringMatching(/100 ms is (9\.\d|10) % below/)]);
  });
});

describe('noise with few frames', () => {
  it('comes from neighbouring pixels of the open beam', () => {
    const { noise } = reduce(60, [...darks(100), open(100, 1), filtered(100, 1)]);
    expect(noise.method).toMatch(/second differences/);
    expect(noise.gain / gain).toBeGreaterThan(0.8);
    expect(noise.gain / gain).toBeLessThan(1.3);
  });

  it('is an assumption where nothing shows it, and says so', () => {
    const { noise } = reduce(61, [...darks(100), filtered(100, 1)]);
    expect(noise.method).toMatch(/^assumed/);
  });
});

describe('single pixels that are not to be trusted', () => {
  /** A hit on pixel 300, in the middle of the band, in one of two frames. */
  const hit = (height: number): Taken => ({
    ...filtered(100, 2),
    read: (counts, i, k) => Math.round(counts + (i === 300 && k === 1 ? height : 0)),
  });
  const truth = 100 * halogen(300) * band(300);
  /** Noise of one frame there. */
  const sigma = Math.sqrt(readNoise ** 2 + gain * truth);

  it('have their own scatter as noise where one of two frames holds a hit that no comparison can tell', () => {
    const plain = reduce(80, [...darks(100), open(100), filtered(100, 2)]).spectra[1]!;
    let uncovered = 0;
    let scaled = 0;
    const repeats = 40;
    for (let seed = 0; seed < repeats; seed++) {
      // ten standard deviations: less than the limit of 8 sqrt(2), far more than the noise of the mean
      const { spectra, rejected } = reduce(200 + seed, [...darks(100), open(100), hit(10 * sigma)]);
      const [, spectrum] = spectra;
      expect(rejected).toEqual([]);
      const pull = Math.abs(spectrum!.counts[300]! - truth) / spectrum!.noise[300]!;
      // half of the hit is the error, and half of the difference of the frames the noise
      if (pull > 1.5) uncovered++;
      if (Math.abs(spectrum!.noise[297]! / plain.noise[297]! - 1) > 0.1) scaled++;
    }
    // it goes unseen where the frames happen to differ little: the level of the few lit pixels takes a tenth of the
    // hit, 6.4 +- 1 deviations are left and the limit is 4.9, so in 8 % of the repeats: 3 +- 1.7
    expect(scaled).toBeLessThanOrEqual(8);
    // and 7 % of normal scatter beside: 6 +- 2.3 in all, against 37 of 40 with the noise of the model
    expect(uncovered).toBeLessThanOrEqual(13);
  });

  it('keep the noise of the model where nothing is wrong', () => {
    const { spectra, noise } = reduce(81, [...darks(100), open(100), filtered(100, 2), filtered(100, 5)]);
    for (const spectrum of spectra) {
      const expected = spectrum.counts.map((value) =>
        Math.sqrt((noise.readVariance + noise.gain * Math.max(0, value)) / spectrum.frames),
      );
      let wider = 0;
      for (let i = 0; i < pixels; i++) if (spectrum.noise[i]! > 1.1 * expected[i]!) wider++;
      expect(wider).toBe(0);
    }
  });

  /** A warm pixel: a dark current of 8 counts per ms, with the photon-like noise of it; too little to be unstable. */
  const warmRate = 8;
  function warm(seed: number): (counts: number, i: number) => number {
    const random = randomStream(seed);
    return (counts, i) => {
      const more = i === 40 ? 100 * warmRate : 0;
      return Math.round(counts + more + Math.sqrt(gain * more) * random.normal());
    };
  }

  it('are given the noise of their dark current', () => {
    let squares = 0;
    const repeats = 60;
    for (let seed = 0; seed < repeats; seed++) {
      const read = warm(seed);
      const list = [{ ...darks(100)[0]!, read }, open(100), { ...filtered(100), read }];
      const { spectra, rejected } = reduce(300 + seed, list);
      expect(rejected).toEqual([]);
      const spectrum = spectra[1]!;
      // read noise 6, dark current 800 counts: variance 36 + 640
      const expected = Math.sqrt(readNoise ** 2 + gain * 100 * warmRate);
      expect(spectrum.noise[40]! / (expected / Math.sqrt(8))).toBeGreaterThan(0.8);
      const u = Math.hypot(spectrum.noise[40]!, spectrum.darkNoise[40]!);
      squares += ((spectrum.counts[40]! - 100 * halogen(40) * band(40)) / u) ** 2;
    }
    // 60 repeats: known to 9 %
    expect(Math.sqrt(squares / repeats)).toBeGreaterThan(0.75);
    expect(Math.sqrt(squares / repeats)).toBeLessThan(1.25);
  });

  it('the noise is that of the darks of the same exposure', () => {
    const random = randomStream(5);
    // 400 counts of dark current in every pixel at 100 ms
    const read = (counts: number): number => Math.round(counts + Math.sqrt(gain * 400) * random.normal());
    const quiet = darks(20)[0]!;
    const list = [quiet, { ...darks(100)[0]!, read }, { ...open(100), read }, { ...filtered(100), read }];
    const { spectra } = reduce(82, list);
    const expected = Math.sqrt((readNoise ** 2 + gain * 400) / 8);
    expect(spectra[1]!.noise[20]! / expected).toBeGreaterThan(0.95);
    expect(spectra[1]!.noise[20]! / expected).toBeLessThan(1.1);
  });
});

describe('flicker of the lamp', () => {
  const shining = (relative: number, seed: number): Taken[] => {
    const random = randomStream(seed);
    const levels = Array.from({ length: 60 }, () => 1 + relative * random.normal());
    const entry = (made: Taken, at: number): Taken => {
      // a drift of 1 % over the entry besides
      const level = (k: number): number => levels[10 * at + k]! * (1 + (0.01 * k) / made.frames);
      return { ...made, light: (i, k) => made.light!(i, k) * level(k) };
    };
    return [
      ...darks(100),
      ...[open(100), filtered(100), open(100), filtered(100, 3), open(100)].map(entry),
      lamp(100),
    ];
  };

  it('is recovered within its own uncertainty', () => {
    let squares = 0;
    const repeats = 20;
    for (let seed = 0; seed < repeats; seed++) {
      const { flicker } = reduce(400 + seed, shining(0.003, seed));
      // frames less two of each entry: 6 + 6 + 6 + 1 + 6, weights differ little
      expect(flicker!.frames).toBeGreaterThanOrEqual(22);
      expect(flicker!.frames).toBeLessThanOrEqual(25);
      const own = 0.003 / Math.sqrt(2 * flicker!.frames);
      squares += ((flicker!.relative - 0.003) / own) ** 2;
      expect(Math.abs(flicker!.relative - 0.003)).toBeLessThan(4 * own);
    }
    // root mean square of 20 values: known to 16 %
    expect(Math.sqrt(squares / repeats)).toBeGreaterThan(0.6);
    expect(Math.sqrt(squares / repeats)).toBeLessThan(1.5);
  });

  it('is below 0.05 % where the lamp is steady but for an even drift', () => {
    for (let seed = 0; seed < 10; seed++) {
      expect(reduce(500 + seed, shining(0, seed)).flicker!.relative).toBeLessThan(0.0005);
    }
  });

  it('is not known from fewer than three frames', () => {
    expect(reduce(83, [...darks(100), open(100, 2), filtered(100, 2), lamp(100)]).flicker).toBeNull();
  });
});

describe('arguments', () => {
  it('refuses frames of another length', () => {
    expect(() => reduce(70, [...darks(100), open(100)], { ...detector, pixels: 5 })).toThrow(
      'reduceFrames requires 5 pixels, got 600 in dark-0-0.csv',
    );
  });
});
