/** A JSON object, its values not yet looked at. */
export type PlainRecord = Readonly<Record<string, unknown>>;

/**
 * Whether a value is a JSON object: no array, not null.
 *
 * @param value - anything
 * @returns true for an object
 */
export function isRecord(value: unknown): value is PlainRecord {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/**
 * A copy of a record without some of its keys.
 *
 * @param record - left as it is
 * @param keys - to leave out
 * @returns a new record
 */
export function without(record: PlainRecord, keys: readonly string[]): PlainRecord {
  return Object.fromEntries(Object.entries(record).filter(([key]) => !keys.includes(key)));
}
