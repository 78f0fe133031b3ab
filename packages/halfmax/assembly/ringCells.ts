/**
 * Cells about a star, ring after ring, in memory: written from outside. Each ring has an even number of cells, the last
 * without weight where sectors are odd in number. Pointers are bytes from the start of the memory, to f64.
 */
@unmanaged
export class RingCells {
  rings: i32;
  /** Cells of a ring. */
  padded: i32;
  /** Numbers of background and wings. */
  fixed: i32;
  /** Disks at most. */
  reserved: i32;
  /** Of a sector, radians. */
  sectorAngle: f64;
  /** Of each cell, pixels from the star and counts; a cell that is not used has radius 1 and counts 0. */
  x: usize;
  y: usize;
  radius: usize;
  counts: usize;
  /** Of each cell, 0 where it is left out. */
  weights: usize;
  /** Background and wings: of each ring `fixed` columns with a number for each cell. */
  columns: usize;
  /** Of each ring, pixels: its width, least and largest radius of its cells in use. */
  width: usize;
  nearest: usize;
  farthest: usize;
  /** What the cells of each ring bring together: see `src/halo/ringSums.ts`. */
  weight: usize;
  residual: usize;
  squares: usize;
  rows: usize;
  scores: usize;
  products: usize;
  /** Room for work: columns of the cells of a ring, for light, residual and the disks' parameters twice. */
  light: usize;
  left: usize;
  answers: usize;
  weighted: usize;
  /** Places of the parameters that a ring answers to: i32. */
  touched: usize;
}
