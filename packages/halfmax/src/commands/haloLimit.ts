import { refuse } from '../errors.js';
import type { HaloTolerance, NoiseTolerance } from '../halo/index.js';
import { frameAsImage, type HaloContext, usualPatch } from '../measure/index.js';
import { HALO_COMMAND, numberOption } from './haloOptions.js';
import type { CommandWords } from './readOptions.js';

type Limit = Pick<HaloContext, 'tolerance' | 'assumed'>;

/** Fields of a limit on the noise, as in a session: whether it must be given, whether it may be 0, or below. */
const FIELDS = {
  hours: { needed: true, least: 'above 0' },
  electronsPerCount: { needed: true, least: 'above 0' },
  sky: { needed: true, least: '0 or more' },
  dark: { needed: true, least: '0 or more' },
  readNoise: { needed: true, least: '0 or more' },
  frameS: { needed: false, least: 'above 0' },
  pixels: { needed: false, least: 'above 0' },
  threshold: { needed: false, least: 'above 0' },
  brighterBy: { needed: false, least: 'any' },
} as const;
type Field = keyof typeof FIELDS;
const EXAMPLE =
  '--limit-noise hours:4,electronsPerCount:0.8,sky:0.5,dark:0.002,readNoise:1.5; frameS, pixels, threshold and brighterBy may be added';

/**
 * The limit that the user sets with `--limit-share`, `--limit-surface` or `--limit-noise`.
 *
 * @param words - of the command
 * @returns gives the limit for an image of an exposure in seconds (null where its header states none)
 * @throws {BadInputError} two limits, or one out of range; given an image without exposure: --exposure is missing
 */
export function haloLimit(words: CommandWords): (exposureS: number | null) => Limit {
  const given = ['limit-share', 'limit-surface', 'limit-noise'].filter((name) => words.options.has(name));
  if (given.length > 1)
    refuse(HALO_COMMAND, `--${given[0]}`, `does not go with --${given[1]}`, 'choose one of them');
  const atMost = numberOption(words, 'limit-share', 0, 1);
  const atLeast = numberOption(words, 'limit-surface', -50, 50);
  const noise = noiseFields(words.options.get('limit-noise'));
  const exposure = numberOption(words, 'exposure', 0, Infinity);
  const plain = (tolerance: HaloTolerance) => (): Limit => ({ tolerance });
  if (atMost !== undefined) return plain({ kind: 'share', atMost });
  if (atLeast !== undefined) return plain({ kind: 'surface', atLeast });
  if (noise === undefined) return () => ({});
  return (ofImage) => {
    const exposureS = exposure ?? ofImage;
    if (exposureS === null)
      refuse(
        HALO_COMMAND,
        '--exposure',
        'is missing, and the header does not state the exposure',
        'give the exposure in seconds: the limit on the noise needs it',
      );
    const assumed: string[] = [];
    const frameS = noise.frameS ?? frameAsImage(exposureS, assumed);
    const pixels = noise.pixels ?? usualPatch(assumed);
    return { tolerance: { ...noise, kind: 'noise', exposureS, frameS, pixels }, assumed };
  };
}

type Noise = Omit<NoiseTolerance, 'exposureS' | 'frameS' | 'pixels'> &
  Partial<Pick<NoiseTolerance, 'frameS' | 'pixels'>>;

/** `hours:4,sky:0.5,…` as numbers. */
function noiseFields(text: string | undefined): Noise | undefined {
  if (text === undefined) return undefined;
  const found: Partial<Record<Field, number>> = {};
  for (const part of text.split(',')) {
    const [name = '', number = '', ...rest] = part.split(':');
    const field = name.trim();
    const value = number.trim() === '' ? Number.NaN : Number(number);
    if (!Object.hasOwn(FIELDS, field) || rest.length > 0 || !Number.isFinite(value))
      refuse(HALO_COMMAND, '--limit-noise', `"${part}" is no part of a limit`, `write ${EXAMPLE}`);
    const { least } = FIELDS[field as Field];
    if ((least === 'above 0' && !(value > 0)) || (least === '0 or more' && !(value >= 0)))
      refuse(HALO_COMMAND, '--limit-noise', `${field} is ${value}, not ${least}`, 'correct it');
    if (found[field as Field] !== undefined)
      refuse(HALO_COMMAND, '--limit-noise', `gives ${field} twice`, 'give it once');
    found[field as Field] = value;
  }
  const missing = (Object.keys(FIELDS) as Field[]).filter(
    (field) => FIELDS[field].needed && found[field] === undefined,
  );
  if (missing.length > 0)
    refuse(HALO_COMMAND, '--limit-noise', `lacks ${missing.join(', ')}`, `write ${EXAMPLE}`);
  return found as Noise;
}
