import { ROW } from './layout';

/**
 * Normal numbers for many draws, rows of pixels.
 *
 * Source: generator xoroshiro128+: Blackman, Vigna, ACM Trans. Math. Softw. 47, 36 (2021). Ziggurat method:
 * G. Marsaglia, W. W. Tsang, J. Stat. Softw. 5(8) (2000), in the form of J. A. Doornik, An improved ziggurat method to
 * generate normal random samples (2005): layer and place from bits of their own; tail: G. Marsaglia, Technometrics 6,
 * 101 (1964). The methods from memory.
 */

/** Bytes of a layer in the table: right edge, part that is surely under the bell, height of the bell below, and above. */
const LAYER_SHIFT: usize = 5;
const EDGE: usize = 0;
const SURE: usize = 8;
const BELOW: usize = 16;
const ABOVE: usize = 24;

/** Next 64 bits of the generator at `state`. */
function next(state: usize): u64 {
  const first = load<u64>(state);
  const second = load<u64>(state, 8);
  const mixed = first ^ second;
  store<u64>(state, rotl<u64>(first, 24) ^ mixed ^ (mixed << 16));
  store<u64>(state, rotl<u64>(mixed, 37), 8);
  return first + second;
}

/** Above 0, up to 1. */
function uniform(state: usize): f64 {
  return (f64(i64(next(state) >> 11)) + 0.5) * 1.1102230246251565e-16; // 2^-53
}

/** From -1 up, below 1. */
// @ts-ignore: decorator
@inline
function placeOf(bits: u64): f64 {
  return reinterpret<f64>((bits & 0x000fffffffffffff) | 0x4000000000000000) - 3;
}

/** A number beyond the lowest layer. */
function tail(state: usize, from: f64): f64 {
  while (true) {
    const x = Math.log(uniform(state)) / from;
    const y = Math.log(uniform(state));
    if (-2 * y > x * x) return from - x;
  }
}

/** A number from the part of a layer that the bell does not wholly cover, or from another place where it misses. */
function beyond(state: usize, layers: usize, first: u64): f64 {
  let bits = first;
  while (true) {
    const number = usize(bits >> 56);
    const layer = layers + (number << LAYER_SHIFT);
    const place = placeOf(bits);
    const x = place * load<f64>(layer, EDGE);
    if (abs(place) < load<f64>(layer, SURE)) return x;
    if (number === 0) {
      const far = tail(state, load<f64>(layers, (1 << LAYER_SHIFT) + EDGE));
      return place < 0 ? -far : far;
    }
    const low = load<f64>(layer, BELOW);
    if (low + uniform(state) * (load<f64>(layer, ABOVE) - low) < Math.exp(-0.5 * x * x)) return x;
    bits = next(state);
  }
}

/**
 * Fills a batch with normal numbers that do not depend on one another.
 *
 * @param state - of the generator: 128 bits, not all 0; left where the next batch goes on
 * @param layers - of the ziggurat: for each of 256 its right edge, the part that is surely under the bell, and the
 *   height of the bell at this edge and at the next
 * @param mean - of each row
 * @param deviation - standard deviation of each row
 * @param rows - how many rows
 * @param out - the rows
 * @param list - room for 16 bytes per number
 */
export function fillNormals(
  state: usize,
  layers: usize,
  mean: usize,
  deviation: usize,
  rows: i32,
  out: usize,
  list: usize,
): void {
  let first = load<u64>(state);
  let second = load<u64>(state, 8);
  let at = out;
  let missed = list;
  for (let row = 0; row < rows; row++) {
    const centre = load<f64>(mean + (usize(row) << 3));
    const scale = load<f64>(deviation + (usize(row) << 3));
    for (const end = at + ROW; at < end; at += 8) {
      const bits = first + second;
      const mixed = first ^ second;
      first = rotl<u64>(first, 24) ^ mixed ^ (mixed << 16);
      second = rotl<u64>(mixed, 37);
      const layer = layers + (usize(bits >> 56) << LAYER_SHIFT);
      const place = placeOf(bits);
      store<f64>(at, centre + scale * (place * load<f64>(layer, EDGE)));
      // A miss stays on the list, anything else is written over: no branch that could be foretold wrongly.
      store<u64>(missed, bits);
      store<usize>(missed, at, 8);
      missed += usize(!(abs(place) < load<f64>(layer, SURE))) << 4;
    }
  }
  store<u64>(state, first);
  store<u64>(state, second, 8);
  for (let miss = list; miss < missed; miss += 16) {
    const to = load<usize>(miss, 8);
    const row = ((to - out) / ROW) << 3;
    store<f64>(to, load<f64>(mean + row) + load<f64>(deviation + row) * beyond(state, layers, load<u64>(miss)));
  }
}
