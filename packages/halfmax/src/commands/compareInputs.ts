import { existsSync, readFileSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { beamProblems } from '../beam/index.js';
import { BadInputError, refuse } from '../errors.js';
import type { BandReport, Candidate, FilterReport, Measurement } from '../measure/index.js';
import type { BenchConditions } from '../session/index.js';
import { type SkySpectrum, siteProblems } from '../sky/index.js';

/** What one argument of `compare` brings. */
export interface CompareInput {
  readonly candidates: readonly Candidate[];
  /** `site` and `beam` as the file states them; empty where it states none. */
  readonly manifest: Readonly<Record<string, unknown>>;
  /** Measured sky of the session's site; a measurement keeps none, nor a session that names none. */
  readonly spectrum: SkySpectrum | null;
}

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
  const { measurement, curves } = measureSession(session, { provenance });
  return {
    manifest: session.manifest,
    spectrum: session.skySpectrum ?? null,
    candidates: measurement.filters.map(({ id, label, bands }) => {
      const curve = curves.find((one) => one.filter === id);
      const none = new Float64Array(0);
      return {
        from,
        id,
        label,
        bands,
        bench: session.bench,
        price: session.filters.find((filter) => filter.id === id)?.price ?? null,
        curve: curve ?? { wavelengthNm: none, transmittance: none, standardUncertainty: none },
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
        const none = new Float64Array(0);
        const curve = { wavelengthNm: none, transmittance: none, standardUncertainty: none };
        return { from, id, label, bands, bench: NO_BENCH, price: null, curve };
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
        curve: {
          wavelengthNm: table.wavelengthNm,
          transmittance: table.transmittance,
          standardUncertainty: table.standardUncertainty ?? new Float64Array(table.wavelengthNm.length),
        },
      };
    }),
  };
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
