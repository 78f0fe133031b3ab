import { describe, expect, it } from 'vitest';
import { beamProblems } from '../beam/index.js';
import { siteProblems } from './siteProblems.js';

describe('siteProblems', () => {
  it('finds nothing in a site in order', () => {
    expect(
      siteProblems({
        siteClass: 'village',
        lightSources: [{ source: 'LED 3000 K', share: 2 }],
        quantumEfficiency: [
          [400, 0.5],
          [700, 0.6],
        ],
        targets: [{ line: '[O III]', value: 10, unit: 'rayleigh' }],
      }),
    ).toEqual([]);
    expect(siteProblems({})).toEqual([]);
  });

  it.each([
    [{ siteClass: 'attic' }, 'site.siteClass', 'use one of city centre'],
    [
      { lightSources: [{ source: 'torch', share: 1 }] },
      'site.lightSources[0].source',
      'high-pressure sodium',
    ],
    [{ lightSources: [{ source: 'mercury', share: 0 }] }, 'site.lightSources', 'leave the field out'],
    [
      {
        quantumEfficiency: [
          [500, 0.5],
          [400, 0.5],
        ],
      },
      'site.quantumEfficiency[1]',
      'sort the table',
    ],
    [{ targets: [{ line: 'X-ray' }] }, 'site.targets[0].line', 'table of emission lines'],
    [{ rangeNm: [700, 400] }, 'site.rangeNm', 'lower value first'],
  ])('finds %j', (site, place, fix) => {
    const problems = siteProblems(site);
    expect(problems).toHaveLength(1);
    expect(problems[0]!.place).toBe(place);
    expect(problems[0]!.fix).toContain(fix);
  });
});

describe('beamProblems', () => {
  it.each([
    [{ fNumber: [4, 0.3] }, 'beam.fNumber'],
    [{ fNumber: 2, reducer: { factor: 0.2 } }, 'beam.fNumber'],
    [{ effectiveIndex: [2.1, 1.7] }, 'beam.effectiveIndex'],
    [{ temperatureNmPerK: [0.02, 0.01] }, 'beam.temperatureNmPerK'],
  ])('finds %j', (beam, place) => {
    expect(beamProblems(beam).map((problem) => problem.place)).toEqual([place]);
  });

  it('finds nothing in a beam in order', () => {
    expect(beamProblems({ fNumber: [2.8, 4], effectiveIndex: [1.7, 2.1] })).toEqual([]);
    expect(beamProblems({})).toEqual([]);
  });
});
