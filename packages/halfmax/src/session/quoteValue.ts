/**
 * A value from a file as it is shown in a message: JSON on one line, cut to 60 characters, control characters escaped.
 *
 * @param value - anything that JSON can hold
 * @returns text without line breaks
 * @example
 * quoteValue('a\nb'); // => '"a\\nb"'
 */
export function quoteValue(value: unknown): string {
  if (value !== null && typeof value === 'object') return Array.isArray(value) ? 'a list' : 'an object';
  const shown = typeof value === 'string' && value.length > 60 ? `${value.slice(0, 57)}...` : value;
  const text = typeof shown === 'number' && !Number.isFinite(shown) ? String(shown) : JSON.stringify(shown);
  // Terminals act on control and direction characters that JSON leaves as they are.
  return (text ?? 'nothing').replace(
    /[\u007f-\u009f\u200e\u200f\u2028-\u202e\u2066-\u2069]/g,
    (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}
