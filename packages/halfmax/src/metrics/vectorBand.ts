import type { VectorMemory } from '../vector/index.js';
import type { BandKernel } from './bandKernel.js';
import type { BandPlan } from './bandPlan.js';
import { patterns, peakPatterns, thinnedWeight } from './smoothedPeak.js';
import type { SmoothedStretch } from './smoothedStretch.js';

/** A band's tables in the memory of the vector code. */
export interface VectorBand {
  /** Where the record of the band begins: `Band` of `assembly/layout.ts`. */
  readonly band: number;
  /** Rows that the code may look at: windows are filled up with weights of 0. */
  readonly rowsNeeded: number;
}

/** Bytes of a number, and of the four numbers that are worked on at a time. */
const NUMBER = 8;
const FOUR = 4 * NUMBER;
/** A window has a multiple of so many pixels. */
const WINDOW_STEP = 4;

/**
 * Writes the tables of a band, as `assembly/layout.ts` describes them.
 *
 * @param vector - whose memory is written
 * @param kernel - stretches of the band
 * @param plan - gaps and uncertainties
 * @returns the band and how many rows it needs
 */
export function putBand(vector: VectorMemory, kernel: BandKernel, plan: BandPlan): VectorBand {
  const { put, take, trials } = vector;
  const { top, blueEdge, redEdge, firstPixel, endPixel } = kernel;
  const { noisy, noise, noiseSlopes, reach } = peakPatterns(top, plan.curve.standardUncertainty);
  const stretches = [top, blueEdge, redEdge].map((stretch) => evenStretch(stretch, firstPixel, endPixel));
  const rowsNeeded = Math.max(endPixel - firstPixel, ...stretches.map(({ window }) => window));
  const places = Math.max(...stretches.map(({ atNm }) => atNm.length));
  const count = noisy ? patterns : 0;
  const row = NUMBER * trials;
  const weight = new Int32Array(Float64Array.of(thinnedWeight).buffer);
  const record = Int32Array.of(
    rowsNeeded,
    count,
    ...stretches.map((stretch) => putStretch(vector, stretch)),
    put(noise),
    put(patternCells(stepsOf(top.atNm), noise, noiseSlopes)),
    put(reach),
    plan.gaps.length,
    put(Float64Array.from(plan.gaps.flat())),
    take(2 * NUMBER * rowsNeeded),
    take(row * places),
    take(row * places),
    take(2 * row),
    take(FOUR * 4 * (top.atNm.length + 1) + 2 * FOUR * count),
    take(8 * FOUR * count),
    ...weight,
  );
  return { band: put(record), rowsNeeded };
}

interface EvenStretch {
  readonly atNm: Float64Array;
  readonly window: number;
  readonly from: Int32Array;
  readonly value: Float64Array;
  readonly slope: Float64Array;
}

/** A stretch whose windows are all of one length, a multiple of four pixels, counted from the band's first pixel. */
function evenStretch({ atNm, weights }: SmoothedStretch, firstPixel: number, endPixel: number): EvenStretch {
  const longest = weights.reduce((most, one) => Math.max(most, one.value.length), 0);
  const window = Math.ceil(longest / WINDOW_STEP) * WINDOW_STEP;
  const from = new Int32Array(weights.length);
  const value = new Float64Array(weights.length * window);
  const slope = new Float64Array(weights.length * window);
  weights.forEach((one, k) => {
    const first = one.from - firstPixel;
    from[k] = Math.max(0, Math.min(first, endPixel - firstPixel - window));
    value.set(one.value, k * window + first - from[k]!);
    slope.set(one.slope, k * window + first - from[k]!);
  });
  return { atNm, window, from, value, slope };
}

function putStretch({ put, trials }: VectorMemory, stretch: EvenStretch): number {
  const { atNm, window, from, value, slope } = stretch;
  const rowsFrom = from.map((pixel) => pixel * NUMBER * trials);
  const pointers = [put(rowsFrom), put(value), put(slope), put(atNm), put(stepsOf(atNm))];
  return put(Int32Array.of(atNm.length, window, ...pointers));
}

/** Distance to the next place; for the last, which has none, any. */
function stepsOf(atNm: Float64Array): Float64Array {
  return atNm.map((nm, k) => (k + 1 < atNm.length ? atNm[k + 1]! - nm : 1));
}

/** Cubics of the patterns, with a cell before the first place and one after the last where no maximum lies inside. */
function patternCells(step: Float64Array, noise: Float64Array, noiseSlopes: Float64Array): Float64Array {
  const n = step.length;
  const cells: number[] = [];
  for (let at = 0; at < noise.length; at += n) {
    cells.push(noise[at]!, 0, 0, 0);
    for (let k = 0; k < n; k++) {
      const a = noise[at + k]!;
      const da = noiseSlopes[at + k]! * step[k]!;
      if (k + 1 === n) {
        cells.push(a, da, 0, 0);
        continue;
      }
      const rise = noise[at + k + 1]! - a;
      const db = noiseSlopes[at + k + 1]! * step[k]!;
      cells.push(a, da, 3 * rise - 2 * da - db, 3 * (2 * rise - (da + db)));
    }
  }
  return Float64Array.from(cells);
}
