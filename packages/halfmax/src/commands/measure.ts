import { refuse } from '../errors.js';
import { measureSession } from '../measure/index.js';
import { readSession, writeResult } from '../session/index.js';
import { curveText, measurementText } from './fileText.js';
import { measurementTable } from './measurementTable.js';
import { readOptions, wholeNumber } from './readOptions.js';
import { progressLine, type Terminal } from './terminal.js';
import { packageVersion } from './version.js';

const DEFAULT_SEED = 1;

/**
 * `halfmax measure`: measures a session and writes the result.
 *
 * @param args - words after `measure`
 * @param terminal - where to write
 * @returns exit code 0
 * @throws {BadInputError} a wrong command, session or output folder; nothing is written then
 */
export function measureCommand(args: readonly string[], terminal: Terminal): number {
  const words = readOptions(
    args,
    { out: 'text', draws: 'text', seed: 'text', quote: 'flag', json: 'flag' },
    'measure',
  );
  const [folder, ...surplus] = words.positional;
  const place = 'halfmax measure';
  if (folder === undefined)
    refuse(place, 'SESSION', 'no session folder given', 'name the folder that holds session.json');
  if (surplus.length > 0)
    refuse(place, surplus[0]!, 'one session at a time', 'measure each session with a command of its own');
  const out = words.options.get('out');
  if (out === undefined || out === '')
    refuse(place, '--out', 'no folder for the result given', 'write --out DIR');
  const seed = wholeNumber(words, 'seed', 0, 2 ** 32 - 1, 'measure') ?? DEFAULT_SEED;
  const draws = wholeNumber(words, 'draws', 1000, 10_000_000, 'measure') ?? 0;

  const progress = progressLine(terminal);
  try {
    progress.show('read the session');
    const session = readSession(folder);
    const provenance = { package: 'halfmax', version: packageVersion(), node: process.version, seed, draws };
    const { measurement, curves } = measureSession(session, { provenance, onStep: progress.show });
    const text = measurementText(measurement);
    writeResult(out, [
      { name: 'measurement.json', content: text },
      ...curves.map((curve) => ({ name: curve.file, content: curveText(curve) })),
    ]);
    progress.clear();
    const quotes = words.options.has('quote');
    terminal.out(words.options.has('json') ? text : measurementTable(measurement, { out, quotes }));
    return 0;
  } catch (fault) {
    progress.clear();
    throw fault;
  }
}
