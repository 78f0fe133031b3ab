import { createRequire } from 'node:module';
import { escapeHtml } from '../display/index.js';

interface Katex {
  renderToString(tex: string, options: object): string;
}

const katex = createRequire(import.meta.url)('katex') as Katex;

/**
 * A formula in LaTeX as MathML, which browsers set without fonts or scripts.
 *
 * @param tex - the formula without dollar signs
 * @param isDisplay - whether it stands in a line of its own
 * @returns MathML; the formula's own text where it cannot be read
 */
export function renderFormula(tex: string, isDisplay: boolean): string {
  try {
    return katex.renderToString(tex, {
      output: 'mathml',
      displayMode: isDisplay,
      throwOnError: true,
      // No links, no pictures, no colours or classes from the formula.
      trust: false,
      strict: false,
      maxSize: 20,
      maxExpand: 500,
    });
  } catch {
    return `<code>${escapeHtml(tex)}</code>`;
  }
}
