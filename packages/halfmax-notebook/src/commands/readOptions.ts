import { refuse } from '../notebook/index.js';

/** What an option of a command takes: nothing, a value, or a value each time it is given. */
export type OptionKind = 'flag' | 'text' | 'list';

/** A command's words, told apart. */
export interface CommandWords {
  readonly positional: readonly string[];
  readonly options: ReadonlyMap<string, readonly string[]>;
}

/**
 * Tells options and positional words apart.
 *
 * @param args - words after the command
 * @param known - options by name without dashes, and what each takes
 * @param command - the command, for messages
 * @returns positional words, and the values of each option; a flag that is set has none
 * @throws {BadInputError} an unknown or repeated option, or one without its value
 */
export function readOptions(
  args: readonly string[],
  known: Readonly<Record<string, OptionKind>>,
  command: string,
): CommandWords {
  const positional: string[] = [];
  const options = new Map<string, string[]>();
  const place = `halfmax-notebook ${command}`;
  for (let i = 0; i < args.length; i++) {
    const word = args[i]!;
    if (!word.startsWith('--')) {
      positional.push(word);
      continue;
    }
    const [name = '', ...rest] = word.slice(2).split('=');
    const kind = Object.hasOwn(known, name) ? known[name] : undefined;
    if (kind === undefined)
      refuse(place, `--${name}`, 'is not an option of this command', 'see halfmax-notebook --help');
    if (options.has(name) && kind !== 'list') refuse(place, `--${name}`, 'is given twice', 'give it once');
    if (kind === 'flag') {
      if (rest.length > 0) refuse(place, `--${name}`, 'takes no value', 'leave the value out');
      options.set(name, []);
      continue;
    }
    const next = args[i + 1];
    const value = rest.length > 0 ? rest.join('=') : next;
    if (value === undefined || value === '' || (rest.length === 0 && value.startsWith('--')))
      refuse(place, `--${name}`, 'has no value', `write --${name} VALUE`);
    if (rest.length === 0) i++;
    options.set(name, [...(options.get(name) ?? []), value]);
  }
  return { positional, options };
}

/**
 * A whole number from an option.
 *
 * @param words - the command's words
 * @param name - option without dashes
 * @param least - smallest value allowed
 * @param most - largest value allowed
 * @param command - the command, for messages
 * @returns the number, or undefined where the option is not given
 * @throws {BadInputError} not a whole number, or out of range
 */
export function wholeNumber(
  words: CommandWords,
  name: string,
  least: number,
  most: number,
  command: string,
): number | undefined {
  const text = words.options.get(name)?.[0];
  if (text === undefined) return undefined;
  const value = /^\d{1,12}$/.test(text) ? Number(text) : Number.NaN;
  if (!(value >= least && value <= most)) {
    const what = `"${text}" is not a whole number from ${least} to ${most}`;
    refuse(`halfmax-notebook ${command}`, `--${name}`, what, 'correct it or leave it out');
  }
  return value;
}
