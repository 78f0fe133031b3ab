/** An object of the manifest whose fields are not yet known to be right. */
export type LooseRecord = Readonly<Record<string, unknown>>;

/** The value as an object, or an empty one: for looking at fields before or beside the schema's verdict. */
export function asRecord(value: unknown): LooseRecord {
  return value !== null && typeof value === 'object' && !Array.isArray(value) ? (value as LooseRecord) : {};
}

/** The value as a list, or an empty one. */
export function asList(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}

/** The value if it is a text, else null. */
export function asText(value: unknown): string | null {
  return typeof value === 'string' ? value : null;
}

/** The value if it is a finite number, else null. */
export function asNumber(value: unknown): number | null {
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}
