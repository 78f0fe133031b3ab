import { editDistance } from './editDistance.js';

/**
 * The known name that a misspelled one was most likely meant to be.
 *
 * @param name - as written
 * @param known - names to choose from
 * @returns the nearest within two changed letters and a third of its length, or null
 * @example
 * nearestName('exposureMS', ['role', 'exposureMs']); // => 'exposureMs'
 */
export function nearestName(name: string, known: readonly string[]): string | null {
  if (name.length > 200) return null;
  let best: string | null = null;
  let bestDistance = Number.POSITIVE_INFINITY;
  for (const candidate of known) {
    const limit = Math.min(2, Math.floor(Math.max(name.length, candidate.length) / 3));
    if (Math.abs(candidate.length - name.length) > limit) continue;
    const distance = editDistance(name, candidate);
    if (distance <= limit && distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}
