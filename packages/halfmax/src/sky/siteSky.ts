import { nightSkyTable } from '../reference/index.js';
import { lampSky } from './lampSky.js';
import { mixSkies } from './mixSkies.js';
import { moonSky } from './moonSky.js';
import { naturalSky } from './naturalSky.js';
import { clearAir } from './scattering.js';
import { siteStrengths } from './siteStrengths.js';
import { type LitPart, siteTrials } from './siteTrials.js';
import type { Site } from './types.js';
import type { SkyTrialOptions, UncertainSky } from './uncertainSky.js';
import { vMagnitude } from './vMagnitude.js';

/** A site's sky, what it is made of, and trials of its strength. */
export interface SiteSky extends UncertainSky {
  /** V magnitudes per square arcsecond, moon included. */
  readonly vMagnitude: number;
  /** Each part's brightness in V; parts without light are left out. */
  readonly parts: readonly { readonly name: string; readonly vMagnitude: number }[];
  /** What the site does not state, with the value taken. */
  readonly assumed: readonly string[];
}

/** Names of the classes of site, from bright to dark. */
export const siteClasses: readonly string[] = nightSkyTable.siteClasses.map(({ name }) => name);

/**
 * The sky of a site: natural light at its usual strength, lamplight for what is missing to the stated brightness, and
 * the moon on top.
 *
 * @param site - brightness or class, lamps, moon, how well each is known
 * @param options - seed and count of the trials of the sky's strength
 * @returns spectrum, parts, trials, and what was assumed
 * @throws {RangeError} a value out of range, an unknown class or lamp
 * Source: the tables night-sky, light-sources and atmosphere. A site darker than the natural sky of the table gets
 * that sky scaled down.
 */
export function siteSky(site: Site, options: SkyTrialOptions = {}): SiteSky {
  const assumed: string[] = [];
  const brightness = brightnessOf(site, assumed);
  const aerosol = site.aerosol ?? clearAir;
  const sky = naturalSky();
  const natural = [
    { name: 'airglow', sky: sky.airglow },
    { name: 'zodiacal light', sky: sky.zodiacal },
    { name: 'starlight', sky: sky.starlight },
  ];
  const dark = vMagnitude(mixSkies(natural.map((one) => ({ sky: one.sky, factor: 1 }))));
  const factor = Math.min(1, 10 ** (0.4 * (dark - brightness)));
  const parts: LitPart[] = natural.map((one) => ({ ...one, kind: 'natural', factor }));
  const missing = 10 ** (-0.4 * brightness) - 10 ** (-0.4 * dark);
  if (missing > 0) {
    if (site.lightSources === undefined || site.lightSources.length === 0) {
      const mix = nightSkyTable.siteLamps.map(({ source, share }) => `${source} ${share}`).join(', ');
      assumed.push(`lamps of the site: ${mix} (${nightSkyTable.siteLampsSource})`);
    }
    const mix = site.lightSources?.length ? site.lightSources : nightSkyTable.siteLamps;
    const together = 10 ** (0.4 * vMagnitude(lampSky(mix, aerosol))) * missing;
    mix.forEach((lamp, index) => {
      if (lamp.share > 0)
        parts.push({ name: 'lamps', kind: 'lamp', index, sky: lampSky([lamp], aerosol), factor: together });
    });
  }
  if (site.moon !== undefined) {
    const place = { ...site.moon, ...(site.airmass === undefined ? {} : { airmass: site.airmass }) };
    parts.push({ name: 'moon', kind: 'moon', sky: moonSky(place, aerosol), factor: 1 });
  }
  const strengths = siteStrengths(site, { lamps: missing > 0, moon: site.moon !== undefined });
  const all = mixSkies(parts);
  return {
    sky: all,
    trials: siteTrials(parts, brightness, strengths, options),
    vMagnitude: vMagnitude(all),
    parts: partsByName(parts),
    assumed: [...assumed, ...strengths.assumed],
  };
}

/** Brightness in V of all parts of each name. */
function partsByName(parts: readonly LitPart[]): { name: string; vMagnitude: number }[] {
  return [...new Set(parts.map(({ name }) => name))]
    .map((name) => ({ name, vMagnitude: vMagnitude(mixSkies(parts.filter((part) => part.name === name))) }))
    .filter((part) => part.vMagnitude < Infinity);
}

function brightnessOf(site: Site, assumed: string[]): number {
  if (site.skyBrightness !== undefined) {
    if (!(site.skyBrightness >= 0 && site.skyBrightness <= 30)) {
      throw new RangeError(
        `siteSky requires a brightness from 0 to 30 V magnitudes per square arcsecond, got ${site.skyBrightness}`,
      );
    }
    return site.skyBrightness;
  }
  const name = site.siteClass ?? 'suburb';
  const found = nightSkyTable.siteClasses.find((one) => one.name === name);
  if (found === undefined)
    throw new RangeError(`siteSky requires one of ${siteClasses.join(', ')}, got ${name}`);
  const how = site.siteClass === undefined ? 'class of the site' : 'brightness of the class of site';
  assumed.push(`${how}: ${name}, ${found.vMagnitude} V mag/arcsec2 (${found.source})`);
  return found.vMagnitude;
}
