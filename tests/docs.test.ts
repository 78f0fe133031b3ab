import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import ts from 'typescript';
import { beforeAll, describe, expect, it } from 'vitest';
import { checkMeaning } from '../packages/halfmax/src/session/checkMeaning.js';
import { checkSchema } from '../packages/halfmax/src/session/checkSchema.js';
import { unknownFields } from '../packages/halfmax/src/session/unknownFields.js';
import { docstringExamples } from './docs/docstringExamples.js';
import { exportedNames } from './docs/exportedNames.js';
import { fencedBlocks } from './docs/fencedBlocks.js';
import { deadLinks } from './docs/markdownLinks.js';
import { type Example, runExamples } from './docs/runExamples.js';
import { faultsOfCommands } from './docs/shellCommands.js';

const root = fileURLToPath(new URL('..', import.meta.url));
const guides = ['README.md', 'DEVELOPERS.md', 'packages/halfmax/README.md'];
const otherPages = ['CHANGELOG.md', 'data-demo/README.md', 'shared/README.md', 'notebooks/README.md'];
const source = join(root, 'packages/halfmax/src');
const read = (file: string): string => readFileSync(join(root, file), 'utf8');
const blocksOf = (file: string): { where: string; language: string; code: string }[] =>
  fencedBlocks(read(file)).map(({ line, language, code }) => ({ where: `${file}:${line}`, language, code }));
const blocks = guides.flatMap(blocksOf);
const codeBlocks = blocks.filter(({ language }) =>
  ['ts', 'js', 'typescript', 'javascript'].includes(language),
);

let help = '';

beforeAll(() => {
  const { status, stdout } = spawnSync(
    process.execPath,
    [join(root, 'packages/halfmax/bin/halfmax.js'), '--help'],
    {
      encoding: 'utf8',
    },
  );
  expect(status, 'the package must be built first: npm run build').toBe(0);
  help = stdout;
});

describe('README.md, DEVELOPERS.md and the package README', () => {
  it('hold code that runs on the built package and gives what it says', { tags: ['long'] }, () => {
    const examples = codeBlocks.map(({ where, code }): Example => ({ where, code, imports: () => '' }));
    const { checks, faults } = runExamples(examples);
    expect(faults).toEqual([]);
    expect(checks).toBeGreaterThanOrEqual(10);
  });

  it('hold code that TypeScript accepts', { tags: ['long'], timeout: 60_000 }, () => {
    expect(typeFaults(codeBlocks.filter(({ language }) => language.startsWith('t')))).toEqual([]);
  });

  it('name commands that exist', () => {
    const shell = blocks.filter(({ language }) => language === 'sh');
    expect(shell.length).toBeGreaterThan(5);
    const faults = shell.flatMap(({ where, code }) =>
      faultsOfCommands(root, code, help).map((fault) => `${where}: ${fault}`),
    );
    expect(faults).toEqual([]);
  });

  it('show sessions that the program accepts, but for the frames', () => {
    const sessions = blocks.filter(
      ({ language, code }) => language === 'json' && code.includes('halfmax-session'),
    );
    expect(sessions.length).toBeGreaterThan(0);
    for (const { where, code } of sessions) {
      const manifest: unknown = JSON.parse(code);
      const { problems, warnings } = checkMeaning(manifest, where);
      expect([
        ...checkSchema(manifest, where),
        ...problems,
        ...unknownFields(manifest, where),
        ...warnings,
      ]).toEqual([]);
    }
  });

  it('name every field of a session', () => {
    const text = read('README.md');
    const missing = fieldsOf(JSON.parse(read('shared/session.schema.json'))).filter(
      (field) => !new RegExp(`\`[^\`\n]*\\b${field}\\b[^\`\n]*\``).test(text),
    );
    expect(missing).toEqual([]);
  });

  it.each([...guides, ...otherPages])('%s has no dead link', (file) => {
    expect(deadLinks(root, file).dead).toEqual([]);
  });
});

describe('docstrings', () => {
  const files = readdirSync(source, { recursive: true })
    .map(String)
    .filter((file) => file.endsWith('.ts') && !/\.(test|bench|generated)\.ts$/.test(file))
    .sort();

  it('give in each @example what the built function gives', () => {
    const found = files.flatMap((file) => {
      const built = join(root, 'packages/halfmax/dist', file.replace(/\.ts$/, '.js'));
      const room = join(built, '..', 'index.js');
      return docstringExamples(readFileSync(join(source, file), 'utf8'))
        .filter(({ code }) => code.includes('// =>'))
        .map(({ line, code }) => ({ where: `packages/halfmax/src/${file}:${line}`, code, built, room }));
    });
    const names = exportedNames(found.flatMap(({ built, room }) => [built, room]));
    const examples = found.map(({ where, code, built, room }): Example => {
      const [own, face] = [names.get(built)!, names.get(room)!];
      const imports = (free: readonly string[]): string =>
        [
          importLine(built, own, free),
          importLine(
            room,
            face,
            free.filter((name) => !own.includes(name)),
          ),
        ].join('\n');
      return { where, code, imports };
    });
    const { checks, faults } = runExamples(examples);
    expect(faults).toEqual([]);
    expect(checks).toBeGreaterThanOrEqual(50);
  }, 60_000);
});

describe('the checks themselves', () => {
  const faultsOf = (code: string): string[] =>
    runExamples([{ where: 'here', code, imports: () => '' }]).faults;

  it('accept what is right', () => {
    const right = [
      "import { median } from 'halfmax/numeric';",
      'const three = median([3, 1, 2]); // => 3 - 1',
      'Float64Array.of(three,\n  2); // => Float64Array [ 2, 2 ]',
      '({ list: [1], word: three }); // => { list: [1],',
      '//   word: 2 }',
      'console.log("%d nm", 2); // => 2 nm',
    ];
    expect(faultsOf(right.join('\n'))).toEqual([]);
  });

  it.each([
    ['a wrong value', '1 + 1; // => 3', 'gives 2, not 3'],
    ['a value of another type', "'2'; // => 2", "gives '2', not 2"],
    ['a wrong array', 'Float64Array.of(1); // => Float64Array [ 2 ]', 'not Float64Array [ 2 ]'],
    ['a wrong print', "console.log('a'); // => b", 'prints a, not b'],
    ['a check that is not reached', 'if (0) {\n  1; // => 1\n}', 'was never reached'],
    ['a name that is not there', 'missing(); // => 1', 'missing is not defined'],
    ['an arrow behind nothing', '// => 1', 'only 0 follow a statement'],
  ])('find %s', (_, code, fault) => {
    const faults = faultsOf(code).join('\n');
    expect(faults).toContain(fault);
  });

  it('find commands, options and scripts that are not there', () => {
    const block =
      'npm run nothing\nnpx halfmax measure s --speed\nnpx halfmax weigh s\nnode no/file.mjs\nnpm ci && npm run demo';
    expect(faultsOfCommands(root, block, help)).toHaveLength(4);
  });
});

function importLine(path: string, names: readonly string[], free: readonly string[]): string {
  const needed = names.filter((name) => free.includes(name));
  return needed.length === 0
    ? ''
    : `import { ${needed.join(', ')} } from ${JSON.stringify(pathToFileURL(path).href)};`;
}

/** Names of the properties that a JSON Schema allows, however deep. */
function fieldsOf(schema: unknown): string[] {
  if (schema === null || typeof schema !== 'object') return [];
  const properties = (schema as { properties?: object }).properties ?? {};
  return [...Object.keys(properties), ...Object.values(schema).flatMap(fieldsOf)];
}

/** Faults that TypeScript finds, under the checkout so that the package is found by its name. */
function typeFaults(examples: readonly { where: string; code: string }[]): string[] {
  mkdirSync(join(root, 'out'), { recursive: true });
  const folder = mkdtempSync(join(root, 'out', 'types-'));
  try {
    const files = examples.map(({ code }, index) => {
      const path = join(folder, `example${index}.mts`);
      writeFileSync(path, code);
      return path;
    });
    const program = ts.createProgram(files, {
      strict: true,
      noEmit: true,
      skipLibCheck: true,
      target: ts.ScriptTarget.ES2022,
      module: ts.ModuleKind.NodeNext,
      moduleResolution: ts.ModuleResolutionKind.NodeNext,
      types: ['node'],
    });
    return ts.getPreEmitDiagnostics(program).map((fault) => {
      const at = files.indexOf(fault.file?.fileName ?? '');
      return `${examples[at]?.where ?? 'TypeScript'}: ${ts.flattenDiagnosticMessageText(fault.messageText, ' ')}`;
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
