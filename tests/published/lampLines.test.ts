import { describe, expect, it } from 'vitest';
import { lampLines } from '../../packages/halfmax/src/reference/index.js';

/**
 * Wavelengths in air, nm, as printed. All from memory.
 *
 * Hg: C. J. Sansonetti, M. L. Salit, J. Reader, Appl. Opt. 35, 74 (1996), table 1.
 * Ne: K. Burns, K. B. Adams, J. Longwell, J. Opt. Soc. Am. 40, 339 (1950), interferometric standards.
 * Ar: CRC Handbook of Chemistry and Physics, line spectra of the elements, argon I, rounded to 0.0001 nm.
 */
const PRINTED: Readonly<Record<string, readonly number[]>> = {
  'Hg I': [404.6565, 407.7837, 435.8335, 546.075, 576.961, 579.067],
  'Ne I': [
    585.24878, 588.1895, 594.48342, 607.43377, 609.61631, 614.30626, 616.35939, 621.72813, 626.6495,
    633.44279, 638.29917, 640.2246, 650.65281, 653.28822, 659.89529, 667.82764, 671.70428, 692.94672,
    703.24128, 724.51665,
  ],
  'Ar I': [
    696.5431, 706.7218, 738.398, 750.3869, 751.4652, 763.5106, 772.3761, 794.8176, 800.6157, 801.4786,
    811.5311, 826.4522,
  ],
};

/** What printings of half a century differ by, nm: a tenth of what a calibration asks. */
const AGREED_NM = 0.0006;

describe('lamp lines', () => {
  for (const [species, wavelengths] of Object.entries(PRINTED)) {
    it.each(wavelengths)(`${species} %f nm is in the table, as printed`, (printed) => {
      const own = lampLines.filter((line) => line.species === species).map((line) => line.wavelengthNm);
      const nearest = own.reduce((a, b) => (Math.abs(b - printed) < Math.abs(a - printed) ? b : a));
      expect(Math.abs(nearest - printed)).toBeLessThan(AGREED_NM);
    });
  }
});
