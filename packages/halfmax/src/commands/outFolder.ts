import { readFileSync, realpathSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { refuse } from '../errors.js';

/**
 * Refuses an output folder in which the result would lie among the inputs: the session folder, one above it, or one
 * inside it that holds files of the session.
 *
 * @param out - folder for the result, perhaps not there yet
 * @param session - session folder
 * @param inputs - files of the session, relative to its folder; none while they are not known yet
 * @throws {BadInputError} the folder holds inputs
 */
export function checkOutFolder(out: string, session: string, inputs: readonly string[] = []): void {
  const target = realPath(out);
  const root = realPath(session);
  const holds = (path: string): boolean =>
    path === target || path.startsWith(target + (target === sep ? '' : sep));
  const fix = 'give a folder of its own for the result';
  const where = 'halfmax measure';
  if (root === target) refuse(where, '--out', `${out} is the session folder itself`, fix);
  if (holds(root)) refuse(where, '--out', `${out} holds the session folder ${session}`, fix);
  const inside = inputs.find((file) => holds(dirname(realPath(join(session, file)))));
  if (inside !== undefined) refuse(where, '--out', `${out} holds ${inside}, a file of the session`, fix);
}

/** The path with links resolved as far as it exists. */
function realPath(path: string): string {
  const whole = resolve(path);
  for (let at = whole; ; at = dirname(at)) {
    try {
      return join(realpathSync(at), relative(at, whole));
    } catch {
      if (dirname(at) === at) return whole;
    }
  }
}

/** A longer file is no result of this package. */
const mostBytes = 256 * 2 ** 20;

/**
 * The curve files that an earlier result in a folder lists: what a new result there leaves stale.
 *
 * @param out - folder for the result
 * @returns plain names as this package gives them to curves; none where there is no earlier result that can be read
 */
export function earlierCurves(out: string): string[] {
  try {
    const file = join(out, 'measurement.json');
    if (statSync(file).size > mostBytes) return [];
    const earlier = JSON.parse(readFileSync(file, 'utf8')) as { format?: unknown; filters?: unknown } | null;
    if (typeof earlier?.format !== 'string' || !earlier.format.startsWith('halfmax-measurement/')) return [];
    if (!Array.isArray(earlier.filters)) return [];
    const names = (earlier.filters as readonly ({ curveFile?: unknown } | null)[]).map(
      (one) => one?.curveFile,
    );
    return [...new Set(names)].filter(
      (name): name is string => typeof name === 'string' && /^curve-[A-Za-z0-9._-]+\.csv$/.test(name),
    );
  } catch {
    return [];
  }
}
