import { normalCdf, type RandomStream } from '../numeric/index.js';

/** Layers of equal area under the bell: 256, so that a layer is told by 8 bits of a uniform number. */
const LAYERS = 256;
/** Where the lowest layer goes over into the tail: with it the layers come to an end at the top of the bell. */
const TAIL = 3.654152885361009;

const { edges, bell, sure } = layers();

/**
 * One normal number, mean 0 and standard deviation 1, from one uniform number in 98 of 100 cases.
 *
 * @param stream - random numbers; 8 bits of a uniform number pick the layer, the others the place in it
 * @returns the number
 *
 * Source: ziggurat method, G. Marsaglia, W. W. Tsang, J. Stat. Softw. 5(8) (2000), in the form of J. A. Doornik, An
 * improved ziggurat method to generate normal random samples (2005): layer and place from bits of their own; tail:
 * G. Marsaglia, Technometrics 6, 101 (1964). From memory.
 */
export function normalVariate(stream: RandomStream): number {
  for (;;) {
    const scaled = stream.uniform() * LAYERS;
    const layer = scaled | 0;
    const place = 2 * (scaled - layer) - 1;
    if (Math.abs(place) < sure[layer]!) return place * edges[layer]!;
    if (layer === 0) return place < 0 ? -tail(stream) : tail(stream);
    const x = place * edges[layer]!;
    const low = bell[layer]!;
    const height = low + stream.uniform() * (bell[layer + 1]! - low);
    if (height < Math.exp(-0.5 * x * x)) return x;
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
