import { lightUneven } from './diskColumns';
import { DISK, Disk, evenShare, isEvenForAll } from './disks';
import { add, addProducts, addProductsAt, multiplyColumns, product, takeOff } from './columns';
import { RingCells } from './ringCells';

/**
 * Adds all rings to normal equations: the lower half of the rows of the disks' parameters, and the right side. The block
 * of background and wings is the same for all parameters, and not added.
 *
 * @param cells - what is fitted
 * @param disks - one record after another
 * @param count - of them
 * @param p - parameters
 * @param theta - the parameters: background and wings first
 * @param change - of background and wings, from where the sums of the rings are reckoned
 * @param matrix - p x p, row after row
 * @param right - p
 * @returns the weighted sum of squares
 */
export function addRings(
  cells: RingCells,
  disks: usize,
  count: i32,
  p: i32,
  theta: usize,
  change: usize,
  matrix: usize,
  right: usize,
): f64 {
  let sum: f64 = 0;
  const end = disks + usize(count) * DISK;
  for (let ring: usize = 0; ring < usize(cells.rings); ring++) {
    if (!(load<f64>(cells.weight + (ring << 3)) > 0)) continue;
    sum += isEvenForAll(cells, ring, disks, end)
      ? addEven(cells, ring, disks, end, usize(p), change, matrix, right)
      : addUneven(cells, ring, disks, end, usize(p), theta, matrix, right);
  }
  return sum;
}

/** Adds a ring in which the disks' light is the same everywhere. */
function addEven(
  cells: RingCells,
  ring: usize,
  disks: usize,
  end: usize,
  p: usize,
  change: usize,
  matrix: usize,
  right: usize,
): f64 {
  const fixed = usize(cells.fixed);
  const weight = load<f64>(cells.weight + (ring << 3));
  const residual = load<f64>(cells.residual + (ring << 3));
  const rows = cells.rows + ((ring * fixed) << 3);
  const scores = cells.scores + ((ring * fixed) << 3);
  let light: f64 = 0;
  let many: usize = 0;
  for (let at = disks; at < end; at += DISK) {
    const disk = changetype<Disk>(at);
    if (evenShare(cells, ring, disk) == 0) continue;
    light += disk.surface;
    store<i32>(cells.touched + (many++ << 2), disk.begin);
  }
  // Residual r - c f - l, with r that at the origin, f the functions, c the change of their coefficients, l the light.
  let left = residual - light * weight;
  let sum = load<f64>(cells.squares + (ring << 3)) - light * (residual + left);
  let products = cells.products + ((ring * fixed * fixed) << 3);
  for (let a: usize = 0; a < fixed; a++) {
    let moved: f64 = 0;
    for (let b: usize = 0; b < fixed; b++) {
      moved += load<f64>(products) * load<f64>(change + (b << 3));
      products += 8;
    }
    const row = load<f64>(rows + (a << 3));
    const share = load<f64>(scores + (a << 3)) - light * row;
    const by = load<f64>(change + (a << 3));
    add(right + (a << 3), share - moved);
    sum -= by * (2 * share - moved);
    left -= by * row;
  }
  for (let m: usize = 0; m < many; m++) {
    const place = usize(load<i32>(cells.touched + (m << 2)));
    const to = matrix + ((place * p) << 3);
    add(right + (place << 3), left);
    for (let b: usize = 0; b < fixed; b++) add(to + (b << 3), load<f64>(rows + (b << 3)));
    for (let l: usize = 0; l <= m; l++) add(to + (usize(load<i32>(cells.touched + (l << 2))) << 3), weight);
  }
  return sum;
}

/** Adds a ring that an edge reaches, cell by cell. */
function addUneven(
  cells: RingCells,
  ring: usize,
  disks: usize,
  end: usize,
  p: usize,
  theta: usize,
  matrix: usize,
  right: usize,
): f64 {
  const fixed = usize(cells.fixed);
  const stride = usize(cells.padded) << 3;
  const columns = cells.columns + ring * fixed * stride;
  const many = lightUneven(cells, ring, disks, end);
  const sum = weigh(cells, ring, columns, many, theta);
  addProducts(cells.left, columns, fixed, right, stride);
  addProductsAt(cells.left, cells.answers, many, right, cells.touched, stride);
  for (let m: usize = 0; m < many; m++) {
    const to = matrix + ((usize(load<i32>(cells.touched + (m << 2))) * p) << 3);
    const from = cells.weighted + m * stride;
    addProducts(from, columns, fixed, to, stride);
    addProductsAt(from, cells.answers, m + 1, to, cells.touched, stride);
  }
  return sum;
}

/** Weighted residuals of the cells of a ring, and weighted answers; gives the sum of squares. */
function weigh(cells: RingCells, ring: usize, columns: usize, many: usize, theta: usize): f64 {
  const stride = usize(cells.padded) << 3;
  const weights = cells.weights + ring * stride;
  const counts = cells.counts + ring * stride;
  for (let k: usize = 0; k < stride; k += 16)
    v128.store(cells.light + k, f64x2.sub(v128.load(counts + k), v128.load(cells.light + k)));
  takeOff(cells.light, columns, usize(cells.fixed), theta, stride);
  multiplyColumns(weights, cells.light, cells.left, stride);
  for (let at: usize = 0; at < many * stride; at += stride)
    multiplyColumns(weights, cells.answers + at, cells.weighted + at, stride);
  return product(cells.left, cells.light, stride);
}
