import type { BlockingOptions } from './blockingTypes.js';
import { pixelFloors } from './pixelFloors.js';
import { trustedPixels } from './trustedPixels.js';
import type { Curve } from './types.js';

/** Light outside the bands: three or more neighbouring pixels above noise and stray light. */
export interface Leak {
  readonly fromNm: number;
  readonly toNm: number;
  readonly peakNm: number;
  /** Highest mean of three neighbouring pixels. */
  readonly peakTransmittance: number;
  readonly standardUncertainty: number;
  /** Width over which the pixels stand out, nm. */
  readonly widthNm: number;
}

/** Runs of three or more neighbouring pixels that stand above noise, floor and stray light. */
export function findLeaks(
  curve: Curve,
  stretches: readonly (readonly [number, number])[],
  options: BlockingOptions & { readonly leakSigma?: number },
): Leak[] {
  const { wavelengthNm, transmittance, standardUncertainty } = curve;
  const { strayLight = 1e-3, leakSigma = 3 } = options;
  const floors = pixelFloors(curve, options.floor);
  const trust = trustedPixels(curve);
  const leaks: Leak[] = [];
  for (const [from, to] of stretches) {
    let run: number[] = [];
    for (let i = 0; i < wavelengthNm.length; i++) {
      const inside = wavelengthNm[i]! >= from && wavelengthNm[i]! <= to;
      const limit = Math.max(leakSigma * standardUncertainty[i]!, floors[i]!, strayLight);
      if (inside && trust[i]! > 0 && transmittance[i]! > limit) run.push(i);
      else close();
    }
    close();

    function close(): void {
      if (run.length >= 3) leaks.push(leakOf(run));
      run = [];
    }
  }
  return leaks;

  function leakOf(run: readonly number[]): Leak {
    let best = { mean: -Infinity, u: 0, atNm: 0 };
    for (let k = 1; k + 1 < run.length; k++) {
      const three = [run[k - 1]!, run[k]!, run[k + 1]!];
      const mean = three.reduce((sum, i) => sum + transmittance[i]! / 3, 0);
      const u = Math.sqrt(three.reduce((sum, i) => sum + (standardUncertainty[i]! / 3) ** 2, 0));
      if (mean > best.mean) best = { mean, u, atNm: wavelengthNm[run[k]!]! };
    }
    const first = run[0]!;
    const last = run[run.length - 1]!;
    const step = (wavelengthNm[last]! - wavelengthNm[first]!) / (run.length - 1);
    return {
      fromNm: wavelengthNm[first]!,
      toNm: wavelengthNm[last]!,
      peakNm: best.atNm,
      peakTransmittance: best.mean,
      standardUncertainty: best.u,
      widthNm: wavelengthNm[last]! - wavelengthNm[first]! + step,
    };
  }
}
