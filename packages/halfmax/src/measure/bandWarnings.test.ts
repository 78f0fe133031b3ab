import { describe, expect, it } from 'vitest';
import { quantity } from '../metrics/index.js';
import { bandWarnings } from './bandWarnings.js';
import type { UnjudgedBand } from './measureBand.js';

const warned = (peak: number, u: number, failed = 0): string[] => {
  const band = {
    report: {
      target: ['H-alpha'],
      extrapolated: false,
      asMeasured: { peakTransmittance: quantity(peak, u) },
      corrected: { fwhmNm: quantity(3, 0.01) },
    },
    spread: { failedShare: () => failed },
  } as unknown as UnjudgedBand;
  const of = { id: 'ha', lines: [], ranges: [], bands: [band], coveredNm: [400, 700] as const };
  return bandWarnings(of).map(({ where, what }) => `${where}: ${what}`);
};

describe('bandWarnings', () => {
  it('names the likely cause of a transmittance above 1, beyond its uncertainty only', () => {
    expect(warned(1.031, 0.004)).toEqual([
      expect.stringMatching(
        /^ha: the band for H-alpha .* 1\.0310 ± 0\.0040, above 1 .*lamp drifted .*open scan/,
      ),
    ]);
    expect(warned(107, 1)).toEqual([
      expect.stringMatching(/open and filtered scans have exchanged their roles/),
    ]);
    expect(warned(1.003, 0.004)).toEqual([]);
    expect(warned(0.95, 0.004)).toEqual([]);
  });

  it('says which share of the draws had no width', () => {
    expect(warned(0.9, 0.004, 0.0012)).toEqual([
      expect.stringMatching(/no width in 0\.12 % of the draws: .*budget/),
    ]);
  });
});
