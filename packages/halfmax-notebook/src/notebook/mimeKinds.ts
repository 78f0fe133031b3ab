/**
 * Whether a MIME type carries a JSON value instead of text.
 *
 * @param mime - such as `application/vnd.plotly.v1+json`
 * @returns true for JSON
 * Source: nbformat schema 4.5, `mimebundle`.
 */
export function isJsonMime(mime: string): boolean {
  return /^application\/(.*\+)?json$/.test(mime);
}

/**
 * Whether the text of a MIME type is written as a list of lines.
 *
 * @param mime - such as `text/html`
 * @returns true for texts, scripts and SVG; false for base64 and JSON
 */
export function isTextMime(mime: string): boolean {
  return mime.startsWith('text/') || mime === 'image/svg+xml' || mime === 'application/javascript';
}

export const PLOTLY_MIME: string = 'application/vnd.plotly.v1+json';
export const QUANTITY_MIME: string = 'application/vnd.halfmax.quantity+json';
