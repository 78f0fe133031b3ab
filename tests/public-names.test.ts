import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { packageEntries, packageFolder } from './consumers/packageEntries.mjs';

/** Names that an index.ts offers: it holds named exports only, one statement each. */
function namesOf(text: string): { values: string[]; types: string[] } {
  const values: string[] = [];
  const types: string[] = [];
  let rest = text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/\/\/.*$/gm, '');
  rest = rest.replace(
    /export\s+(type\s+)?\{([^}]*)\}\s+from\s+'[^']+';/g,
    (_, all: string | undefined, list: string) => {
      for (const item of list.split(',').map((part) => part.trim())) {
        if (item === '') continue;
        const name = item.replace(/^type\s+/, '').replace(/^.*\sas\s+/, '');
        (all !== undefined || item.startsWith('type ') ? types : values).push(name);
      }
      return '';
    },
  );
  if (rest.trim() !== '') throw new Error(`not a list of named exports: ${rest.trim()}`);
  return { values, types };
}

const entries = packageEntries().map(({ entry, room }) => {
  const path = join(packageFolder, 'src', room, 'index.ts');
  return { entry, path, ...namesOf(readFileSync(path, 'utf8')) };
});

describe('public names', () => {
  it.each(entries)('$entry offers in the running code what its index lists', async ({ path, values }) => {
    expect(Object.keys(await import(path)).sort()).toEqual([...values].sort());
  });

  // A name added, renamed or removed shows here. Meant so? Run `npx vitest run tests/public-names.test.ts --update`
  // and say it in the changelog.
  it('are those that are written down', async () => {
    const lines = entries.flatMap(({ entry, values, types }) => [
      ...[...values].sort().map((name) => `${entry} ${name}`),
      ...[...types].sort().map((name) => `${entry} type ${name}`),
    ]);
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot('public-names.txt');
  });
});
