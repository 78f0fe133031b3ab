const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/**
 * A text that may stand in HTML, between tags or in a quoted attribute.
 *
 * @param text - any text
 * @returns the text with the five signs that HTML reads written as entities
 * @example
 * escapeHtml('a < b'); // => 'a &lt; b'
 */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => ENTITIES[sign]!);
}
