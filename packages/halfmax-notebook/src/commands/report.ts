import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { writeResult } from 'halfmax/session';
import { readNotebookFile, refuse as refuseInput } from '../notebook/index.js';
import { buildReport, type ReportNotebook } from '../report/index.js';
import { addStills } from '../still/index.js';
import { readOptions } from './readOptions.js';
import type { Terminal } from './terminal.js';

const COMMAND = 'halfmax-notebook report';

export const reportUsage: string = `  halfmax-notebook report NOTEBOOK… --out FILE.html [--title TEXT]
      writes executed notebooks as one HTML file that needs nothing else and asks the network for nothing
      --out    the file to write
      --title  its title (left out: the first heading)
`;

/**
 * `halfmax-notebook report`: executed notebooks as one HTML file.
 *
 * @param args - words after `report`
 * @param terminal - where to say what was written
 * @returns exit code 0
 * @throws {BadInputError} a wrong command, a file that is no notebook, or one that cannot be written: the caller's exit code 2
 */
export async function reportCommand(args: readonly string[], terminal: Terminal): Promise<number> {
  const words = readOptions(args, { out: 'text', title: 'text' }, 'report');
  const file = words.options.get('out')?.[0];
  if (words.positional.length === 0) refuse('NOTEBOOK', 'no notebook given', 'name executed .ipynb files');
  if (file === undefined) refuse('--out', 'is missing', 'name the HTML file to write');
  if (!/\.html?$/i.test(file)) refuse('--out', `"${file}" does not end in .html`, 'name an HTML file');
  const notebooks: ReportNotebook[] = [];
  for (const path of words.positional) {
    const notebook = await addStills(readNotebookFile(path));
    const sha256 = createHash('sha256').update(readFileSync(path)).digest('hex');
    notebooks.push({ file: basename(path), notebook, sha256 });
  }
  const title = words.options.get('title')?.[0];
  const html = buildReport(notebooks, title === undefined ? {} : { title });
  writeResult(dirname(file), [{ name: basename(file), content: html }]);
  terminal.out(
    `${file}: ${notebooks.length} ${notebooks.length === 1 ? 'notebook' : 'notebooks'}, ${Math.round(html.length / 1e5) / 10} MB\n`,
  );
  return 0;
}

function refuse(place: string, what: string, fix: string): never {
  return refuseInput(COMMAND, place, what, fix);
}
