import type { VectorMemory } from '../vector/index.js';
import type { DiskStart } from './diskShape.js';
import { DISK_POINTERS } from './putRings.js';

/** Where disks and parameters lie. */
interface DiskPlaces {
  readonly atDisks: number;
  readonly atTheta: number;
  readonly atMatrix: number;
  readonly atRight: number;
}

/** Bytes of a disk's record, `Disk` of `assembly/disks.ts`, and of its numbers. */
const DISK = 56;
const NUMBERS = 48;
/** Parameters of a disk at most. */
const OF_DISK = 6;
/** Room at first: more than nearly any star shows. */
const USUAL_DISKS = 6;

/**
 * Room for disks in the memory of the vector code. It grows where there are more than ever before.
 *
 * @param vector - the memory
 * @param record - of the cells, which is told where there is room to work
 * @param width - cells of a ring
 * @param fixed - numbers of background and wings
 * @returns a function that writes disks and parameters and tells where; without places of the disks' parameters those
 *   are not asked for
 */
export function diskRoom(
  { take, floats, run }: VectorMemory,
  record: number,
  width: number,
  fixed: number,
): (disks: readonly DiskStart[], begins: readonly number[] | null, theta: Float64Array) => DiskPlaces {
  let room = 0;
  let places: DiskPlaces = { atDisks: 0, atTheta: 0, atMatrix: 0, atRight: 0 };
  const reserve = (disks: number): void => {
    room = Math.max(USUAL_DISKS, disks);
    const most = OF_DISK * room;
    const size = fixed + most;
    const columns = [8 * most * width, 8 * most * width, 4 * most].map(take);
    places = {
      atDisks: take(DISK * room),
      atTheta: take(8 * size),
      atMatrix: take(8 * size * size),
      atRight: take(8 * size),
    };
    new Int32Array(run.memory.buffer, record + DISK_POINTERS, columns.length).set(columns);
  };
  reserve(0);
  return (disks, begins, theta) => {
    if (disks.length > room) reserve(disks.length);
    disks.forEach((disk, d) => {
      const { inner, outer, dx, dy, surface, blur, radiusFree, holeFree, placeFree } = disk;
      const at = places.atDisks + d * DISK;
      floats(at, NUMBERS / 8).set([inner, outer, dx, dy, surface, blur]);
      const free = (radiusFree ? 1 : 0) + (holeFree ? 2 : 0) + (placeFree ? 4 : 0);
      new Int32Array(run.memory.buffer, at + NUMBERS, 2).set([begins?.[d] ?? 0, free]);
    });
    floats(places.atTheta, theta.length).set(theta);
    return places;
  };
}
