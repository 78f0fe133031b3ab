import { describe, expect, it } from 'vitest';
import { readOptions, wholeNumber } from './readOptions.js';

const known = { out: 'text', check: 'flag', input: 'list' } as const;

describe('readOptions', () => {
  it('tells words and options apart, and gathers an option that may be given again', () => {
    const { positional, options } = readOptions(
      ['a', '--out', 'x', '--input', 'b=1', '--input=c=2', '--check', 'd'],
      known,
      'rerun',
    );
    expect(positional).toEqual(['a', 'd']);
    expect(Object.fromEntries(options)).toEqual({ out: ['x'], input: ['b=1', 'c=2'], check: [] });
  });

  it.each([
    [['--sed'], /--sed: is not an option/],
    [['--out'], /--out: has no value/],
    [['--out='], /--out: has no value/],
    [['--out', '--check'], /--out: has no value/],
    [['--check=1'], /--check: takes no value/],
    [['--out', 'a', '--out', 'b'], /--out: is given twice/],
    [['--constructor', '1'], /--constructor: is not an option/],
  ])('refuses %j', (args, expected) => {
    expect(() => readOptions(args, known, 'rerun')).toThrow(expected);
  });

  it('takes whole numbers in their range alone', () => {
    const of = (value: string): number | undefined =>
      wholeNumber(readOptions(['--out', value], known, 'rerun'), 'out', 1, 16, 'rerun');
    expect(of('16')).toBe(16);
    for (const bad of ['0', '17', '1.5', '1e1', 'x', ' 1'])
      expect(() => of(bad)).toThrow(/not a whole number from 1 to 16/);
  });
});
