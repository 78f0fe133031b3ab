import { vectorMemory } from '../vector/index.js';
import {
  type BandShape,
  LEAST_LOG_STEEPNESS,
  LEAST_TAIL,
  MOST_LOG_STEEPNESS,
  MOST_TAIL,
} from './bandShape.js';
import { topPlaces } from './topPlaces.js';

/** Reads band curves of one shape in many trials side by side. */
export interface BandRows {
  /** Trials side by side: numbers in a row. */
  readonly trials: number;
  /** Takes a row for each parameter; all that follows is of these. */
  readonly take: (parameters: Float64Array) => void;
  /** Writes four rows: height and place of the peak, blue and red half-peak crossing; NaN for a crossing that is not. */
  readonly read: (out: Float64Array) => void;
  /** Takes rows of air wavelengths in nm, writes as many rows of transmittances. */
  readonly values: (wavelengthNm: Float64Array, out: Float64Array) => void;
}

/** Rows of values that are worked out in one call at most. */
const VALUES = 16;

/**
 * The numbers of `bandReader` for many trials at a time: the same within rounding, and quick from the first of them.
 *
 * @param shape - the shape
 * @returns the reader; it keeps the parameters last taken
 * @throws {Error} a machine without vectors in WebAssembly
 */
export function bandRows(shape: BandShape): BandRows {
  const { run, trials, put, take, floats } = vectorMemory();
  const { ripples } = shape;
  const { nodes, place, logPlace, cosines, missed } = topPlaces(ripples);
  const numbers = [shape.originNm, LEAST_TAIL, MOST_TAIL, LEAST_LOG_STEEPNESS, MOST_LOG_STEEPNESS];
  const table = put(
    Int32Array.of(
      ripples,
      nodes,
      ...new Int32Array(Float64Array.from(numbers).buffer),
      ...[place, logPlace, cosines, missed].map(put),
      ...[ripples, nodes, nodes].map((count) => take(8 * count)),
    ),
  );
  const row = 8 * trials;
  const [atParameters, atFound] = [take(shape.size * row), take(4 * row)];
  const [atWavelengths, atOut] = [take(VALUES * row), take(VALUES * row)];
  const parameterRows = floats(atParameters, shape.size * trials);
  const wavelengthRows = floats(atWavelengths, VALUES * trials);
  const found = floats(atFound, 4 * trials);
  const valueRows = floats(atOut, VALUES * trials);
  return {
    trials,
    take: (parameters) => parameterRows.set(parameters),
    read: (out) => {
      run.readShapes(table, atParameters, atFound);
      out.set(found);
    },
    values: (wavelengthNm, out) => {
      const step = VALUES * trials;
      for (let from = 0; from < wavelengthNm.length; from += step) {
        const some = wavelengthNm.subarray(from, from + step);
        wavelengthRows.set(some);
        run.shapeValues(table, atParameters, some.length / trials, atWavelengths, atOut);
        out.set(valueRows.subarray(0, some.length), from);
      }
    },
  };
}
