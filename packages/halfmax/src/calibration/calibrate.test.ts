import { describe, expect, it } from 'vitest';
import { type RandomSpecOptions, randomSpec } from '../../../../data-demo/generator/randomSpec.mjs';
import { simulateFrames } from '../../../../data-demo/generator/simulate.mjs';
import { BadInputError } from '../errors.js';
import { combineExposures, type Detector, reduceFrames } from '../frames/index.js';
import { median, randomStream } from '../numeric/index.js';
import { calibrate } from './calibrate.js';
import type { Calibration } from './calibration.js';
import { wavelengthAt, wavelengthCovariance, wavelengthsOf } from './dispersion.js';
import { lineSpreadAt } from './measureLineSpread.js';
import type { LampSpectrum } from './types.js';

interface Simulated {
  readonly spectra: LampSpectrum[];
  readonly detector: Detector;
  readonly truth: ReturnType<typeof simulateFrames>['truth'];
}

/** Frames of an invented bench with no code of the package in them, reduced as a session's are. */
function simulated(seed: number, options: RandomSpecOptions): Simulated {
  const session = simulateFrames(
    randomSpec(seed, { lamps: ['Hg-Ar', 'Ne'], hint: false, pixels: 2048, ...options }),
    seed,
  );
  const { spectra } = reduceFrames(session.entries, session.detector);
  const lamps = spectra.filter((spectrum) => spectrum.role === 'lamp');
  const labels = [...new Set(lamps.map((spectrum) => spectrum.lamp!))];
  return {
    spectra: labels.map((label, k) => ({
      label,
      where: `frames[${k + 1}]`,
      ...combineExposures(lamps.filter((spectrum) => spectrum.lamp === label)),
    })),
    detector: session.detector,
    truth: session.truth,
  };
}

/** Error of the scale over its stated uncertainty, rms over the stretch that lines cover, and the largest error, nm. */
function errors(
  { dispersion, coveredNm }: Calibration,
  truthNm: Float64Array,
): { pull: number; largestNm: number } {
  const ours = wavelengthsOf(dispersion, truthNm.length);
  let square = 0;
  let largestNm = 0;
  let count = 0;
  ours.forEach((nm, pixel) => {
    if (nm < coveredNm[0] || nm > coveredNm[1]) return;
    const error = nm - truthNm[pixel]!;
    square += error ** 2 / wavelengthCovariance(dispersion, pixel, pixel);
    largestNm = Math.max(largestNm, Math.abs(error));
    count++;
  });
  return { pull: Math.sqrt(square / count), largestNm };
}

function refusal(run: () => unknown): BadInputError {
  try {
    run();
  } catch (error) {
    if (error instanceof BadInputError) return error;
    throw error;
  }
  throw new Error('was accepted');
}

const plain = {
  lineSpreadNm: [0.8, 1.6] as const,
  spanNm: [300, 500] as const,
  minimumLines: 14,
  shape: 'gaussian' as const,
};

describe('calibrate, on a simulated session', () => {
  const session = simulated(3, plain);
  const calibration = calibrate(session.spectra, session.detector);

  it('finds the scale of the bench within the stated uncertainty', () => {
    const { pull, largestNm } = errors(calibration, session.truth.wavelengthNm);
    expect(pull).toBeLessThan(2);
    // A twentieth of the least line spread.
    expect(largestNm).toBeLessThan(0.05);
  });

  it('gives no found line a false name', () => {
    for (const line of calibration.lines) {
      if (!line.used) continue;
      const drawn = session.truth.lines.filter(
        (one) => one.lamp === line.lamp && ['listed', 'weak'].includes(one.kind),
      );
      const own = drawn.find((one) => Math.abs(one.wavelengthNm - line.wavelengthNm!) < 1e-3);
      expect(own).toBeDefined();
      expect(Math.abs(own!.pixel - line.pixel)).toBeLessThan(1);
    }
    expect(calibration.lines.filter((line) => line.used).length).toBeGreaterThanOrEqual(8);
  });

  it('tells of every found line what became of it', () => {
    for (const line of calibration.lines) {
      expect(line.reason).not.toBe('');
      expect(line.species === null).toBe(line.wavelengthNm === null);
      expect(line.residualNm === null).toBe(line.wavelengthNm === null);
      if (line.used) expect(line.reason).toMatch(/^used/);
      if (line.residualNm !== null) {
        // Lamps that are shifted against each other carry their shift in the residual.
        const plainResidual = wavelengthAt(calibration.dispersion, line.pixel) - line.wavelengthNm!;
        expect(Math.abs(line.residualNm - plainResidual)).toBeLessThan(0.2);
      }
    }
    const used = calibration.lines.filter((line) => line.used);
    const square = used.reduce((sum, line) => sum + line.residualNm! ** 2, 0);
    expect(calibration.residualRmsNm).toBeCloseTo(Math.sqrt(square / used.length), 6);
    const covered = used.map((line) => line.wavelengthNm!);
    expect(calibration.coveredNm).toEqual([Math.min(...covered), Math.max(...covered)]);
  });

  it('measures the line spread of the bench', () => {
    const { lineSpreadNm, wavelengthNm } = session.truth;
    for (const pixel of [500, 1000, 1500]) {
      const nm = wavelengthNm[pixel]!;
      if (nm < calibration.coveredNm[0] || nm > calibration.coveredNm[1]) continue;
      const pixelNm = Math.abs(wavelengthNm[pixel + 1]! - wavelengthNm[pixel - 1]!) / 2;
      // The bench's is before its pixels: a box of one pixel adds 1 / 12 to the variance of a Gaussian.
      const shown = Math.sqrt(lineSpreadNm[pixel]! ** 2 + (8 * Math.LN2 * pixelNm ** 2) / 12);
      expect(Math.abs(lineSpreadAt(calibration.lineSpread, nm).fwhmNm / shown - 1)).toBeLessThan(0.05);
    }
  });

  it('gives the same result again, and leaves its input alone', () => {
    const copy = structuredClone(session.spectra);
    expect(calibrate(Object.freeze(session.spectra), Object.freeze(session.detector))).toEqual(calibration);
    expect(session.spectra).toEqual(copy);
  });

  it('mirrors with the detector', () => {
    const turned = session.spectra.map((spectrum) => ({
      ...spectrum,
      countsPerMs: spectrum.countsPerMs.slice().reverse(),
      standardUncertainty: spectrum.standardUncertainty.slice().reverse(),
      masked: spectrum.masked.slice().reverse(),
    }));
    const other = calibrate(turned, session.detector);
    const last = session.detector.pixels - 1;
    for (const pixel of [0, 700, 1400, last]) {
      const u = Math.sqrt(wavelengthCovariance(calibration.dispersion, pixel, pixel));
      const away = wavelengthAt(other.dispersion, last - pixel) - wavelengthAt(calibration.dispersion, pixel);
      // Fits start from whole pixels of the other side: a small part of the uncertainty may differ.
      expect(Math.abs(away)).toBeLessThan(0.3 * u);
    }
  });

  it('uses a nominal range that is tens of nanometres off without a word', () => {
    const { wavelengthNm } = session.truth;
    const hinted = { wavelengthStartNm: wavelengthNm[0]! + 25, wavelengthEndNm: wavelengthNm[2047]! - 20 };
    const other = calibrate(session.spectra, { ...session.detector, ...hinted });
    expect(other.dispersion.coefficients).toEqual(calibration.dispersion.coefficients);
    expect(other.warnings).toEqual(calibration.warnings);
  });

  it.each([
    ['the other way round', (first: number, last: number) => [last, first]],
    ['far off', (first: number, last: number) => [first + 150, last + 150]],
  ])('says that a nominal range is wrong that is %s, and is right all the same', (_, change) => {
    const { wavelengthNm } = session.truth;
    const [wavelengthStartNm, wavelengthEndNm] = change(
      Math.round(wavelengthNm[0]!),
      Math.round(wavelengthNm[2047]!),
    ) as [number, number];
    const other = calibrate(session.spectra, { ...session.detector, wavelengthStartNm, wavelengthEndNm });
    expect(other.dispersion.coefficients).toEqual(calibration.dispersion.coefficients);
    const warning = other.warnings.find((entry) => entry.where === 'detector');
    expect(warning?.what).toContain(
      `${wavelengthStartNm} to ${wavelengthEndNm} nm does not fit the lamp lines`,
    );
    expect(warning?.what).toContain('it was not used');
  });

  it('refuses swapped lamp labels with words that help', () => {
    const [a, b] = session.spectra as [LampSpectrum, LampSpectrum];
    const swapped = [
      { ...a, label: b.label },
      { ...b, label: a.label },
    ];
    const { problems } = refusal(() => calibrate(swapped, session.detector));
    expect(problems.length).toBeGreaterThan(0);
    const text = problems.map(({ where, place, what, fix }) => `${where} ${place} ${what} ${fix}`).join('; ');
    expect(text).toContain('session.json');
    expect(text).toMatch(/frames\[\d\]/);
    expect(text).toMatch(/label/);
    expect(text).toMatch(/fit an? (Hg-Ar|Ne|Hg|Ar) lamp|correct the label|check the lamp labels/);
  });

  it('refuses one wrong label among right ones, and says which lamp it looks like', () => {
    const neon = session.spectra.find((spectrum) => spectrum.label === 'Ne')!;
    const wrong = { ...neon, label: 'Ar', where: 'frames[7]' };
    const { problems } = refusal(() => calibrate([...session.spectra, wrong], session.detector));
    expect(problems).toHaveLength(1);
    expect(problems[0]!.place).toBe('frames[7]');
    expect(problems[0]!.what).toMatch(
      /^most lines of the lamp labelled "Ar" are not those of that lamp; they fit a \S*Ne\S* lamp$/,
    );
    expect(problems[0]!.fix).toBe('correct the label');
  });

  it('refuses a lamp that it does not know by name, and offers those it does', () => {
    const [first, ...others] = session.spectra as [LampSpectrum, ...LampSpectrum[]];
    const { problems } = refusal(() =>
      calibrate([{ ...first, label: 'Unobtainium' }, ...others], session.detector),
    );
    expect(problems).toHaveLength(1);
    expect(problems[0]!.what).toBe('lamp "Unobtainium" is not in the line table');
    expect(problems[0]!.fix).toMatch(/^use one of .*Hg-Ar/);
    expect(problems[0]!.place).toBe(first.where);
  });

  it('warns of a lamp without a line, and calibrates with the other', () => {
    const random = randomStream(9);
    const [first] = session.spectra as [LampSpectrum];
    const u = median(first.standardUncertainty);
    const dead = {
      label: 'Ar',
      where: 'frames[9]',
      countsPerMs: first.countsPerMs.map(() => u * random.normal()),
      standardUncertainty: first.countsPerMs.map(() => u),
      masked: new Uint8Array(first.countsPerMs.length),
    };
    const other = calibrate([...session.spectra, dead], session.detector);
    expect(other.warnings).toContainEqual({
      where: 'frames[9]',
      what: 'no line of the Ar lamp rises above the noise: it was not used',
    });
    expect(other.dispersion.coefficients).toEqual(calibration.dispersion.coefficients);
  });

  it('refuses lamps that were not lit', () => {
    const random = randomStream(10);
    const dark = session.spectra.map((spectrum) => {
      const u = median(spectrum.standardUncertainty);
      return {
        ...spectrum,
        countsPerMs: spectrum.countsPerMs.map(() => u * random.normal()),
        standardUncertainty: spectrum.countsPerMs.map(() => u),
      };
    });
    const { problems } = refusal(() => calibrate(dark, session.detector));
    expect(problems[0]!.what).toContain('the lamp frames give no wavelength scale');
    expect(problems[0]!.what).toContain('0 lines');
  });
});

describe('calibrate, on other benches', () => {
  it.each([
    [12, 'triangle', ['Hg-Ar', 'Ne']],
    [14, 'slit', ['Hg', 'Ne']],
    [15, 'gaussian', ['Ne', 'Ar']],
  ] as const)('finds the scale of bench %d with %s lines of %s', (seed, shape, lamps) => {
    const { spectra, detector, truth } = simulated(seed, { ...plain, shape, lamps, pixels: 1024 });
    const { pull, largestNm } = errors(calibrate(spectra, detector), truth.wavelengthNm);
    expect(pull).toBeLessThan(2.5);
    expect(largestNm).toBeLessThan(0.15);
  });
});
