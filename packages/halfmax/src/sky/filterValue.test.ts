import { describe, expect, it } from 'vitest';
import { isAbsent, type Quantity, quantity } from '../metrics/index.js';
import { filterValue } from './filterValue.js';
import { gainOver } from './gainOver.js';
import { rankFilters } from './rankFilters.js';

const steady = (value: number): Float64Array => new Float64Array(100).fill(value);
const value = (number: Quantity): number => {
  if (isAbsent(number)) throw new Error(number.absent);
  return number.value;
};

describe('filterValue', () => {
  it('twice the quality: half the night, and the price over the hours saved', () => {
    const price = { amount: 300, currency: 'EUR' };
    const found = filterValue(steady(2), 1, { nightHours: 6, price });
    expect(value(found.hoursToEqual)).toBeCloseTo(3, 12);
    expect(value(found.hoursSaved)).toBeCloseTo(3, 12);
    expect(value(found.pricePerHour as Quantity)).toBeCloseTo(100, 10);
    expect(found.pricePerHour).toHaveProperty('currency', 'EUR');
    const years = filterValue(steady(2), 1, { nightHours: 6, nights: 50, price });
    expect(value(years.pricePerHour as Quantity)).toBeCloseTo(2, 10);
  });

  it('no price per hour where nothing, or nothing for sure, is saved', () => {
    const price = { amount: 300, currency: 'EUR' };
    expect(filterValue(steady(0.5), 1, { price }).pricePerHour).toEqual({ absent: 'it saves no time' });
    const unsure = Float64Array.from({ length: 100 }, (_, k) => 0.8 + 0.004 * k);
    expect(filterValue(unsure, 1, { price }).pricePerHour).toEqual({
      absent: 'it is not sure that it saves time',
    });
    expect(filterValue(steady(2), 1, { price: null }).pricePerHour).toEqual({ absent: 'no price is stated' });
    expect(filterValue(steady(0), 1, { price }).hoursToEqual).toEqual({
      absent: 'the filter passes no light of the line',
    });
  });

  it('trials of the reference count one by one: what both share cancels', () => {
    const both = Float64Array.from({ length: 100 }, (_, k) => 1 + 0.01 * k);
    const found = filterValue(
      both.map((one) => 2 * one),
      both,
      { nightHours: 8, price: null },
    );
    expect(value(found.hoursToEqual)).toBeCloseTo(4, 12);
    if ('absent' in found.hoursToEqual) throw new Error('absent');
    expect(found.hoursToEqual.standardUncertainty).toBeLessThan(1e-12);
  });

  it.each([
    [{ nightHours: 0, price: null }, 'night above 0'],
    [{ nights: -1, price: null }, 'nights above 0'],
    [{ price: { amount: -5, currency: 'EUR' } }, 'price of 0 or more'],
  ])('refuses %j', (options, message) => {
    expect(() => filterValue(steady(1), 1, options)).toThrow(message);
  });

  it('refuses trials of different length', () => {
    expect(() => filterValue(steady(1), new Float64Array(3), { price: null })).toThrow('3 for 100');
  });
});

describe('rankFilters', () => {
  const items = [
    { id: 'a', hours: quantity(2, 0.1) },
    { id: 'b', hours: quantity(2.2, 0.1) },
    { id: 'c', hours: quantity(2.5, 0.1) },
    { id: 'd', hours: { absent: 'no line' } },
    { id: 'e', hours: quantity(9, 0.1) },
  ];
  const ranked = rankFilters(items, ({ hours }) => hours, 'less');

  it('ties where intervals overlap, and no further', () => {
    expect(ranked.map(({ item, rank }) => `${item.id}${rank}`)).toEqual(['a1', 'b1', 'c2', 'e4', 'dnull']);
    expect(ranked[0]!.tiedWith.map(({ id }) => id)).toEqual(['b']);
    expect(ranked[1]!.tiedWith.map(({ id }) => id)).toEqual(['a', 'c']);
  });

  it('the order of the list does not matter, and more can be better', () => {
    const turned = rankFilters([...items].reverse(), ({ hours }) => hours, 'less');
    expect(turned.map(({ item }) => item.id)).toEqual(ranked.map(({ item }) => item.id));
    expect(rankFilters(items, ({ hours }) => hours, 'more')[0]!.item.id).toBe('e');
  });
});

describe('gainOver', () => {
  it('is the root of the ratio, and cancels what both share', () => {
    const both = Float64Array.from({ length: 100 }, (_, k) => 1 + 0.01 * k);
    const gain = gainOver(
      both.map((one) => 9 * one),
      both,
    );
    if (isAbsent(gain)) throw new Error(gain.absent);
    expect(gain.value).toBeCloseTo(3, 12);
    expect(gain.standardUncertainty).toBeLessThan(1e-12);
    expect(gainOver(both, steady(0))).toHaveProperty('absent');
    expect(() => gainOver(both, new Float64Array(2))).toThrow('100 and 2');
  });
});
