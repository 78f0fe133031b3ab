import { lightUneven } from './diskColumns';
import { DISK, Disk, evenShare, isEvenForAll } from './disks';
import { RingCells } from './ringCells';

/**
 * What a model has in each cell.
 *
 * @param cells - their background and wings
 * @param disks - one record after another
 * @param count - of them
 * @param theta - factors of background and wings
 * @param model - filled for each cell: all of it
 * @param light - the same: the disks alone
 */
export function modelOfCells(
  cells: RingCells,
  disks: usize,
  count: i32,
  theta: usize,
  model: usize,
  light: usize,
): void {
  const fixed = usize(cells.fixed);
  const stride = usize(cells.padded) << 3;
  const end = disks + usize(count) * DISK;
  for (let ring: usize = 0; ring < usize(cells.rings); ring++) {
    const to = light + ring * stride;
    // A ring without a cell in use has no place.
    if (isEvenForAll(cells, ring, disks, end)) {
      let value: f64 = 0;
      for (let at = disks; at < end; at += DISK) {
        const disk = changetype<Disk>(at);
        value += disk.surface * evenShare(cells, ring, disk);
      }
      for (let k: usize = 0; k < stride; k += 16) v128.store(to + k, f64x2.splat(value));
    } else {
      lightUneven(cells, ring, disks, end);
      memory.copy(to, cells.light, stride);
    }
    const columns = cells.columns + ring * fixed * stride;
    for (let k: usize = 0; k < stride; k += 16) {
      let value = v128.load(to + k);
      let factor = theta;
      for (let at = columns + k; at < columns + fixed * stride; at += stride) {
        value = f64x2.add(value, f64x2.mul(v128.load64_splat(factor), v128.load(at)));
        factor += 8;
      }
      v128.store(model + ring * stride + k, value);
    }
  }
}
