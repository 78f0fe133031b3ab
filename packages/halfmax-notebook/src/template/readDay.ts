/**
 * A day of the calendar.
 *
 * @param text - such as `2025-03-14`
 * @returns the same, or null where it is no day that exists
 * Source: ISO 8601-1, calendar date in the extended format.
 */
export function readDay(text: string): string | null {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return null;
  const ms = Date.parse(`${text}T00:00:00Z`);
  return Number.isFinite(ms) && new Date(ms).toISOString().startsWith(text) ? text : null;
}
