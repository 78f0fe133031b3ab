import { emissionLinesTable } from './emissionLines.generated.js';
import type { EmissionLine } from './types.js';

/** Emission lines of nebulae in air, nm, ascending. Source: shared/emission-lines.json. */
export const emissionLines: readonly EmissionLine[] = emissionLinesTable.lines;
