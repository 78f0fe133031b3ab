/** Takes an image row after row and looks for bright squares. */
export interface PatchSearch {
  /** The next row: its values, and 1 where a value is known, 0 where not and the value is 0. */
  readonly push: (values: Float32Array, known: Uint8Array) => void;
  /** After the last row. */
  readonly finish: () => void;
}

/** A square with fewer values says nothing. */
const LEAST_VALUES = 3;

/**
 * Looks for squares of pixels whose mean stands out. Only as many rows as a square is high are kept.
 *
 * @param width - of the rows
 * @param height - number of rows
 * @param size - side of the squares, odd
 * @param deviation - sum of a square over the root of the number of its values beyond which it is reported
 * @param found - gets column and row of the middle of each such square
 * @returns what takes the rows
 *
 * Cost: O(1) a pixel, whatever the size.
 */
export function patchSearch(
  width: number,
  height: number,
  size: number,
  deviation: number,
  found: (column: number, row: number) => void,
): PatchSearch {
  const half = size >> 1;
  const kept = size + 1;
  const makeRow = (): SummedRow => ({ sums: new Float32Array(width), numbers: new Uint8Array(width) });
  const rows = Array.from({ length: kept }, makeRow);
  const empty = makeRow();
  const column = new Float64Array(width);
  const numbers = new Int32Array(width);
  const beyond = new Int32Array(width);
  const limits = Float64Array.from({ length: size * size + 1 }, (_, n) =>
    n < LEAST_VALUES ? Number.POSITIVE_INFINITY : deviation * Math.sqrt(n),
  );
  let next = 0;
  const take = (entering: SummedRow): void => {
    const leaving = next < size ? empty : rows[(next - size) % kept]!;
    const many = slide(column, numbers, entering, leaving, limits, beyond);
    if (next >= half) for (let k = 0; k < many; k++) found(beyond[k]!, next - half);
    next++;
  };
  return {
    push: (values, known) => {
      const row = rows[next % kept]!;
      sumAlong(values, known, half, row);
      take(row);
    },
    finish: () => {
      while (next < height + half) take(empty);
    },
  };
}

/** Sums along a row, and of how many values each. */
interface SummedRow {
  readonly sums: Float32Array;
  readonly numbers: Uint8Array;
}

/** Sums over so many values to each side, and how many of them are known. */
function sumAlong(values: Float32Array, known: Uint8Array, half: number, { sums, numbers }: SummedRow): void {
  const end = values.length;
  let sum = 0;
  let n = 0;
  for (let at = 0; at < Math.min(end, half); at++) {
    sum += values[at]!;
    n += known[at]!;
  }
  // In three stretches, so that the long one asks nothing: without a left end, with both, without a right end.
  const middle = Math.min(end, half + 1);
  const last = Math.max(middle, end - half);
  for (let at = 0; at < middle; at++) {
    if (at + half < end) {
      sum += values[at + half]!;
      n += known[at + half]!;
    }
    sums[at] = sum;
    numbers[at] = n;
  }
  for (let at = middle; at < last; at++) {
    sum = sum + values[at + half]! - values[at - half - 1]!;
    n = n + known[at + half]! - known[at - half - 1]!;
    sums[at] = sum;
    numbers[at] = n;
  }
  for (let at = last; at < end; at++) {
    sum -= values[at - half - 1]!;
    n -= known[at - half - 1]!;
    sums[at] = sum;
    numbers[at] = n;
  }
}

/** Moves the squares down by one row; writes the columns of those beyond their limits, gives their number. */
function slide(
  column: Float64Array,
  numbers: Int32Array,
  entering: SummedRow,
  leaving: SummedRow,
  limits: Float64Array,
  beyond: Int32Array,
): number {
  const { sums: more, numbers: moreNumbers } = entering;
  const { sums: less, numbers: lessNumbers } = leaving;
  let many = 0;
  for (let i = 0; i < column.length; i++) {
    const sum = column[i]! + more[i]! - less[i]!;
    const n = numbers[i]! + moreNumbers[i]! - lessNumbers[i]!;
    column[i] = sum;
    numbers[i] = n;
    if (Math.fround(sum) > limits[n]!) beyond[many++] = i;
  }
  return many;
}
