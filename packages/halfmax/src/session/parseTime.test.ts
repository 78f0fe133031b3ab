import { describe, expect, it } from 'vitest';
import { parseTime } from './parseTime.js';

describe('parseTime', () => {
  it('agrees with the clock of the language where that reads the same form', () => {
    for (const text of [
      '2026-01-31',
      '2026-01-31T20:15Z',
      '2024-02-29T23:59:59.999Z',
      '2026-06-01T00:00:00-05:30',
    ]) {
      expect(parseTime(text)).toBe(Date.parse(text));
    }
  });

  it('takes a time without a zone for UTC, and zones without a colon', () => {
    expect(parseTime('2026-01-31T20:15:00')).toBe(Date.UTC(2026, 0, 31, 20, 15));
    expect(parseTime('2026-01-31T20:15:00+0100')).toBe(Date.UTC(2026, 0, 31, 19, 15));
  });

  it.each(['2026-02-29', '2026-13-01', '2026-01-31T24:00', '2026-01-31T20:60', 'today'])(
    'gives null for %s',
    (text) => {
      expect(parseTime(text)).toBeNull();
    },
  );
});
