/**
 * The code for many trials or cells side by side, in AssemblyScript: `src/vector/vectorCode.generated.ts` is made from it by
 * scripts/generate-vector.mjs.
 */
import { DRAWS } from './layout';
export { fillNormals } from './normals';
export { readMany } from './read';
export { modelOfCells } from './ringModel';
export { addRings } from './rings';
export { sumProducts, sumResiduals } from './ringTotals';

/** Trials side by side: numbers in a row. */
export function batch(): i32 {
  return i32(DRAWS);
}

/** First byte that is free. */
export function heapStart(): usize {
  return __heap_base;
}
