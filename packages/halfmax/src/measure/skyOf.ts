import { nightSkyTable } from '../reference/index.js';
import {
  type SiteSky,
  type SkySpectrum,
  type SkyTrialOptions,
  siteSky,
  skyFromSpectrum,
  strengthTrials,
  vMagnitude,
} from '../sky/index.js';
import type { Conditions } from './conditions.js';

/** A magnitude is this many natural logarithms. */
const MAGNITUDE = 0.4 * Math.LN10;

/**
 * The sky of a session's site, worked out once for all of its filters.
 *
 * @param conditions - from `conditionsOf`
 * @param spectrum - a measured spectrum to be taken instead of lamps, moon and natural light; set to the site's
 *   brightness where it states one
 * @param options - seed and count of the trials of its strength
 * @returns spectrum, brightness, parts, trials, what was assumed
 * @throws {RangeError} a value out of range, or a spectrum that does not cover the V band
 */
export function skyOf(
  conditions: Conditions,
  spectrum?: SkySpectrum,
  options: SkyTrialOptions = {},
): SiteSky {
  const { sky: site } = conditions.site;
  if (spectrum === undefined) return siteSky(site, options);
  const sky = skyFromSpectrum(spectrum, site.skyBrightness);
  const brightness = vMagnitude(sky);
  const { vMagnitudes, source } = nightSkyTable.strengths.brightness;
  const uncertainty = site.skyBrightnessUncertainty ?? vMagnitudes;
  return {
    sky,
    trials: [{ sky, factors: strengthTrials(MAGNITUDE * uncertainty, options, 0) }],
    vMagnitude: brightness,
    parts: [{ name: 'measured spectrum', vMagnitude: brightness }],
    assumed:
      site.skyBrightnessUncertainty === undefined
        ? [`brightness of the measured spectrum: good to ${vMagnitudes} mag, as of ${source}`]
        : [],
  };
}
