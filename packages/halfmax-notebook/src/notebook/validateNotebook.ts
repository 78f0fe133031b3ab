import { isJsonMime } from './mimeKinds.js';
import { isRecord, type PlainRecord } from './plainRecord.js';

/** What a notebook breaks of its format. */
export interface NotebookProblem {
  /** Cell and field: `cell 3 (load-data): outputs 1`; empty where the whole notebook is meant. */
  readonly place: string;
  readonly what: string;
  readonly fix: string;
}

type Report = (place: string, what: string, fix?: string) => void;

const CELL_ID = /^[a-zA-Z0-9-_]+$/;
const TOP_KEYS = ['cells', 'metadata', 'nbformat', 'nbformat_minor'];
const CELL_KEYS: Readonly<Record<string, readonly string[]>> = {
  code: ['cell_type', 'id', 'metadata', 'source', 'outputs', 'execution_count'],
  markdown: ['cell_type', 'id', 'metadata', 'source', 'attachments'],
  raw: ['cell_type', 'id', 'metadata', 'source', 'attachments'],
};
const OUTPUT_KEYS: Readonly<Record<string, readonly string[]>> = {
  stream: ['output_type', 'name', 'text'],
  display_data: ['output_type', 'data', 'metadata'],
  execute_result: ['output_type', 'data', 'metadata', 'execution_count'],
  error: ['output_type', 'ename', 'evalue', 'traceback'],
};

/**
 * What in a parsed file is not as nbformat 4.5 wants it, and, beyond its schema, ids that are there twice.
 *
 * @param value - as parsed from JSON; multi-line texts as one string or as a list of lines
 * @returns all problems found; empty for a valid notebook
 * Source: the notebook format 4.5 as published with its JSON schema (nbformat.v4.5.schema.json); uniqueness of ids from
 * the format's description, which the schema cannot say.
 */
export function validateNotebook(value: unknown): NotebookProblem[] {
  const problems: NotebookProblem[] = [];
  const report: Report = (place, what, fix = 'save the notebook anew') => problems.push({ place, what, fix });
  if (!isRecord(value)) {
    report('', `is ${nameOf(value)}, not a notebook`, 'name an .ipynb file');
    return problems;
  }
  unknownKeys(value, TOP_KEYS, '', report);
  if (value['nbformat'] !== 4) report('nbformat', `is ${show(value['nbformat'])}, not 4`);
  const minor = value['nbformat_minor'];
  if (!Number.isInteger(minor) || (minor as number) < 5)
    report('nbformat_minor', `is ${show(minor)}, not a whole number from 5`);
  checkNotebookMetadata(value['metadata'], report);
  const cells = value['cells'];
  if (!Array.isArray(cells)) {
    report('cells', `is ${nameOf(cells)}, not a list`);
    return problems;
  }
  const seen = new Map<string, number>();
  cells.forEach((cell: unknown, index) => {
    const id = isRecord(cell) && typeof cell['id'] === 'string' ? cell['id'] : undefined;
    const place = cellPlace(index, id);
    checkCell(cell, place, report);
    if (id === undefined) return;
    const first = seen.get(id);
    if (first !== undefined)
      report(place, `has the id of cell ${first + 1}`, 'give each cell an id of its own');
    else seen.set(id, index);
  });
  return problems;
}

/**
 * How a cell is named in messages.
 *
 * @param index - from 0
 * @param id - where it has one
 * @returns such as `cell 3 (load-data)`, counted from 1
 */
export function cellPlace(index: number, id: string | undefined): string {
  return id === undefined ? `cell ${index + 1}` : `cell ${index + 1} (${id.slice(0, 64)})`;
}

function checkNotebookMetadata(metadata: unknown, report: Report): void {
  if (!isRecord(metadata)) {
    report('metadata', `is ${nameOf(metadata)}, not an object`);
    return;
  }
  const kernelspec = optionalRecord(metadata, 'kernelspec', 'metadata.kernelspec', report);
  if (kernelspec !== null)
    for (const key of ['name', 'display_name'])
      wantText(kernelspec, key, `metadata.kernelspec.${key}`, report);
  const language = optionalRecord(metadata, 'language_info', 'metadata.language_info', report);
  if (language !== null) {
    wantText(language, 'name', 'metadata.language_info.name', report);
    for (const key of ['file_extension', 'mimetype', 'pygments_lexer'])
      if (Object.hasOwn(language, key)) wantText(language, key, `metadata.language_info.${key}`, report);
    const mode = language['codemirror_mode'];
    if (Object.hasOwn(language, 'codemirror_mode') && typeof mode !== 'string' && !isRecord(mode))
      report('metadata.language_info.codemirror_mode', `is ${nameOf(mode)}, not a text or an object`);
  }
  const original = metadata['orig_nbformat'];
  if (Object.hasOwn(metadata, 'orig_nbformat') && !(Number.isInteger(original) && (original as number) >= 1))
    report('metadata.orig_nbformat', `is ${show(original)}, not a whole number from 1`);
  if (Object.hasOwn(metadata, 'title')) wantText(metadata, 'title', 'metadata.title', report);
  if (Object.hasOwn(metadata, 'authors') && !Array.isArray(metadata['authors']))
    report('metadata.authors', `is ${nameOf(metadata['authors'])}, not a list`);
}

function checkCell(cell: unknown, place: string, report: Report): void {
  if (!isRecord(cell)) {
    report(place, `is ${nameOf(cell)}, not an object`);
    return;
  }
  const type = cell['cell_type'];
  if (typeof type !== 'string' || !Object.hasOwn(CELL_KEYS, type)) {
    report(`${place}: cell_type`, `is ${show(type)}, not code, markdown or raw`);
    return;
  }
  unknownKeys(cell, CELL_KEYS[type]!, place, report);
  const id = cell['id'];
  if (typeof id !== 'string' || !CELL_ID.test(id) || id.length > 64)
    report(
      `${place}: id`,
      `is ${show(id)}, not 1 to 64 letters, digits, hyphens or underscores`,
      'give the cell such an id',
    );
  checkText(cell, 'source', place, report);
  checkCellMetadata(cell['metadata'], type, place, report);
  if (Object.hasOwn(cell, 'attachments')) checkAttachments(cell['attachments'], place, report);
  if (type !== 'code') return;
  checkCount(cell['execution_count'], place, report);
  const outputs = cell['outputs'];
  if (!Array.isArray(outputs)) {
    report(`${place}: outputs`, `is ${nameOf(outputs)}, not a list`);
    return;
  }
  outputs.forEach((output: unknown, index) => {
    checkOutput(output, `${place}: output ${index + 1}`, report);
  });
}

function checkCellMetadata(metadata: unknown, type: string, place: string, report: Report): void {
  const where = `${place}: metadata`;
  if (!isRecord(metadata)) {
    report(where, `is ${nameOf(metadata)}, not an object`);
    return;
  }
  optionalRecord(metadata, 'jupyter', `${where}.jupyter`, report);
  if (Object.hasOwn(metadata, 'name')) {
    const name = metadata['name'];
    if (typeof name !== 'string' || !/^.+$/.test(name))
      report(`${where}.name`, `is ${show(name)}, not a name`);
  }
  if (Object.hasOwn(metadata, 'tags')) {
    const tags = metadata['tags'];
    const isFine =
      Array.isArray(tags) &&
      tags.every((tag) => typeof tag === 'string' && /^[^,]+$/.test(tag)) &&
      new Set(tags).size === tags.length;
    if (!isFine) report(`${where}.tags`, 'is not a list of different words without commas');
  }
  if (type === 'raw' && Object.hasOwn(metadata, 'format'))
    wantText(metadata, 'format', `${where}.format`, report);
  if (type !== 'code') return;
  const execution = optionalRecord(metadata, 'execution', `${where}.execution`, report);
  if (execution !== null)
    for (const key of Object.keys(execution)) wantText(execution, key, `${where}.execution.${key}`, report);
  if (Object.hasOwn(metadata, 'collapsed') && typeof metadata['collapsed'] !== 'boolean')
    report(`${where}.collapsed`, `is ${show(metadata['collapsed'])}, not true or false`);
  if (Object.hasOwn(metadata, 'scrolled') && ![true, false, 'auto'].includes(metadata['scrolled'] as never))
    report(`${where}.scrolled`, `is ${show(metadata['scrolled'])}, not true, false or "auto"`);
}

function checkAttachments(attachments: unknown, place: string, report: Report): void {
  if (!isRecord(attachments)) {
    report(`${place}: attachments`, `is ${nameOf(attachments)}, not an object`);
    return;
  }
  for (const [name, bundle] of Object.entries(attachments))
    checkBundle(bundle, `${place}: attachment ${name}`, report);
}

function checkOutput(output: unknown, place: string, report: Report): void {
  if (!isRecord(output)) {
    report(place, `is ${nameOf(output)}, not an object`);
    return;
  }
  const type = output['output_type'];
  if (typeof type !== 'string' || !Object.hasOwn(OUTPUT_KEYS, type)) {
    report(place, `has the type ${show(type)}, which the format does not know`);
    return;
  }
  unknownKeys(output, OUTPUT_KEYS[type]!, place, report);
  if (type === 'stream') {
    wantText(output, 'name', `${place}: name`, report);
    checkText(output, 'text', place, report);
  } else if (type === 'error') {
    wantText(output, 'ename', `${place}: ename`, report);
    wantText(output, 'evalue', `${place}: evalue`, report);
    if (!isTextList(output['traceback'])) report(`${place}: traceback`, 'is not a list of texts');
  } else {
    checkBundle(output['data'], `${place}: data`, report);
    if (!isRecord(output['metadata']))
      report(`${place}: metadata`, `is ${nameOf(output['metadata'])}, not an object`);
    if (type === 'execute_result') checkCount(output['execution_count'], place, report);
  }
}

function checkBundle(bundle: unknown, place: string, report: Report): void {
  if (!isRecord(bundle)) {
    report(place, `is ${nameOf(bundle)}, not an object`);
    return;
  }
  for (const mime of Object.keys(bundle)) if (!isJsonMime(mime)) checkText(bundle, mime, place, report);
}

function checkText(record: PlainRecord, key: string, place: string, report: Report): void {
  const text = record[key];
  if (typeof text !== 'string' && !isTextList(text))
    report(`${place}: ${key}`, `is ${nameOf(text)}, not a text or a list of lines`);
}

function checkCount(count: unknown, place: string, report: Report): void {
  if (count === null || (Number.isInteger(count) && (count as number) >= 0)) return;
  report(`${place}: execution_count`, `is ${show(count)}, not null or a whole number from 0`);
}

function wantText(record: PlainRecord, key: string, place: string, report: Report): void {
  if (typeof record[key] !== 'string') report(place, `is ${nameOf(record[key])}, not a text`);
}

function optionalRecord(record: PlainRecord, key: string, place: string, report: Report): PlainRecord | null {
  if (!Object.hasOwn(record, key)) return null;
  const value = record[key];
  if (isRecord(value)) return value;
  report(place, `is ${nameOf(value)}, not an object`);
  return null;
}

function unknownKeys(record: PlainRecord, known: readonly string[], place: string, report: Report): void {
  for (const key of Object.keys(record))
    if (!known.includes(key))
      report(place, `has the field "${key}", which the format does not know`, 'remove it');
}

function isTextList(value: unknown): boolean {
  return Array.isArray(value) && value.every((line) => typeof line === 'string');
}

function nameOf(value: unknown): string {
  if (value === undefined) return 'missing';
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'an object';
  return typeof value === 'string' ? 'a text' : `a ${typeof value}`;
}

function show(value: unknown): string {
  if (value === undefined) return 'missing';
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 80 ? `${text.slice(0, 80)}…` : text;
}
