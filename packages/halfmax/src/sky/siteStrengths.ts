import { nightSkyTable } from '../reference/index.js';
import type { Site } from './types.js';

/** How well the strengths of a site's light are known. */
export interface SiteStrengths {
  /** Standard uncertainty of the brightness without the moon, V magnitudes per square arcsecond. */
  readonly brightness: number;
  /** Relative standard uncertainties. */
  readonly airglow: number;
  readonly moon: number;
  /** Relative standard uncertainty of each lamp's share, in the order of the mix. */
  readonly shares: readonly number[];
  /** What the site does not state, with the value taken. */
  readonly assumed: readonly string[];
}

const percent = (relative: number): string => `${Number((100 * relative).toPrecision(2))} %`;

/**
 * How well the strengths of a site's light are known: as stated, or as is usual.
 *
 * @param site - brightness or class, lamps, moon
 * @param has - which parts the site's sky has at all
 * @returns standard uncertainties, and a line for each that is not stated
 * @throws {RangeError} an uncertainty below 0
 * Source: the table night-sky, entry strengths.
 */
export function siteStrengths(
  site: Site,
  has: { readonly lamps: boolean; readonly moon: boolean },
): SiteStrengths {
  const { strengths, siteLamps } = nightSkyTable;
  const assumed: string[] = [];
  const known = (what: string, stated: number | undefined, usual: number, words: string): number => {
    const value = stated ?? usual;
    if (!(value >= 0 && value < Infinity))
      throw new RangeError(`siteSky requires an uncertainty of 0 or more, got ${value} of ${what}`);
    if (stated === undefined) assumed.push(words);
    return value;
  };
  const isMeasured = site.skyBrightness !== undefined;
  const brightness = isMeasured ? strengths.brightness : strengths.siteClass;
  const mag = Number(brightness.vMagnitudes.toPrecision(2));
  const mix = site.lightSources?.length ? site.lightSources : null;
  const lamps = mix ?? siteLamps.map(({ share }) => ({ share, uncertainty: undefined }));
  const usualShare = mix === null ? strengths.assumedShares : strengths.shares;
  const isOpen = lamps.length > 1 && lamps.some(({ uncertainty }) => uncertainty === undefined);
  if (has.lamps && isOpen)
    assumed.push(
      `share of each lamp: good to ${percent(usualShare.relative)} of itself (${usualShare.source})`,
    );
  return {
    brightness: known(
      'the brightness',
      site.skyBrightnessUncertainty,
      brightness.vMagnitudes,
      `brightness of the sky: good to ${mag} mag (${brightness.source})`,
    ),
    airglow: known(
      'the airglow',
      site.airglowRelativeUncertainty,
      strengths.airglow.relative,
      `strength of the airglow: good to ${percent(strengths.airglow.relative)} (${strengths.airglow.source})`,
    ),
    moon: has.moon
      ? known(
          'the moon',
          site.moon?.relativeUncertainty,
          strengths.moon.relative,
          `moonlight: good to ${percent(strengths.moon.relative)} (${strengths.moon.source})`,
        )
      : 0,
    shares: lamps.map(({ share, uncertainty }) => {
      const relative = uncertainty === undefined || share === 0 ? usualShare.relative : uncertainty / share;
      if (!(relative >= 0))
        throw new RangeError(`siteSky requires an uncertainty of 0 or more, got ${uncertainty} of a share`);
      return relative;
    }),
    assumed,
  };
}
