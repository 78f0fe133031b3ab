import { lampLinesTable } from './lampLines.generated.js';
import type { LampLine } from './types.js';

/** Lines of mercury, argon and neon lamps in air, nm; by species, each ascending. Source: shared/lamp-lines.json. */
export const lampLines: readonly LampLine[] = lampLinesTable.lines;
