import { expect, it } from 'vitest';
import { ringEdges } from './ringEdges.js';
import { rowCells } from './rowCells.js';

it('gives each pixel the ring and the sector that its distance and its angle have', () => {
  const edges = ringEdges(30);
  const sectors = 36;
  // On a pixel's centre, on the line between two, and anywhere.
  for (const centre of [
    { x: 20, y: 25 },
    { x: 20.5, y: 25.5 },
    { x: 21.37, y: 24.81 },
  ]) {
    const cellsAt = rowCells(centre, edges, sectors, 3);
    const row = new Int32Array(50);
    for (let y = -8; y < 60; y++) {
      cellsAt(y, row);
      for (let i = 0; i < row.length; i++) {
        const [dx, dy] = [3 + i - centre.x, y - centre.y];
        const square = dx * dx + dy * dy;
        const angle = (Math.atan2(dy, dx) + 2 * Math.PI) % (2 * Math.PI);
        const turn = (angle * sectors) / (2 * Math.PI);
        // On the very line between two sectors rounding decides.
        if (Math.abs(turn - Math.round(turn)) < 1e-9 && square > 0) continue;
        const ring = edges.reduce((last, edge, k) => (square >= edge * edge ? k : last), -1);
        const expected = ring >= edges.length - 1 ? -1 : ring * sectors + Math.floor(turn);
        expect(row[i]).toBe(expected);
      }
    }
  }
});
