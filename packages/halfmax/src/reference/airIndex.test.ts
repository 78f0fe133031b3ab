import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { airIndex } from './airIndex.js';
import { airToVacuum } from './airToVacuum.js';
import { vacuumToAir } from './vacuumToAir.js';

describe('airIndex', () => {
  it('is 1 in a vacuum and grows with pressure', () => {
    expect(airIndex(500, { pressurePa: 0 })).toBe(1);
    expect(airIndex(500, { pressurePa: 110000 })).toBeGreaterThan(airIndex(500));
  });

  it('is that of standard air without a state', () => {
    expect(airIndex(500)).toBe(airIndex(500, { temperatureC: 15, pressurePa: 101325 }));
  });

  it.each([[100], [2000], [Number.NaN]])('refuses the wavelength %d', (nm) =>
    expect(() => airIndex(nm)).toThrow(RangeError),
  );
  it('refuses kelvin and hectopascal by their size or their result', () => {
    expect(() => airIndex(500, { temperatureC: 288 })).toThrow('-40 to 100 C');
    expect(() => airIndex(500, { pressurePa: -1 })).toThrow(RangeError);
  });
});

describe('airToVacuum', () => {
  it('undoes vacuumToAir to 1e-9 nm', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 231, max: 1699, noNaN: true }),
        fc.double({ min: -30, max: 50, noNaN: true }),
        fc.double({ min: 6e4, max: 1.1e5, noNaN: true }),
        (nm, temperatureC, pressurePa) => {
          const state = { temperatureC, pressurePa };
          expect(Math.abs(airToVacuum(vacuumToAir(nm, state), state) - nm)).toBeLessThan(1e-9);
        },
      ),
    );
  });
});
