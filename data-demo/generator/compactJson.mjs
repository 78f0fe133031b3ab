/**
 * JSON that a person can read: what fits a line stands on one, and rows of numbers fill their lines.
 *
 * @param {unknown} value plain data
 * @param {number} width characters a line may have, indentation left out
 * @param {string} [indent]
 * @returns {string}
 */
export function compactJson(value, width, indent = '') {
  if (value === null || typeof value !== 'object') return JSON.stringify(value);
  const inner = `${indent}  `;
  const isList = Array.isArray(value);
  const [open, close] = isList ? ['[', ']'] : ['{', '}'];
  const parts = isList
    ? value.map((item) => compactJson(item, width, inner))
    : Object.entries(value)
        .filter(([, item]) => item !== undefined)
        .map(([key, item]) => `${JSON.stringify(key)}: ${compactJson(item, width, inner)}`);
  const flat = `${open}${isList ? '' : ' '}${parts.join(', ')}${isList ? '' : ' '}${close}`;
  if (parts.length === 0) return `${open}${close}`;
  if (flat.length <= width && !flat.includes('\n')) return flat;
  const lines = isList && value.every((item) => typeof item === 'number') ? filledLines(parts, width) : parts;
  return `${open}\n${lines.map((line) => inner + line).join(',\n')}\n${indent}${close}`;
}

/**
 * @param {readonly string[]} parts
 * @param {number} width
 * @returns {string[]}
 */
function filledLines(parts, width) {
  /** @type {string[]} */
  const lines = [];
  for (const part of parts) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + part.length + 2 <= width)
      lines[lines.length - 1] = `${last}, ${part}`;
    else lines.push(part);
  }
  return lines;
}
