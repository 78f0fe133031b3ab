import { normalCdf, type RandomStream } from '../numeric/index.js';

/** Layers of equal area under the bell: 256, so that a layer is told by 8 bits of a uniform number. */
const LAYERS = 256;
/** Where the lowest layer goes over into the tail: with it the layers come to an end at the top of the bell. */
const TAIL = 3.654152885361009;

const { edges, bell, sure } = layers();

/**
 * Normal numbers that do not depend on one another. The numbers of a call come from a generator of its own, which is
 * started with 128 bits of the stream: its state stays in a few local words, and one step of it gives a normal number
 * in 98 of 100 cases.
 *
 * @param stream - random numbers
 * @param mean - of each number
 * @param deviation - standard deviation of each number, same length
 * @param out - filled from `at` on
 * @param at - place of the first number
 *
 * Source: generator xoroshiro128+: Blackman, Vigna, ACM Trans. Math. Softw. 47, 36 (2021). Ziggurat method:
 * G. Marsaglia, W. W. Tsang, J. Stat. Softw. 5(8) (2000), in the form of J. A. Doornik, An improved ziggurat method to
 * generate normal random samples (2005): layer and place from bits of their own; tail: G. Marsaglia, Technometrics 6,
 * 101 (1964). The methods from memory.
 */
export function normalVariates(
  stream: RandomStream,
  mean: Float64Array,
  deviation: Float64Array,
  out: Float64Array,
  at: number,
): void {
  // Two words of 64 bits, each as a low and a high half; the 1 keeps the state from being 0.
  let low0 = word(stream) | 1;
  let high0 = word(stream);
  let low1 = word(stream);
  let high1 = word(stream);
  for (let i = 0; i < mean.length; i++) {
    const low = (low0 + low1) >>> 0;
    const high = (high0 + high1 + (low < low0 >>> 0 ? 1 : 0)) | 0;
    const a = low1 ^ low0;
    const b = high1 ^ high0;
    const wasLow = low0;
    const wasHigh = high0;
    low0 = (wasLow << 24) ^ (wasHigh >>> 8) ^ a ^ (a << 16);
    high0 = (wasHigh << 24) ^ (wasLow >>> 8) ^ b ^ ((b << 16) | (a >>> 16));
    low1 = (b << 5) ^ (a >>> 27);
    high1 = (a << 5) ^ (b >>> 27);
    // The highest 8 bits are the layer, the 48 below them the place in it, halfway between two steps.
    const layer = high >>> 24;
    const place = ((high & 0xffffff) * 16777216 + (low >>> 8) + 0.5) * 7.105427357601002e-15 - 1; // 2^24, 2^-47
    // Two ways to the end rather than one value: it would have to be boxed.
    if (Math.abs(place) < sure[layer]!) out[at + i] = mean[i]! + deviation[i]! * (place * edges[layer]!);
    else out[at + i] = mean[i]! + deviation[i]! * beyond(stream, layer, place);
  }
}

function word(stream: RandomStream): number {
  return (stream.uniform() * 4294967296) | 0; // 2^32
}

/** A number from the part of a layer that the bell does not wholly cover, or from another place where it misses. */
function beyond(stream: RandomStream, first: number, start: number): number {
  let layer = first;
  let place = start;
  for (;;) {
    if (layer === 0) return place < 0 ? -tail(stream) : tail(stream);
    const x = place * edges[layer]!;
    const low = bell[layer]!;
    const height = low + stream.uniform() * (bell[layer + 1]! - low);
    if (height < Math.exp(-0.5 * x * x)) return x;
    const scaled = stream.uniform() * LAYERS;
    layer = scaled | 0;
    place = 2 * (scaled - layer) - 1;
    if (Math.abs(place) < sure[layer]!) return place * edges[layer]!;
  }
}

/** A number beyond the lowest layer. */
function tail(stream: RandomStream): number {
  for (;;) {
    const x = Math.log(stream.uniform()) / TAIL;
    const y = Math.log(stream.uniform());
    if (-2 * y > x * x) return TAIL - x;
  }
}

/** Layers of equal area that fill the space under the bell. */
interface Layers {
  /** Right edge of each layer, widest first; the first is that of a box as large as the lowest layer with its tail. */
  readonly edges: Float64Array;
  /** Height of the bell at each edge. */
  readonly bell: Float64Array;
  /** Part of each layer that lies under the bell over its whole height. */
  readonly sure: Float64Array;
  /** What the layers leave open below the top of the bell: 0 where TAIL is right. */
  readonly gap: number;
}

/** Works the layers out; for the test, too. */
export function layers(): Layers {
  const edges = new Float64Array(LAYERS + 1);
  const bell = new Float64Array(LAYERS + 1);
  const height = Math.exp(-0.5 * TAIL * TAIL);
  const area = TAIL * height + Math.sqrt(2 * Math.PI) * normalCdf(-TAIL);
  edges[0] = area / height;
  edges[1] = TAIL;
  bell[1] = height;
  for (let layer = 1; layer < LAYERS - 1; layer++) {
    bell[layer + 1] = bell[layer]! + area / edges[layer]!;
    edges[layer + 1] = Math.sqrt(-2 * Math.log(bell[layer + 1]!));
  }
  const gap = 1 - (bell[LAYERS - 1]! + area / edges[LAYERS - 1]!);
  bell[LAYERS] = 1;
  const sure = Float64Array.from({ length: LAYERS }, (_, layer) => edges[layer + 1]! / edges[layer]!);
  return { edges, bell, sure, gap };
}
