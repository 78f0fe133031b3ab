import { existsSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { BadInputError } from 'halfmax';
import { emit } from '../display/emit.js';
import { type GivenInputs, type InputOrigin, kernelWorld } from '../kernel/kernelSettings.js';

/** What an input can be. */
export type InputValue = string | number | boolean;

/** Inputs with the defaults that a notebook states; `session`, `seed`, `draws` and `out` are checked. */
export type InputDefaults = Readonly<Record<string, InputValue>>;

/** The inputs: of the same kind as their defaults. */
export type NotebookInputs<D extends InputDefaults> = {
  readonly [K in keyof D]: D[K] extends number ? number : D[K] extends boolean ? boolean : string;
};

/** MIME type of the record of inputs that the call leaves in the notebook. */
export const INPUTS_MIME = 'application/vnd.halfmax.inputs+json';

const MOST_SEED = 2 ** 32 - 1;

/**
 * The inputs of this notebook: its defaults where it is opened in Jupyter, or what the command line gives in their
 * place. What was used is shown below the cell and so written into the notebook. Call it once, in an early cell.
 *
 * Known by name: `session`, folder of a bench session, relative to the notebook's folder; `seed`, whole number from 0
 * to 4294967295; `draws`, whole number from 1; `out`, folder that the notebook may write files to. Any other name is
 * given with `--input name=value`.
 *
 * @param defaults - each input with its value in Jupyter
 * @returns the same names with the values of this run
 * @throws {BadInputError} a value that is not of its kind, or a session folder without session.json
 */
export function notebookInputs<const D extends InputDefaults>(defaults: D): NotebookInputs<D> {
  const world = kernelWorld();
  const given: GivenInputs = world?.settings.given ?? { others: {} };
  const chosen: [string, Input][] = Object.entries(defaults).map(([name, standard]) => [
    name,
    choose(name, standard, given),
  ]);
  const used: Record<string, Input> = Object.fromEntries(
    chosen.map(([name, { from, value }]) => [
      name,
      // Where a run puts files is its own affair: what is written is the same in Jupyter and under the command.
      name === 'out' ? { from: 'notebook', value: 'out' } : { from, value: shown(name, value, from) },
    ]),
  );
  for (const [name, { value }] of chosen) {
    world?.used.set(name, used[name]!);
    if (name === 'session' || name === 'out') world?.nameFolder(name, String(value));
  }
  const width = Math.max(0, ...chosen.map(([name]) => name.length));
  const lines = Object.entries(used).map(
    ([name, { value, from }]) => `${name.padEnd(width)}  ${value}${from === 'command' ? '  (given)' : ''}`,
  );
  const text = lines.join('\n');
  if (emit({ 'text/plain': text, [INPUTS_MIME]: used }) !== undefined) process.stdout.write(`${text}\n`);
  return Object.fromEntries(chosen.map(([name, { value }]) => [name, value])) as NotebookInputs<D>;
}

interface Input {
  readonly value: InputValue;
  readonly from: InputOrigin;
}

function choose(name: string, standard: InputValue, given: GivenInputs): Input {
  const known = { session: given.session, seed: given.seed, draws: given.draws, out: given.out };
  const fromKnown = Object.hasOwn(known, name) ? known[name as keyof typeof known] : undefined;
  const other = Object.hasOwn(given.others, name) ? given.others[name] : undefined;
  const isGiven = fromKnown !== undefined || other !== undefined;
  const value = fromKnown ?? (other === undefined ? standard : parse(name, other, standard));
  if (name === 'session' && !existsSync(join(String(value), 'session.json')))
    refuse(name, `${quote(value)} holds no session.json`, 'name the folder of a bench session');
  if (name === 'seed' && !isWhole(value, 0, MOST_SEED))
    refuse(name, `${quote(value)} is not a whole number from 0 to ${MOST_SEED}`, 'correct it');
  if (name === 'draws' && !isWhole(value, 1, 1e9))
    refuse(name, `${quote(value)} is not a whole number from 1 to 1000000000`, 'correct it');
  if ((name === 'session' || name === 'out') && typeof value === 'string' && isGiven)
    return { value: resolve(value), from: 'command' };
  return { value, from: isGiven ? 'command' : 'notebook' };
}

function parse(name: string, text: string, standard: InputValue): InputValue {
  if (typeof standard === 'string') return text;
  if (typeof standard === 'boolean') {
    if (text === 'true' || text === 'false') return text === 'true';
    return refuse(name, `${quote(text)} is neither true nor false`, 'write one of them');
  }
  const value = text.trim() === '' ? Number.NaN : Number(text);
  return Number.isFinite(value) ? value : refuse(name, `${quote(text)} is no number`, 'write a number');
}

/** What is written down: a folder without the path that leads to it on this machine. */
function shown(name: string, value: InputValue, from: InputOrigin): InputValue {
  return name === 'session' && from === 'command' ? basename(String(value)) : value;
}

function isWhole(value: InputValue, least: number, most: number): boolean {
  return typeof value === 'number' && Number.isInteger(value) && value >= least && value <= most;
}

function quote(value: InputValue): string {
  return typeof value === 'string' ? `"${value}"` : String(value);
}

function refuse(name: string, what: string, fix: string): never {
  throw new BadInputError([{ where: 'inputs', place: name, what, fix }]);
}
