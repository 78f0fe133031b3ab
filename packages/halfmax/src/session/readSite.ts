import { createHash } from 'node:crypto';
import { type InputProblem, refuse } from '../errors.js';
import type { SkySpectrum } from '../sky/index.js';
import { collectProblems } from './collectProblems.js';
import { expandPattern } from './expandPattern.js';
import { asRecord, asText } from './manifest.js';
import { readBytes } from './readBytes.js';
import { parseSkySpectrum } from './readSkySpectrum.js';

/** The V band, which a site's brightness is counted in. */
const V_BAND_NM: readonly [number, number] = [470, 700];
const MOST_MEBIBYTES = 64;

/**
 * Reads the sky spectrum that a session's site names.
 *
 * @param root - session folder, links resolved
 * @param manifest - parsed session.json, right or not
 * @param where - name of the manifest for messages
 * @returns the spectrum, null where none is named; hash of its file, and what is wrong
 */
export function readSite(
  root: string,
  manifest: unknown,
  where: string,
): {
  spectrum: SkySpectrum | null;
  inputs: { file: string; sha256: string }[];
  problems: InputProblem[];
} {
  const problems: InputProblem[] = [];
  const inputs: { file: string; sha256: string }[] = [];
  let spectrum: SkySpectrum | null = null;
  const named = asRecord(asRecord(asRecord(manifest)['site'])['spectrum']);
  const pattern = asText(named['file']);
  const unit = named['unit'] as SkySpectrum['unit'] | undefined;
  if (pattern === null || pattern === '' || unit === undefined) return { spectrum, inputs, problems };
  collectProblems(problems, () => {
    const place = 'site.spectrum.file';
    const files = expandPattern(root, pattern, where, place);
    if (files.length > 1) refuse(where, place, `matches ${files.length} files`, 'name one');
    const { file, realPath } = files[0]!;
    const bytes = readBytes(realPath, file, MOST_MEBIBYTES);
    inputs.push({ file, sha256: createHash('sha256').update(bytes).digest('hex') });
    spectrum = parseSkySpectrum(bytes, file, unit, V_BAND_NM);
  });
  return { spectrum, inputs, problems };
}
