import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { checkedCode } from './checkedCode.js';

/** Code to run, with the imports it needs put before it. */
export interface Example {
  readonly where: string;
  readonly code: string;
  /** The import lines for names that the code uses and does not declare. */
  readonly imports: (freeNames: readonly string[]) => string;
}

const root = fileURLToPath(new URL('../..', import.meta.url));
const checks = new URL('./checks.mjs', import.meta.url).href;

/**
 * Runs examples, one after another in one Node process, from the top of the checkout.
 *
 * @param examples - code with `// =>` comments
 * @returns how many checks there were, and what was wrong with them
 */
export function runExamples(examples: readonly Example[]): { checks: number; faults: string[] } {
  // Under the checkout, so that the package is found by its name.
  mkdirSync(join(root, 'out'), { recursive: true });
  const folder = mkdtempSync(join(root, 'out', 'examples-'));
  const faults: string[] = [];
  const started: string[] = [];
  let count = 0;
  try {
    examples.forEach(({ where, code, imports }, index) => {
      try {
        const checked = checkedCode(code);
        count += checked.lines.length;
        const path = join(folder, `example${index}.mjs`);
        const tie = `import { checksFor } from ${JSON.stringify(checks)};\nexport const checks = checksFor(${JSON.stringify(where)}, ${JSON.stringify(checked.lines)});\n`;
        writeFileSync(path.replace('.mjs', '.checks.mjs'), tie);
        const head = `import { checks as it } from './example${index}.checks.mjs';\nconst { check, checkPrinted } = it;\n`;
        writeFileSync(path, `${imports(checked.freeNames)}\n${head}${checked.code}`);
        started.push(path);
      } catch (error) {
        faults.push(`${where}: ${(error as Error).message}`);
      }
    });
    const runner = join(folder, 'run.mjs');
    writeFileSync(
      runner,
      started
        .map((path) => {
          const [tie, example] = [path.replace('.mjs', '.checks.mjs'), path].map(
            (one) => pathToFileURL(one).href,
          );
          return `{ const { checks } = await import('${tie}'); try { await import('${example}'); checks.finish(); } catch (error) { checks.fail(error); } }`;
        })
        .join('\n'),
    );
    const { status, stdout, stderr } = spawnSync(process.execPath, [runner], { cwd: root, encoding: 'utf8' });
    for (const line of stdout.split('\n')) if (line.startsWith('"')) faults.push(JSON.parse(line) as string);
    if (status !== 0 || stderr !== '') faults.push(`Node ends with ${status}: ${stderr}`);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return { checks: count, faults };
}
