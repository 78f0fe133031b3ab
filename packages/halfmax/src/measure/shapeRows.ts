import { vectorMemory } from '../vector/index.js';
import { interleavedPlace, type ShapeResponse } from './shapeResponse.js';

/** Moves the parameters of fitted shapes in many trials side by side. */
export interface ShapeRows {
  /** Trials side by side: numbers in a row. */
  readonly trials: number;
  /**
   * Takes for each trial which shape it has, a row for each pixel of the fitted data and one for each of the few other
   * numbers that `ShapeResponse.byFew` tells of; writes a row for each parameter.
   */
  readonly follow: (kind: Uint8Array, pixels: Float64Array, few: Float64Array, out: Float64Array) => void;
}

/** Parameters that are worked out together. */
const TOGETHER = 4;

/**
 * The same as `shapeFollower` for many trials at a time and all likely shapes of a band.
 *
 * Trials of one shape are put side by side, each shape's beginning at an even place.
 *
 * @param shapes - one or more, fitted to the same pixels
 * @returns what moves the parameters
 * @throws {Error} a machine without vectors in WebAssembly
 */
export function shapeRows(shapes: readonly ShapeResponse[]): ShapeRows {
  const { run, trials, put, take, floats } = vectorMemory();
  const { parameters, transmittance, held } = shapes[0]!;
  const size = parameters.length;
  const pixels = transmittance.length;
  const columns = 2 + size + held;
  const rows = pixels + columns;
  const groups = Math.ceil(size / TOGETHER);
  const width = trials + 2 * shapes.length;
  const tables = shapes.map((shape) => ({
    fitted: put(filledUp(shape.parameters, groups * TOGETHER)),
    factors: put(grouped(shape, groups, columns)),
  }));
  const atIn = take(8 * width * rows);
  const atOut = take(8 * width * groups * TOGETHER);
  const table = put(Int32Array.of(rows, groups, 8 * width, atIn, atOut));
  const from = floats(atIn, width * rows);
  const to = floats(atOut, width * size);
  const place = new Int32Array(trials);
  const begin = new Int32Array(shapes.length + 1);
  const next = new Int32Array(shapes.length);

  return {
    trials,
    follow: (kind, pixelRows, few, out) => {
      sortTrials(kind);
      for (let i = 0, at = 0, base = 0; i < pixels; i++, base += width) {
        const expected = transmittance[i]!;
        for (let trial = 0; trial < trials; trial++) from[base + place[trial]!] = pixelRows[at++]! - expected;
      }
      for (let h = 0, at = 0, base = pixels * width; h < columns; h++, base += width)
        for (let trial = 0; trial < trials; trial++) from[base + place[trial]!] = few[at++]!;
      tables.forEach(({ fitted, factors }, k) => {
        if (next[k]! > begin[k]!) run.followRows(table, fitted, factors, begin[k]!, next[k]!);
      });
      for (let j = 0, at = 0, base = 0; j < size; j++, base += width)
        for (let trial = 0; trial < trials; trial++) out[at++] = to[base + place[trial]!]!;
    },
  };

  /** Gives each trial a place beside those of its kind. */
  function sortTrials(kind: Uint8Array): void {
    next.fill(0);
    for (let trial = 0; trial < trials; trial++) next[kind[trial]!]!++;
    for (let k = 0; k < next.length; k++) begin[k + 1] = begin[k]! + 2 * Math.ceil(next[k]! / 2);
    next.set(begin.subarray(0, next.length));
    for (let trial = 0; trial < trials; trial++) place[trial] = next[kind[trial]!]!++;
  }
}

function filledUp(values: Float64Array, length: number): Float64Array {
  const filled = new Float64Array(length);
  filled.set(values);
  return filled;
}

/** Change of the parameters by each row in: of a group of parameters, numbers that lie side by side. */
function grouped(
  { parameters, transmittance, byPixel, byFew }: ShapeResponse,
  groups: number,
  columns: number,
): Float64Array {
  const pixels = transmittance.length;
  const rows = pixels + columns;
  const packed = new Float64Array(groups * TOGETHER * rows);
  for (let j = 0; j < parameters.length; j++) {
    let to = (j - (j % TOGETHER)) * rows + (j % TOGETHER);
    for (let i = 0; i < pixels; i++, to += TOGETHER) packed[to] = byPixel[interleavedPlace(j, i, pixels)]!;
    for (let h = 0; h < columns; h++, to += TOGETHER) packed[to] = byFew[j * columns + h]!;
  }
  return packed;
}
