import { curveInBeam } from '../beam/index.js';
import type { HaloTolerance } from '../halo/index.js';
import { type Absent, absent } from '../metrics/index.js';
import type { BenchConditions, StarEntry } from '../session/benchSession.js';
import { channelsOf, detectedSky, pixelGrasp, type Sky, weightBySky } from '../sky/index.js';
import type { Conditions } from './conditions.js';
import type { CurveTable } from './measurement.js';
import { frameAsImage, usualPatch } from './noiseDefaults.js';

/** What a limit on the noise takes from the rest of the session. */
export interface LimitContext {
  readonly conditions: Conditions;
  readonly bench: BenchConditions;
  /** Of the session's site; null where it states none. */
  readonly sky: Sky | null;
  /** Of the filter; null where it was not measured. */
  readonly curve: CurveTable | null;
}

/** A limit with all its numbers, and which of them nobody stated. */
export interface StatedLimit {
  readonly tolerance: HaloTolerance | Absent;
  readonly assumed: readonly string[];
}

/**
 * The halo limit of a star with every number that it needs: what it leaves out of the noise comes from the site, from
 * the filter's curve in the star's light, and from the image.
 *
 * @param star - entry of the session
 * @param context - site, sky, curve
 * @returns the limit, or why there is none
 */
export function starLimit(star: StarEntry, context: LimitContext): StatedLimit {
  const { limit, picture } = star;
  if (limit === null) return { tolerance: absent('no limit is given'), assumed: [] };
  if (limit.kind !== 'noise') return { tolerance: limit, assumed: [] };
  const missing = (reason: string): StatedLimit => ({ tolerance: absent(reason), assumed: [] });
  const { exposureS } = picture;
  if (exposureS === null) return missing('neither the session nor the header states the exposure');
  const sky = limit.sky ?? skyRate(star, context);
  if (typeof sky !== 'number') return { tolerance: sky, assumed: [] };
  const { camera, frameS } = context.conditions.site;
  const assumed: string[] = [];
  const taken = (value: number, words: string): number => {
    assumed.push(words);
    return value;
  };
  if (limit.sky === undefined)
    assumed.push(`sky ${Number(sky.toPrecision(3))} electrons/s and pixel, worked out for the site`);
  return {
    tolerance: {
      ...limit,
      exposureS,
      sky,
      dark:
        limit.dark ??
        taken(camera.darkCurrent, `dark current ${camera.darkCurrent} electrons/s, as for the site`),
      readNoise:
        limit.readNoise ??
        taken(camera.readNoise, `read noise ${camera.readNoise} electrons, as for the site`),
      frameS:
        limit.frameS ??
        (frameS === null
          ? frameAsImage(exposureS, assumed)
          : taken(frameS, `frames of ${frameS} s, as for the site`)),
      pixels: limit.pixels ?? usualPatch(assumed),
    },
    assumed,
  };
}

/** Electrons per second that the site's sky gives a pixel of the star's camera through the filter. */
function skyRate(star: StarEntry, { conditions, bench, sky, curve }: LimitContext): number | Absent {
  if (sky === null) return absent('the session states no site, and the limit no sky');
  if (curve === null || curve.wavelengthNm.length < 5)
    return absent('the filter has no curve to see the sky through, and the limit states no sky');
  const { beam, site } = conditions;
  const camera = {
    ...site.camera,
    fNumber: star.fNumber,
    pixelUm: star.pixelSizeUm,
    centralObstruction: star.obstruction ?? site.camera.centralObstruction ?? 0,
  };
  const [low, high] = beam.effectiveIndex;
  const inBeam = curveInBeam(
    curve,
    { ...beam.shape, fNumber: star.fNumber, centralObstruction: camera.centralObstruction },
    {
      effectiveIndex: (low + high) / 2,
      ...(bench.fNumber === null ? {} : { measuredIn: { fNumber: bench.fNumber } }),
    },
  );
  const { wavelengthNm } = inBeam;
  const range = {
    fromNm: Math.max(site.rangeNm[0], wavelengthNm[0] ?? Infinity),
    toNm: Math.min(site.rangeNm[1], wavelengthNm[wavelengthNm.length - 1] ?? 0),
  };
  if (!(range.fromNm < range.toNm))
    return absent("the filter's curve lies outside of what the site's camera sees");
  const electrons = detectedSky(sky, camera.quantumEfficiency);
  const passed = channelsOf(camera).reduce(
    (sum, { share, response }) =>
      sum + share * weightBySky(inBeam, detectedSky(electrons, response), range).photons,
    0,
  );
  return Math.max(0, passed * pixelGrasp(camera));
}
