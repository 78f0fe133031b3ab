/**
 * The array operations that data frames call, in double precision.
 *
 * danfojs-node keeps its numbers in plain arrays and asks a backend only for arithmetic between frames, for comparisons,
 * for its scalers and for drawing samples. This file answers these calls and no others: tensors of rank 0 to 2, without
 * a device, in Float64 throughout, so that 656.28123456 stays what it is.
 */

class Tensor {
  /**
   * @param {ArrayLike<unknown>} values row by row
   * @param {readonly number[]} shape length 0 to 2
   * @param {string} dtype kept for its name only
   */
  constructor(values, shape, dtype) {
    this.values = values;
    this.shape = shape;
    this.dtype = dtype;
  }

  get rank() {
    return this.shape.length;
  }

  get size() {
    return this.values.length;
  }

  arraySync() {
    if (this.rank === 0) return this.values[0];
    if (this.rank === 1) return Array.from(this.values);
    const [rows, columns] = this.shape;
    return Array.from({ length: rows }, (_, row) =>
      Array.from(this.values.slice(row * columns, (row + 1) * columns)),
    );
  }

  array() {
    return Promise.resolve(this.arraySync());
  }

  dataSync() {
    return this.values.slice();
  }

  clone() {
    return new Tensor(this.values.slice(), [...this.shape], this.dtype);
  }

  dispose() {}

  transpose() {
    if (this.rank < 2) return this.clone();
    const [rows, columns] = this.shape;
    const values = new Float64Array(this.values.length);
    for (let row = 0; row < rows; row++)
      for (let column = 0; column < columns; column++)
        values[column * rows + row] = this.values[row * columns + column];
    return new Tensor(values, [columns, rows], this.dtype);
  }

  sqrt() {
    return new Tensor(Float64Array.from(this.values, Math.sqrt), this.shape, 'float32');
  }

  argMax() {
    return scalar(indexOfBest(this.values, (value, best) => value > best));
  }

  argMin() {
    return scalar(indexOfBest(this.values, (value, best) => value < best));
  }

  max(axis) {
    return reduced(this, axis, (values) => values.reduce((best, value) => Math.max(best, value), -Infinity));
  }

  min(axis) {
    return reduced(this, axis, (values) => values.reduce((best, value) => Math.min(best, value), Infinity));
  }

  mean(axis) {
    return reduced(this, axis, mean);
  }
}

const binary = {
  add: (a, b) => a + b,
  sub: (a, b) => a - b,
  mul: (a, b) => a * b,
  div: (a, b) => a / b,
  divNoNan: (a, b) => (b === 0 ? 0 : a / b),
  pow: (a, b) => a ** b,
  // The remainder has the sign of the divisor.
  mod: (a, b) => (a < 0 === b < 0 ? a % b : ((a % b) + b) % b),
  greater: (a, b) => Number(a > b),
  greaterEqual: (a, b) => Number(a >= b),
  less: (a, b) => Number(a < b),
  lessEqual: (a, b) => Number(a <= b),
  equal: (a, b) => Number(a === b),
  notEqual: (a, b) => Number(a !== b),
};
for (const [name, operation] of Object.entries(binary)) {
  Tensor.prototype[name] = function (other) {
    return combined(name, this, asTensor(other), operation);
  };
}

/** Rows and columns of a tensor as a table: a list is a row, a scalar one cell. */
function tableShape({ shape }) {
  return shape.length === 2 ? shape : [1, shape.length === 1 ? shape[0] : 1];
}

/** Combines cell by cell; a side of length 1 is repeated. */
function combined(name, one, other, operation) {
  const [rowsA, columnsA] = tableShape(one);
  const [rowsB, columnsB] = tableShape(other);
  const fits = (a, b) => a === b || a === 1 || b === 1;
  if (!fits(rowsA, rowsB) || !fits(columnsA, columnsB))
    throw new RangeError(`${name} requires shapes that fit, got [${one.shape}] and [${other.shape}]`);
  const rows = rowsA === 1 ? rowsB : rowsA;
  const columns = columnsA === 1 ? columnsB : columnsA;
  const values = new Float64Array(rows * columns);
  for (let row = 0; row < rows; row++) {
    const atA = rowsA === 1 ? 0 : row * columnsA;
    const atB = rowsB === 1 ? 0 : row * columnsB;
    for (let column = 0; column < columns; column++)
      values[row * columns + column] = operation(
        one.values[atA + (columnsA === 1 ? 0 : column)],
        other.values[atB + (columnsB === 1 ? 0 : column)],
      );
  }
  const rank = Math.max(one.rank, other.rank);
  return new Tensor(values, rank === 2 ? [rows, columns] : rank === 1 ? [columns] : [], 'float32');
}

/** One number for all values, or for each column of a table (axis 0) or row (axis 1). */
function reduced(tensor, axis, summary) {
  if (axis === undefined || tensor.rank < 2) return scalar(summary(Array.from(tensor.values)));
  const table = axis === 0 ? tensor.transpose() : tensor;
  return tensor1d(table.arraySync().map(summary));
}

function mean(values) {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function indexOfBest(values, isBetter) {
  let index = 0;
  for (let i = 1; i < values.length; i++) if (isBetter(values[i], values[index])) index = i;
  return index;
}

function asTensor(value) {
  if (value instanceof Tensor) return value;
  if (typeof value === 'number') return scalar(value);
  return Array.isArray(value[0]) ? tensor2d(value) : tensor1d(value);
}

function stored(values, dtype) {
  return dtype === 'string' ? Array.from(values) : Float64Array.from(values, Number);
}

function scalar(value, dtype = 'float32') {
  return new Tensor(stored([value], dtype), [], dtype);
}

function tensor1d(values, dtype = typeof values[0] === 'string' ? 'string' : 'float32') {
  return new Tensor(stored(values, dtype), [values.length], dtype);
}

function tensor2d(values, shape, dtype = 'float32') {
  const isNested = Array.isArray(values[0]) || ArrayBuffer.isView(values[0]);
  const size = shape ?? [values.length, isNested ? values[0].length : 0];
  const flat = isNested ? values.flatMap((row) => Array.from(row)) : values;
  if (flat.length !== size[0] * size[1])
    throw new RangeError(`tensor2d requires ${size[0]} x ${size[1]} values, got ${flat.length}`);
  return new Tensor(stored(flat, dtype), [...size], dtype);
}

/** Mean and variance (over n) of each column of a table, or of a list. */
function moments(tensor, axis) {
  const variance = (values) => {
    const centre = mean(values);
    return mean(values.map((value) => (value - centre) ** 2));
  };
  return { mean: tensor.mean(axis), variance: reduced(tensor, axis, variance) };
}

/** A list that is shuffled by a seed and cut: what frames draw samples with. The same seed gives the same order. */
function dataset(items) {
  return {
    shuffle(_buffer, seed) {
      const order = [...items];
      const random = stream(String(seed));
      for (let i = order.length - 1; i > 0; i--) {
        const j = Math.floor(random() * (i + 1));
        [order[i], order[j]] = [order[j], order[i]];
      }
      return dataset(order);
    },
    take: (count) => dataset(items.slice(0, count)),
    toArray: () => Promise.resolve([...items]),
  };
}

/** Uniform numbers from a text: a multiply-with-carry stream started from its hash (FNV-1a). */
function stream(seed) {
  let hash = 2166136261;
  for (const character of seed) hash = Math.imul(hash ^ character.codePointAt(0), 16777619);
  let low = (hash >>> 0) & 0xffff || 1;
  let high = (hash >>> 16) | 1;
  return () => {
    low = 18000 * (low & 0xffff) + (low >>> 16);
    high = 36969 * (high & 0xffff) + (high >>> 16);
    return (((high << 16) + (low & 0xffff)) >>> 0) / 4294967296;
  };
}

module.exports = { Tensor, scalar, tensor1d, tensor2d, moments, data: { array: dataset } };
