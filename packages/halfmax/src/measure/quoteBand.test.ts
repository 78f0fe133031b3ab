import { describe, expect, it } from 'vitest';
import type { Quantity } from '../metrics/index.js';
import { furtherQuotes, quoteBand } from './quoteBand.js';

const absent = { absent: 'not asked for' };
const numbers = (fwhmNm: Quantity) => ({
  fwhmNm,
  centreNm: absent,
  peakNm: absent,
  peakTransmittance: absent,
  transmittanceAtLine: absent,
});
const measured: Quantity = { value: 3.27584, standardUncertainty: 0.00382, interval95: [3.2684, 3.2834] };
const corrected: Quantity = { value: 3.18712, standardUncertainty: 0.01776, interval95: [3.1518, 3.2221] };
const band = (of: { fwhm?: Quantity; correctedFwhm?: Quantity; extrapolated?: boolean } = {}) => ({
  target: ['H-alpha'],
  asMeasured: numbers(of.fwhm ?? measured),
  corrected: numbers(of.correctedFwhm ?? corrected),
  lineSpreadNm: { value: 1.1634, standardUncertainty: 0.004 },
  extrapolated: of.extrapolated ?? false,
  monteCarlo: { draws: 20_000, stopped: 'adaptive' as const, linearCheck: absent },
});
const bench = { fNumber: null, temperatureC: null, spot: null };
const context = { label: 'Invented 3', bench, scans: 2, frames: 4 };

describe('quoteBand', () => {
  it('states the corrected width with all that belongs to it, rounded by its uncertainty', () => {
    expect(quoteBand(band(), context)).toEqual({
      text:
        'Invented 3: FWHM (H-alpha band, outermost half-peak crossings, line spread of 1.16 nm taken out) 3.187 nm ' +
        'with a standard uncertainty of 0.018 nm; 95 % interval 3.152 to 3.222 nm; 4 frames in 2 scans, ' +
        '20000 Monte Carlo draws; measuring beam, temperature and spot not stated.',
      quantity: 'fwhmNm',
      definition: "between the outermost crossings of half of the band's own peak",
      basis: 'corrected',
      value: 3.187,
      standardUncertainty: 0.018,
      interval95: [3.152, 3.222],
      lineSpreadNm: 1.16,
      scans: 2,
      frames: 4,
      draws: 20_000,
      bench,
    });
  });

  it('takes the width as measured where there is no corrected one, and says so', () => {
    const quote = quoteBand(band({ correctedFwhm: { absent: 'too narrow' } }), context);
    expect(quote).toMatchObject({ basis: 'measured', value: 3.2758, standardUncertainty: 0.0038 });
    expect('text' in quote && quote.text).toContain('line spread of 1.16 nm not taken out) 3.2758 nm');
  });

  it('quotes the other numbers of a band where it has them', () => {
    const centre: Quantity = { value: 656.4464, standardUncertainty: 0.0059, interval95: [656.435, 656.458] };
    const atLine: Quantity = { value: 0.9071, standardUncertainty: 0.0106, interval95: [0.886, 0.927] };
    const whole = {
      ...band(),
      corrected: { ...numbers(corrected), centreNm: centre },
      asMeasured: { ...numbers(measured), transmittanceAtLine: atLine },
    };
    const quotes = furtherQuotes(whole, context);
    expect(quotes.map(({ quantity, basis }) => [quantity, basis])).toEqual([
      ['centreNm', 'corrected'],
      ['transmittanceAtLine', 'measured'],
    ]);
    expect(quotes[0]!.text).toContain(
      'taken out) 656.4464 nm with a standard uncertainty of 0.0059 nm; 95 % interval',
    );
    expect(quotes[1]!.text).toContain(
      'not taken out) 0.907 with a standard uncertainty of 0.011; 95 % interval 0.886',
    );
  });

  it('names what the session states of the bench, and what it does not', () => {
    const text = (conditions: Partial<typeof bench> | object): string => {
      const quote = quoteBand(band(), {
        ...context,
        scans: 1,
        frames: 1,
        bench: { ...bench, ...conditions },
      });
      return 'text' in quote ? quote.text : quote.absent;
    };
    expect(text({ fNumber: 8, temperatureC: 21.5, spot: 'centre, 6 mm' })).toMatch(
      /; 1 frame in 1 scan, .*; measuring beam f\/8, 21\.5 °C, spot: centre, 6 mm\.$/,
    );
    expect(text({ temperatureC: 0 })).toMatch(/; 0 °C, measuring beam and spot not stated\.$/);
    expect(text({ fNumber: 8, spot: 'centre' })).toMatch(/f\/8, spot: centre, temperature not stated\.$/);
  });

  it('says that a scale is extrapolated', () => {
    const quote = quoteBand(band({ extrapolated: true }), context);
    expect('text' in quote && quote.text).toContain('; wavelengths extrapolated beyond the lamp lines; ');
  });

  it('gives no quote without a width or without its uncertainty', () => {
    const none = { absent: 'the band is cut' };
    expect(quoteBand(band({ fwhm: none, correctedFwhm: none }), context)).toEqual(none);
    const bare: Quantity = { value: 3, standardUncertainty: 0, interval95: [3, 3] };
    expect(quoteBand(band({ correctedFwhm: bare }), context)).toHaveProperty('absent');
  });
});
