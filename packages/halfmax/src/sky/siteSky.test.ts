import { describe, expect, it } from 'vitest';
import { lampSky } from './lampSky.js';
import { knownLightSources, lightSource } from './lightSource.js';
import { mixSkies } from './mixSkies.js';
import { moonBrightness } from './moonBrightness.js';
import { moonSky } from './moonSky.js';
import { naturalSky } from './naturalSky.js';
import { airTransmission, opticalDepth } from './scattering.js';
import { setBrightness } from './setBrightness.js';
import { siteClasses, siteSky } from './siteSky.js';
import { skyFromSpectrum } from './skyFromSpectrum.js';
import { skyGrid } from './skyGrid.js';
import { vMagnitude } from './vMagnitude.js';

describe('siteSky', () => {
  it.each([16, 18.5, 20, 21, 21.7, 22.3])('has the brightness asked for: %d', (skyBrightness) => {
    const site = siteSky({
      skyBrightness,
      lightSources: [{ source: 'LED 4000 K', share: 1 }],
      skyBrightnessUncertainty: 0.05,
      airglowRelativeUncertainty: 0.2,
    });
    expect(site.vMagnitude).toBeCloseTo(skyBrightness, 9);
    const total = site.parts.reduce((sum, part) => sum + 10 ** (-0.4 * part.vMagnitude), 0);
    expect(-2.5 * Math.log10(total)).toBeCloseTo(skyBrightness, 9);
    expect(site.assumed).toEqual([]);
  });

  it('has no lamps where it is as dark as the natural sky', () => {
    expect(siteSky({ skyBrightness: 22 }).parts.map(({ name }) => name)).toEqual([
      'airglow',
      'zodiacal light',
      'starlight',
    ]);
  });

  it('says what it assumes', () => {
    const moon = { illuminatedFraction: 0.5, altitudeDeg: 30, separationDeg: 60 };
    expect(siteSky({ moon }).assumed.map((words) => words.split(':')[0])).toEqual([
      'class of the site',
      'lamps of the site',
      'share of each lamp',
      'brightness of the sky',
      'strength of the airglow',
      'moonlight',
    ]);
    expect(siteSky({ siteClass: 'desert' }).assumed.join()).toContain('desert, 21.8');
    expect(siteClasses).toContain('city centre');
  });

  it('the moon comes on top, unless it is down', () => {
    const moon = { illuminatedFraction: 1, altitudeDeg: 50, separationDeg: 60 };
    expect(siteSky({ skyBrightness: 21, moon }).vMagnitude).toBeLessThan(19.5);
    const down = siteSky({ skyBrightness: 21, moon: { ...moon, altitudeDeg: -5 } });
    expect(down.vMagnitude).toBeCloseTo(21, 9);
    expect(down.parts.map(({ name }) => name)).not.toContain('moon');
  });

  it.each([
    [{ skyBrightness: -1 }, 'brightness from 0 to 30'],
    [{ skyBrightness: Number.NaN }, 'brightness from 0 to 30'],
    [{ siteClass: 'moon base' }, 'one of city centre, city'],
    [{ skyBrightness: 18, lightSources: [{ source: 'candle', share: 1 }] }, 'got candle'],
    [{ skyBrightness: 18, lightSources: [{ source: 'mercury', share: -1 }] }, 'shares of 0 or more'],
    [{ skyBrightness: 18, lightSources: [{ source: 'mercury', share: 0 }] }, 'a share above 0'],
    [{ skyBrightness: 18, aerosol: { opticalDepth550: -1, exponent: 1 } }, 'depth of 0 or more'],
    [{ moon: { illuminatedFraction: 2, altitudeDeg: 5, separationDeg: 5 } }, 'illuminated fraction'],
  ])('refuses %j', (site, message) => {
    expect(() => siteSky(site)).toThrow(RangeError);
    expect(() => siteSky(site)).toThrow(message);
  });
});

describe('lightSource', () => {
  it('knows every name that it offers, and its other names', () => {
    for (const name of knownLightSources.slice(0, -1)) expect(lightSource(name)?.name).toBe(name);
    expect(lightSource('HPS')?.name).toBe('high-pressure sodium');
    expect(lightSource('led-3000K')?.name).toBe('LED 3000 K');
    expect(lightSource('LED')?.name).toBe('LED 4000 K');
    expect(lightSource('LED 9000 K')).toBeNull();
  });

  // Shares of the power from 380 to 780 nm within 6.9 nm at 656.3, 501 and 672 nm, per cent, read from open spectra of
  // measured street lamps. Lamps of one kind differ by up to half, and the last digit of the reading is 0.1.
  it.each([
    ['high-pressure sodium', [1.2, 1.7, 1.0]],
    ['LED 4000 K', [1.5, 1.3, 1.0]],
    ['LED 3000 K', [2.4, 1.2, 1.7]],
    ['mercury', [0.7, 0.8, 0.6]],
    ['amber LED', [2.2, 0.03, 1.3]],
    ['low-pressure sodium', [0, 0, 0]],
  ])('%s has shares like those of measured lamps', (name, shares) => {
    const lamp = lightSource(name as string)!;
    const power = (from: number, to: number): number => {
      let sum = 0;
      for (let i = 0; i < 4000; i++)
        sum += (lamp.powerAt(from + ((to - from) * (i + 0.5)) / 4000) * (to - from)) / 4000;
      for (const line of lamp.lines)
        if (line.wavelengthNm >= from && line.wavelengthNm <= to) sum += line.power;
      return sum;
    };
    const total = power(380, 780);
    [656.3, 501, 672].forEach((at, k) => {
      const found = (100 * power(at - 3.45, at + 3.45)) / total;
      const measured = (shares as number[])[k]!;
      expect(Math.abs(found - measured)).toBeLessThanOrEqual(0.5 * measured + 0.05);
    });
  });

  it('LEDs between two of the table lie between them', () => {
    const at = (name: string): number => lightSource(name)!.powerAt(450) / lightSource(name)!.powerAt(600);
    expect(at('LED 3500 K')).toBeGreaterThan(at('LED 3000 K'));
    expect(at('LED 3500 K')).toBeLessThan(at('LED 4100 K'));
  });
});

describe('parts of a sky', () => {
  it('the natural zenith is as dark as published ones: V 21.45 to 21.9', () => {
    // Massey, Foltz, PASP 112, 566 (2000), and others: dark sites without lamps.
    const parts = Object.values(naturalSky()).map((sky) => ({ sky, factor: 1 }));
    const dark = vMagnitude(mixSkies(parts));
    expect(dark).toBeGreaterThan(21.45);
    expect(dark).toBeLessThan(21.9);
  });

  it('molecules scatter with about the fourth power, haze with its own', () => {
    const ratio = opticalDepth(450).rayleigh / opticalDepth(650).rayleigh;
    // 4.08 from 0.4 to 0.7 um: the index of air rises to the blue.
    expect(Math.log(ratio) / Math.log(650 / 450)).toBeCloseTo(4.08, 1);
    const haze = { opticalDepth550: 0.2, exponent: 1 };
    expect(opticalDepth(275, haze).aerosol).toBeCloseTo(0.4, 12);
    expect(airTransmission(550, 2, haze)).toBeCloseTo(Math.exp(-2 * (0.2 + opticalDepth(550).rayleigh)), 12);
    expect(() => airTransmission(550, 0.5)).toThrow('airmass');
  });

  it('scattered lamplight is bluer than the lamp, less so through haze', () => {
    const blueOver = (opticalDepth550: number): number => {
      const sky = lampSky([{ source: 'LED 4000 K', share: 1 }], { opticalDepth550, exponent: 1.3 });
      return sky.photons[200]! / sky.photons[600]!; // 450 over 650 nm
    };
    const lamp = lightSource('LED 4000 K')!;
    const own = (lamp.powerAt(450) * 450) / (lamp.powerAt(650) * 650);
    expect(blueOver(0)).toBeGreaterThan(blueOver(0.5));
    expect(blueOver(0.5)).toBeGreaterThan(own);
  });

  it('moonlight: brighter near the moon and with more of it lit, blue away from it', () => {
    const place = { illuminatedFraction: 1, altitudeDeg: 45, separationDeg: 60 };
    const full = moonBrightness(place);
    expect(moonBrightness({ ...place, separationDeg: 15 }).together).toBeLessThan(full.together);
    expect(moonBrightness({ ...place, illuminatedFraction: 0.5 }).together).toBeGreaterThan(
      full.together + 2,
    );
    expect(moonBrightness({ ...place, illuminatedFraction: 0 }).together).toBe(Number.POSITIVE_INFINITY);
    const sky = moonSky({ ...place, separationDeg: 90 });
    // The published factor 0.92104 is 0.4 ln 10 rounded.
    expect(vMagnitude(sky)).toBeCloseTo(moonBrightness({ ...place, separationDeg: 90 }).together, 5);
    expect(sky.photons[200]).toBeGreaterThan(sky.photons[600]!);
  });

  it('a measured spectrum is set to a brightness, or taken as it is', () => {
    const spectrum = { wavelengthNm: [400, 500, 800], values: [1, 2, 2], unit: 'relative energy' } as const;
    expect(vMagnitude(skyFromSpectrum(spectrum, 20.5))).toBeCloseTo(20.5, 9);
    expect(() => skyFromSpectrum(spectrum)).toThrow('requires a brightness');
    expect(() => skyFromSpectrum({ ...spectrum, values: [1, -2, 2] }, 20)).toThrow('0 or more');
    expect(() => skyFromSpectrum({ ...spectrum, wavelengthNm: [400, 500, 600] }, 20)).toThrow(
      'covers 470 to 700 nm',
    );
    const absolute = skyFromSpectrum({ ...spectrum, unit: 'photons/s/m2/arcsec2/nm' });
    expect([...absolute.photons]).toEqual([1, 2, 2]);
    expect(() => setBrightness(absolute, Number.NaN)).toThrow(RangeError);
  });

  it('mixing needs one table of wavelengths', () => {
    const one = { wavelengthNm: skyGrid, photons: new Float64Array(skyGrid.length), lines: [] };
    const other = { wavelengthNm: Float64Array.of(1, 2), photons: Float64Array.of(1, 1), lines: [] };
    expect(() =>
      mixSkies([
        { sky: one, factor: 1 },
        { sky: other, factor: 1 },
      ]),
    ).toThrow('one table');
    expect(() => mixSkies([{ sky: one, factor: -1 }])).toThrow('factors of 0 or more');
    expect(() => mixSkies([])).toThrow('at least 1');
  });
});
