import type { OpenScan } from './openBeamModel.js';

/** How the level of the lamp changes between the scans of the open beam. */
export interface LampWander {
  /** Steady drift, relative per ms. */
  readonly perMs: number;
  /** Standard deviation of a random walk about it, relative, per root of a ms. */
  readonly perRootMs: number;
}

/**
 * Steady drift and random walk of the lamp, from the levels of the open beam. Two scans cannot tell one from the
 * other: all of their change is counted as walk.
 *
 * @param scans - by rising time, at least two, times known
 * @returns for a place along the pixels, -1 to 1, drift and walk there
 * Source: the increments of a random walk are independent, their variance grows with the time between.
 */
export function lampWander(
  scans: readonly Pick<OpenScan, 'level' | 'tilt' | 'timeMs'>[],
): (x: number) => LampWander {
  const first = scans[0]!;
  const last = scans.at(-1)!;
  const whole = last.timeMs! - first.timeMs!;
  return (x) => {
    const levels = scans.map((scan) => scan.level + scan.tilt * x);
    const mean = levels.reduce((sum, level) => sum + level, 0) / levels.length;
    const perMs = whole > 0 ? (levels.at(-1)! - levels[0]!) / mean / whole : 0;
    const steady = scans.length > 2 ? perMs : 0;
    let [squares, steps] = [0, 0];
    for (let k = 1; k < scans.length; k++) {
      const time = scans[k]!.timeMs! - scans[k - 1]!.timeMs!;
      if (!(time > 0)) continue;
      squares += ((levels[k]! - levels[k - 1]!) / mean - steady * time) ** 2 / time;
      steps++;
    }
    const freedom = scans.length > 2 ? steps - 1 : steps;
    return { perMs, perRootMs: freedom > 0 ? Math.sqrt(squares / freedom) : 0 };
  };
}
