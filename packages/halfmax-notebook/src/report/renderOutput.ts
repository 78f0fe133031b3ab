import { escapeHtml } from '../display/index.js';
import { type MimeBundle, type Output, PLOTLY_MIME } from '../notebook/index.js';
import { renderFormula } from './renderFormula.js';
import { renderMarkdown } from './renderMarkdown.js';
import { type SafeFigure, safeFigure } from './safeFigure.js';
import { sanitiseHtml } from './sanitiseHtml.js';

/** Takes a figure and gives its number in the page. */
export type KeepFigure = (figure: SafeFigure) => number;

// biome-ignore lint/suspicious/noControlCharactersInRegex: the escape that starts a terminal's colours
const COLOURS = /\x1b\[[\d;?]*[ -/]*[@-~]/g;
const BASE64 = /^[\d+/=A-Za-z]*$/;

/**
 * An output of a cell as HTML, in the best form that can be shown safely.
 *
 * @param output - of any cell
 * @param keepFigure - called for a figure that the page draws itself
 * @returns HTML
 */
export function renderOutput(output: Output, keepFigure: KeepFigure): string {
  if (output.output_type === 'stream') {
    const kind = output.name === 'stderr' ? ' class="stderr"' : '';
    return `<pre${kind}>${escapeHtml(output.text.replace(COLOURS, ''))}</pre>`;
  }
  if (output.output_type === 'error') {
    const text =
      output.traceback.length > 0 ? output.traceback.join('\n') : `${output.ename}: ${output.evalue}`;
    return `<pre class="error">${escapeHtml(text.replace(COLOURS, ''))}</pre>`;
  }
  return renderBundle(output.data, keepFigure);
}

function renderBundle(data: MimeBundle, keepFigure: KeepFigure): string {
  const text = (mime: string): string | undefined =>
    typeof data[mime] === 'string' ? data[mime] : undefined;
  const picture = pictureOf(data);
  const plain = text('text/plain') ?? '';
  if (PLOTLY_MIME in data) return renderFigure(safeFigure(data[PLOTLY_MIME]), picture, plain, keepFigure);
  const html = text('text/html');
  if (html !== undefined) return renderHtml(html);
  const markdown = text('text/markdown');
  if (markdown !== undefined) return `<div class="text">${renderMarkdown(markdown)}</div>`;
  const latex = text('text/latex');
  if (latex !== undefined) return `<p>${renderFormula(latex.trim().replace(/^\$+|\$+$/g, ''), true)}</p>`;
  if (picture !== null)
    return `<figure><img src="${picture}" alt="${escapeHtml(plain || 'A picture without a description')}"></figure>`;
  if (plain !== '') return `<pre>${escapeHtml(plain.replace(COLOURS, ''))}</pre>`;
  const kinds = Object.keys(data).map(escapeHtml).join(', ');
  return `<p class="note">An output of a kind that this report does not show: ${kinds}.</p>`;
}

function renderFigure(
  figure: SafeFigure | null,
  picture: string | null,
  caption: string,
  keepFigure: KeepFigure,
): string {
  const alt = escapeHtml(caption || 'A figure without a description');
  const still =
    picture === null
      ? '<p class="still note">This figure has no still picture.</p>'
      : `<img class="still" src="${picture}" alt="${alt}">`;
  const words = caption === '' ? '' : `<figcaption>${escapeHtml(caption)}</figcaption>`;
  if (figure === null) return `<figure>${still}${words}</figure>`;
  const number = keepFigure(figure);
  const sliders = figure.sliders.map(({ prefix, suffix, active, steps }, index) => {
    const name = escapeHtml(prefix.replace(/[\s=:]+$/, '') || 'Slider');
    const unit = escapeHtml(suffix);
    return [
      `<div class="slider"><label for="figure-${number}-slider-${index}">${name}</label>`,
      `<input type="range" id="figure-${number}-slider-${index}" min="0" max="${steps.length - 1}" step="1" value="${active}"`,
      ` data-figure="${number}" data-slider="${index}" data-suffix="${unit}">`,
      `<output for="figure-${number}-slider-${index}">${escapeHtml(steps[active]!.label)}${unit}</output></div>`,
    ].join('');
  });
  return `<figure id="figure-${number}"><div class="plot" role="img" aria-label="${alt}"></div>${still}${sliders.join('')}${words}</figure>`;
}

function renderHtml(html: string): string {
  const safe = sanitiseHtml(html).trim();
  if (safe === '')
    return '<p class="note">An output in HTML that holds nothing but what a report must not run.</p>';
  return /<table/.test(safe)
    ? `<div class="table" tabindex="0" role="region" aria-label="${escapeHtml(captionOf(safe))}">${safe}</div>`
    : `<div class="text">${safe}</div>`;
}

function captionOf(html: string): string {
  const caption = /<caption>([\s\S]*?)<\/caption>/
    .exec(html)?.[1]
    ?.replace(/<[^>]*>/g, '')
    .trim();
  return caption === undefined || caption === ''
    ? 'Table'
    : `Table: ${caption.replace(/&\w+;|&#\d+;/g, ' ')}`;
}

/** A picture as an address that holds it; drawings as pictures too, so that nothing in them can run. */
function pictureOf(data: MimeBundle): string | null {
  for (const mime of ['image/png', 'image/jpeg', 'image/gif', 'image/webp']) {
    const value = data[mime];
    const base64 = typeof value === 'string' ? value.replace(/\s+/g, '') : '';
    if (base64 !== '' && BASE64.test(base64)) return `data:${mime};base64,${base64}`;
  }
  const svg = data['image/svg+xml'];
  return typeof svg === 'string' ? `data:image/svg+xml;base64,${Buffer.from(svg).toString('base64')}` : null;
}
