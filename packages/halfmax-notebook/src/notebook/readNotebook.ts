import { BadInputError } from 'halfmax';
import { isJsonMime } from './mimeKinds.js';
import { isRecord, type PlainRecord, without } from './plainRecord.js';
import type { Notebook } from './types.js';
import { validateNotebook } from './validateNotebook.js';

/**
 * A notebook from the text of an .ipynb file.
 *
 * Files of nbformat 4.0 to 4.4 are raised to 4.5: cells without an id get `cell-1`, `cell-2`, … by their place.
 * What only a running front end needs (`transient`) is left out.
 *
 * @param text - the file's content
 * @param file - its name, for messages
 * @returns the notebook with every multi-line text joined to one string
 * @throws {BadInputError} no JSON, another major version of the format, or content that breaks it; all problems at once
 */
export function readNotebook(text: string, file: string): Notebook {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text.startsWith('\uFEFF') ? text.slice(1) : text);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw new BadInputError([
      { where: file, place: '', what: `is not JSON (${reason})`, fix: 'name an .ipynb file' },
    ]);
  }
  if (isRecord(parsed)) {
    const major = parsed['nbformat'];
    if (typeof major === 'number' && major !== 4) {
      const fix = major < 4 ? 'open it in Jupyter and save it in format 4' : 'save it in format 4.5';
      throw new BadInputError([
        { where: file, place: 'nbformat', what: `is ${major}; only format 4 is read`, fix },
      ]);
    }
  }
  const raised = raise(parsed);
  const problems = validateNotebook(raised);
  if (problems.length > 0) throw new BadInputError(problems.map((problem) => ({ where: file, ...problem })));
  return joined(raised as PlainRecord);
}

/** Raises 4.0 to 4.4 to the shape of 4.5; leaves alone what is no notebook, for the check that follows. */
function raise(value: unknown): unknown {
  if (!isRecord(value) || !Array.isArray(value['cells'])) return value;
  const minor = value['nbformat_minor'];
  const isOld = Number.isInteger(minor) && (minor as number) >= 0 && (minor as number) < 5;
  const taken = new Set(
    value['cells'].flatMap((cell: unknown) =>
      isRecord(cell) && typeof cell['id'] === 'string' ? [cell['id']] : [],
    ),
  );
  const cells = value['cells'].map((cell: unknown, index) => {
    if (!isRecord(cell)) return cell;
    const withOutputs = Array.isArray(cell['outputs'])
      ? {
          ...cell,
          outputs: cell['outputs'].map((o: unknown) => (isRecord(o) ? without(o, ['transient']) : o)),
        }
      : cell;
    if (Object.hasOwn(cell, 'id')) return withOutputs;
    return isOld ? { ...withOutputs, id: freeId(`cell-${index + 1}`, taken) } : withOutputs;
  });
  return { ...value, cells, ...(isOld ? { nbformat_minor: 5 } : {}) };
}

function freeId(wish: string, taken: Set<string>): string {
  let id = wish;
  for (let further = 2; taken.has(id); further++) id = `${wish}-${further}`;
  taken.add(id);
  return id;
}

function joined(value: PlainRecord): Notebook {
  const cells = (value['cells'] as PlainRecord[]).map((cell) => ({
    ...cell,
    source: joinText(cell['source']),
    ...(isRecord(cell['attachments']) ? { attachments: mapValues(cell['attachments'], joinBundle) } : {}),
    ...(Array.isArray(cell['outputs']) ? { outputs: cell['outputs'].map(joinOutput) } : {}),
  }));
  return { ...value, cells } as unknown as Notebook;
}

function joinOutput(output: PlainRecord): PlainRecord {
  if (output['output_type'] === 'stream') return { ...output, text: joinText(output['text']) };
  if (isRecord(output['data'])) return { ...output, data: joinBundle(output['data']) };
  return output;
}

function joinBundle(bundle: unknown): PlainRecord {
  return mapValues(bundle as PlainRecord, (value, mime) => (isJsonMime(mime) ? value : joinText(value)));
}

function joinText(value: unknown): string {
  return Array.isArray(value) ? value.join('') : String(value);
}

function mapValues(record: PlainRecord, change: (value: unknown, key: string) => unknown): PlainRecord {
  return Object.fromEntries(Object.entries(record).map(([key, value]) => [key, change(value, key)]));
}
