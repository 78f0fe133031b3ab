import { existsSync, readFileSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { beamProblems } from '../beam/index.js';
import { BadInputError, refuse } from '../errors.js';
import type { BandReport, Candidate, CurveInUse, FilterReport, Measurement } from '../measure/index.js';
import type { BenchConditions, CurveFile } from '../session/index.js';
import { type SkySpectrum, siteProblems } from '../sky/index.js';

/** What one argument of `compare` brings. */
export interface CompareInput {
  readonly candidates: readonly Candidate[];
  /** `site` and `beam` as the file states them; empty where it states none. */
  readonly manifest: Readonly<Record<string, unknown>>;
  /** Measured sky of the session's site; a measurement keeps none, nor a session that names none. */
  readonly spectrum: SkySpectrum | null;
}

const NONE = new Float64Array(0);
const NO_CURVE = { wavelengthNm: NONE, transmittance: NONE, standardUncertainty: NONE, trials: [] };
const NO_BENCH: BenchConditions = { fNumber: null, temperatureC: null, spot: null };

/**
 * Reads a session, which is measured, or a measurement with its curves.
 *
 * @param path - folder with session.json or measurement.json, or one of these files
 * @param trials - seed and draws for a session that has to be measured
 * @returns filters, and what the file says of site and beam
 * @throws {BadInputError} neither, or one that cannot be used
 */
export async function compareInput(
  path: string,
  trials: { readonly seed: number; readonly draws: number; readonly version: string },
): Promise<CompareInput> {
  const file = fileOf(path);
  return basename(file) === 'session.json'
    ? ofSession(dirname(file), path, trials)
    : ofMeasurement(file, path);
}

function fileOf(path: string): string {
  if (!existsSync(path)) refuse(path, '', 'does not exist', 'give a session folder or a measurement');
  if (!statSync(path).isDirectory()) return path;
  for (const name of ['session.json', 'measurement.json'])
    if (existsSync(join(path, name))) return join(path, name);
  return refuse(
    path,
    '',
    'holds neither session.json nor measurement.json',
    'give a session folder, or the folder that a measurement was written to',
  );
}

async function ofSession(
  folder: string,
  from: string,
  { seed, draws, version }: { readonly seed: number; readonly draws: number; readonly version: string },
): Promise<CompareInput> {
  const [{ measureSession }, { readSession }] = await Promise.all([
    import('../measure/index.js'),
    import('../session/index.js'),
  ]);
  const session = readSession(folder);
  checkConditions(session.manifest, join(folder, 'session.json'));
  const provenance = { package: 'halfmax', version, node: process.version, seed, draws };
  // A ranking asks for no halos.
  const { measurement, inUse } = measureSession({ ...session, stars: [] }, { provenance });
  return {
    manifest: session.manifest,
    spectrum: session.skySpectrum ?? null,
    candidates: measurement.filters.map(({ id, label, bands }) => {
      return {
        from,
        id,
        label,
        bands,
        bench: session.bench,
        price: session.filters.find((filter) => filter.id === id)?.price ?? null,
        curve: inUse[id] ?? NO_CURVE,
      };
    }),
  };
}

async function ofMeasurement(file: string, from: string): Promise<CompareInput> {
  const { parseJson, readCurve } = await import('../session/index.js');
  const parsed = parseJson(textOf(file), file).value as Partial<Measurement> | null;
  if (parsed?.format !== 'halfmax-measurement/1') {
    refuse(file, 'format', 'is not halfmax-measurement/1', 'give what halfmax measure wrote');
  }
  const filters: unknown = parsed.filters;
  if (!Array.isArray(filters) || !filters.every(isFilter))
    refuse(file, 'filters', 'are not as halfmax measure writes them', 'measure the session anew');
  const conditions = (parsed as { conditions?: unknown }).conditions;
  const manifest =
    conditions !== null && typeof conditions === 'object' ? (conditions as Record<string, unknown>) : {};
  checkConditions(manifest, file);
  return {
    manifest,
    spectrum: null,
    candidates: filters.map((filter) => {
      const { id, label, bands, curveFile } = filter;
      if (curveFile === null) {
        return { from, id, label, bands, bench: NO_BENCH, price: null, curve: NO_CURVE };
      }
      if (basename(curveFile) !== curveFile)
        refuse(file, `curveFile of ${id}`, `"${curveFile}" is not a plain file name`, 'measure anew');
      const table = readCurve(join(dirname(file), curveFile));
      return {
        from,
        id,
        label,
        bands,
        bench: benchOf(bands),
        price: (filter as { price?: Candidate['price'] }).price ?? null,
        curve: withCorrectedBands(table, bands),
      };
    }),
  };
}

/** Wavelengths of a table and of its measurement differ by their last digits at most. */
const ROUNDING_NM = 1e-5;

/** A curve's table with the corrected bands of a measurement, which holds no trials of them, in their places. */
function withCorrectedBands(table: CurveFile, bands: readonly BandReport[]): CurveInUse {
  const { wavelengthNm } = table;
  const transmittance = Float64Array.from(table.transmittance);
  const standardUncertainty = Float64Array.from(
    table.standardUncertainty ?? new Float64Array(wavelengthNm.length),
  );
  for (const { correctedCurve } of bands) {
    if (correctedCurve === undefined || 'absent' in correctedCurve) continue;
    const first = wavelengthNm.findIndex((nm) => nm > correctedCurve.wavelengthNm[0]! - ROUNDING_NM);
    correctedCurve.transmittance.forEach((value, k) => {
      if (!(Math.abs(wavelengthNm[first + k]! - correctedCurve.wavelengthNm[k]!) < ROUNDING_NM)) return;
      transmittance[first + k] = value;
      // What neighbours share is in the level: as noise of each alone it would average out.
      standardUncertainty[first + k] = 0;
    });
  }
  return { wavelengthNm, transmittance, standardUncertainty, trials: [] };
}

function textOf(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return refuse(file, '', 'cannot be read', 'check the name and the permissions');
  }
}

/** As much of a filter's form as the comparison relies on. */
function isFilter(value: unknown): value is FilterReport {
  const filter = (value ?? {}) as Partial<FilterReport>;
  return (
    typeof filter.id === 'string' &&
    typeof filter.label === 'string' &&
    (filter.curveFile === null || typeof filter.curveFile === 'string') &&
    Array.isArray(filter.bands) &&
    filter.bands.every(
      (band: Partial<BandReport> | null) =>
        Array.isArray(band?.target) && typeof band.asMeasured?.centreNm === 'object',
    )
  );
}

/** The bench conditions stand in the sentence to be quoted of each band. */
function benchOf(bands: readonly BandReport[]): BenchConditions {
  for (const { quote } of bands) if (quote !== undefined && 'bench' in quote) return quote.bench;
  return NO_BENCH;
}

function checkConditions(manifest: Readonly<Record<string, unknown>>, where: string): void {
  const field = (name: string): Readonly<Record<string, unknown>> => {
    const value = manifest[name];
    return value !== null && typeof value === 'object' ? (value as Record<string, unknown>) : {};
  };
  const problems = [...beamProblems(field('beam')), ...siteProblems(field('site'))];
  if (problems.length > 0) throw new BadInputError(problems.map((problem) => ({ where, ...problem })));
}
