import { refuse } from '../errors.js';
import { type Conditions, compareFilters, conditionsOf } from '../measure/index.js';
import { type CompareInput, compareInput } from './compareInputs.js';
import { comparisonCsv, comparisonText } from './comparisonText.js';
import { readOptions, wholeNumber } from './readOptions.js';
import { progressLine, type Terminal } from './terminal.js';
import { packageVersion } from './version.js';

const DEFAULT_SEED = 1;
const DIGITS = 12;

/**
 * `halfmax compare`: ranks the filters of one or several sessions or measurements under one site and telescope: those
 * of the first input that states any.
 *
 * @param args - words after `compare`
 * @param terminal - where to write
 * @returns exit code 0
 * @throws {BadInputError} a wrong command, or an input that cannot be used
 */
export async function compareCommand(args: readonly string[], terminal: Terminal): Promise<number> {
  const place = 'halfmax compare';
  const words = readOptions(args, { draws: 'text', seed: 'text', csv: 'flag', json: 'flag' }, 'compare');
  if (words.positional.length === 0)
    refuse(
      place,
      'SESSION-OR-MEASUREMENT',
      'nothing to compare given',
      'name session folders or measurements',
    );
  if (words.options.has('csv') && words.options.has('json'))
    refuse(place, '--csv', 'does not go with --json', 'choose one of them');
  const seed = wholeNumber(words, 'seed', 0, 2 ** 32 - 1, 'compare') ?? DEFAULT_SEED;
  const draws = wholeNumber(words, 'draws', 1000, 10_000_000, 'compare');
  const progress = progressLine(terminal);
  try {
    const inputs: CompareInput[] = [];
    for (const path of words.positional) {
      progress.show(`read ${path}`);
      inputs.push(await compareInput(path, { seed, draws: draws ?? 0, version: packageVersion() }));
    }
    const stating = inputs.find(
      ({ manifest }) => manifest['site'] !== undefined || manifest['beam'] !== undefined,
    );
    progress.show('compare');
    const comparison = compareFilters(
      inputs.flatMap(({ candidates }) => candidates),
      conditionsUnder(stating),
      { seed, ...(draws === undefined ? {} : { draws }) },
      stating?.spectrum ?? undefined,
    );
    progress.clear();
    if (words.options.has('json')) {
      const text = JSON.stringify(
        comparison,
        (_, value: unknown) => (typeof value === 'number' ? Number(value.toPrecision(DIGITS)) : value),
        1,
      );
      terminal.out(`${text}\n`);
    } else terminal.out(words.options.has('csv') ? comparisonCsv(comparison) : comparisonText(comparison));
    return 0;
  } finally {
    progress.clear();
  }
}

/** Conditions of the input that states any. A measurement names a measured sky but does not hold it. */
function conditionsUnder(stating: CompareInput | undefined): Conditions {
  const conditions = conditionsOf(stating?.manifest ?? {});
  const site = stating?.manifest['site'] as { spectrum?: { file?: unknown } } | undefined;
  if (site?.spectrum === undefined || stating?.spectrum) return conditions;
  const without =
    `sky as modelled for the site, since a measurement does not hold the measured one (${String(site.spectrum.file)}): ` +
    'name the session folder to have it taken';
  return { ...conditions, assumed: [...conditions.assumed, without] };
}
