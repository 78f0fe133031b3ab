import { firstAbove } from '../numeric/index.js';
import { footOf, wayOut } from './bandFoot.js';
import type { BlockingOptions } from './blockingTypes.js';
import { pixelFloors } from './pixelFloors.js';
import { trustedPixels } from './trustedPixels.js';
import type { Curve } from './types.js';

/** Light outside the bands: three or more neighbouring pixels above noise, stray light and the feet of the bands. */
export interface Leak {
  readonly fromNm: number;
  readonly toNm: number;
  readonly peakNm: number;
  /** Highest mean of three neighbouring pixels. */
  readonly peakTransmittance: number;
  /** Noise, what the pixels share, and the level. */
  readonly standardUncertainty: number;
  /** Width over which the pixels stand out, nm. */
  readonly widthNm: number;
}

/** A stretch of the scan beside or between bands. */
export interface Stretch {
  readonly fromNm: number;
  readonly toNm: number;
  /** Whether a band lies before its start and after its end. */
  readonly afterBand: boolean;
  readonly beforeBand: boolean;
}

/** First and last pixel of a stretch; the last before the first where it holds none. */
export function pixelsOf(curve: Curve, stretch: Stretch): [number, number] {
  const first = firstAbove(curve.wavelengthNm, stretch.fromNm - 1e-9);
  return [first, firstAbove(curve.wavelengthNm, stretch.toNm + 1e-9) - 1];
}

/**
 * Runs of three or more neighbouring pixels that stand above noise, floor and stray light, and that rise again:
 * light that only falls away from a band is its foot. The foot at a pixel is the lowest level, averaged over seven
 * pixels, between the band and that pixel.
 *
 * @param curve - the curve
 * @param stretches - where to look: outside the bands
 * @param options - limits
 * @returns the leaks from blue to red
 */
export function findLeaks(
  curve: Curve,
  stretches: readonly Stretch[],
  options: BlockingOptions & { readonly leakSigma?: number },
): Leak[] {
  const { wavelengthNm, transmittance, standardUncertainty } = curve;
  const { strayLight = 1e-3, leakSigma = 3, levelUncertainty = 0 } = options;
  const { whole, shared } = pixelFloors(curve, options);
  const trust = trustedPixels(curve);
  const leaks: Leak[] = [];
  for (const stretch of stretches) {
    const [first, last] = pixelsOf(curve, stretch);
    if (last < first) continue;
    const feet = [
      ...(stretch.afterBand ? [footOf(wayOut(curve, trust, first, last))] : []),
      ...(stretch.beforeBand ? [footOf(wayOut(curve, trust, last, first))] : []),
    ];
    let run: number[] = [];
    for (let i = first; i <= last; i++) {
      if (trust[i]! > 0 && stands(i)) run.push(i);
      else close();
    }
    close();

    function stands(i: number): boolean {
      const u = standardUncertainty[i]!;
      const own = Math.hypot(u, shared[i]!);
      if (!(transmittance[i]! > Math.max(leakSigma * own, whole[i]!, strayLight))) return false;
      return feet.every(
        (foot) =>
          transmittance[i]! > foot.level[i]! + leakSigma * Math.hypot(u, foot.standardUncertainty[i]!),
      );
    }

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
      const noise = Math.sqrt(three.reduce((sum, i) => sum + (standardUncertainty[i]! / 3) ** 2, 0));
      const dark = three.reduce((sum, i) => sum + shared[i]! / 3, 0);
      const u = Math.hypot(noise, dark, levelUncertainty * mean);
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
