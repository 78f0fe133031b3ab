import { lampWander } from './lampWander.js';
import type { OpenBeam, OpenScan } from './openBeamModel.js';

/** The open beam at one time. */
export interface OpenRate {
  readonly countsPerMs: Float64Array;
  readonly noisePerMs: Float64Array;
  readonly darkPerMs: Float64Array;
  /** Of the dark, what all pixels share with every other spectrum: standard uncertainty with its sign. */
  readonly sharedPerMs: Float64Array;
  /** Standard uncertainty of the level from the drift of the lamp, relative, per pixel. */
  readonly driftRelative: Float64Array;
  /** Change of the level between the scans used, relative, mean over the light. */
  readonly change: number;
  /** The scans used. */
  readonly from: OpenScan;
  readonly to: OpenScan;
  /** `between` two scans in time; `outside` all of them; `untimed`: mean of all; `single`: there is but one. */
  readonly kind: 'between' | 'outside' | 'untimed' | 'single';
}

/**
 * Rate of the open beam at a time: the level on a straight line in time between the scans before and after.
 *
 * Between two scans the level is taken to wander as a random walk about its steady drift: zero uncertainty at the
 * scans, half of what it wanders from one scan to the next in the middle. How much it wanders is told by the changes
 * between all neighbouring scans, less the steady drift where there are three scans or more; with two scans all of
 * the change counts. Outside the scans, the nearest one, and without times, the mean of all: both with half the
 * spread of the levels as uncertainty, and outside at least what the lamp drifts and wanders in the time.
 *
 * @param beam - model of the open beam
 * @param timeMs - time of the filtered scan, or null
 * @returns rate and uncertainties per pixel
 * Source: open scan before and after is common practice, no source. Variance of a random walk held at both ends, s^2 t
 * (T - t) / T: Brownian bridge, any text on stochastic processes.
 */
export function openRateAt(beam: OpenBeam, timeMs: number | null): OpenRate {
  const { scans } = beam;
  const timed = timeMs !== null && scans.every((scan) => scan.timeMs !== null);
  if (scans.length === 1) return fixedRate(beam, scans[0]!, scans[0]!, 'single');
  if (!timed) return fixedRate(beam, null, null, 'untimed');
  if (timeMs < scans[0]!.timeMs!) return fixedRate(beam, scans[0]!, scans[0]!, 'outside', timeMs);
  if (timeMs > scans.at(-1)!.timeMs!) return fixedRate(beam, scans.at(-1)!, scans.at(-1)!, 'outside', timeMs);
  let upper = scans.findIndex((scan) => scan.timeMs! >= timeMs);
  if (upper === 0) upper = 1;
  const a = scans[upper - 1]!;
  const b = scans[upper]!;
  const span = b.timeMs! - a.timeMs!;
  const share = span > 0 ? (timeMs - a.timeMs!) / span : 0.5;
  const out = emptyRate(beam);
  const wander = lampWander(scans);
  const bridge = Math.sqrt(share * (1 - share) * Math.max(0, span));
  eachPixel(beam, (i, x) => {
    const la = a.level + a.tilt * x;
    const lb = b.level + b.tilt * x;
    const level = (1 - share) * la + share * lb;
    out.driftRelative[i] = wander(x).perRootMs * bridge;
    out.darkPerMs[i] = beam.darkPerMs[i]! * level;
    out.sharedPerMs[i] = beam.sharedPerMs[i]! * level;
    if (beam.consistent) {
      out.countsPerMs[i] = beam.countsPerMs[i]! * level;
      out.noisePerMs[i] = beam.noisePerMs[i]! * level;
      return;
    }
    const ra = a.masked[i] === 1 ? beam.countsPerMs[i]! * la : a.countsPerMs[i]!;
    const rb = b.masked[i] === 1 ? beam.countsPerMs[i]! * lb : b.countsPerMs[i]!;
    const na = a.masked[i] === 1 ? beam.noisePerMs[i]! * la : a.noisePerMs[i]!;
    const nb = b.masked[i] === 1 ? beam.noisePerMs[i]! * lb : b.noisePerMs[i]!;
    out.countsPerMs[i] = (1 - share) * ra + share * rb;
    out.noisePerMs[i] = Math.sqrt(((1 - share) * na) ** 2 + (share * nb) ** 2);
  });
  return { ...out, change: change(beam, a, b), from: a, to: b, kind: 'between' };
}

function fixedRate(
  beam: OpenBeam,
  scan: OpenScan | null,
  other: OpenScan | null,
  kind: 'outside' | 'untimed' | 'single',
  timeMs: number | null = null,
): OpenRate {
  const out = emptyRate(beam);
  const { scans } = beam;
  const wander = kind === 'outside' ? lampWander(scans) : null;
  const away = kind === 'outside' ? Math.abs(timeMs! - scan!.timeMs!) : 0;
  eachPixel(beam, (i, x) => {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    let sum = 0;
    for (const one of scans) {
      const level = one.level + one.tilt * x;
      low = Math.min(low, level);
      high = Math.max(high, level);
      sum += level;
    }
    const level = scan === null ? sum / scans.length : scan.level + scan.tilt * x;
    const own = scan !== null && !beam.consistent && scan.masked[i] === 0;
    out.countsPerMs[i] = own ? scan.countsPerMs[i]! : beam.countsPerMs[i]! * level;
    out.noisePerMs[i] = own ? scan.noisePerMs[i]! : beam.noisePerMs[i]! * level;
    out.darkPerMs[i] = beam.darkPerMs[i]! * level;
    out.sharedPerMs[i] = beam.sharedPerMs[i]! * level;
    const { perMs, perRootMs } = wander?.(x) ?? { perMs: 0, perRootMs: 0 };
    const further = Math.hypot(perMs * away, perRootMs * Math.sqrt(away));
    out.driftRelative[i] = Math.max((high - low) / 2 / level, further);
  });
  let lowest = scans[0]!;
  let highest = scans[0]!;
  for (const one of scans) {
    if (change(beam, lowest, one) < 0) lowest = one;
    if (change(beam, highest, one) > 0) highest = one;
  }
  return {
    ...out,
    change: change(beam, lowest, highest),
    from: scan ?? lowest,
    to: other ?? highest,
    kind,
  };
}

function emptyRate(
  beam: OpenBeam,
): Pick<OpenRate, 'countsPerMs' | 'noisePerMs' | 'darkPerMs' | 'sharedPerMs' | 'driftRelative'> {
  const pixels = beam.countsPerMs.length;
  return {
    countsPerMs: new Float64Array(pixels),
    noisePerMs: new Float64Array(pixels),
    darkPerMs: new Float64Array(pixels),
    sharedPerMs: new Float64Array(pixels),
    driftRelative: new Float64Array(pixels),
  };
}

function eachPixel(beam: OpenBeam, visit: (pixel: number, x: number) => void): void {
  const pixels = beam.countsPerMs.length;
  for (let i = 0; i < pixels; i++) if (beam.masked[i] === 0) visit(i, (2 * i) / Math.max(1, pixels - 1) - 1);
}

/** Change of the light from one scan to another, relative, over all pixels that have light. */
function change(beam: OpenBeam, a: OpenScan, b: OpenScan): number {
  let before = 0;
  let after = 0;
  eachPixel(beam, (i, x) => {
    before += beam.countsPerMs[i]! * (a.level + a.tilt * x);
    after += beam.countsPerMs[i]! * (b.level + b.tilt * x);
  });
  return before > 0 ? after / before - 1 : 0;
}
