import { Marked, type TokenizerAndRendererExtension } from 'marked';
import { escapeHtml } from '../display/index.js';
import { isRecord } from '../notebook/index.js';
import { renderFormula } from './renderFormula.js';
import { sanitiseHtml } from './sanitiseHtml.js';

/** Marks that stand for formulas while the rest is cleaned; taken out of the text beforehand. */
const OPEN = '\uE000';
const CLOSE = '\uE001';

/**
 * Markdown as HTML that may stand in a page: formulas as MathML, raw HTML cleaned.
 *
 * @param markdown - from anywhere
 * @param attachments - pictures of the cell by file name, each by MIME type
 * @returns HTML
 */
export function renderMarkdown(
  markdown: string,
  attachments: Readonly<Record<string, unknown>> = {},
): string {
  const formulas: string[] = [];
  const keep = (tex: string, isDisplay: boolean): string => {
    formulas.push(renderFormula(tex, isDisplay));
    return `${OPEN}${formulas.length - 1}${CLOSE}`;
  };
  const marked = new Marked({ gfm: true });
  marked.use({ extensions: [displayFormula(keep), inlineFormula(keep)] });
  marked.use({
    renderer: {
      image: ({ href, text }) => {
        const picture = href.startsWith('attachment:') ? attachment(attachments, href.slice(11)) : href;
        return `<img src="${escapeHtml(picture)}" alt="${escapeHtml(text)}">`;
      },
    },
  });
  const text = markdown.replace(/[\uE000\uE001]/g, '');
  const html = sanitiseHtml(marked.parse(text, { async: false }));
  return html.replace(/\uE000(\d+)\uE001/g, (_, index: string) => formulas[Number(index)] ?? '');
}

type Keep = (tex: string, isDisplay: boolean) => string;

function displayFormula(keep: Keep): TokenizerAndRendererExtension {
  return {
    name: 'displayFormula',
    level: 'block',
    start: (source) => source.match(/\$\$|\\\[/)?.index,
    tokenizer(source) {
      const found = /^\$\$([\s\S]+?)\$\$(?:\n|$)/.exec(source) ?? /^\\\[([\s\S]+?)\\\](?:\n|$)/.exec(source);
      return found === null ? undefined : { type: 'displayFormula', raw: found[0], text: found[1]!.trim() };
    },
    renderer: (token) => `<p>${keep(String(token['text']), true)}</p>\n`,
  };
}

function inlineFormula(keep: Keep): TokenizerAndRendererExtension {
  return {
    name: 'inlineFormula',
    level: 'inline',
    start: (source) => source.match(/\$|\\\(/)?.index,
    tokenizer(source) {
      const found =
        /^\$\$([^$]+?)\$\$/.exec(source) ??
        // No blank inside the dollar signs and no digit after them, so that prices stay prices.
        /^\$((?:[^\s$\\]|\\.)(?:(?:[^$\\\n]|\\.)*?(?:[^\s$\\]|\\.))?)\$(?!\d)/.exec(source) ??
        /^\\\(([\s\S]+?)\\\)/.exec(source);
      return found === null ? undefined : { type: 'inlineFormula', raw: found[0], text: found[1]!.trim() };
    },
    renderer: (token) => keep(String(token['text']), String(token.raw).startsWith('$$')),
  };
}

function attachment(attachments: Readonly<Record<string, unknown>>, name: string): string {
  const bundle = attachments[name];
  if (!isRecord(bundle)) return '';
  const mime = Object.keys(bundle).find((key) => key.startsWith('image/') && key !== 'image/svg+xml');
  return mime === undefined ? '' : `data:${mime};base64,${String(bundle[mime]).replace(/\s+/g, '')}`;
}
