/**
 * Simulated pictures of a bright star with known halos: a generator of its own, which shares no code with what it tests.
 *
 * A pixel is worked out from closed forms for the star (Moffat core and an aureole that falls as a power), spikes,
 * neighbours, a sloping sky, disks with holes and blurred edges, then given shot and read noise,
 * hot pixels, a trail, and a full well that overflows along the columns.
 */

/** Uniform numbers from a 32-bit state (Marsaglia's xorshift with a Weyl sequence), normal ones by Box and Muller. */
export function numbers(seed) {
  let state = (Math.imul(seed + 1, 0x85ebca6b) ^ 0x27d4eb2f) >>> 0 || 1;
  let weyl = Math.imul(seed, 0x9e3779b1) >>> 0;
  const uniform = () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    weyl = (weyl + 362437) >>> 0;
    return (((state + weyl) >>> 0) + 0.5) / 4294967296;
  };
  for (let i = 0; i < 20; i++) uniform();
  let spare = null;
  const normal = () => {
    if (spare !== null) {
      const held = spare;
      spare = null;
      return held;
    }
    const length = Math.sqrt(-2 * Math.log(uniform()));
    const angle = 2 * Math.PI * uniform();
    spare = length * Math.sin(angle);
    return length * Math.cos(angle);
  };
  return { uniform, normal };
}

/** Probability of a standard normal number below t, from the complementary error function (Numerical approximation 7.1.26 of Abramowitz and Stegun, good to 1.5e-7). */
function below(t) {
  const x = Math.abs(t) / Math.SQRT2;
  const u = 1 / (1 + 0.3275911 * x);
  const tail =
    u *
    (0.254829592 + u * (-0.284496736 + u * (1.421413741 + u * (-1.453152027 + u * 1.061405429)))) *
    Math.exp(-x * x);
  return t >= 0 ? 1 - tail / 2 : tail / 2;
}

/** Share of a circle about the origin at a place, its edge softened: share of the light below t. */
function inside(dx, dy, radius, edge) {
  return radius <= 0 ? 0 : edge(radius - Math.hypot(dx, dy));
}

/** A straight edge blurred by a normal law of the given standard deviation, pixels. */
function normalEdge(blur) {
  return (distance) => {
    const t = distance / blur;
    return t > 5 ? 1 : t < -5 ? 0 : below(t);
  };
}

/** A straight edge blurred by a Moffat profile: its line integral (1 + (x / alpha)^2)^(1/2 - beta), summed in a table. */
function moffatEdge(alpha, beta) {
  const reach = 50 * alpha;
  const n = 20000;
  const table = new Float64Array(n + 1);
  const at = (k) => (1 + ((-reach + (2 * reach * k) / n) / alpha) ** 2) ** (0.5 - beta);
  for (let k = 1; k <= n; k++) table[k] = table[k - 1] + (at(k - 1) + at(k)) / 2;
  return (distance) => {
    const place = ((distance + reach) / (2 * reach)) * n;
    if (!(place > 0)) return 0;
    if (place >= n) return 1;
    const k = Math.floor(place);
    return (table[k] + (place - k) * (table[k + 1] - table[k])) / table[n];
  };
}

/**
 * One picture.
 *
 * scene: { size | width, height, x, y, starCounts, coreFwhm, beta, aureoleShare, aureolePower, sky, slope: [sx, sy],
 *   readNoise, gain (electrons a count), full, halos: [{ inner, outer, dx, dy, share, blur? }], spikes, neighbours, trail,
 *   hotPixels, ellipticity, moffatEdges }
 */
export function picture(scene, seed) {
  const width = scene.width ?? scene.size;
  const height = scene.height ?? scene.size;
  const random = numbers(seed);
  const counts = new Float32Array(width * height);
  const { x: cx, y: cy, starCounts, coreFwhm, beta, aureoleShare, aureolePower } = scene;
  const alpha = coreFwhm / (2 * Math.sqrt(2 ** (1 / beta) - 1));
  const coreTop = (starCounts * (1 - aureoleShare) * (beta - 1)) / (Math.PI * alpha * alpha);
  const bend = 6 * coreFwhm; // inside this the aureole is flat
  const reach = 2000;
  // Light of (1 + (r / bend)^2)^(-p / 2) out to the reach, in closed form.
  const half = aureolePower / 2;
  const t = 1 + (reach / bend) ** 2;
  const integral = Math.PI * bend * bend * (half === 1 ? Math.log(t) : (t ** (1 - half) - 1) / (1 - half));
  const aureoleTop = (starCounts * aureoleShare) / integral;
  const blur = coreFwhm / 2.355;
  const softened = scene.moffatEdges ? moffatEdge(alpha, beta) : normalEdge(blur);
  const halos = scene.halos.map((halo) => ({
    ...halo,
    edge: halo.blur === undefined ? softened : normalEdge(halo.blur),
    surface: (starCounts * halo.share) / (Math.PI * (halo.outer ** 2 - halo.inner ** 2)),
  }));
  const neighbours = scene.neighbours ?? [];
  const ellipticity = scene.ellipticity ?? 0;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const dx = x - cx;
      const dy = y - cy;
      const squash = dx * dx * (1 + ellipticity) + dy * dy * (1 - ellipticity);
      let light = scene.sky + scene.slope[0] * dx + scene.slope[1] * dy;
      light += coreTop * (1 + squash / (alpha * alpha)) ** -beta;
      light += aureoleTop * (1 + squash / (bend * bend)) ** -half;
      for (const halo of halos) {
        light +=
          halo.surface *
          (inside(dx - halo.dx, dy - halo.dy, halo.outer, halo.edge) -
            inside(dx - halo.dx, dy - halo.dy, halo.inner, halo.edge));
      }
      if (scene.spikes) {
        const r = Math.hypot(dx, dy) + 1;
        for (const angle of scene.spikes.angles) {
          const across = Math.abs(-dx * Math.sin(angle) + dy * Math.cos(angle));
          if (across < 6) light += (scene.spikes.counts * Math.exp(-0.5 * (across / 1.3) ** 2)) / r ** 1.5;
        }
      }
      counts[y * width + x] = light;
    }
  }
  for (const star of neighbours) {
    const top = (star.counts * (beta - 1)) / (Math.PI * alpha * alpha);
    const far = Math.ceil(alpha * Math.min(60, (top / 0.02) ** (1 / (2 * beta))));
    for (let y = Math.max(0, Math.round(star.y) - far); y <= Math.min(height - 1, star.y + far); y++) {
      for (let x = Math.max(0, Math.round(star.x) - far); x <= Math.min(width - 1, star.x + far); x++) {
        counts[y * width + x] +=
          top * (1 + ((x - star.x) ** 2 + (y - star.y) ** 2) / (alpha * alpha)) ** -beta;
      }
    }
  }
  if (scene.trail) {
    const { x, y, angle, counts: bright } = scene.trail;
    for (let k = -2 * width; k < 2 * width; k++) {
      const px = x + (k / 2) * Math.cos(angle);
      const py = y + (k / 2) * Math.sin(angle);
      for (let j = -3; j <= 3; j++) {
        for (let i = -3; i <= 3; i++) {
          const qx = Math.round(px) + i;
          const qy = Math.round(py) + j;
          if (qx < 0 || qy < 0 || qx >= width || qy >= height) continue;
          const across = Math.abs(-(qx - x) * Math.sin(angle) + (qy - y) * Math.cos(angle));
          counts[qy * width + qx] += 0.1 * bright * Math.exp(-0.5 * (across / 1.2) ** 2);
        }
      }
    }
  }
  for (let k = 0; k < counts.length; k++) {
    const electrons = Math.max(0, counts[k]) * scene.gain;
    counts[k] += (Math.sqrt(electrons + scene.readNoise ** 2) * random.normal()) / scene.gain;
  }
  for (let n = 0; n < (scene.hotPixels ?? 0); n++) {
    counts[Math.floor(random.uniform() * counts.length)] += scene.sky + 0.4 * scene.full * random.uniform();
  }
  overflow(counts, width, height, scene.full);
  if (scene.round) for (let k = 0; k < counts.length; k++) counts[k] = Math.round(counts[k]);
  return { width, height, counts, surfaces: halos.map((halo) => halo.surface) };
}

/** What does not fit in a pixel runs up and down its column, half each way. */
function overflow(counts, width, height, full) {
  for (let x = 0; x < width; x++) {
    for (const step of [1, -1]) {
      let carried = 0;
      for (let y = step > 0 ? 0 : height - 1; y >= 0 && y < height; y += step) {
        const k = y * width + x;
        // The second way round finds the other half still in the pixel.
        const excess = Math.max(0, counts[k] - full) * (step > 0 ? 0.5 : 1);
        if (excess > 0) {
          counts[k] -= excess;
          carried += excess;
        } else if (carried > 0) {
          const taken = Math.min(carried, Math.max(0, full * 1.001 - counts[k]));
          counts[k] += taken;
          carried -= taken;
        }
      }
    }
  }
}

/** A scene with the troubles of real pictures, drawn by a seed; halos are given. */
export function randomScene(seed, size, halos = []) {
  const random = numbers(seed + 7_000_003);
  const between = (a, b) => a + (b - a) * random.uniform();
  const gain = between(0.5, 2);
  const full = 60000;
  const sky = between(200, 2000);
  const starCounts = 10 ** between(6.6, 7.4);
  const x = size / 2 + between(-0.06, 0.06) * size;
  const y = size / 2 + between(-0.06, 0.06) * size;
  const neighbours = Array.from({ length: Math.round(between(5, 40) * (size / 512) ** 2) }, () => ({
    x: between(0, size),
    y: between(0, size),
    counts: 10 ** between(2.5, 5.3),
  })).filter((star) => Math.hypot(star.x - x, star.y - y) > 30);
  const turn = between(0, Math.PI);
  return {
    size,
    x,
    y,
    starCounts,
    coreFwhm: between(2.2, 4.5),
    beta: between(2.6, 4),
    aureoleShare: between(0.02, 0.08),
    aureolePower: between(2, 3),
    sky,
    slope: [
      between(-0.03, 0.03) * Math.sqrt(sky / gain) * 0.2,
      between(-0.03, 0.03) * Math.sqrt(sky / gain) * 0.2,
    ],
    readNoise: between(1.5, 8),
    gain,
    full,
    halos,
    spikes: random.uniform() < 0.6 ? { angles: [turn, turn + Math.PI / 2], counts: starCounts * 4e-4 } : null,
    neighbours,
    trail:
      random.uniform() < 0.3
        ? { x: between(0, size), y: between(0, size), angle: between(0, Math.PI), counts: between(20, 200) }
        : null,
    hotPixels: Math.round(between(0, 2e-4) * size * size),
    ellipticity: between(-0.05, 0.05),
    round: random.uniform() < 0.5,
    moffatEdges: random.uniform() < 0.5,
  };
}
