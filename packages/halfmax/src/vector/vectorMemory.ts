import { vectorCode, vectorTrials } from './vectorCode.generated.js';

/** Functions of the code; a pointer is a count of bytes from the start of the memory. */
interface VectorFunctions {
  readonly memory: { readonly buffer: ArrayBuffer; grow(pages: number): number };
  /** First byte that is free. */
  heapStart(): number;
  /** Fills rows with normal numbers. */
  fillNormals(
    state: number,
    layers: number,
    mean: number,
    deviation: number,
    rows: number,
    out: number,
    list: number,
  ): void;
  /** Reads peak and crossings of a batch. */
  readMany(band: number, rows: number, out: number): void;
  /** Products of background and wings in the rings about a star, then the rest of what rings bring together. */
  sumProducts(cells: number, block: number, right: number): void;
  sumResiduals(cells: number, origin: number): void;
  /** What a model has in each cell about a star, and the disks of it. */
  modelOfCells(
    cells: number,
    disks: number,
    count: number,
    theta: number,
    model: number,
    light: number,
  ): void;
  /** Adds the rings about a star to normal equations; gives the weighted sum of squares. */
  addRings(
    cells: number,
    disks: number,
    count: number,
    parameters: number,
    theta: number,
    change: number,
    matrix: number,
    right: number,
  ): number;
}

/** Code that does many trials or cells side by side, with a memory of its own. */
export interface VectorMemory {
  readonly run: VectorFunctions;
  /** Trials side by side: numbers in a row. */
  readonly trials: number;
  /** Takes room for good. */
  readonly take: (bytes: number) => number;
  /** Takes room and fills it. */
  readonly put: (values: Float64Array | Int32Array | BigUint64Array) => number;
  /** The numbers at a pointer, shared with the code: to be asked for when nothing more is taken. */
  readonly floats: (at: number, length: number) => Float64Array;
}

/** The part of the standard interface to WebAssembly that is used: the same in Node and in a browser. */
declare const WebAssembly: {
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: unknown };
};
declare const atob: (text: string) => string;

const PAGE = 65536;
/** The memory grows by so many at least: each time costs, room that is not used does not. */
const PAGES = 16;
/** Rows begin where a vector may be loaded at once. */
const ALIGNED = 16;

let compiled: object | null = null;

/**
 * Code for many trials or cells side by side: WebAssembly with vectors of two numbers, the same bytes and results on
 * every machine. It is made from `assembly/`.
 *
 * @returns an instance with a memory of its own
 * @throws {Error} a machine without vectors in WebAssembly
 */
export function vectorMemory(): VectorMemory {
  compiled ??= new WebAssembly.Module(Uint8Array.from(atob(vectorCode), (letter) => letter.charCodeAt(0)));
  const run = new WebAssembly.Instance(compiled, {}).exports as VectorFunctions;
  let end = aligned(run.heapStart());
  const take = (bytes: number): number => {
    const at = end;
    end = aligned(end + bytes);
    const missing = end - run.memory.buffer.byteLength;
    if (missing > 0) run.memory.grow(Math.max(PAGES, Math.ceil(missing / PAGE)));
    return at;
  };
  return {
    run,
    trials: vectorTrials,
    take,
    put: (values) => {
      const at = take(values.byteLength);
      const bytes = new Uint8Array(values.buffer, values.byteOffset, values.byteLength);
      new Uint8Array(run.memory.buffer, at, bytes.length).set(bytes);
      return at;
    },
    floats: (at, length) => new Float64Array(run.memory.buffer, at, length),
  };
}

function aligned(at: number): number {
  return Math.ceil(at / ALIGNED) * ALIGNED;
}
