import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseNumberRow } from './parseNumberRow.js';

describe('parseNumberRow', () => {
  it('gives the very bits of the conversion of the language', () => {
    const digits = fc.stringMatching(/^[+-]?\d{1,12}(\.\d{0,9})?$/);
    fc.assert(
      fc.property(fc.array(digits, { minLength: 1, maxLength: 4 }), (cells) => {
        for (const [delimiter, mark] of [
          ['blank', '  '],
          ['tab', '\t'],
          [';', ' ;'],
          [',', ', '],
        ] as const) {
          const read = parseNumberRow(cells.join(mark), { delimiter, decimal: '.' });
          // More than 2^53 in all digits together is left to the slow way.
          if (read !== null) expect(read).toEqual(cells.map(Number));
          else expect(cells.some((cell) => cell.replace(/\D/g, '').length > 15)).toBe(true);
        }
      }),
      { numRuns: 2000 },
    );
  });

  it.each(['', '1;', '1;;2', '1e5', '"1"', 'x', '1.2.3', '- 1', '1;NaN', '.', '12345678901234567890123'])(
    'leaves %j to the slow way',
    (line) => {
      expect(parseNumberRow(line, { delimiter: ';', decimal: '.' })).toBeNull();
    },
  );
});
