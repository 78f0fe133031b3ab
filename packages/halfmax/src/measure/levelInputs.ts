import type { UncertainInput } from '../uncertainty/index.js';

/** What makes the level of a whole band uncertain, relative standard uncertainties unless said otherwise. */
export interface LevelUncertainty {
  /** Drift of the lamp between the open scans. */
  readonly drift: number;
  /** Flicker of the lamp from frame to frame, in the mean of the frames. */
  readonly flicker: number;
  /** Scatter between repeated scans. */
  readonly repeat: number;
  /** Half width of what is left of the detector's non-linearity between full level and none. */
  readonly nonLinearity: number;
  /** What darks of another exposure leave open around the band: standard uncertainty, transmittance, not relative. */
  readonly darkLevel?: number;
}

/** The inputs and how they change the level. */
export interface LevelInputs {
  readonly inputs: readonly UncertainInput[];
  /** Takes a draw: x holds the inputs from `from` on. */
  readonly take: (x: Float64Array, from: number) => void;
  /** Writes the points `first` to `end` as the draw taken last has them; `noise` holds what is added, from 0 on. */
  readonly fill: (out: Float64Array, first: number, end: number, noise: Float64Array) => void;
}

/**
 * Inputs that move all transmittances of a band together.
 *
 * A detector whose counts per light change with level reads a transmittance T, the ratio of a low to a high level, off
 * by a share of 1 - T of the change.
 *
 * @param levels - relative uncertainties
 * @param transmittance - of the points
 * @returns inputs, and how they change the points
 */
export function levelInputs(levels: LevelUncertainty, transmittance: Float64Array): LevelInputs {
  const normal = (standardUncertainty: number): UncertainInput['distribution'] => ({
    kind: 'normal',
    mean: 0,
    standardUncertainty,
  });
  const { nonLinearity, darkLevel = 0 } = levels;
  const below = transmittance.map((t) => 1 - Math.min(1, Math.max(0, t)));
  const kept = new Float64Array(3);
  return {
    inputs: [
      { source: 'drift of the lamp between open scans', distribution: normal(levels.drift) },
      { source: 'flicker of the lamp', distribution: normal(levels.flicker) },
      { source: 'repeated scans', distribution: normal(levels.repeat) },
      {
        source: 'non-linearity of the detector',
        distribution: { kind: 'rectangular', lower: -nonLinearity, upper: nonLinearity },
      },
      ...(darkLevel > 0 ? [{ source: 'darks of another exposure', distribution: normal(darkLevel) }] : []),
    ],
    take: (x, from) => {
      kept[0] = 1 + x[from]! + x[from + 1]! + x[from + 2]!;
      kept[1] = x[from + 3]!;
      kept[2] = darkLevel > 0 ? x[from + 4]! : 0;
    },
    fill: (out, first, end, noise) => {
      const [level, bent, shift] = [kept[0]!, kept[1]!, kept[2]!];
      for (let i = first; i < end; i++) {
        out[i] = transmittance[i]! * (level + bent * below[i]!) + shift + noise[i - first]!;
      }
    },
  };
}
