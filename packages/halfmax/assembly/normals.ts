/**
 * Normal numbers for many draws, rows of pixels.
 *
 * Source: generator xoroshiro128+: Blackman, Vigna, ACM Trans. Math. Softw. 47, 36 (2021). Ziggurat method:
 * G. Marsaglia, W. W. Tsang, J. Stat. Softw. 5(8) (2000), in the form of J. A. Doornik, An improved ziggurat method to
 * generate normal random samples (2005): layer and place from bits of their own; tail: G. Marsaglia, Technometrics 6,
 * 101 (1964). The methods from memory.
 */

/** Bytes of a generator: two words of 64 bits. */
const GENERATOR: usize = 16;
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
 * Normal numbers for many trials: for each quantity a row with one number per trial, mean + deviation x number.
 *
 * @param state - two words of 64 bits, not both 0; moved on
 * @param layers - table of the layers: edge, sure part, height of the bell below and above
 * @param mean - of each quantity
 * @param deviation - of each quantity
 * @param out - rows
 * @param list - room for 16 bytes more than 16 per trial: numbers that the bell does not wholly cover wait there
 */
export function fillNormals(
  state: usize,
  layers: usize,
  mean: usize,
  deviation: usize,
  rows: i32,
  draws: i32,
  out: usize,
  list: usize,
): void {
  let first = load<u64>(state);
  let second = load<u64>(state, 8);
  let at = out;
  for (let row = 0; row < rows; row++) {
    const centre = load<f64>(mean + (usize(row) << 3));
    const scale = load<f64>(deviation + (usize(row) << 3));
    let missed = list;
    for (const end = at + (usize(draws) << 3); at < end; at += 8) {
      const bits = first + second;
      const mixed = first ^ second;
      first = rotl<u64>(first, 24) ^ mixed ^ (mixed << 16);
      second = rotl<u64>(mixed, 37);
      const layer = layers + (usize(bits >> 56) << LAYER_SHIFT);
      const place = placeOf(bits);
      store<f64>(at, centre + scale * (place * load<f64>(layer, EDGE)));
      store<u64>(missed, bits);
      store<usize>(missed, at, 8);
      missed += usize(!(abs(place) < load<f64>(layer, SURE))) << 4;
    }
    store<u64>(state, first);
    store<u64>(state, second, 8);
    for (let miss = list; miss < missed; miss += 16) {
      store<f64>(load<usize>(miss, 8), centre + scale * beyond(state, layers, load<u64>(miss)));
    }
    first = load<u64>(state);
    second = load<u64>(state, 8);
  }
  store<u64>(state, first);
  store<u64>(state, second, 8);
}
