import { describe, expect, it } from 'vitest';
import type { BandReport, ClaimReport, Measurement } from '../measure/index.js';
import type { Quantity } from '../metrics/index.js';
import { measurementTable } from './measurementTable.js';

const number = (value: number, standardUncertainty: number): Quantity => ({
  value,
  standardUncertainty,
  interval95: [value - 2 * standardUncertainty, value + 2 * standardUncertainty],
});
const absent = { absent: 'not in this example' };
const narrow = { absent: 'the line spread is nearly as wide as the band' };

const claim = (
  of: Pick<ClaimReport, 'quantity' | 'claim' | 'verdict' | 'probabilityMet'> & Partial<ClaimReport>,
): ClaimReport => ({
  basis: 'corrected',
  step: null,
  measured: number(3.18, 0.018),
  reason: 'because',
  deviation: { value: -0.18, standardUncertainty: 0.018 },
  ...of,
});

const band: BandReport = {
  target: ['H-alpha'],
  asMeasured: {
    fwhmNm: number(3.2758, 0.0037),
    centreNm: number(656.4447, 0.0056),
    peakNm: number(656.4, 0.05),
    peakTransmittance: number(0.8993, 0.0017),
    transmittanceAtLine: number(0.8989, 0.0017),
  },
  corrected: {
    fwhmNm: number(3.186, 0.018),
    centreNm: number(656.4479, 0.0065),
    peakNm: number(656.2, 0.31),
    peakTransmittance: number(0.912, 0.012),
    transmittanceAtLine: number(0.915, 0.017),
  },
  lines: [
    {
      name: 'H-alpha',
      wavelengthNm: 656.28,
      isTarget: true,
      transmittance: number(0.8989, 0.0017),
      corrected: number(0.915, 0.017),
    },
    {
      name: '[N II] 658.3',
      wavelengthNm: 658.34,
      isTarget: false,
      transmittance: number(0.312, 0.0029),
      corrected: number(0.2381, 0.0035),
    },
  ],
  details: {
    width10Nm: absent,
    width1Nm: absent,
    equivalentWidthNm: absent,
    area: absent,
    halfCrossingsNm: { blueNm: absent, redNm: absent },
    edges: {
      blue: { width10To90Nm: absent, slopeAtHalfPerNm: absent },
      red: { width10To90Nm: absent, slopeAtHalfPerNm: absent },
    },
    definitions: {
      centroidNm: absent,
      peakWavelengthNm: absent,
      absoluteHalf: { centreNm: absent, widthNm: absent },
      meanTop: absent,
      maximumSample: absent,
    },
    method: { peak: '', crossings: '', area: '', maximumSample: '' },
    leftOutNm: [],
  },
  lineSpreadNm: { value: 1.166, standardUncertainty: 0.004 },
  extrapolated: false,
  correction: absent,
  correctedCurve: absent,
  furtherQuotes: [],
  budget: [
    { source: 'noise', standardUncertaintyNm: 0.0123 },
    { source: 'line spread', standardUncertaintyNm: 0.00456 },
    { source: 'drift', standardUncertaintyNm: 0.001 },
  ],
  budgets: { fwhmNm: [], centreNm: [], peakTransmittance: [], transmittanceAtLine: [] },
  monteCarlo: { draws: 1000, stopped: 'fixed', linearCheck: absent },
  claims: [
    claim({
      quantity: 'fwhmNm',
      claim: { value: 3 },
      step: 1,
      verdict: 'no tolerance stated',
      probabilityMet: absent,
    }),
    claim({
      quantity: 'centreNm',
      claim: { value: 656.3, tolerance: [0.3, 0.5] },
      verdict: 'not met',
      probabilityMet: 1e-9,
    }),
    claim({ quantity: 'peakTransmittance', claim: { atLeast: 0.9 }, verdict: 'met', probabilityMet: 0.9731 }),
    claim({ quantity: 'transmittanceAtLine', claim: { atMost: 0.99 }, verdict: 'met', probabilityMet: 1 }),
    claim({
      quantity: 'opticalDensity 400 to 630 nm',
      claim: { atLeast: 4 },
      basis: 'measured',
      measured: { atLeast: 2.96, why: 'stray light', atNm: 402.61 },
      verdict: 'undecided',
      probabilityMet: absent,
      deviation: absent,
    }),
  ],
  quote: { absent: 'nothing to say' },
};

const measurement = (bands: readonly BandReport[]): Measurement => ({
  format: 'halfmax-measurement/1',
  title: 'An invented evening',
  recorded: null,
  provenance: { package: 'halfmax', version: '0.1.0', node: 'v20.19.0', seed: 1, draws: 0, inputs: [] },
  frames: { noise: { readVariance: 1, gain: 1, method: 'frames' }, rejected: [] },
  calibration: {
    order: 4,
    coefficients: [],
    covariance: [],
    pivotPixel: 0,
    pixelScale: 1,
    lines: [true, true, false].map((used) => ({
      lamp: 'Ne',
      species: 'Ne I',
      wavelengthNm: 600,
      pixel: 1,
      pixelUncertainty: 0.01,
      residualNm: 0,
      used,
      reason: 'used',
    })),
    residualRmsNm: 0.008,
    leaveOneOutRmsNm: 0.009,
    leaveOneOutByOrder: [],
    jitterNm: 0,
    coveredNm: [404.7, 727.3],
    rangeNm: [374, 733],
    lineSpread: [],
    lineShape: { boxShare: 0, boxRatio: 0, skewness: 0 },
    lampShifts: [],
    instrumentScale: null,
  },
  halos: [],
  haloComparisons: [],
  decision: { rule: { kind: 'simple' }, stated: true, words: 'met where it fits' },
  filters: [
    {
      id: 'ha',
      label: 'Invented 3',
      curveFile: null,
      bands,
      outOfBand: {
        seenFromNm: 374,
        seenToNm: 733,
        meanOpticalDensity: { value: 2.94, standardUncertainty: 0.11 },
        worstOpticalDensity: absent,
        limit: { transmittance: 0.001, why: 'stray light' },
        ranges: [],
        leaks: [586.9, 604.7].map((peakNm) => ({
          fromNm: peakNm - 1,
          toNm: peakNm + 1,
          peakNm,
          peakTransmittance: 0.02019,
          standardUncertainty: 0.00019,
          widthNm: 1,
        })),
        rule: '',
      },
      beam: [],
      sky: absent,
      price: null,
      lampDrift: null,
    },
  ],
  conditions: {},
  usage: { ...absent, assumed: [] },
  assumptions: [{ input: 'stray light', value: 0.001, unit: 'relative', source: 'a standard' }],
  warnings: [],
});

const linesOf = (bands: readonly BandReport[], quotes = false): string[] =>
  measurementTable(measurement(bands), { out: 'result', quotes }).split('\n');

describe('measurementTable', () => {
  const lines = linesOf([band]);

  it.each([
    [
      'the scale',
      'Wavelengths: polynomial of order 4 through 2 of 3 lamp lines, 404.7 to 727.3 nm, residual rms',
    ],
    [
      'the sign ±',
      'A number after ± is one standard uncertainty; in a claim of the data sheet it is the tolerance.',
    ],
    ['the line spread', '  band for H-alpha; line spread of the instrument there: 1.17 nm'],
    ['the width', '    FWHM / nm                  3.2758 ± 0.0037    3.186 ± 0.018'],
    ['a peak on a flat top', '    peak at / nm               656.400 ± 0.050    656.20 ± 0.31 (flat top)'],
    ['the line by its name', '    transmittance at H-alpha       0.8989 ± 0.0017    0.915 ± 0.017'],
    ['lines beside it, corrected', '    transmittance at [N II] 658.3  0.3120 ± 0.0029    0.2381 ± 0.0035'],
    ['the two largest shares', '    corrected FWHM uncertain most by: noise 0.012 nm; line spread 0.0046 nm'],
    [
      'heads of the claims',
      '    claim                          data sheet       deviation       verdict  chance met',
    ],
    [
      'no tolerance',
      '    FWHM / nm                      3                −0.180 ± 0.018  no tolerance stated  –',
    ],
    [
      'two tolerances',
      '    centre / nm                    656.3 −0.3/+0.5  −0.180 ± 0.018  not met  < 0.1 %',
    ],
    ['a limit', '    peak transmittance             at least 0.9     −0.180 ± 0.018  met  97.3 %'],
    [
      'a claim at a line',
      '    transmittance at H-alpha       at most 0.99     −0.180 ± 0.018  met  > 99.9 %',
    ],
    ['a density', '    optical density 400 to 630 nm  at least 4       –               undecided  –'],
    [
      'the place of a density',
      '    optical density is judged by the worst place of its range, at 402.6 nm: at least 2.96 (stray',
    ],
    ['blocking', '  out of band, seen from 374 to 733 nm: mean optical density 2.94 ± 0.11'],
    ['a leak', '    leak at 586.9 nm: transmittance 0.02019 ± 0.00019'],
    ['another leak on a line of its own', '    leak at 604.7 nm: transmittance 0.02019 ± 0.00019'],
    ['the rule', 'A claim is (rule of the session): met where it fits.'],
    ['what is assumed', '  stray light: 0.001 relative (a standard)'],
  ])('shows %s', (_, wanted) => {
    // Blanks are those of the columns: only their presence is compared.
    const bare = (line: string): string => line.replace(/(\S) {2,}/g, '$1  ');
    expect(lines.map(bare)).toContain(bare(wanted));
  });

  it('keeps within 100 columns', () => {
    expect(lines.filter((line) => [...line].length > 100)).toEqual([]);
  });

  it('says of rounded claims that they are, and only then', () => {
    const note = 'A claimed value without a tolerance';
    expect(lines.some((line) => line.startsWith(note))).toBe(true);
    const none = linesOf([{ ...band, claims: band.claims.slice(1) }]);
    expect(none.some((line) => line.startsWith(note))).toBe(false);
  });

  it('gives the reason for dashes once, below the rows', () => {
    const corrected = {
      fwhmNm: narrow,
      centreNm: narrow,
      peakNm: narrow,
      peakTransmittance: narrow,
      transmittanceAtLine: narrow,
    };
    const without = linesOf([
      {
        ...band,
        corrected,
        lines: band.lines.map((line) => ({ ...line, corrected: narrow })),
        claims: [{ ...band.claims[0]!, basis: 'measured' }],
      },
    ]);
    expect(without.filter((line) => line.includes(narrow.absent))).toEqual([
      '    – corrected: the line spread is nearly as wide as the band',
    ]);
    expect(without).toContain('    judged by the number as measured: FWHM / nm');
    expect(without).toContain(
      '    FWHM as measured uncertain most by: noise 0.012 nm; line spread 0.0046 nm',
    );
    const one = linesOf([{ ...band, corrected: { ...band.corrected, peakNm: narrow } }]);
    expect(one).toContain('    – corrected, peak at / nm: the line spread is nearly as wide as the band');
  });

  it('prints sentences to quote only when asked', () => {
    expect(lines).not.toContain('To quote:');
    expect(linesOf([band], true)).toContain('  Invented 3, H-alpha: no width to quote, nothing to say');
  });

  it('explains the sign ± only where there is one', () => {
    const whole = measurement([]);
    const none = { ...whole.filters[0]!, outOfBand: { absent: 'no passband' } };
    const of = (filters: Measurement['filters']): string =>
      measurementTable({ ...whole, filters }, { out: 'result', quotes: false });
    expect(of([none])).not.toContain('after ±');
    expect(of(whole.filters)).toContain('after ±');
  });

  it('shows how far the wavelengths of the instrument are off, where frames carry them', () => {
    const whole = measurement([band]);
    const instrumentScale = { startNm: -0.258, middleNm: 0.001, endNm: 0.07, rmsNm: 0.134, largestNm: -0.26 };
    const calibration = { ...whole.calibration, instrumentScale };
    const text = measurementTable({ ...whole, calibration }, { out: 'result', quotes: false });
    expect(text.replace(/\s+/g, ' ')).toContain(
      "The instrument's own wavelengths are not used; they differ from these by −0.26 nm at the first pixel, " +
        '0.00 in the middle, +0.07 at the last, rms 0.13 nm',
    );
    expect(lines.join()).not.toContain('own wavelengths');
  });

  it('gives a deviation that rounds to zero no sign, and a share two digits', () => {
    const zero = { ...band.claims[2]!, deviation: { value: -0.04, standardUncertainty: 1.84 } };
    const budget = [{ source: 'noise', standardUncertaintyNm: 0.00996 }];
    const text = linesOf([{ ...band, claims: [zero], budget }]).join('\n');
    expect(text).toMatch(/at least 0\.9 +0\.0 ± 1\.8 /);
    expect(text).toContain('uncertain most by: noise 0.010 nm');
  });
});
