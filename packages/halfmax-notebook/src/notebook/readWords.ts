import { refuse } from './refuse.js';

/** What an option of a command takes. */
export type OptionKind = 'flag' | 'text';

/** A command's words, told apart. */
export interface CommandWords {
  readonly positional: readonly string[];
  readonly options: ReadonlyMap<string, string>;
}

/**
 * Tells options and positional words apart.
 *
 * @param args - words after the command
 * @param known - options by name without dashes, and what each takes
 * @param command - such as `halfmax-notebook compare`, for messages
 * @returns positional words and options; a flag that is set has the value ''
 * @throws {BadInputError} an unknown or repeated option, or one without its value
 */
export function readWords(
  args: readonly string[],
  known: Readonly<Record<string, OptionKind>>,
  command: string,
): CommandWords {
  const positional: string[] = [];
  const options = new Map<string, string>();
  for (let i = 0; i < args.length; i++) {
    const word = args[i]!;
    if (!word.startsWith('--')) {
      positional.push(word);
      continue;
    }
    const [name = '', ...rest] = word.slice(2).split('=');
    const kind = Object.hasOwn(known, name) ? known[name] : undefined;
    if (kind === undefined)
      refuse(command, `--${name}`, 'is not an option of this command', 'see halfmax-notebook --help');
    if (options.has(name)) refuse(command, `--${name}`, 'is given twice', 'give it once');
    if (kind === 'flag') {
      if (rest.length > 0) refuse(command, `--${name}`, 'takes no value', 'leave the value out');
      options.set(name, '');
      continue;
    }
    const next = args[i + 1];
    const value = rest.length > 0 ? rest.join('=') : next;
    if (value === undefined || value === '' || (rest.length === 0 && value.startsWith('--')))
      refuse(command, `--${name}`, 'has no value', `write --${name} VALUE`);
    if (rest.length === 0) i++;
    options.set(name, value);
  }
  return { positional, options };
}
