import { pathPoints } from './pathPoints.js';
import { type Box, type DrawnElement, textBox } from './textBox.js';

/**
 * The box of an element of a drawing, with the boxes of what it holds.
 *
 * @param element - text, group or shape
 * @returns px, before its own transform; all 0 where it draws nothing
 */
export function elementBox(element: DrawnElement): Box {
  return boxOf(element) ?? { x: 0, y: 0, width: 0, height: 0 };
}

function boxOf(element: DrawnElement): Box | null {
  const number = (name: string): number => Number.parseFloat(element.getAttribute(name) ?? '0') || 0;
  switch (element.tagName.toLowerCase()) {
    case 'text':
    case 'tspan':
      return textBox(element);
    case 'rect':
    case 'image':
      return { x: number('x'), y: number('y'), width: number('width'), height: number('height') };
    case 'circle': {
      const r = number('r');
      return { x: number('cx') - r, y: number('cy') - r, width: 2 * r, height: 2 * r };
    }
    case 'path':
      return pathBox(element.getAttribute('d') ?? '');
    case 'defs':
    case 'clippath':
    case 'style':
      return null;
    default: {
      let all: Box | null = null;
      for (const child of element.childNodes) {
        if (child.nodeType !== 1) continue;
        const box = boxOf(child);
        if (box !== null) all = union(all, moved(box, child.getAttribute('transform')));
      }
      return all;
    }
  }
}

function pathBox(path: string): Box | null {
  let box: Box | null = null;
  for (const [x, y] of pathPoints(path)) box = union(box, { x, y, width: 0, height: 0 });
  return box;
}

/** A box after the translations and turns of a `transform`; a turned box gets the box around it. */
export function moved(box: Box, transform: string | null): Box {
  if (transform === null || transform === '') return box;
  let corners = [
    [box.x, box.y],
    [box.x + box.width, box.y],
    [box.x, box.y + box.height],
    [box.x + box.width, box.y + box.height],
  ] as [number, number][];
  const steps = [...transform.matchAll(/(\w+)\(([^)]*)\)/g)].reverse();
  for (const [, kind, inside = ''] of steps) {
    const [a = 0, b = 0, c = 0] = inside.split(/[\s,]+/).map(Number);
    if (kind === 'translate') corners = corners.map(([x, y]) => [x + a, y + b]);
    if (kind === 'scale')
      corners = corners.map(([x, y]) => [x * a, y * (inside.trim().match(/[\s,]/) ? b : a)]);
    if (kind === 'rotate') {
      const angle = (a * Math.PI) / 180;
      corners = corners.map(([x, y]) => [
        b + (x - b) * Math.cos(angle) - (y - c) * Math.sin(angle),
        c + (x - b) * Math.sin(angle) + (y - c) * Math.cos(angle),
      ]);
    }
  }
  const xs = corners.map(([x]) => x);
  const ys = corners.map(([, y]) => y);
  const x = Math.min(...xs);
  const y = Math.min(...ys);
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
}

function union(one: Box | null, other: Box): Box {
  if (one === null) return other;
  const x = Math.min(one.x, other.x);
  const y = Math.min(one.y, other.y);
  return {
    x,
    y,
    width: Math.max(one.x + one.width, other.x + other.width) - x,
    height: Math.max(one.y + one.height, other.y + other.height) - y,
  };
}
