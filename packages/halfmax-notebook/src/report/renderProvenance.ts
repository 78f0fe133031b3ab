import { escapeHtml } from '../display/index.js';
import { isRecord, type Notebook } from '../notebook/index.js';

/**
 * Where a notebook and its results come from, as far as the notebook says so.
 *
 * @param notebook - executed
 * @param file - its name
 * @param sha256 - digest of the file, where it is known
 * @returns HTML
 */
export function renderProvenance(notebook: Notebook, file: string, sha256?: string): string {
  const run = notebook.metadata['halfmax'];
  const rows: [string, string][] = [['Notebook', escapeHtml(file)]];
  if (sha256 !== undefined) rows.push(['SHA-256 of this file', digest(sha256)]);
  if (!isRecord(run)) {
    rows.push(['Run', 'The notebook does not say how it was run, or with what.']);
    return block(rows, '');
  }
  rows.push(...valueRows(run));
  const files = Array.isArray(run['filesRead']) ? run['filesRead'] : [];
  return block(rows, filesRead(files));
}

/** Names in words for what the runner writes down; what has none keeps its own. */
const NAMES: Readonly<Record<string, string>> = {
  status: 'Run',
  clock: 'Started',
  randomSeed: 'Seed of random numbers',
  timeZone: 'Time zone',
  locale: 'Locale',
  inputs: 'Inputs',
  tools: 'Made with',
  source: 'Notebook before the run',
  failure: 'Failure',
};

function valueRows(run: Readonly<Record<string, unknown>>): [string, string][] {
  return Object.keys(NAMES)
    .filter((key) => Object.hasOwn(run, key))
    .map((key) => [NAMES[key]!, show(run[key])]);
}

function show(value: unknown): string {
  if (!isRecord(value)) return scalar(value);
  const parts = Object.entries(value).map(([key, part]) => {
    if (isRecord(part) && 'value' in part)
      return `${escapeHtml(key)} = ${scalar(part['value'])}${part['from'] === 'command' ? ' (given)' : ''}`;
    if (isRecord(part)) return `${escapeHtml(key)}: ${Object.values(part).map(scalar).join(' ')}`;
    return `${escapeHtml(key)} ${scalar(part)}`;
  });
  return parts.length === 0 ? 'none' : `<ul>${parts.map((part) => `<li>${part}</li>`).join('')}</ul>`;
}

function scalar(value: unknown): string {
  const text = typeof value === 'string' ? value : (JSON.stringify(value) ?? '');
  return /^[\da-f]{64}$/.test(text) ? digest(text) : escapeHtml(text);
}

function digest(sha256: string): string {
  return `<code class="digest">${escapeHtml(sha256)}</code>`;
}

function filesRead(files: readonly unknown[]): string {
  const rows = files.filter(isRecord).map((entry) => {
    const name = escapeHtml(String(entry['path'] ?? entry['file'] ?? entry['name'] ?? ''));
    return `<tr><td>${name}</td><td>${scalar(entry['sha256'] ?? '')}</td></tr>`;
  });
  if (rows.length === 0) return '';
  return [
    `<details><summary>Files read: ${rows.length}</summary>`,
    '<div class="table" tabindex="0" role="region" aria-label="Files read"><table>',
    '<thead><tr><th scope="col">File</th><th scope="col">SHA-256</th></tr></thead>',
    `<tbody>${rows.join('')}</tbody></table></div></details>`,
  ].join('');
}

function block(rows: readonly (readonly [string, string])[], further: string): string {
  const terms = rows.map(([name, value]) => `<dt>${name}</dt><dd>${value}</dd>`).join('');
  return [
    '<details class="provenance"><summary>Where this comes from</summary>',
    '<p>All texts, tables and figures below are those of the notebook file named here; what it says about its run is its own',
    ' statement. Scripts, styles and links to other pictures in it were left out.</p>',
    `<dl>${terms}</dl>${further}</details>`,
  ].join('');
}
