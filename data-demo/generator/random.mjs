/**
 * A seeded stream of random numbers, with the draws that a simulated bench needs.
 *
 * @typedef {object} RandomSource
 * @property {() => number} uniform a number in (0, 1)
 * @property {() => number} normal a standard normal number
 * @property {(mean: number) => number} poisson a Poisson count of the given mean
 * @property {(low: number, high: number) => number} between evenly spread between two bounds
 * @property {(count: number) => number} index an integer from 0 to count - 1
 * @property {<T>(items: readonly T[]) => T} pick one of the items
 * @property {(chance: number) => boolean} happens true with the given probability
 */

/**
 * Four 32-bit words made from a text, so that streams of different purposes do not overlap.
 *
 * @param {string} text
 * @returns {[number, number, number, number]}
 */
function wordsOf(text) {
  /** @type {[number, number, number, number]} */
  const words = [0x9e3779b9, 0x243f6a88, 0xb7e15162, 0xdeadbeef];
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    for (let k = 0; k < 4; k++) {
      const mixed = Math.imul((words[k] ?? 0) ^ (code + 0x85ebca6b * (k + 1)), 0x01000193 + 2 * k * 0x1f35);
      words[k] = (mixed ^ (mixed >>> 15)) >>> 0;
    }
  }
  return words;
}

/**
 * Opens the stream that belongs to a seed and a purpose; the same pair gives the same numbers.
 *
 * Source: the 128-bit "small fast counter" generator of the PractRand suite (sfc32); normal numbers by the
 * polar method (Marsaglia, Bray, SIAM Review 6, 260 (1964)); Poisson numbers of middling mean by transformed
 * rejection (Hoermann, Insurance: Mathematics and Economics 12, 39 (1993)).
 *
 * @param {number} seed
 * @param {string} purpose
 * @returns {RandomSource}
 */
export function createRandom(seed, purpose) {
  const state = Int32Array.from(wordsOf(`${purpose}/${seed}`));
  const block = new Float64Array(512);
  let used = block.length;
  // A block at a time, with the state in local variables: the simulator spends much of its time here.
  const refill = () => {
    let [a = 0, b = 0, c = 0, d = 0] = state;
    for (let i = 0; i < block.length; i++) {
      const t = (((a + b) | 0) + d) | 0;
      d = (d + 1) | 0;
      a = b ^ (b >>> 9);
      b = (c + (c << 3)) | 0;
      c = (c << 21) | (c >>> 11);
      c = (c + t) | 0;
      block[i] = ((t >>> 0) + 0.5) / 4294967296;
    }
    state.set([a, b, c, d]);
    used = 0;
  };
  // The first block is thrown away: seeds that differ by one bit have parted by then.
  refill();
  used = block.length;

  const uniform = () => {
    if (used === block.length) refill();
    return /** @type {number} */ (block[used++]);
  };

  let spare = 0;
  let hasSpare = false;
  const normal = () => {
    if (hasSpare) {
      hasSpare = false;
      return spare;
    }
    let u = 0;
    let v = 0;
    let s = 0;
    do {
      u = 2 * uniform() - 1;
      v = 2 * uniform() - 1;
      s = u * u + v * v;
    } while (s >= 1 || s === 0);
    const factor = Math.sqrt((-2 * Math.log(s)) / s);
    spare = v * factor;
    hasSpare = true;
    return u * factor;
  };

  /** @param {number} mean */
  const poisson = (mean) => {
    if (!(mean > 0)) return 0;
    if (mean < 12) {
      const limit = Math.exp(-mean);
      let product = uniform();
      let count = 0;
      while (product > limit) {
        product *= uniform();
        count++;
      }
      return count;
    }
    if (mean < 30) return poissonByRejection(mean, uniform);
    // Normal with its skewness put in: what is left out is below a hundredth of the scatter.
    const z = normal();
    return Math.max(0, Math.round(mean + Math.sqrt(mean) * z + (z * z - 1) / 6));
  };

  return {
    uniform,
    normal,
    poisson,
    between: (low, high) => low + (high - low) * uniform(),
    index: (count) => Math.floor(uniform() * count),
    pick: (items) => /** @type {any} */ (items[Math.floor(uniform() * items.length)]),
    happens: (chance) => uniform() < chance,
  };
}

/**
 * @param {number} mean 10 or more
 * @param {() => number} uniform
 * @returns {number}
 */
function poissonByRejection(mean, uniform) {
  const b = 0.931 + 2.53 * Math.sqrt(mean);
  const a = -0.059 + 0.02483 * b;
  const inverseAlpha = 1.1239 + 1.1328 / (b - 3.4);
  const inside = 0.9277 - 3.6224 / (b - 2);
  const logMean = Math.log(mean);
  for (;;) {
    const u = uniform() - 0.5;
    const v = uniform();
    const us = 0.5 - Math.abs(u);
    const k = Math.floor(((2 * a) / us + b) * u + mean + 0.43);
    if (us >= 0.07 && v <= inside) return k;
    if (k < 0 || (us < 0.013 && v > us)) continue;
    if (Math.log((v * inverseAlpha) / (a / (us * us) + b)) <= k * logMean - mean - logFactorial(k)) return k;
  }
}

/**
 * @param {number} n
 * @returns {number} natural logarithm of n!
 */
function logFactorial(n) {
  if (n < 10) {
    let product = 1;
    for (let i = 2; i <= n; i++) product *= i;
    return Math.log(product);
  }
  const x = n + 1;
  return (
    (x - 0.5) * Math.log(x) -
    x +
    0.5 * Math.log(2 * Math.PI) +
    1 / (12 * x) -
    1 / (360 * x ** 3) +
    1 / (1260 * x ** 5)
  );
}
