import { DISK, Disk, evenShare, HOLE_FREE, isEven, PLACE_FREE, RADIUS_FREE } from './disks';
import { densityOf, isReached, nearness, shareOf, WIDTH } from './edge';
import { RingCells } from './ringCells';

/**
 * Columns of a disk for the cells of a ring, one for each of its parameters: what the light of a cell changes by.
 * Adds the light. Columns lie `stride` bytes apart from `at` on.
 */
function fillColumns(cells: RingCells, ring: usize, disk: Disk, at: usize, light: usize): void {
  const stride = usize(cells.padded) << 3;
  const first = ring * stride;
  const width = load<f64>(cells.width + (ring << 3));
  const ofWidth = f64x2.splat((width * width) / 12 + disk.blur * disk.blur);
  const dx = f64x2.splat(disk.dx);
  const dy = f64x2.splat(disk.dy);
  const outer = f64x2.splat(disk.outer);
  const inner = f64x2.splat(disk.inner);
  const surface = f64x2.splat(disk.surface);
  const blur = f64x2.splat(disk.surface * disk.blur);
  const one = f64x2.splat(1);
  const zero = f64x2.splat(0);
  const isMoved = disk.dx != 0 || disk.dy != 0;
  const hasHole = disk.inner > 0;
  const ofAngle = f64x2.splat(cells.sectorAngle * cells.sectorAngle / 12);
  for (let k: usize = 0; k < stride; k += 16) {
    const x = v128.load(cells.x + first + k);
    const y = v128.load(cells.y + first + k);
    const px = f64x2.sub(x, dx);
    const py = f64x2.sub(y, dy);
    const distance = f64x2.max(
      f64x2.sqrt(f64x2.add(f64x2.mul(px, px), f64x2.mul(py, py))),
      f64x2.splat(1e-9),
    );
    let variance = ofWidth;
    if (isMoved) {
      // Along the arc of a cell the distance from a displaced middle changes.
      const across = f64x2.div(
        f64x2.sub(f64x2.mul(dx, y), f64x2.mul(dy, x)),
        v128.load(cells.radius + first + k),
      );
      variance = f64x2.add(variance, f64x2.mul(ofAngle, f64x2.mul(across, across)));
    }
    const sharp = f64x2.div(one, f64x2.sqrt(variance));
    const within = f64x2.mul(f64x2.sub(outer, distance), sharp);
    const reached = isReached(within);
    const u = f64x2.mul(within, f64x2.splat(1 / WIDTH));
    const square = nearness(u);
    const root = f64x2.sqrt(square);
    let covered = shareOf(u, root, reached);
    const outerDensity = densityOf(square, root, reached);
    let innerDensity = zero;
    let bent = f64x2.neg(f64x2.mul(within, outerDensity));
    if (hasHole) {
      const beyond = f64x2.mul(f64x2.sub(inner, distance), sharp);
      const reached = isReached(beyond);
      const u = f64x2.mul(beyond, f64x2.splat(1 / WIDTH));
      const square = nearness(u);
      const root = f64x2.sqrt(square);
      covered = f64x2.sub(covered, shareOf(u, root, reached));
      innerDensity = densityOf(square, root, reached);
      bent = f64x2.add(bent, f64x2.mul(beyond, innerDensity));
    }
    v128.store(light + k, f64x2.add(v128.load(light + k), f64x2.mul(surface, covered)));
    let to = at + k;
    v128.store(to, covered);
    to += stride;
    const bright = f64x2.mul(surface, sharp);
    if (disk.free & RADIUS_FREE) {
      v128.store(to, f64x2.mul(bright, outerDensity));
      v128.store(to + stride, f64x2.mul(f64x2.mul(blur, sharp), f64x2.mul(bent, sharp)));
      to += 2 * stride;
    }
    if (disk.free & HOLE_FREE) {
      v128.store(to, f64x2.neg(f64x2.mul(bright, innerDensity)));
      to += stride;
    }
    if (disk.free & PLACE_FREE) {
      const along = f64x2.div(f64x2.mul(bright, f64x2.sub(outerDensity, innerDensity)), distance);
      v128.store(to, f64x2.mul(along, px));
      v128.store(to + stride, f64x2.mul(along, py));
    }
  }
}

/**
 * The disks' light in the cells of a ring that an edge reaches, and what they answer to: columns, with the places of
 * their parameters. Gives the number of columns.
 */
export function lightUneven(cells: RingCells, ring: usize, disks: usize, end: usize): usize {
  const stride = usize(cells.padded) << 3;
  memory.fill(cells.light, 0, stride);
  let many: usize = 0;
  for (let at = disks; at < end; at += DISK) {
    const disk = changetype<Disk>(at);
    const answers = cells.answers + many * stride;
    let size: usize = 1;
    if (!isEven(cells, ring, disk)) {
      fillColumns(cells, ring, disk, answers, cells.light);
      if (disk.free & RADIUS_FREE) size += 2;
      if (disk.free & HOLE_FREE) size++;
      if (disk.free & PLACE_FREE) size += 2;
    } else {
      if (evenShare(cells, ring, disk) == 0) continue;
      for (let k: usize = 0; k < stride; k += 8) {
        store<f64>(answers + k, 1);
        store<f64>(cells.light + k, load<f64>(cells.light + k) + disk.surface);
      }
    }
    for (let j: usize = 0; j < size; j++)
      store<i32>(cells.touched + ((many + j) << 2), disk.begin + i32(j));
    many += size;
  }
  return many;
}
