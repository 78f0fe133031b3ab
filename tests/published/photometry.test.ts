// Photometry and signal to noise against published figures and closed forms.
import { describe, expect, it } from 'vitest';
import { photometryTable } from '../../packages/halfmax/src/reference/index.js';
import {
  ARCSEC2_SR,
  exposureFor,
  lightSource,
  linePhotons,
  luminance,
  luminanceOfSky,
  moonBrightness,
  PHOTON_ENERGY_J_NM,
  planckPhotons,
  type Sky,
  setBrightness,
  signalToNoise,
  skyGrid,
  skyLimitedFrame,
  vMagnitude,
} from '../../packages/halfmax/src/sky/index.js';

const flatPower: Sky = { wavelengthNm: skyGrid, photons: skyGrid.map((at) => at / 550), lines: [] };

describe('zero points', () => {
  it('V = 0 is 995.5 photons/s/cm2/A at 545 nm (Bessell, Castelli, Plez 1998)', () => {
    const { vZeroPointWm2Nm, vEffectiveNm } = photometryTable;
    // per m2 and nm: 1e4 and 10 times as many; the two published figures agree to 0.07 %
    const photons = (vZeroPointWm2Nm * vEffectiveNm) / PHOTON_ENERGY_J_NM / 1e5;
    expect(Math.abs(photons / 995.5 - 1)).toBeLessThan(0.001);
  });

  it('a sky of V = 22 with an even spectrum has the zero point’s photons at 550 nm', () => {
    const sky = setBrightness(flatPower, 22);
    const at550 = sky.photons[400]!;
    const expected = ((photometryTable.vZeroPointWm2Nm * 550) / PHOTON_ENERGY_J_NM) * 10 ** -8.8;
    expect(at550 / expected).toBeCloseTo(1, 9);
  });

  it('the V band has its effective wavelength at 545 nm for a star of class A0', () => {
    // Same source; an A0 star as a black body of 9550 K. The band is a table of 10 nm steps: 2 nm.
    const star: Sky = { ...flatPower, photons: skyGrid.map((at) => planckPhotons(at, 9550)) };
    let [sum, weighted] = [0, 0];
    for (const [at, weight] of photometryTable.vBand as [number, number][]) {
      const power = (weight * star.photons[Math.round((at - 350) * 2)]!) / at;
      sum += power;
      weighted += power * at;
    }
    expect(Math.abs(weighted / sum - 545)).toBeLessThan(2);
  });

  it('a photon of 550 nm is 3.611719740e-19 J, a square arcsecond 2.350443054e-11 sr', () => {
    expect(PHOTON_ENERGY_J_NM / 550 / 3.61171974e-19).toBeCloseTo(1, 9);
    expect(ARCSEC2_SR / 2.350443054e-11).toBeCloseTo(1, 9);
  });

  it('one rayleigh of H-alpha is 2.41e-7 erg/cm2/s/sr (Haffner et al., ApJS 149, 405 (2003))', () => {
    const rayleigh = linePhotons({ value: 1, unit: 'rayleigh' }, 656.28);
    const energy = linePhotons({ value: 2.41e-7 * ARCSEC2_SR, unit: 'erg/s/cm2/arcsec2' }, 656.28);
    expect(Math.abs(energy / rayleigh - 1)).toBeLessThan(0.003);
  });
});

describe('luminance', () => {
  it.each([
    [16, 0.0429956],
    [18, 6.81434e-3],
    [20, 1.08e-3],
    [21, 4.29956e-4],
    [22, 1.71168e-4],
  ])('V %d: %d cd/m2 (1.08e5 x 10^(-0.4 V), Garstang 1986)', (magnitude, expected) => {
    expect(luminance(magnitude) / expected).toBeCloseTo(1, 5);
  });

  it('agrees with V(lambda) and the V band for the sun’s colour to 5 %', () => {
    // The relation is good for sky spectra to some 5 %: its factor depends on the spectrum.
    const sun: Sky = { ...flatPower, photons: skyGrid.map((at) => planckPhotons(at, 5772)) };
    expect(Math.abs(luminanceOfSky(sun) / luminance(vMagnitude(sun)) - 1)).toBeLessThan(0.05);
  });

  it('moonlight in nanolamberts is the same luminance: 34.08 exp(20.7233 - 0.92104 V)', () => {
    // Krisciunas, Schaefer (1991), equation 1; 1 nanolambert is 1e-5 / pi cd/m2.
    const { together } = moonBrightness({ illuminatedFraction: 1, altitudeDeg: 60, separationDeg: 45 });
    const nanolambert = 34.08 * Math.exp(20.7233 - 0.92104 * together);
    expect(Math.abs((nanolambert * 1e-5) / Math.PI / luminance(together) - 1)).toBeLessThan(0.01);
    // Their equations written out for this moon: I* = 10^(-0.4 3.84), X(30 deg), k = 0.172.
    const path = (1 - 0.96 * Math.sin(Math.PI / 6) ** 2) ** -0.5;
    const f = 10 ** 5.36 * (1.06 + 0.5) + 10 ** (6.15 - 45 / 40);
    const b = f * 10 ** -1.536 * 10 ** (-0.4 * 0.172 * path) * (1 - 10 ** (-0.4 * 0.172));
    expect(nanolambert / b).toBeCloseTo(1, 6);
  });
});

describe('signal to noise', () => {
  it('2 e/s on 25 pixels, sky 2, dark 0.01, read noise 3: 6.753199 in 600 s, 20 in 5229.303 s', () => {
    const rates = { signal: 2, sky: 2, dark: 0.01, readNoise: 3, pixels: 25 };
    expect(signalToNoise(rates, 600)).toBeCloseTo(6.753199, 6);
    expect(exposureFor(rates, 20)).toBeCloseTo(5229.303, 3);
    expect(signalToNoise(rates, exposureFor(rates, 20))).toBeCloseTo(20, 10);
  });

  it('read noise that adds 5 %: 1097.561 s at 0.02 e/s, 21.951 s at 1 e/s', () => {
    expect(skyLimitedFrame(0.02, 1.5)).toBeCloseTo(1097.561, 3);
    expect(skyLimitedFrame(1, 1.5)).toBeCloseTo(21.951, 3);
  });
});

describe('lamps', () => {
  // Luminous efficacy of radiation from 380 to 780 nm of CIE 15:2018 illuminants HP1 and LED-B3.
  it.each([
    ['high-pressure sodium', 394.53],
    ['LED 4103 K', 316.88],
  ])('%s: %d lm/W within 3 %', (name, expected) => {
    const lamp = lightSource(name)!;
    const pairs = photometryTable.luminousEfficiency as [number, number][];
    const eye = (at: number): number => {
      const k = Math.min(pairs.length - 2, Math.max(0, Math.floor((at - 380) / 10)));
      return pairs[k]![1] + ((at - pairs[k]![0]) / 10) * (pairs[k + 1]![1] - pairs[k]![1]);
    };
    let [power, light] = [0, 0];
    for (let at = 380.25; at < 780; at += 0.5) {
      power += 0.5 * lamp.powerAt(at);
      light += 0.5 * lamp.powerAt(at) * eye(at);
    }
    for (const line of lamp.lines) {
      power += line.power;
      light += line.power * eye(line.wavelengthNm);
    }
    expect(Math.abs((683 * light) / power / expected - 1)).toBeLessThan(0.03);
  });
});
