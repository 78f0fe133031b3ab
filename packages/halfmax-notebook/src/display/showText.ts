import type { MimeBundle } from '../notebook/index.js';
import { emit } from './emit.js';

/**
 * Shows a text in Markdown.
 *
 * @param markdown - the text; formulas between dollar signs
 * @returns nothing inside a kernel; the representations by MIME type outside
 */
export function showMarkdown(markdown: string): MimeBundle | undefined {
  return emit({ 'text/markdown': markdown, 'text/plain': markdown });
}

/**
 * Shows a formula.
 *
 * @param latex - the formula in LaTeX, without dollar signs
 * @returns nothing inside a kernel; the representations by MIME type outside
 */
export function showFormula(latex: string): MimeBundle | undefined {
  return emit({ 'text/latex': `$$${latex}$$`, 'text/plain': latex });
}
