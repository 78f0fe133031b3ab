import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseJson } from './parseJson.js';
import { scanJson } from './scanJson.js';

describe('scanJson', () => {
  it('agrees with JSON.parse on what is JSON', () => {
    const piece = fc.constantFrom(
      '{',
      '}',
      '[',
      ']',
      ',',
      ':',
      '"a"',
      '"\\u00e9"',
      '"\\x"',
      '1',
      '-0.5e3',
      '01',
      '.5',
      'true',
      'nul',
      ' ',
      '\n',
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.array(piece, { maxLength: 12 }).map((parts) => parts.join('')),
          fc.json(),
        ),
        (text) => {
          let isJson = true;
          try {
            JSON.parse(text);
          } catch {
            isJson = false;
          }
          expect(scanJson(text, 64).fault === null).toBe(isJson);
        },
      ),
      { numRuns: 5000 },
    );
  });

  it('reads a text of 4 MiB in one string without overflowing the stack', () => {
    expect(scanJson(JSON.stringify('\\'.repeat(2 ** 21)), 64).fault).toBeNull();
  });
});

describe('parseJson', () => {
  it('names line and column of the first fault', () => {
    expect(() => parseJson('{\n "a": 1,\n "b": }', 'x.json')).toThrow(
      /^x\.json: line 3, column 7: is not JSON: found "}"/,
    );
    expect(() => parseJson('{"a": "b\nc"}', 'x.json')).toThrow(/line 1, column 7: .*close the quotes/);
    expect(() => parseJson('{} {}', 'x.json')).toThrow(/line 1, column 4: .*nothing more belongs/);
  });

  it('warns of keys given twice, however they are written', () => {
    const { value, warnings } = parseJson('{"a": 1, "\\u0061": 2}', 'x.json');
    expect(value).toEqual({ a: 2 });
    expect(warnings).toEqual([
      { where: 'x.json', what: 'line 1, column 10: "a" is given twice in one object; the last one counts' },
    ]);
  });
});
