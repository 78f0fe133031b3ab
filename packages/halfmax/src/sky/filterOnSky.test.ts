import { describe, expect, it } from 'vitest';
import { isAbsent, type Quantity } from '../metrics/index.js';
import { type Camera, pixelGrasp } from './camera.js';
import { colourChannels } from './colourChannels.js';
import { continuumLoss } from './continuumLoss.js';
import { filterOnSky } from './filterOnSky.js';
import { linePhotons } from './photonRates.js';
import { airTransmission } from './scattering.js';
import { exposureInFrames } from './signalToNoise.js';
import { skyGrid } from './skyGrid.js';
import type { Sky } from './types.js';

const flat: Sky = { wavelengthNm: skyGrid, photons: new Float64Array(skyGrid.length).fill(0.5), lines: [] };
const scan = Float64Array.from({ length: 2001 }, (_, i) => 400 + 0.16 * i);
/** A band with straight sides 0.16 nm wide: its area is its width. */
const band = (centreNm: number, widthNm: number, top = 1, noise = 0): Parameters<typeof filterOnSky>[0] => ({
  wavelengthNm: scan,
  transmittance: scan.map((at) => (Math.abs(at - centreNm) < widthNm / 2 ? top : 0)),
  standardUncertainty: new Float64Array(scan.length).fill(noise),
});
const camera: Camera = { fNumber: 5, pixelUm: 3.76, quantumEfficiency: 0.8, readNoise: 1.5, darkCurrent: 0 };
const alpha = { name: 'H-alpha', wavelengthNm: 656.28, brightness: { value: 10, unit: 'rayleigh' } } as const;
const seen = (
  curve: Parameters<typeof filterOnSky>[0],
  options = {},
): Exclude<ReturnType<typeof filterOnSky>, { absent: string }> => {
  const found = filterOnSky(curve, [alpha], flat, {
    camera,
    effectiveIndex: 2,
    seed: 1,
    draws: 60,
    ...options,
  });
  if (isAbsent(found)) throw new Error(found.absent);
  return found;
};
const value = (number: Quantity): number => {
  if (isAbsent(number)) throw new Error(number.absent);
  return number.value;
};

describe('filterOnSky under a flat sky', () => {
  // Same line transmittance, W against 300 nm: signal to noise goes with sqrt(300 / W).
  it.each([3.2, 6.4, 12.8])('a window of %d nm gains by the root of the widths', (widthNm) => {
    const found = seen(band(656.28, widthNm));
    const area = band(656.28, widthNm).transmittance.reduce((sum, t) => sum + 0.16 * t, 0);
    expect(value(found.effectiveWidthNm)).toBeCloseTo(area, 9);
    expect(value(found.skyTransmittance)).toBeCloseTo(area / 300, 11);
    expect(value(found.lines[0]!.gain)).toBeCloseTo(Math.sqrt(300 / area), 9);
    const grasp = pixelGrasp(camera);
    expect(value(found.skyPerPixel)).toBeCloseTo(0.5 * area * 0.8 * grasp, 12);
    const signal = linePhotons(alpha.brightness, 656.28) * airTransmission(656.28, 1) * 0.8 * grasp;
    expect(value(found.lines[0]!.signalPerPixel)).toBeCloseTo(signal, 12);
    expect(value(found.lines[0]!.contrast)).toBeCloseTo(signal / (0.5 * area * 0.8 * grasp), 9);
    const rates = { signal, sky: 0.5 * area * 0.8 * grasp, dark: 0, readNoise: 1.5 };
    expect(value(found.lines[0]!.hours) * 3600).toBeCloseTo(exposureInFrames(rates, 10, found.frameS), 5);
  });

  it('half the transmittance costs twice the time where only the sky counts', () => {
    const faint = { ...alpha, brightness: { value: 0.01, unit: 'rayleigh' } } as const;
    const hours = (top: number): number => {
      const found = filterOnSky(band(656.28, 6.4, top), [faint], flat, {
        camera: { ...camera, readNoise: 0 },
        effectiveIndex: 2,
        seed: 1,
        draws: 60,
      });
      if (isAbsent(found)) throw new Error(found.absent);
      return value(found.lines[0]!.hours);
    };
    expect(hours(0.5) / hours(1)).toBeCloseTo(2, 3);
  });

  it('a colour camera: the share of pixels and colours that the line reaches', () => {
    const mono = seen(band(656.28, 6.4), { camera: { ...camera, readNoise: 0 } });
    const found = seen(band(656.28, 6.4), {
      camera: { ...camera, readNoise: 0, channels: colourChannels() },
    });
    // At 656.28 nm: 0.25 x 0.829 + 0.5 x 0.116 + 0.25 x 0.048, straight between 640 and 660 nm of the table.
    expect(found.lines[0]!.colourShare).toBeCloseTo(0.277, 3);
    expect(mono.lines[0]!.colourShare).toBe(1);
    // Line and sky are dimmed alike inside the band: the time grows as the share falls.
    expect(value(found.lines[0]!.hours) / value(mono.lines[0]!.hours)).toBeCloseTo(
      1 / found.lines[0]!.colourShare,
      1,
    );
  });

  it('noise, level and scale of the curve come through', () => {
    const found = seen(band(656.28, 6.4, 0.9, 0.01), { level: 0.02, draws: 2000 });
    const line = found.lines[0]!;
    if (isAbsent(line.transmittance) || isAbsent(found.effectiveWidthNm)) throw new Error('absent');
    expect(line.transmittance.standardUncertainty).toBeCloseTo(
      0.9 * Math.hypot(0.01 / 0.9 / Math.SQRT2, 0.02),
      2,
    );
    const noise = 0.16 * 0.01 * Math.sqrt(1876);
    expect(found.effectiveWidthNm.standardUncertainty).toBeCloseTo(Math.hypot(noise, 0.02 * 5.76), 1);
    expect(found.effectiveWidthNm.interval95[0]).toBeLessThan(found.effectiveWidthNm.value);
  });

  it('an unsure index matters in a fast beam alone', () => {
    const spread = (fNumber: number): number => {
      const { transmittance } = seen(band(656.28, 3.2), {
        beam: { fNumber },
        effectiveIndex: [1.5, 2.1],
        draws: 500,
      }).lines[0]!;
      if (isAbsent(transmittance)) throw new Error('absent');
      return transmittance.standardUncertainty;
    };
    expect(spread(2.5)).toBeGreaterThan(0.03);
    expect(spread(12)).toBeLessThan(1e-9);
  });

  it('says why, or how much it did not see', () => {
    const short = { ...band(656.28, 6.4), wavelengthNm: scan.map((at) => at + 40) };
    expect(seen({ ...short, transmittance: band(616.28, 6.4).transmittance }).unseenNm).toBeCloseTo(40, 6);
    const off = { ...alpha, wavelengthNm: 730 };
    expect(filterOnSky(band(656, 6), [off], flat, { camera, seed: 1, draws: 60 })).toHaveProperty('absent');
  });

  it.each([
    [{ camera: { ...camera, fNumber: 0 } }, 'f-number above 0'],
    [{ camera: { ...camera, quantumEfficiency: 1.5 } }, 'response from 0 to 1'],
    [{ camera: { ...camera, readNoise: -1 } }, 'read noise'],
    [{ camera: { ...camera, channels: [{ name: 'red', share: 0.5, response: 1 }] } }, 'add up to 1'],
    [{ goal: 0 }, 'goal above 0'],
    [{ frameS: 0 }, 'frame above 0'],
    [{ beam: { fNumber: 0 } }, 'f-number of 0.5'],
    [{ range: { fromNm: 300, toNm: 700 } }, 'covers 300.0 to 700.0 nm'],
    [{ range: { fromNm: 700, toNm: 400 } }, 'requires a range'],
  ])('refuses %j', (options, message) => {
    expect(() => seen(band(656.28, 6.4), options)).toThrow(message);
  });
});

describe('continuumLoss', () => {
  it('a very hot star: the share of its photons in the window', () => {
    const loss = continuumLoss(band(550, 6.4), 1e9, flat, 1, { fromNm: 400, toNm: 700 });
    // The photons per nm of a very hot body fall with the third power of the wavelength.
    const open = (400 ** -2 - 700 ** -2) / 2;
    expect(loss.share).toBeCloseTo((6.4 * 550 ** -3) / open, 3);
    expect(loss.magnitudes).toBeCloseTo(-2.5 * Math.log10(loss.share), 12);
    expect(loss.signalToNoise).toBeLessThan(0.2);
  });

  it('refuses a range that the sky does not cover', () => {
    expect(() => continuumLoss(band(550, 6.4), 5772, flat, 1, { fromNm: 300, toNm: 700 })).toThrow('covers');
    expect(() => continuumLoss(band(550, 6.4), 0, flat, 1, { fromNm: 400, toNm: 700 })).toThrow(RangeError);
  });
});
