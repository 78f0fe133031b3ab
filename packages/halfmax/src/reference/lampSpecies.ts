import { lampLines } from './lampLines.js';
import type { LampLine } from './types.js';

const ELEMENT_NAMES: Readonly<Record<string, string>> = { mercury: 'hg', argon: 'ar', neon: 'ne' };
const PARTS = /mercury|argon|neon|hg|ar|ne/y;

/** Labels to offer when one is not known. */
export const knownLamps: readonly string[] = ['Hg-Ar', 'Hg-Ne', 'Hg', 'Ar', 'Ne'];

/**
 * The species that a lamp's label names.
 *
 * Symbols or English names of elements, joined in any way: `Hg-Ar`, `HgAr`, `Hg/Ar`, `Hg(Ar)`, `mercury-argon lamp`.
 *
 * @param label - as the user wrote it
 * @returns species as in {@link lampLines}, in the order of the label; null when a part is not known
 *
 * @example
 * lampSpecies('Hg-Ar'); // => ['Hg I', 'Ar I']
 * lampSpecies('Kr'); // => null
 */
export function lampSpecies(label: string): LampLine['species'][] | null {
  const words = label
    .normalize('NFKC')
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '' && !/^(lamps?|pen|pencil|calibration|arc|i)$/.test(word));
  const found: LampLine['species'][] = [];
  for (const word of words) {
    PARTS.lastIndex = 0;
    while (PARTS.lastIndex < word.length) {
      const part = PARTS.exec(word)?.[0];
      if (part === undefined) return null;
      const symbol = ELEMENT_NAMES[part] ?? part;
      const line = lampLines.find(({ species }) => species.toLowerCase() === `${symbol} i`);
      if (line === undefined) return null;
      if (!found.includes(line.species)) found.push(line.species);
    }
  }
  return found.length > 0 ? found : null;
}
