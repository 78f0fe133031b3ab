const form =
  /^(\d{4})-(\d{2})-(\d{2})(?:T(\d{2}):(\d{2})(?::(\d{2})(?:\.(\d+))?)?(?:Z|([+-])(\d{2}):?(\d{2}))?)?$/;

/**
 * An ISO 8601 date or date-time as ms since 1970-01-01 UTC. Without a zone it is UTC.
 *
 * @param text - such as `2026-01-31T20:15:00+01:00`
 * @returns milliseconds, or null for a date or time that does not exist
 * @example
 * parseTime('1970-01-01T01:00:00+01:00'); // => 0
 */
export function parseTime(text: string): number | null {
  const match = form.exec(text);
  if (match === null) return null;
  const part = (i: number): number => Number(match[i] ?? 0);
  const milliseconds = Math.floor(Number(`0.${match[7] ?? '0'}`) * 1000);
  const day = Date.UTC(part(1), part(2) - 1, part(3));
  const date = new Date(day);
  if (part(1) < 1000 || date.getUTCMonth() !== part(2) - 1 || date.getUTCDate() !== part(3)) return null;
  if (part(4) > 23 || part(5) > 59 || part(6) > 59 || part(9) > 23 || part(10) > 59) return null;
  const offset = (match[8] === '-' ? -1 : 1) * (part(9) * 60 + part(10)) * 60_000;
  return day + (part(4) * 3600 + part(5) * 60 + part(6)) * 1000 + milliseconds - offset;
}
