import { emissionLinesTable } from './emissionLines.generated.js';
import { emissionLines } from './emissionLines.js';
import type { EmissionLine } from './types.js';

/**
 * The lines that matter beside a line: the other principal lines of its species, and those that a filter for it is
 * likely to pass or meant to stop, such as [N II] beside H-alpha.
 *
 * @param line - a line of the table
 * @returns lines of the table, ascending in wavelength, without the line itself; may be empty
 *
 * Source: shared/emission-lines.json.
 * @example
 * lineNeighbours(resolveLines('H-alpha')[0]).map((line) => line.name); // => ['[N II] 654.8', '[N II] 658.3']
 */
export function lineNeighbours(line: EmissionLine): EmissionLine[] {
  const names = new Set<string>();
  for (const { of, names: beside } of emissionLinesTable.neighbours) {
    if (of === line.name) for (const name of beside) names.add(name);
    if (beside.includes(line.name)) names.add(of);
  }
  return emissionLines.filter(
    (other) =>
      other.name !== line.name &&
      (names.has(other.name) || (other.species === line.species && other.principal)),
  );
}
