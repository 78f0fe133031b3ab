import { describe, expect, it } from 'vitest';
import { wrapText } from './wrapText.js';

describe('wrapText', () => {
  it('breaks at blanks, within 98 columns, and loses nothing', () => {
    const text = Array.from({ length: 60 }, (_, i) => `word${i}`).join(' ');
    const lines = wrapText(text, '  ');
    expect(lines.length).toBeGreaterThan(3);
    expect(lines.every((line) => line.length <= 98)).toBe(true);
    expect(lines.map((line) => line.trim()).join(' ')).toBe(text);
    expect(lines.map((line) => line.search(/\S/))).toEqual([2, ...lines.slice(1).map(() => 4)]);
  });

  it('keeps a number and its unit together, and a long word whole', () => {
    const before = 'x'.repeat(93);
    expect(wrapText(`${before} 1.18 nm wide`, '')).toEqual([before, '  1.18 nm wide']);
    expect(wrapText(`${before} 12.5 %; more`, '')).toEqual([before, '  12.5 %; more']);
    expect(wrapText('y'.repeat(120), '')).toEqual(['y'.repeat(120)]);
  });
});
