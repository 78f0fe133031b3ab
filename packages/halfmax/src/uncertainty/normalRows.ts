import type { RandomStream } from '../numeric/index.js';
import { vectorMemory } from '../vector/index.js';
import { layers } from './normalVariates.js';

/** Fills rows of `x` from `at` on: for each quantity a row with one number per trial. */
export type RowSampler = (stream: RandomStream, x: Float64Array, at: number) => void;

/**
 * Normal numbers that do not depend on one another, many trials side by side. The numbers of a call come from a
 * generator of its own, which is started with 128 bits of the stream.
 *
 * @param mean - of each quantity
 * @param deviation - standard deviation of each quantity, same length
 * @returns function that fills a row for each quantity
 *
 * Source: as for `normalVariates`; see `assembly/normals.ts`.
 */
export function normalRows(mean: Float64Array, deviation: Float64Array): RowSampler {
  const vector = vectorMemory();
  const { trials, put, take } = vector;
  const rows = mean.length;
  const layerTable = put(layerRecords());
  const [means, deviations] = [put(mean), put(deviation)];
  const state = put(new Int32Array(4));
  // Room for those that the bell does not wholly cover.
  const list = take(16 * (trials * rows + 1));
  const out = take(8 * trials * rows);
  const words = new Int32Array(vector.run.memory.buffer, state, 4);
  const drawn = vector.floats(out, trials * rows);
  return (stream, x, at) => {
    for (let i = 0; i < 4; i++) words[i] = stream.uniform() * 4294967296; // 2^32
    // The state must not be 0.
    words[0]! |= 1;
    vector.run.fillNormals(state, layerTable, means, deviations, rows, out, list);
    x.set(drawn, at);
  };
}

/** The layers of the ziggurat: edge, sure part, height of the bell below and above. */
function layerRecords(): Float64Array {
  const { edges, bell, sure } = layers();
  return Float64Array.from(Array.from(sure, (part, k) => [edges[k]!, part, bell[k]!, bell[k + 1]!]).flat());
}
