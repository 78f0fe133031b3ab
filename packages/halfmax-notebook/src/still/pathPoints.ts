/** A point in px. */
export type Point = readonly [number, number];

/** How many numbers a command of a path takes. */
const TAKES: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, C: 6, S: 4, Q: 4, T: 2, A: 7 };

/**
 * The points that a path names, control points among them.
 *
 * @param path - as in the attribute `d`
 * @returns points in the order of the path, in px
 * Source: SVG 2, chapter 9 (paths).
 */
export function pathPoints(path: string): Point[] {
  const points: Point[] = [];
  let x = 0;
  let y = 0;
  for (const [, letter = '', rest = ''] of path.matchAll(/([A-Za-z])([^A-Za-z]*(?:e[-+]?\d+[^A-Za-z]*)*)/g)) {
    const command = letter.toUpperCase();
    const count = TAKES[command];
    if (count === undefined) continue;
    const numbers = (rest.match(/[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?/gi) ?? []).map(Number);
    for (let i = 0; i + count <= numbers.length; i += count) {
      const [fromX, fromY] = letter === command ? [0, 0] : [x, y];
      if (command === 'H') x = fromX + numbers[i]!;
      else if (command === 'V') y = fromY + numbers[i]!;
      else {
        const first = command === 'A' ? i + 5 : i;
        for (let k = first; k < i + count; k += 2) {
          x = fromX + numbers[k]!;
          y = fromY + numbers[k + 1]!;
          if (k + 2 < i + count) points.push([x, y]);
        }
      }
      points.push([x, y]);
    }
  }
  return points;
}

/**
 * The length of a path taken as straight lines from point to point.
 *
 * @param path - as in the attribute `d`
 * @returns px
 */
export function pathLength(path: string): number {
  const points = pathPoints(path);
  let length = 0;
  for (let i = 1; i < points.length; i++) length += distance(points[i - 1]!, points[i]!);
  return length;
}

/**
 * The point at a distance along a path taken as straight lines.
 *
 * @param path - as in the attribute `d`
 * @param along - px from its start; beyond its ends the ends count
 * @returns the point
 */
export function pointAlong(path: string, along: number): Point {
  const points = pathPoints(path);
  let left = Math.max(0, along);
  for (let i = 1; i < points.length; i++) {
    const [from, to] = [points[i - 1]!, points[i]!];
    const step = distance(from, to);
    if (left <= step && step > 0) {
      const part = left / step;
      return [from[0] + part * (to[0] - from[0]), from[1] + part * (to[1] - from[1])];
    }
    left -= step;
  }
  return points[points.length - 1] ?? [0, 0];
}

function distance(one: Point, other: Point): number {
  return Math.hypot(other[0] - one[0], other[1] - one[1]);
}
