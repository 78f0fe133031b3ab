import { existsSync, mkdirSync, statSync, writeFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { formatNotebook, refuse } from '../notebook/index.js';
import {
  askForMissing,
  listFrameFiles,
  notebookTemplate,
  type SessionDraft,
  sessionDraft,
  surveyFolder,
} from '../template/index.js';
import { type Person, personAtTerminal } from './newPerson.js';
import { readOptions } from './readOptions.js';
import type { Terminal } from './terminal.js';

const PLACE = 'halfmax-notebook new';
const NAMING = `No frame files there yet. Put them into the folder and give the command again; it reads names such as
  darks/dark-300ms-01.csv         exposure in ms or s (0.3s)
  lamps/lamp-hg-ar-300ms-01.csv   the gas of the lamp: hg-ar, ne, ...
  scans/open-60ms-1.csv           the broadband lamp without a filter
  scans/filtered-ha-60ms-01.csv   "filtered", then the filter's short name
Files that belong together differ in their last number alone.
`;

/**
 * `halfmax-notebook new`: starts a session folder's own manifest and notebook from the frame files that lie in it.
 *
 * @param args - words after `new`
 * @param terminal - where to write
 * @param person - whom to ask for what files and names do not tell; null leaves it open. @default the terminal's user
 * @returns exit code 0
 * @throws {BadInputError} a wrong command, a folder that is none, or one that has both files already
 */
export async function newCommand(
  args: readonly string[],
  terminal: Terminal,
  person: Person | null = personAtTerminal(),
): Promise<number> {
  try {
    return await start(args, terminal, person);
  } finally {
    person?.leave();
  }
}

async function start(args: readonly string[], terminal: Terminal, person: Person | null): Promise<number> {
  const words = readOptions(args, { name: 'text' }, 'new');
  const [folder, ...surplus] = words.positional;
  if (folder === undefined) refuse(PLACE, 'DIR', 'no folder given', 'name the folder of a bench session');
  if (surplus.length > 0)
    refuse(PLACE, surplus[0]!, 'one folder at a time', 'start each with a command of its own');
  if (existsSync(folder) && !statSync(folder).isDirectory())
    refuse(PLACE, folder, 'is not a folder', 'name the folder of a bench session');
  const title = basename(resolve(folder)) || 'session';
  const plain = title
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');
  const name = words.options.get('name')?.[0] ?? (plain === '' ? 'session' : plain);
  if (!/^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/.test(name))
    refuse(PLACE, '--name', `"${name}" is no plain file name`, 'use letters, digits, dots and dashes');
  const notebook = name.endsWith('.ipynb') ? name : `${name}.ipynb`;
  const has = {
    session: existsSync(join(folder, 'session.json')),
    notebook: existsSync(join(folder, notebook)),
  };
  if (has.session && has.notebook)
    refuse(PLACE, folder, `holds session.json and ${notebook} already`, 'give --name for another notebook');

  if (!has.session) {
    mkdirSync(folder, { recursive: true });
    if (listFrameFiles(folder).length === 0) {
      terminal.out(NAMING);
      return 0;
    }
  }
  const written: string[] = [];
  let draft: SessionDraft | null = null;
  let remarks: readonly string[] = [];
  if (!has.session) {
    const seen = surveyFolder(folder);
    ({ remarks } = seen);
    draft = sessionDraft(title, person === null ? seen : await askForMissing(seen, person.ask));
    writeNew(folder, 'session.json', `${JSON.stringify(draft.manifest, null, 2)}\n`);
    written.push('session.json');
  }
  if (!has.notebook) {
    const heading = draft?.manifest['title'];
    writeNew(
      folder,
      notebook,
      formatNotebook(notebookTemplate(typeof heading === 'string' ? heading : title)),
    );
    written.push(notebook);
  }
  terminal.out(report({ folder, written, draft, remarks, notebook, has }));
  return 0;
}

/** Writes a file that must not be there yet, also where another program was quicker. */
function writeNew(folder: string, file: string, content: string): void {
  try {
    writeFileSync(join(folder, file), content, { flag: 'wx' });
  } catch (fault) {
    const code = (fault as NodeJS.ErrnoException).code;
    if (code === 'EEXIST') refuse(PLACE, file, 'is there already and stays as it is', 'move it away');
    if (code !== undefined)
      refuse(PLACE, file, `cannot be written (${code})`, 'check the permissions of the folder');
    throw fault;
  }
}

interface Outcome {
  readonly folder: string;
  readonly written: readonly string[];
  readonly draft: SessionDraft | null;
  readonly remarks: readonly string[];
  readonly notebook: string;
  readonly has: { readonly session: boolean; readonly notebook: boolean };
}

function report({ folder, written, draft, remarks, notebook, has }: Outcome): string {
  const list = (title: string, lines: readonly string[]): string[] =>
    lines.length === 0 ? [] : [title, ...lines.map((line) => `  ${line}`)];
  const left = [...(has.session ? ['session.json'] : []), ...(has.notebook ? [notebook] : [])];
  const missing = draft?.missing ?? [];
  return [
    `Written to ${folder}: ${written.join(', ')}`,
    ...list('Left as they are:', left),
    ...list('Read from names and files, to be checked:', draft?.guessed ?? []),
    ...list('To be looked at:', remarks),
    ...list(
      'Missing; look for TODO in session.json:',
      missing.map(({ place, what }) => `${place}: ${what}`),
    ),
    ...(missing.length === 0 ? ['Next:'] : ['When that is filled in:']),
    `  halfmax measure ${folder} --out RESULTS`,
    `  halfmax-notebook rerun ${join(folder, notebook)} --session ${folder} --out EXECUTED`,
    '',
  ].join('\n');
}
