import { nightSkyTable } from '../reference/index.js';
import { lampSky } from './lampSky.js';
import { mixSkies } from './mixSkies.js';
import { moonSky } from './moonSky.js';
import { naturalSky } from './naturalSky.js';
import { clearAir } from './scattering.js';
import { setBrightness } from './setBrightness.js';
import type { Site, Sky } from './types.js';
import { vMagnitude } from './vMagnitude.js';

/** A site's sky, and what it is made of. */
export interface SiteSky {
  readonly sky: Sky;
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
 * @param site - brightness or class, lamps, moon
 * @returns spectrum, parts, and what was assumed
 * @throws {RangeError} a value out of range, an unknown class or lamp
 * Source: the tables night-sky, light-sources and atmosphere. A site darker than the natural sky of the table gets
 * that sky scaled down.
 */
export function siteSky(site: Site): SiteSky {
  const assumed: string[] = [];
  const brightness = brightnessOf(site, assumed);
  const aerosol = site.aerosol ?? clearAir;
  const natural = naturalSky();
  const names = ['airglow', 'zodiacal', 'starlight'] as const;
  const all = mixSkies(names.map((name) => ({ sky: natural[name], factor: 1 })));
  const dark = vMagnitude(all);
  const factor = Math.min(1, 10 ** (0.4 * (dark - brightness)));
  const parts: { name: string; sky: Sky; factor: number }[] = names.map((name) => ({
    name: name === 'zodiacal' ? 'zodiacal light' : name,
    sky: natural[name],
    factor,
  }));
  const missing = 10 ** (-0.4 * brightness) - 10 ** (-0.4 * dark);
  if (missing > 0) {
    if (site.lightSources === undefined || site.lightSources.length === 0) {
      const mix = nightSkyTable.siteLamps.map(({ source, share }) => `${source} ${share}`).join(', ');
      assumed.push(`lamps of the site: ${mix} (${nightSkyTable.siteLampsSource})`);
    }
    const mix = site.lightSources?.length ? site.lightSources : nightSkyTable.siteLamps;
    parts.push({
      name: 'lamps',
      sky: setBrightness(lampSky(mix, aerosol), -2.5 * Math.log10(missing)),
      factor: 1,
    });
  }
  if (site.moon !== undefined) {
    const place = { ...site.moon, ...(site.airmass === undefined ? {} : { airmass: site.airmass }) };
    parts.push({ name: 'moon', sky: moonSky(place, aerosol), factor: 1 });
  }
  const sky = mixSkies(parts);
  return {
    sky,
    vMagnitude: vMagnitude(sky),
    parts: parts
      .map((part) => ({ name: part.name, vMagnitude: vMagnitude(part.sky) - 2.5 * Math.log10(part.factor) }))
      .filter((part) => part.vMagnitude < Infinity),
    assumed,
  };
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
