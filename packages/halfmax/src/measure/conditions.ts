import type { Beam } from '../beam/index.js';
import { filterAngleTable, nightSkyTable, resolveLines } from '../reference/index.js';
import { type Camera, colourChannels, type LineBrightness, type Response, type Site } from '../sky/index.js';

/** How the filters are used, from a session's `beam` and `site`: every default filled in and named. */
export interface Conditions {
  readonly beam: BeamConditions;
  readonly site: SiteConditions;
  /** What the session does not state, with the value taken. */
  readonly assumed: readonly string[];
}

/** The telescope's light. */
export interface BeamConditions {
  /** At the filter. */
  readonly fNumbers: readonly number[];
  /** At the sensor, the same order: another where the filter sits before a reducer. */
  readonly sensorFNumbers: readonly number[];
  readonly shape: Omit<Beam, 'fNumber'>;
  readonly effectiveIndex: readonly [number, number];
  /** Temperature of the filter in use, degrees Celsius; null where nobody says. */
  readonly temperatureC: number | null;
  readonly temperatureNmPerK: readonly [number, number];
  readonly share: number;
}

/** The sky, the camera and the goal. */
export interface SiteConditions {
  readonly sky: Site;
  readonly camera: Camera;
  readonly rangeNm: readonly [number, number];
  readonly goal: number;
  readonly frameS: number | null;
  readonly nightHours: number;
  readonly nights: number;
  /** Surface brightness of a line by its name in the table of emission lines. */
  readonly brightnessOf: (line: string, species: string) => LineBrightness;
}

type Loose = Readonly<Record<string, unknown>>;

/**
 * Reads a session's `beam` and `site`.
 *
 * @param manifest - the session's JSON, accepted by its schema and its checks
 * @returns conditions with every default filled in, and what was assumed
 */
export function conditionsOf(manifest: Loose): Conditions {
  const assumed: string[] = [];
  const beam = beamOf(record(manifest['beam']), assumed);
  return { beam, site: siteOf(record(manifest['site']), beam, assumed), assumed };
}

function beamOf(stated: Loose, assumed: string[]): BeamConditions {
  const { usual } = nightSkyTable;
  const given = stated['fNumber'];
  if (given === undefined) assumed.push(`focal ratio: f/${usual.camera.fNumber} (${usual.source})`);
  const native =
    given === undefined
      ? [usual.camera.fNumber]
      : Array.isArray(given)
        ? (given as number[])
        : [given as number];
  const reducer = record(stated['reducer']);
  const factor = number(reducer['factor'], 1);
  const sensorFNumbers = native.map((ratio) => ratio * factor);
  const index = stated['effectiveIndex'];
  if (index === undefined) {
    const [low, high] = filterAngleTable.effectiveIndex;
    assumed.push(`effective index: ${low} to ${high} (${filterAngleTable.source.slice(0, 2).join('; ')})`);
  }
  const pupil = stated['pupil'] as Beam['pupil'];
  return {
    fNumbers: reducer['filterPlace'] === 'before' ? native : sensorFNumbers,
    sensorFNumbers,
    shape: {
      centralObstruction: number(stated['centralObstruction'], 0),
      ...(pupil === undefined ? {} : { pupil }),
      chiefRayDeg: number(stated['chiefRayDeg'], 0),
      tiltDeg: number(stated['tiltDeg'], 0),
      tiltDirectionDeg: number(stated['tiltDirectionDeg'], 0),
    },
    effectiveIndex: range(index, filterAngleTable.effectiveIndex),
    temperatureC: stated['temperatureC'] === undefined ? null : number(stated['temperatureC'], 0),
    temperatureNmPerK: range(stated['temperatureNmPerK'], filterAngleTable.temperatureNmPerK),
    share: number(stated['share'], 0.9),
  };
}

function siteOf(stated: Loose, beam: BeamConditions, assumed: string[]): SiteConditions {
  const { usual } = nightSkyTable;
  const camera = record(stated['camera']);
  const own = (name: 'pixelUm' | 'readNoise' | 'darkCurrent', unit: string, words: string): number => {
    if (camera[name] === undefined) assumed.push(`${words}: ${usual.camera[name]} ${unit} (${usual.source})`);
    return number(camera[name], usual.camera[name]);
  };
  const efficiency = stated['quantumEfficiency'];
  if (efficiency === undefined)
    assumed.push(`quantum efficiency: ${usual.camera.quantumEfficiency} (${usual.source})`);
  const targets = (Array.isArray(stated['targets']) ? stated['targets'] : []).map(record).flatMap((target) =>
    (resolveLines(String(target['line'])) ?? []).map(({ name }) => ({
      name,
      brightness: { value: number(target['value'], 0), unit: target['unit'] as LineBrightness['unit'] },
    })),
  );
  if (targets.length === 0) {
    const list = usual.targets.map(({ species, rayleigh }) => `${species} ${rayleigh} R`).join(', ');
    assumed.push(`target: ${list} (${usual.source})`);
  }
  const moon = stated['moon'] === undefined ? null : moonOf(record(stated['moon']), assumed);
  const quantumEfficiency = efficiencyOf(efficiency, usual.camera.quantumEfficiency);
  const picked = <T>(name: string): Record<string, T> =>
    stated[name] === undefined ? {} : { [name]: stated[name] as T };
  return {
    sky: {
      ...picked('skyBrightness'),
      ...picked('siteClass'),
      ...picked('lightSources'),
      ...picked('airmass'),
      ...picked('aerosol'),
      ...(moon === null ? {} : { moon }),
    },
    camera: {
      fNumber: beam.sensorFNumbers[0]!,
      centralObstruction: beam.shape.centralObstruction ?? 0,
      pixelUm: own('pixelUm', 'um', 'pixel'),
      readNoise: own('readNoise', 'electrons', 'read noise'),
      darkCurrent: own('darkCurrent', 'electrons/s', 'dark current'),
      opticsTransmittance: number(camera['opticsTransmittance'], 1),
      quantumEfficiency,
      ...(camera['colour'] === true ? { channels: colourChannels() } : {}),
    },
    rangeNm: rangeOf(stated['rangeNm'], quantumEfficiency),
    goal: number(stated['signalToNoise'], 10),
    frameS: stated['frameS'] === undefined ? null : number(stated['frameS'], 0),
    nightHours: number(stated['nightHours'], 8),
    nights: number(stated['nights'], 1),
    brightnessOf: (line, species) =>
      targets.find(({ name }) => name === line)?.brightness ?? {
        value: usual.targets.find((one) => one.species === species)?.rayleigh ?? usual.otherRayleigh,
        unit: 'rayleigh',
      },
  };
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
  };
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

function record(value: unknown): Loose {
  return value !== null && typeof value === 'object' && !Array.isArray(value) ? (value as Loose) : {};
}

function number(value: unknown, otherwise: number): number {
  return typeof value === 'number' ? value : otherwise;
}

function range(value: unknown, otherwise: readonly number[]): readonly [number, number] {
  if (typeof value === 'number') return [value, value];
  const [low, high] = Array.isArray(value) ? (value as number[]) : otherwise;
  return [low!, high!];
}
