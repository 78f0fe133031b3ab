import { figureFont, textWidth } from './figureFonts.js';

/** What is used of an element of the drawing. */
export interface DrawnElement {
  readonly nodeType: number;
  readonly tagName: string;
  readonly textContent: string | null;
  readonly childNodes: Iterable<DrawnElement>;
  readonly parentElement: DrawnElement | null;
  getAttribute(name: string): string | null;
}

/** A rectangle in px, y downwards. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

interface Pen {
  x: number;
  y: number;
}

interface Run {
  readonly from: number;
  readonly to: number;
  readonly top: number;
  readonly bottom: number;
  readonly line: number;
}

const TEXT_NODE = 3;

/**
 * The box of a text element: lines in `tspan` elements with a place of their own, runs of other sizes within a line.
 *
 * @param element - a `text` or `tspan`
 * @returns its box before transforms, from the advance widths of the font of the figures; null where it has no text
 */
export function textBox(element: DrawnElement): Box | null {
  const runs: Run[] = [];
  const pen: Pen = { x: 0, y: 0 };
  const state = { line: 0 };
  layOut(element, pen, state, runs);
  if (runs.length === 0) return null;
  const anchor = styleOf(element, 'text-anchor') ?? 'start';
  let left = Infinity;
  let right = -Infinity;
  for (const line of new Set(runs.map((run) => run.line))) {
    const own = runs.filter((run) => run.line === line);
    const from = Math.min(...own.map((run) => run.from));
    const to = Math.max(...own.map((run) => run.to));
    const shift = anchor === 'middle' ? (from - to) / 2 : anchor === 'end' ? from - to : 0;
    left = Math.min(left, from + shift);
    right = Math.max(right, to + shift);
  }
  const top = Math.min(...runs.map((run) => run.top));
  const bottom = Math.max(...runs.map((run) => run.bottom));
  return { x: left, y: top, width: right - left, height: bottom - top };
}

function layOut(element: DrawnElement, pen: Pen, state: { line: number }, runs: Run[]): void {
  const size = fontSize(element);
  const x = element.getAttribute('x');
  const y = element.getAttribute('y');
  if (x !== null) {
    pen.x = Number.parseFloat(x) || 0;
    state.line++;
  }
  if (y !== null) pen.y = Number.parseFloat(y) || 0;
  pen.x += lengthOf(element.getAttribute('dx'), size);
  pen.y += lengthOf(element.getAttribute('dy'), size);
  for (const child of element.childNodes) {
    if (child.nodeType !== TEXT_NODE) {
      layOut(child, pen, state, runs);
      continue;
    }
    const text = child.textContent ?? '';
    if (text === '') continue;
    const width = textWidth(text, size);
    const { ascent, descent } = figureFont();
    runs.push({
      from: pen.x,
      to: pen.x + width,
      top: pen.y - ascent * size,
      bottom: pen.y + descent * size,
      line: state.line,
    });
    pen.x += width;
  }
}

function fontSize(element: DrawnElement): number {
  for (let at: DrawnElement | null = element; at !== null; at = at.parentElement) {
    const own = ownStyle(at, 'font-size');
    if (own === null) continue;
    const size = Number.parseFloat(own);
    if (own.endsWith('%'))
      return (size / 100) * (at.parentElement === null ? 12 : fontSize(at.parentElement));
    if (own.endsWith('em')) return size * (at.parentElement === null ? 12 : fontSize(at.parentElement));
    return size;
  }
  return 12;
}

function styleOf(element: DrawnElement, name: string): string | null {
  for (let at: DrawnElement | null = element; at !== null; at = at.parentElement) {
    const own = ownStyle(at, name);
    if (own !== null) return own;
  }
  return null;
}

function ownStyle(element: DrawnElement, name: string): string | null {
  const style = element.getAttribute('style') ?? '';
  const found = new RegExp(`(?:^|;)\\s*${name}\\s*:\\s*([^;]+)`).exec(style);
  return found?.[1]?.trim() ?? element.getAttribute(name);
}

function lengthOf(text: string | null, size: number): number {
  if (text === null) return 0;
  const value = Number.parseFloat(text) || 0;
  return text.endsWith('em') ? value * size : value;
}
