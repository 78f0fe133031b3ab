import { describe, expect, it } from 'vitest';
import { isAbsent, type Quantity, quantity } from '../metrics/index.js';
import { beamReport } from './beamReport.js';
import { type Candidate, compareFilters } from './compareFilters.js';
import { conditionsOf } from './conditions.js';
import type { BandReport } from './measurement.js';
import { lineBrightness } from './siteConditions.js';
import { skyOf } from './skyOf.js';
import { skyReport } from './skyReport.js';

const scan = Float64Array.from({ length: 1600 }, (_, i) => 390 + 0.2 * i);
const curveOf = (centreNm: number, widthNm: number): Candidate['curve'] => ({
  wavelengthNm: scan,
  transmittance: scan.map((at) => 0.9 / (1 + ((2 * (at - centreNm)) / widthNm) ** 6)),
  standardUncertainty: new Float64Array(scan.length).fill(0.003),
  trials: [],
});
const bandOf = (target: readonly string[], centreNm: number): BandReport =>
  ({
    target,
    asMeasured: { centreNm: quantity(centreNm, 0.02), peakTransmittance: quantity(0.9, 0.004) },
  }) as unknown as BandReport;
const bench = { fNumber: 10, temperatureC: 21, spot: null };
const manifest = {
  bench: { temperatureC: 21 },
  beam: { fNumber: [3, 6], centralObstruction: 0.3, effectiveIndex: [1.8, 2], temperatureC: 1 },
  site: {
    skyBrightness: 19,
    lightSources: [{ source: 'LED 4000 K', share: 1 }],
    quantumEfficiency: [
      [400, 0.6],
      [550, 0.85],
      [720, 0.6],
    ],
    targets: [{ line: 'H-alpha', value: 40, unit: 'rayleigh' }],
    camera: { pixelUm: 3.76, readNoise: 1.5, darkCurrent: 0.001 },
    nightHours: 7,
  },
};
const conditions = conditionsOf(manifest);
const candidate = (label: string, widthNm: number, amount: number | null = null): Candidate => ({
  from: 'here',
  id: label,
  label,
  curve: curveOf(656.8, widthNm),
  bands: [bandOf(['H-alpha'], 656.8)],
  bench,
  price: amount === null ? null : { amount, currency: 'EUR' },
});
const value = (number: Quantity): number => {
  if (isAbsent(number)) throw new Error(number.absent);
  return number.value;
};

describe('conditionsOf', () => {
  it('takes what is stated and assumes nothing then', () => {
    expect(conditions.assumed).toEqual([]);
    expect(conditions.beam.fNumbers).toEqual([3, 6]);
    expect(conditions.site.camera.fNumber).toBe(3);
    expect(conditions.site.nightHours).toBe(7);
    expect(lineBrightness(conditions.site, { name: 'H-alpha', species: 'H-alpha' })).toEqual({
      value: 40,
      unit: 'rayleigh',
    });
  });

  it('names everything that it assumes', () => {
    const { assumed, beam, site } = conditionsOf({});
    expect(assumed.map((words) => words.split(':')[0])).toEqual([
      'focal ratio',
      'effective index',
      'quantum efficiency',
      'target',
      'pixel',
      'read noise',
      'dark current',
    ]);
    expect(beam.effectiveIndex).toEqual([1.5, 2.1]);
    expect(site.rangeNm).toEqual([400, 700]);
  });

  it('a filter before the reducer sees the slower cone, the sensor the faster', () => {
    const { beam, site } = conditionsOf({
      beam: { fNumber: 8, reducer: { factor: 0.5, filterPlace: 'before' } },
    });
    expect(beam.fNumbers).toEqual([8]);
    expect(site.camera.fNumber).toBe(4);
    expect(conditionsOf({ beam: { fNumber: 8, reducer: { factor: 0.5 } } }).beam.fNumbers).toEqual([4]);
  });

  it('sees no further than the table of quantum efficiency', () => {
    const { site } = conditionsOf({
      site: {
        quantumEfficiency: [
          [420, 0.5],
          [680, 0.5],
        ],
      },
    });
    expect(site.rangeNm).toEqual([420, 680]);
  });
});

describe('beamReport', () => {
  const [line, ...others] = beamReport(curveOf(656.8, 3), [bandOf(['H-alpha'], 656.8)], conditions.beam, {
    bench,
    seed: 1,
    draws: 400,
  });

  it('has an entry for each target, with the ratios asked for', () => {
    expect(others).toEqual([]);
    expect(line!.line).toBe('H-alpha');
    expect(line!.inBeam.map(({ fNumber }) => fNumber)).toEqual([3, 6]);
    expect(line!.measuredAtFNumber).toBe(10);
    expect(line!.temperatureDifferenceK).toBe(-20);
    expect(value(line!.inBeam[0]!.transmittance)).toBeLessThan(value(line!.inBeam[1]!.transmittance));
  });

  it('can be written as JSON without a number lost', () => {
    expect(JSON.parse(JSON.stringify(line))).toEqual(line);
  });
});

describe('a temperature in use', () => {
  const cold = { ...manifest, bench: {}, beam: { ...manifest.beam, temperatureC: -40 } };

  it('is held against a bench at 20 degrees where that is not stated, and says so', () => {
    const { assumed, beamAssumed } = conditionsOf(cold);
    expect(assumed).toEqual(['temperature on the bench: 20 °C (reference temperature of ISO 1)']);
    expect(beamAssumed).toEqual(assumed);
    const unstated = { ...bench, temperatureC: null };
    const one = candidate('three', 3);
    const [line] = beamReport(one.curve, one.bands, conditionsOf(cold).beam, { bench: unstated, seed: 1 });
    expect(line!.temperatureDifferenceK).toBe(-60);
  });
});

describe('skyReport', () => {
  const { sky } = skyOf(conditions);
  const reportOf = (one: Candidate): ReturnType<typeof skyReport> =>
    skyReport(one.curve, one.bands, conditions, sky, { bench, seed: 1, draws: 400, price: one.price });

  it('gives line, sky, hours and price, and can be written as JSON', () => {
    const { report, trials } = reportOf(candidate('three', 3, 300));
    if (isAbsent(report)) throw new Error(report.absent);
    expect(trials[0]!.quality).toHaveLength(400);
    const line = report.lines[0]!;
    expect(value(line.hoursToEqualNight) + value(line.hoursSavedPerNight)).toBeCloseTo(7, 9);
    expect(line.pricePerHourSaved).toHaveProperty('currency', 'EUR');
    expect(report.continuum.signalToNoise).toBeLessThan(1);
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
  });

  it('tells both lines of a doublet apart and together', () => {
    const pair = { ...candidate('pair', 8), bands: [bandOf(['[S II] 671.6', '[S II] 673.1'], 656.8)] };
    const shifted = { ...pair, curve: curveOf(672.3, 8) };
    const { report } = reportOf(shifted);
    if (isAbsent(report)) throw new Error(report.absent);
    expect(report.lines.map(({ name }) => name)).toEqual([
      '[S II] 671.6',
      '[S II] 673.1',
      '[S II], both lines',
    ]);
    const [one, other, both] = report.lines;
    // The light adds up; a picture of both takes fewer hours than of either.
    expect(value(both!.signalPerPixel)).toBeCloseTo(
      value(one!.signalPerPixel) + value(other!.signalPerPixel),
      9,
    );
    expect(value(both!.hours)).toBeLessThan(Math.min(value(one!.hours), value(other!.hours)));
  });

  it('says how sure the loss of a continuum is', () => {
    const { report } = reportOf(candidate('three', 3));
    if (isAbsent(report)) throw new Error(report.absent);
    const { share, shareUncertainty, signalToNoiseUncertainty } = report.continuum;
    expect(shareUncertainty).toBeGreaterThan(0);
    expect(shareUncertainty).toBeLessThan(0.1 * share);
    expect(signalToNoiseUncertainty).toBeGreaterThan(0);
  });

  it('says why there is none', () => {
    const none = { ...candidate('none', 3), bands: [bandOf([], 656.8)] };
    expect(reportOf(none).report).toEqual({ absent: 'no passband is for a known line' });
  });
});

describe('compareFilters', () => {
  const trials = { seed: 5, draws: 400 };

  it('ranks the narrower of two before the wider, and ties two of a kind', () => {
    const list = [candidate('twelve', 12), candidate('six a', 6), candidate('six b', 6.02)];
    const { lines } = compareFilters(list, conditions, trials);
    expect(lines.map(({ line }) => line)).toEqual(['H-alpha']);
    const [first, second, third] = lines[0]!.filters;
    expect([first!.rank, second!.rank, third!.rank]).toEqual([1, 1, 3]);
    expect(first!.tiedWith).toEqual([second!.label]);
    expect(first!.gainOverFirst).toMatchObject({ value: 1, standardUncertainty: 0 });
    // Twice the width passes nearly twice the sky: the gain falls with its root.
    expect(value(third!.gainOverFirst)).toBeGreaterThan(0.6);
    expect(value(third!.gainOverFirst)).toBeLessThan(0.85);
    expect(third!.label).toBe('twelve');
    expect(third!.tiedWith).toEqual([]);
  });

  it('leaves out with a reason, and gives the same numbers for the same seed', () => {
    const empty = new Float64Array(0);
    const blind = {
      ...candidate('blind', 3),
      curve: { wavelengthNm: empty, transmittance: empty, standardUncertainty: empty, trials: [] },
    };
    const once = compareFilters([blind, candidate('six', 6)], conditions, trials);
    expect(once.leftOut).toEqual([{ from: 'here', label: 'blind', why: 'it has no curve' }]);
    expect(compareFilters([blind, candidate('six', 6)], conditions, trials)).toEqual(once);
  });

  it('takes a measured sky where there is one, set to the brightness of the site', () => {
    // All its light beyond 600 nm: an H-alpha filter lets a larger share of it through.
    const red = {
      wavelengthNm: scan,
      values: scan.map((at) => (at > 600 ? 10 : 1)),
      unit: 'relative photons' as const,
    };
    const hours = (spectrum?: typeof red): number =>
      value(compareFilters([candidate('six', 6)], conditions, trials, spectrum).lines[0]!.filters[0]!.hours);
    const measured = compareFilters([candidate('six', 6)], conditions, trials, red);
    expect(measured.site.parts.map(({ name }) => name)).toEqual(['measured spectrum']);
    expect(measured.site.vMagnitude).toBeCloseTo(19, 6);
    expect(hours(red)).toBeGreaterThan(2 * hours());
  });
});
