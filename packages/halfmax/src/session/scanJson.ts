/** Where and why a text is not JSON. */
export interface JsonFault {
  /** Position in the text, characters from 0. */
  readonly offset: number;
  readonly what: string;
  readonly fix: string;
}

/** What a look over a JSON text found. */
export interface JsonScan {
  readonly fault: JsonFault | null;
  /** Keys given twice in one object, as they are written, with the position of the second. */
  readonly duplicates: readonly { readonly key: string; readonly offset: number }[];
}

interface Level {
  readonly close: '}' | ']';
  readonly keys: Set<string>;
}

type Expected = 'value' | 'value or ]' | 'key' | 'key or }' | 'colon' | 'comma' | 'end';

const wanted: Record<Expected, string> = {
  value: 'a value',
  'value or ]': 'a value or "]"',
  key: 'a field name in double quotes',
  'key or }': 'a field name in double quotes or "}"',
  colon: '":"',
  comma: '"," or the closing bracket',
  end: 'nothing more',
};

const escapeForm = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;
const scalarForm = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null/y;
const blankForm = /[ \t\r\n]*/y;

function matchAt(form: RegExp, text: string, at: number): string | null {
  form.lastIndex = at;
  return form.exec(text)?.[0] ?? null;
}

/** The string that starts at a position, quotes and all; null where it is none. A loop: long strings overflow a pattern. */
function stringAt(text: string, start: number): string | null {
  let at = start + 1;
  for (;;) {
    const c = text.charCodeAt(at);
    if (c === 34) return text.slice(start, at + 1);
    if (c === 92) {
      const escaped = matchAt(escapeForm, text, at);
      if (escaped === null) return null;
      at += escaped.length;
    } else if (c >= 32) at += 1;
    else return null;
  }
}

function faultAt(text: string, offset: number, expected: Expected): JsonFault {
  const c = text[offset];
  const found = c === undefined ? 'the file ends' : `found ${JSON.stringify(c)}`;
  let fix = 'correct it there';
  if (c === undefined) fix = 'the file may be cut short: close all brackets and quotes';
  else if (c === "'") fix = 'use double quotes';
  else if (c === '/') fix = 'take the comment out: JSON has none';
  else if (c === '}' || c === ']') fix = 'take out the comma before it, or close the brackets in their order';
  else if (expected === 'comma') fix = 'a comma is probably missing before it';
  else if (c === '"')
    fix = 'close the quotes on the same line and write line breaks and backslashes as \\n and \\\\';
  return { offset, what: `is not JSON: ${found} where ${wanted[expected]} belongs`, fix };
}

/**
 * Looks over a JSON text without building values: finds the first fault with its position, brackets nested too
 * deep and keys given twice. Runs without recursion, so that no input can overflow the stack.
 *
 * @param text - the text, without byte-order mark
 * @param maxDepth - brackets that may be open at once
 * @returns the first fault or null, and the keys given twice
 * Source: RFC 8259. Cost: O(length).
 * @example
 * scanJson('{"a": 1, "a": 2}', 64).duplicates.length; // => 1
 */
export function scanJson(text: string, maxDepth: number): JsonScan {
  const duplicates: { key: string; offset: number }[] = [];
  const levels: Level[] = [];
  let expected: Expected = 'value';
  let at = 0;
  const stop = (offset: number): JsonScan => ({ fault: faultAt(text, offset, expected), duplicates });

  for (;;) {
    at += matchAt(blankForm, text, at)?.length ?? 0;
    const c = text[at];
    const level = levels[levels.length - 1];
    if (c === undefined) return expected === 'end' ? { fault: null, duplicates } : stop(at);
    if (expected === 'value' || expected === 'value or ]') {
      if (c === '{' || c === '[') {
        if (levels.length === maxDepth) {
          const what = `has more than ${maxDepth} brackets nested in each other`;
          return {
            fault: { offset: at, what, fix: 'a session needs no such depth: rewrite the file' },
            duplicates,
          };
        }
        levels.push({ close: c === '{' ? '}' : ']', keys: new Set() });
        expected = c === '{' ? 'key or }' : 'value or ]';
        at += 1;
        continue;
      }
      if (c === ']' && expected === 'value or ]') {
        at += 1;
        levels.pop();
      } else {
        const token = c === '"' ? stringAt(text, at) : matchAt(scalarForm, text, at);
        if (token === null) return stop(at);
        at += token.length;
      }
      expected = levels.length === 0 ? 'end' : 'comma';
    } else if (expected === 'key' || expected === 'key or }') {
      if (c === '}' && expected === 'key or }') {
        at += 1;
        levels.pop();
        expected = levels.length === 0 ? 'end' : 'comma';
        continue;
      }
      const token = c === '"' ? stringAt(text, at) : null;
      if (token === null || level === undefined) return stop(at);
      const key = JSON.parse(token) as string;
      if (level.keys.has(key)) duplicates.push({ key, offset: at });
      level.keys.add(key);
      at += token.length;
      expected = 'colon';
    } else if (expected === 'colon') {
      if (c !== ':') return stop(at);
      at += 1;
      expected = 'value';
    } else if (expected === 'comma') {
      if (level === undefined || (c !== ',' && c !== level.close)) return stop(at);
      at += 1;
      if (c === ',') expected = level.close === '}' ? 'key' : 'value';
      else {
        levels.pop();
        expected = levels.length === 0 ? 'end' : 'comma';
      }
    } else {
      return stop(at);
    }
  }
}
