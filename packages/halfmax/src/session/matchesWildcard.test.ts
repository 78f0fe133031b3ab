import { describe, expect, it } from 'vitest';
import { matchesWildcard } from './matchesWildcard.js';

describe('matchesWildcard', () => {
  it.each([
    ['dark_01.csv', 'dark_*.csv', true],
    ['dark_.csv', 'dark_*.csv', true],
    ['dark_01.csv.bak', 'dark_*.csv', false],
    ['a.b', '*', true],
    ['aXbXc', 'a*b*c', true],
    ['acb', 'a*b*c', false],
    ['a.c', 'a?c', false],
    ['a+c', 'a+c', true],
    ['.hidden', '*', false],
    ['.hidden', '.h*', true],
  ])('%s against %s', (name, pattern, fits) => {
    expect(matchesWildcard(name, pattern)).toBe(fits);
  });

  it('does not take for ever over many stars', () => {
    expect(matchesWildcard('a'.repeat(250), `${'*a'.repeat(120)}*b`)).toBe(false);
  });
});
