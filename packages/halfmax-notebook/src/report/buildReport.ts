import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { darkColours, escapeHtml } from '../display/index.js';
import { type Cell, cellPlace, isRecord, type Notebook } from '../notebook/index.js';
import { pageScript } from './pageScript.js';
import { pageStyle } from './pageStyle.js';
import { renderMarkdown } from './renderMarkdown.js';
import { renderOutput } from './renderOutput.js';
import { renderProvenance } from './renderProvenance.js';
import type { SafeFigure } from './safeFigure.js';

/** A notebook of a report. */
export interface ReportNotebook {
  /** Its file's name, as it is to be shown. */
  readonly file: string;
  readonly notebook: Notebook;
  /** Digest of the file, 64 hexadecimal digits. */
  readonly sha256?: string;
}

/** What a report says about itself. */
export interface ReportOptions {
  /** Left out: the title of the first notebook. */
  readonly title?: string;
}

interface Heading {
  readonly level: number;
  readonly id: string;
  /** HTML without links. */
  readonly text: string;
}

interface Page {
  readonly figures: SafeFigure[];
  readonly headings: Heading[];
}

/**
 * Executed notebooks as one HTML file that needs nothing else and asks the net for nothing.
 *
 * Plotly is in it once, where there are figures; a content security policy allows the page's own two scripts by their
 * digests and no request at all. Texts and HTML of the notebooks are cleaned.
 *
 * @param notebooks - in the order of the report, from 1
 * @param options - title
 * @returns the file's content, to be written as UTF-8: the same notebooks always give the same bytes
 * @throws {RangeError} no notebooks
 */
export function buildReport(notebooks: readonly ReportNotebook[], options: ReportOptions = {}): string {
  if (notebooks.length === 0) throw new RangeError('buildReport requires at least 1 notebook, got none');
  const page: Page = { figures: [], headings: [] };
  const sections = notebooks.map((entry, index) => renderNotebook(entry, index, page));
  const [first] = page.headings;
  const title = options.title ?? plain(first?.text ?? notebooks[0]!.file);
  if (options.title === undefined && first !== undefined && notebooks.length === 1) {
    // The title of the page says it already.
    sections[0] = sections[0]!.replace(headingHtml(first), '');
    page.headings.shift();
  }
  const scripts = page.figures.length === 0 ? [] : [plotlyScript(), pageScript];
  return [
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${policy(scripts)}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="referrer" content="no-referrer">',
    `<title>${escapeHtml(title)}</title>`,
    `<style>${fontFace(page)}${pageStyle}</style>`,
    '</head>',
    '<body>',
    '<a class="skip" href="#content">Skip to the content</a>',
    `<header><h1>${escapeHtml(title)}</h1></header>`,
    renderContents(page.headings),
    `<main id="content">${sections.join('\n')}</main>`,
    '<footer>A static page: it holds all it shows and asks the network for nothing.</footer>',
    ...(scripts.length === 0 ? [] : dataBlocks(page.figures)),
    ...scripts.map((script) => `<script>${script}</script>`),
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

function renderNotebook({ file, notebook, sha256 }: ReportNotebook, index: number, page: Page): string {
  const before = page.headings.length;
  const [first, ...others] = notebook.cells;
  const opening = first?.cell_type === 'markdown' ? renderCell(first, 0, index, page) : '';
  // A notebook that does not begin with a heading gets its file's name, so that the contents lead to it.
  const own = page.headings.length === before ? heading(2, escapeHtml(file), index, page) : '';
  const run = notebook.metadata['halfmax'];
  const failed =
    isRecord(run) && run['status'] !== undefined && run['status'] !== 'complete'
      ? '<p class="failed" role="note">This notebook did not run to its end: what follows is no result.</p>'
      : '';
  const rest = opening === '' ? notebook.cells : others;
  const cells = rest.map((cell, place) =>
    renderCell(cell, place + notebook.cells.length - rest.length, index, page),
  );
  const provenance = renderProvenance(notebook, file, sha256);
  return `<section>${own}${opening}${failed}${provenance}\n${cells.join('\n')}</section>`;
}

function renderCell(cell: Cell, place: number, index: number, page: Page): string {
  if (cell.cell_type === 'raw') return '';
  if (cell.cell_type === 'markdown') {
    const html = renderMarkdown(cell.source, cell.attachments);
    return `<div class="cell text">${withHeadings(html, index, page)}</div>`;
  }
  const outputs = cell.outputs.map((output) =>
    withHeadings(
      renderOutput(output, (figure) => page.figures.push(figure) - 1),
      index,
      page,
    ),
  );
  const code =
    cell.source.trim() === ''
      ? ''
      : `<details class="code"><summary>Code of ${escapeHtml(cellPlace(place, cell.id))}</summary><pre><code>${escapeHtml(cell.source)}</code></pre></details>`;
  return `<div class="cell">${code}${outputs.join('\n')}</div>`;
}

/** Gives the headings of a cleaned text ids and levels below that of the page, and notes them for the contents. */
function withHeadings(html: string, index: number, page: Page): string {
  return html.replace(/<h([1-6])>([\s\S]*?)<\/h\1>/g, (_, level: string, text: string) =>
    heading(Number(level) + 1, text, index, page),
  );
}

function heading(wish: number, text: string, index: number, page: Page): string {
  const last = page.headings[page.headings.length - 1]?.level ?? 1;
  const level = Math.min(wish, last + 1, 6);
  const id = `part-${index + 1}-${page.headings.length + 1}`;
  const entry = { level, id, text: text.replace(/<\/?a\b[^>]*>/g, '') };
  page.headings.push(entry);
  return headingHtml(entry);
}

function headingHtml({ level, id, text }: Heading): string {
  return `<h${level} id="${id}">${text}</h${level}>`;
}

function renderContents(headings: readonly Heading[]): string {
  const shown = headings.filter(({ level }) => level <= 3);
  if (shown.length < 2) return '';
  let html = '';
  let depth = 1;
  for (const { level, id, text } of shown) {
    if (level > depth) html += '<ol><li>';
    else html += `${'</li></ol>'.repeat(depth - level)}</li><li>`;
    depth = level;
    html += `<a href="#${id}">${text}</a>`;
  }
  return `<nav aria-labelledby="contents"><h2 id="contents">Contents</h2>${html}${'</li></ol>'.repeat(depth - 1)}</nav>`;
}

function policy(scripts: readonly string[]): string {
  const digests = scripts.map((script) => `'sha256-${createHash('sha256').update(script).digest('base64')}'`);
  return [
    "default-src 'none'",
    `script-src ${digests.length === 0 ? "'none'" : digests.join(' ')}`,
    "style-src 'unsafe-inline'",
    'img-src data:',
    'font-src data:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}

/** Plotly, with what would end the script in HTML written in another way that means the same. */
function plotlyScript(): string {
  const file = createRequire(import.meta.url).resolve('plotly.js-dist-min/plotly.min.js');
  return readFileSync(file, 'utf8')
    .replaceAll('\r\n', '\n')
    .replaceAll('<!--', '<\\!--')
    .replace(/<\/(script)/gi, '<\\/$1');
}

/** The font of the figures, so that they look the same everywhere. */
function fontFace(page: Page): string {
  if (page.figures.length === 0) return '';
  const font = readFileSync(new URL('../../fonts/NotoSans-figures.ttf', import.meta.url)).toString('base64');
  return `@font-face { font-family: 'Noto Sans'; src: url(data:font/ttf;base64,${font}) format('truetype'); }`;
}

function dataBlocks(figures: readonly SafeFigure[]): string[] {
  const block = (id: string, value: unknown): string =>
    `<script type="application/json" id="${id}">${JSON.stringify(value).replaceAll('<', '\\u003c')}</script>`;
  return [block('figures', figures), block('dark-colours', darkColours())];
}

function plain(html: string): string {
  const entities: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };
  return html
    .replace(/<annotation[\s\S]*?<\/annotation>/g, '')
    .replace(/<[^>]*>/g, '')
    .replace(/&(amp|lt|gt|quot|#39);/g, (_, name: string) => entities[name]!);
}
