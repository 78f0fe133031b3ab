import { statSync } from 'node:fs';
import { join } from 'node:path';
import type { StatedTime } from './timeFromFile.js';
import type { DayGuess } from './types.js';

/** A session over midnight has two days. */
const ONE_NIGHT_MS = 86_400_000;

/**
 * The day on which frames were taken: as their files state it, else the first on which one was last changed.
 *
 * @param folder - the session folder
 * @param times - what each file states
 * @returns the day and whether the files state it; null where there are no files
 */
export function dayOfFrames(folder: string, times: ReadonlyMap<string, StatedTime | null>): DayGuess | null {
  const stated = [...times.values()].flatMap((time) => (time === null ? [] : [time.day])).sort();
  const [first, last] = [stated[0], stated.at(-1)];
  if (first !== undefined && last !== undefined)
    return { day: first, isStated: Date.parse(last) - Date.parse(first) <= ONE_NIGHT_MS };
  const changed = [...times.keys()].map((file) => statSync(join(folder, file)).mtimeMs);
  return changed.length === 0 ? null : { day: localDay(new Date(Math.min(...changed))), isStated: false };
}

function localDay(date: Date): string {
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}
