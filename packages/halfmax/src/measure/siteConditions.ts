import { nightSkyTable, resolveLines } from '../reference/index.js';
import {
  type Camera,
  type ColourResponses,
  colourChannels,
  type LineBrightness,
  type Response,
  type Site,
  type SkyTrialOptions,
  strengthTrials,
} from '../sky/index.js';
import type { BeamConditions } from './beamConditions.js';
import { type Loose, number, range, record } from './manifestValues.js';

/** Streams of random numbers from this one on are those of the target; those below are of the sky. */
const TARGET_STREAMS = 1000;

/** The sky, the camera and the goal. */
export interface SiteConditions {
  readonly sky: Site;
  readonly camera: Camera;
  readonly rangeNm: readonly [number, number];
  readonly goal: number;
  readonly frameS: number | null;
  readonly nightHours: number;
  readonly nights: number;
  /** Surface brightness of the lines that the site names, by their names in the table of emission lines. */
  readonly targets: readonly {
    readonly name: string;
    readonly brightness: LineBrightness;
    /** Place in the session's list: lines of one entry have one uncertainty. */
    readonly entry: number;
  }[];
}

/**
 * Reads a session's `site`.
 *
 * @param stated - the field, accepted by schema and checks
 * @param beam - for the focal ratio at the sensor
 * @param assumed - gets a line for everything that is not stated
 * @returns sky, camera and goal with every default filled in
 */
export function siteOf(stated: Loose, beam: BeamConditions, assumed: string[]): SiteConditions {
  const { usual } = nightSkyTable;
  const camera = record(stated['camera']);
  const own = (name: 'pixelUm' | 'readNoise' | 'darkCurrent', unit: string, words: string): number => {
    if (camera[name] === undefined) assumed.push(`${words}: ${usual.camera[name]} ${unit} (${usual.source})`);
    return number(camera[name], usual.camera[name]);
  };
  const efficiency = stated['quantumEfficiency'];
  if (efficiency === undefined)
    assumed.push(`quantum efficiency: ${usual.camera.quantumEfficiency} (${usual.source})`);
  const targets = (Array.isArray(stated['targets']) ? stated['targets'] : [])
    .map(record)
    .flatMap((target, entry) =>
      (resolveLines(String(target['line'])) ?? []).map(({ name }) => ({
        name,
        brightness: {
          value: number(target['value'], 0),
          unit: target['unit'] as LineBrightness['unit'],
          ...(target['uncertainty'] === undefined ? {} : { uncertainty: number(target['uncertainty'], 0) }),
        },
        entry,
      })),
    );
  if (targets.length === 0) {
    const list = usual.targets.map(({ species, rayleigh }) => `${species} ${rayleigh} R`).join(', ');
    assumed.push(`target: ${list} (${usual.source})`);
  }
  const moon = stated['moon'] === undefined ? null : moonOf(record(stated['moon']), assumed);
  const quantumEfficiency = efficiencyOf(efficiency, usual.camera.quantumEfficiency);
  const channels = channelsStated(camera['colour']);
  const picked = <T>(name: string): Record<string, T> =>
    stated[name] === undefined ? {} : { [name]: stated[name] as T };
  return {
    sky: {
      ...picked('skyBrightness'),
      ...picked('skyBrightnessUncertainty'),
      ...picked('airglowRelativeUncertainty'),
      ...picked('siteClass'),
      ...picked('lightSources'),
      ...picked('airmass'),
      ...picked('aerosol'),
      ...(moon === null ? {} : { moon }),
    },
    camera: {
      fNumber: beam.sensorFNumbers[0]!,
      centralObstruction: beam.shape.centralObstruction ?? 0,
      pixelUm: own('pixelUm', 'µm', 'pixel'),
      readNoise: own('readNoise', 'electrons', 'read noise'),
      darkCurrent: own('darkCurrent', 'electrons/s', 'dark current'),
      opticsTransmittance: number(camera['opticsTransmittance'], 1),
      quantumEfficiency,
      ...channels,
    },
    rangeNm: rangeOf(stated['rangeNm'], quantumEfficiency),
    goal: number(stated['signalToNoise'], 10),
    frameS: stated['frameS'] === undefined ? null : number(stated['frameS'], 0),
    nightHours: number(stated['nightHours'], 8),
    nights: number(stated['nights'], 1),
    targets,
  };
}

/**
 * Surface brightness of the target in a line: as the site names it, or as usual for its species.
 *
 * @param site - from `siteOf`
 * @param line - its name and species in the table of emission lines
 * @returns brightness with its unit
 */
export function lineBrightness(
  site: SiteConditions,
  line: { readonly name: string; readonly species: string },
): LineBrightness {
  const { targets, otherRayleigh } = nightSkyTable.usual;
  const usual = targets.find(({ species }) => species === line.species)?.rayleigh ?? otherRayleigh;
  return (
    site.targets.find(({ name }) => name === line.name)?.brightness ?? { value: usual, unit: 'rayleigh' }
  );
}

/**
 * Trials of a line's brightness over the value stated.
 *
 * @param site - from `siteOf`
 * @param line - its name in the table of emission lines
 * @param options - seed and count
 * @returns factors; a single 1 where the value is exact, as one is that the session does not state
 */
export function lineStrength(
  site: SiteConditions,
  line: { readonly name: string },
  options: SkyTrialOptions,
): Float64Array {
  const found = site.targets.find(({ name }) => name === line.name);
  const { value = 0, uncertainty = 0 } = found?.brightness ?? {};
  if (found === undefined || !(uncertainty > 0 && value > 0)) return Float64Array.of(1);
  return strengthTrials(uncertainty / value, options, TARGET_STREAMS + found.entry);
}

/** A moon whose place is only half stated stands half way up and a right angle away. */
function moonOf(stated: Loose, assumed: string[]): NonNullable<Site['moon']> {
  const places = { illuminatedFraction: 1, altitudeDeg: 45, separationDeg: 90 };
  for (const [name, value] of Object.entries(places))
    if (stated[name] === undefined) assumed.push(`moon, ${name}: ${value} (common practice, no source)`);
  return {
    illuminatedFraction: number(stated['illuminatedFraction'], places.illuminatedFraction),
    altitudeDeg: number(stated['altitudeDeg'], places.altitudeDeg),
    separationDeg: number(stated['separationDeg'], places.separationDeg),
    ...(stated['relativeUncertainty'] === undefined
      ? {}
      : { relativeUncertainty: number(stated['relativeUncertainty'], 0) }),
  };
}

/** A colour layer of the usual kind, one with responses of its own, or none. */
function channelsStated(colour: unknown): Pick<Camera, 'channels'> {
  if (colour === true) return { channels: colourChannels() };
  if (colour === null || typeof colour !== 'object') return {};
  return { channels: colourChannels(colour as ColourResponses) };
}

function efficiencyOf(stated: unknown, otherwise: number): Response {
  if (!Array.isArray(stated)) return number(stated, otherwise);
  const rows = stated as unknown as readonly (readonly number[])[];
  return { wavelengthNm: rows.map((row) => row[0]!), fraction: rows.map((row) => row[1]!) };
}

/** What the camera sees: 400 to 700 nm where nobody says, as far as its efficiency is known. */
function rangeOf(stated: unknown, efficiency: Response): readonly [number, number] {
  if (stated !== undefined) return range(stated, []);
  if (typeof efficiency === 'number') return [400, 700];
  const { wavelengthNm } = efficiency;
  return [Math.max(400, wavelengthNm[0]!), Math.min(700, wavelengthNm[wavelengthNm.length - 1]!)];
}
