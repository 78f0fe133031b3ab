import { isRecord } from './plainRecord.js';
import type { Notebook } from './types.js';

/** Something that went into two notebooks and is not the same. */
export interface InputDifference {
  /** Such as `seed`, `session file frames/lamp.csv`, `version node`. */
  readonly name: string;
  /** Empty where that notebook has none. */
  readonly a: string;
  readonly b: string;
}

const LONGEST = 70;

/**
 * Which inputs of two notebooks differ, as the runner wrote them down (`metadata.halfmax`): session, seed, values,
 * versions, digests of files.
 *
 * @param a - one notebook
 * @param b - the other
 * @returns differences by name; a notebook that was not run by the runner has none of them
 */
export function compareInputs(a: Notebook, b: Notebook): InputDifference[] {
  const [one, other] = [leavesOf(a.metadata['halfmax']), leavesOf(b.metadata['halfmax'])];
  return [...new Set([...one.keys(), ...other.keys()])]
    .sort()
    .filter((name) => one.get(name) !== other.get(name))
    .map((name) => ({ name, a: short(one.get(name) ?? ''), b: short(other.get(name) ?? '') }));
}

/**
 * Whether the runner wrote down what went into a notebook.
 *
 * @param notebook - any notebook
 * @returns true where it did
 */
export function hasInputs(notebook: Notebook): boolean {
  return isRecord(notebook.metadata['halfmax']);
}

/** Every value with its path; items of a list go by their path or name where they have one, so that order does not count. */
function leavesOf(value: unknown): Map<string, string> {
  const leaves = new Map<string, string>();
  const walk = (item: unknown, path: readonly string[]): void => {
    if (Array.isArray(item)) {
      item.forEach((part: unknown, index) => {
        walk(part, [...path, nameOf(part) ?? String(index + 1)]);
      });
    } else if (isRecord(item)) {
      for (const [key, part] of Object.entries(item)) walk(part, [...path, key]);
    } else {
      leaves.set(path.join(' '), typeof item === 'string' ? item : JSON.stringify(item));
    }
  };
  walk(value, []);
  leaves.delete('');
  return leaves;
}

/** A digest by its first twelve digits, another long text by its beginning. */
function short(text: string): string {
  if (/^[\da-f]{64}$/.test(text)) return `${text.slice(0, 12)}…`;
  return text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text;
}

function nameOf(part: unknown): string | undefined {
  if (!isRecord(part)) return undefined;
  const name = part['path'] ?? part['file'] ?? part['name'];
  return typeof name === 'string' ? name : undefined;
}
