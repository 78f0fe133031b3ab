/**
 * Numbers of cells, ring after ring, each ring filled up to so many cells.
 *
 * @param values - of the cells
 * @param sectors - of a ring
 * @param width - cells that a ring gets, >= sectors
 * @param fill - of those that are none
 * @returns the values themselves where nothing is to be filled
 */
export function padded(values: Float64Array, sectors: number, width: number, fill: number): Float64Array {
  if (width === sectors) return values;
  const rings = values.length / sectors;
  const out = new Float64Array(rings * width).fill(fill);
  for (let i = 0; i < rings; i++) out.set(values.subarray(i * sectors, (i + 1) * sectors), i * width);
  return out;
}

/** The other way round: fills `out` with the cells that there are. */
export function unpadded(values: Float64Array, width: number, out: Float64Array, sectors: number): void {
  if (width === sectors) out.set(values);
  else
    for (let at = 0, from = 0; at < out.length; at += sectors, from += width)
      out.set(values.subarray(from, from + sectors), at);
}

/**
 * Rows of the cells, cell after cell, as columns of each ring.
 *
 * @param rows - `size` numbers for each cell
 * @param size - of a row
 * @param sectors - of a ring
 * @param width - cells that a ring gets, those that are none filled with 0
 * @returns of each ring `size` columns
 */
export function columnsOf(rows: Float64Array, size: number, sectors: number, width: number): Float64Array {
  const rings = rows.length / size / sectors;
  const columns = new Float64Array(rings * size * width);
  let from = 0;
  for (let i = 0; i < rings; i++) {
    for (let s = 0; s < sectors; s++) {
      let to = i * size * width + s;
      for (let j = 0; j < size; j++, to += width) columns[to] = rows[from++]!;
    }
  }
  return columns;
}
