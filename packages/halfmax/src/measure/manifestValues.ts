/** An object of a session's manifest, after the schema's verdict. */
export type Loose = Readonly<Record<string, unknown>>;

/** The value as an object, or an empty one. */
export function record(value: unknown): Loose {
  return value !== null && typeof value === 'object' && !Array.isArray(value) ? (value as Loose) : {};
}

/** The value if it is a number, or another. */
export function number(value: unknown, otherwise: number): number {
  return typeof value === 'number' ? value : otherwise;
}

/** The value as a range, one number as one of no width; or another range. */
export function range(value: unknown, otherwise: readonly number[]): readonly [number, number] {
  if (typeof value === 'number') return [value, value];
  const [low, high] = Array.isArray(value) ? (value as number[]) : otherwise;
  return [low!, high!];
}
