import { describe, expect, it } from 'vitest';
import { airIndex, airToVacuum, vacuumToAir } from '../../packages/halfmax/src/reference/index.js';

describe('Ciddor, Applied Optics 35, 1566 (1996), table 1: dry air, 450 ppm, 633.0 nm', () => {
  it.each([
    [20, 80, 21458.0],
    [20, 100, 26824.4],
    [20, 120, 32191.6],
    [10, 100, 27774.7],
    [30, 100, 25937.2],
  ])('%d C, %d kPa: 1e8 (n - 1) = %d', (temperatureC, kPa, expected) => {
    const found = (airIndex(633, { temperatureC, pressurePa: kPa * 1000 }) - 1) * 1e8;
    expect(Math.abs(found - expected)).toBeLessThan(0.0501); // printed to one decimal
  });
});

describe('NIST Engineering Metrology Toolbox, index of air by the Ciddor equation, dry, 633 nm', () => {
  it.each([
    [20, 101.325, 1.0002718],
    [20, 60, 1.000160924],
    [20, 120, 1.000321916],
    [50, 100, 1.000243285],
    [5, 100, 1.000282756],
    [-40, 100, 1.00033758],
  ])('%d C, %d kPa: %d', (temperatureC, kPa, expected) => {
    expect(Math.abs(airIndex(633, { temperatureC, pressurePa: kPa * 1000 }) - expected)).toBeLessThan(2e-9);
  });
});

describe('wavelengths in air and vacuum', () => {
  it.each([
    [633, 632.82500477],
    [550, 549.84723175],
    [400, 399.88692724],
  ])('%d nm in vacuum is %d nm in standard air (published example of the Ciddor equation)', (vacuum, air) => {
    expect(Math.abs(vacuumToAir(vacuum) - air)).toBeLessThan(6e-9); // printed to 1e-8 nm
    expect(Math.abs(airToVacuum(air) - vacuum)).toBeLessThan(6e-9);
  });

  it.each([
    [4861.363, 4862.721],
    [4958.911, 4960.295],
    [5006.843, 5008.239],
    [6562.801, 6564.614],
    [6583.45, 6585.27],
  ])(
    '%d angstrom in air is %d in vacuum (Sloan Digital Sky Survey, table of spectral lines)',
    (air, vacuum) => {
      expect(Math.abs(airToVacuum(air / 10) * 10 - vacuum)).toBeLessThan(0.01); // the table mixes sources at this level
    },
  );
});
