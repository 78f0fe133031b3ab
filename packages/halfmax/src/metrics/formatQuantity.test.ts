import { describe, expect, it } from 'vitest';
import { formatQuantity } from './formatQuantity.js';
import { absent, quantity } from './quantity.js';

describe('formatQuantity', () => {
  it.each([
    [3.27312, 0.01189, '3.273 ± 0.012'],
    [656.4491, 0.0031, '656.4491 ± 0.0031'],
    [0.8993, 0.099, '0.899 ± 0.099'],
    [0.8993, 0.0996, '0.90 ± 0.10'],
    [1234.4, 37, '1234 ± 37'],
    [1234.56, 370, '1230 ± 370'],
    [-0.25, 0.011, '-0.250 ± 0.011'],
  ])('writes %d with %d as %s', (value, u, text) => {
    expect(formatQuantity(quantity(value, u))).toBe(text);
  });

  it('parses back to within half of the last digit shown', () => {
    for (let k = 0; k < 200; k++) {
      const u = 10 ** (-4 + (k % 50) / 10);
      const value = Math.sin(k) * 700;
      const [shown, shownU] = formatQuantity(quantity(value, u)).split(' ± ').map(Number);
      expect(Math.abs(shown! - value)).toBeLessThanOrEqual(Math.max(0.5000001, 0.0500001 * u));
      expect(Math.abs(shownU! - u)).toBeLessThanOrEqual(
        Math.max(0.5000001 * 10 ** Math.ceil(Math.log10(u) - 1), 1e-12),
      );
    }
  });

  it('has no zero with a minus, and two digits of an uncertainty above 100', () => {
    expect(formatQuantity(quantity(-0.04, 1.84))).toBe('0.0 ± 1.8');
    expect(formatQuantity(quantity(-0.06, 1.84))).toBe('-0.1 ± 1.8');
    expect(formatQuantity(quantity(-0, 0))).toBe('0');
    expect(formatQuantity(quantity(12345, 678))).toBe('12350 ± 680');
    expect(formatQuantity(quantity(-31, 99.6))).toBe('-30 ± 100');
    expect(formatQuantity(quantity(0.5, 0.0996))).toBe('0.50 ± 0.10');
  });

  it('shows no number where there is none', () => {
    expect(formatQuantity(absent('no band'))).toBe('–');
    expect(formatQuantity(quantity(3, 0))).toBe('3');
  });
});
