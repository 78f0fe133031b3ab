import { add, addProducts, multiplyColumns, product, takeOff, total } from './columns';
import { RingCells } from './ringCells';

/**
 * Weighted products of background and wings of each ring, and those of all rings together.
 *
 * @param cells - with their weights
 * @param block - fixed x fixed, gains the products of all rings
 * @param right - fixed, gains the weighted products with the counts
 */
export function sumProducts(cells: RingCells, block: usize, right: usize): void {
  const fixed = usize(cells.fixed);
  const stride = usize(cells.padded) << 3;
  memory.fill(cells.products, 0, (usize(cells.rings) * fixed * fixed) << 3);
  for (let ring: usize = 0; ring < usize(cells.rings); ring++) {
    const columns = cells.columns + ring * fixed * stride;
    const weights = cells.weights + ring * stride;
    const products = cells.products + ((ring * fixed * fixed) << 3);
    multiplyColumns(weights, cells.counts + ring * stride, cells.left, stride);
    addProducts(cells.left, columns, fixed, right, stride);
    for (let a: usize = 0; a < fixed; a++) {
      multiplyColumns(weights, columns + a * stride, cells.left, stride);
      addProducts(cells.left, columns, a + 1, products + ((a * fixed) << 3), stride);
    }
    for (let a: usize = 0; a < fixed; a++) {
      for (let b: usize = 0; b <= a; b++) {
        const value = load<f64>(products + ((a * fixed + b) << 3));
        add(block + ((a * fixed + b) << 3), value);
        if (b === a) continue;
        store<f64>(products + ((b * fixed + a) << 3), value);
        add(block + ((b * fixed + a) << 3), value);
      }
    }
  }
}

/**
 * Of each ring the weights, the residuals and what belongs to them.
 *
 * @param cells - with their weights
 * @param origin - coefficients of background and wings from which residuals are reckoned
 */
export function sumResiduals(cells: RingCells, origin: usize): void {
  const fixed = usize(cells.fixed);
  const stride = usize(cells.padded) << 3;
  memory.fill(cells.rows, 0, (usize(cells.rings) * fixed) << 3);
  memory.fill(cells.scores, 0, (usize(cells.rings) * fixed) << 3);
  for (let ring: usize = 0; ring < usize(cells.rings); ring++) {
    const columns = cells.columns + ring * fixed * stride;
    const weights = cells.weights + ring * stride;
    memory.copy(cells.light, cells.counts + ring * stride, stride);
    takeOff(cells.light, columns, fixed, origin, stride);
    multiplyColumns(weights, cells.light, cells.left, stride);
    store<f64>(cells.weight + (ring << 3), total(weights, stride));
    store<f64>(cells.residual + (ring << 3), total(cells.left, stride));
    store<f64>(cells.squares + (ring << 3), product(cells.left, cells.light, stride));
    addProducts(weights, columns, fixed, cells.rows + ((ring * fixed) << 3), stride);
    addProducts(cells.left, columns, fixed, cells.scores + ((ring * fixed) << 3), stride);
  }
}
