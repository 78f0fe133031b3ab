import type { StatedTime } from './timeFromFile.js';
import type { FrameGroup } from './types.js';

/**
 * The groups with the time at which each was taken, where all its files state one. Files of one group between which
 * another scan was taken are scans of their own: open scans before and after a filtered one show the drift of the lamp.
 *
 * @param groups - as their names tell
 * @param times - by file
 * @returns groups with `takenAt`, the middle of their first and last file
 */
export function timedGroups(
  groups: readonly FrameGroup[],
  times: ReadonlyMap<string, StatedTime | null>,
): FrameGroup[] {
  const msOf = (file: string): number | null => times.get(file)?.ms ?? null;
  return groups.flatMap((group) => {
    const timed = group.files
      .flatMap((file) => {
        const ms = msOf(file);
        return ms === null ? [] : [{ file, ms }];
      })
      .sort((a, b) => a.ms - b.ms);
    if (timed.length < group.files.length) return [group];
    if (group.role === 'dark') return [{ ...group, takenAt: middleOf(timed) }];
    const others = groups
      .filter((other) => other !== group && other.role !== 'dark')
      .flatMap(({ files }) => files.flatMap((file) => msOf(file) ?? []));
    const parts: { file: string; ms: number }[][] = [];
    for (const one of timed) {
      const last = parts.at(-1)?.at(-1);
      const isNew = last === undefined || others.some((ms) => ms > last.ms && ms < one.ms);
      if (isNew) parts.push([one]);
      else parts.at(-1)!.push(one);
    }
    return parts.map((part) => ({ ...group, files: part.map(({ file }) => file), takenAt: middleOf(part) }));
  });
}

function middleOf(timed: readonly { readonly ms: number }[]): string {
  return new Date((timed[0]!.ms + timed.at(-1)!.ms) / 2).toISOString();
}
