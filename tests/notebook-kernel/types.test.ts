import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type * as Compiler from 'typescript';
import { describe, expect, it } from 'vitest';

// The compiler that checks the cells of a notebook, older than the one that builds the packages: what it does not
// understand in a declaration it takes for `any`, without a word, and a cell is no longer checked.
const root = fileURLToPath(new URL('../..', import.meta.url));
const fromTslab = createRequire(createRequire(import.meta.url).resolve('tslab/package.json'));
const ts: typeof Compiler = fromTslab('@tslab/typescript-for-tslab');

/** As tslab sets them, and the launcher of the kernel. */
const options: Compiler.CompilerOptions = {
  module: ts.ModuleKind.ESNext,
  moduleResolution: 2 as Compiler.ModuleResolutionKind,
  esModuleInterop: true,
  target: ts.ScriptTarget.ES2022,
  lib: ['lib.es2022.d.ts'],
  noEmit: true,
  skipLibCheck: true,
  resolveJsonModule: true,
  types: ['node'],
  typeRoots: [join(root, 'node_modules', '@types')],
};
const guardFile = join(root, 'notebooks', '__guard__.ts');

/** A program of one file that is held in memory, beside the notebooks. */
function programOf(text: string): Compiler.Program {
  const host = ts.createCompilerHost(options);
  const { getSourceFile, fileExists, readFile } = host;
  host.fileExists = (name) => name === guardFile || fileExists(name);
  host.readFile = (name) => (name === guardFile ? text : readFile(name));
  host.getSourceFile = (name, ...rest) =>
    name === guardFile
      ? ts.createSourceFile(name, text, ts.ScriptTarget.ES2022, true)
      : getSourceFile(name, ...rest);
  return ts.createProgram([guardFile], options, host);
}

/** Lines, from 0, on which the compiler finds a fault. */
function faultyLines(program: Compiler.Program): Set<number> {
  const source = program.getSourceFile(guardFile)!;
  const found = ts.getPreEmitDiagnostics(program, source);
  return new Set(found.map(({ start }) => source.getLineAndCharacterOfPosition(start ?? 0).line));
}

/** Entries of a package that a notebook can import. */
function entriesOf(name: string): string[] {
  const manifest = JSON.parse(readFileSync(join(root, 'packages', name, 'package.json'), 'utf8'));
  return Object.keys(manifest.exports)
    .filter((entry) => entry !== './package.json')
    .map((entry) => (entry === '.' ? name : `${name}/${entry.slice(2)}`));
}

const entries = [...entriesOf('halfmax'), ...entriesOf('halfmax-notebook')];
const imports = entries.map((entry, i) => `import * as e${i} from '${entry}';`);
const namesProgram = programOf(`${imports.join('\n')}\n`);
const checker = namesProgram.getTypeChecker();

interface Exported {
  readonly entry: string;
  readonly alias: string;
  readonly name: string;
  readonly symbol: Compiler.Symbol;
}

function exportsOf(): Exported[] {
  const source = namesProgram.getSourceFile(guardFile)!;
  return source.statements.filter(ts.isImportDeclaration).flatMap((statement, i) => {
    const module = checker.getSymbolAtLocation(statement.moduleSpecifier);
    if (module === undefined) return [];
    return checker.getExportsOfModule(module).map((exported) => ({
      entry: entries[i]!,
      alias: `e${i}`,
      name: exported.name,
      symbol: exported.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(exported) : exported,
    }));
  });
}

const exported = exportsOf();

/** A mistake that a good type refuses and `any` lets pass. */
function mistakeOf({ alias, name, symbol }: Exported, index: number): string[] {
  const mistakes: string[] = [];
  if (symbol.flags & ts.SymbolFlags.Value)
    mistakes.push(`export const v${index}: typeof wrong = ${alias}.${name};`);
  if (symbol.flags & ts.SymbolFlags.Type) {
    const [declaration] = symbol.declarations ?? [];
    const parameters =
      declaration !== undefined &&
      (ts.isInterfaceDeclaration(declaration) || ts.isTypeAliasDeclaration(declaration))
        ? (declaration.typeParameters ?? [])
        : [];
    const given = parameters.map(({ constraint, name: own }) =>
      own.text === 'D' || constraint !== undefined ? (constraint?.getText() ?? 'object') : 'object',
    );
    const filled =
      given.length === 0
        ? ''
        : `<${given.map((text) => (/^[A-Z]/.test(text) ? `${alias}.${text}` : text)).join(', ')}>`;
    mistakes.push(`export const t${index}: ${alias}.${name}${filled} = wrong;`);
  }
  return mistakes;
}

describe('types in the cells of a notebook', () => {
  it('are there: every entry is found by the compiler of the kernel', () => {
    const found = new Set(exported.map(({ entry }) => entry));
    expect(entries.filter((entry) => !found.has(entry))).toEqual([]);
    expect(exported.length).toBeGreaterThan(150);
  });

  it('refuse one mistake for each exported name and each entry', () => {
    const mistakes = [
      ...exported.flatMap(mistakeOf),
      ...entries.map((_, i) => `export const n${i} = e${i}.thereIsNoSuchName;`),
    ];
    const head = [...imports, `declare const wrong: unique symbol;`];
    const lines = faultyLines(programOf([...head, ...mistakes].join('\n')));
    expect(mistakes.filter((_, i) => !lines.has(head.length + i))).toEqual([]);
    // The lines before are right: a fault there would make all that follow worthless.
    expect([...lines].filter((line) => line < head.length)).toEqual([]);
  });

  it('let nothing be `any` in what the packages take and give', () => {
    const seen = new Set<Compiler.Type>();
    const found: string[] = [];
    const walk = (type: Compiler.Type, path: string, depth: number): void => {
      if (type.flags & ts.TypeFlags.Any) found.push(path);
      if (seen.has(type) || depth > 8) return;
      seen.add(type);
      if (type.isUnionOrIntersection()) for (const part of type.types) walk(part, path, depth + 1);
      for (const argument of checker.getTypeArguments(type as Compiler.TypeReference) ?? [])
        walk(argument, `${path}<>`, depth + 1);
      const isOurs = (symbol: Compiler.Symbol): boolean =>
        (symbol.declarations ?? []).some((node) =>
          node.getSourceFile().fileName.includes('/packages/halfmax'),
        );
      for (const property of type.getProperties()) {
        if (!isOurs(property)) continue;
        const [declaration] = property.declarations ?? [];
        if (declaration !== undefined)
          walk(
            checker.getTypeOfSymbolAtLocation(property, declaration),
            `${path}.${property.name}`,
            depth + 1,
          );
      }
      for (const signature of type.getCallSignatures()) {
        const declaration = signature.getDeclaration();
        if (declaration === undefined || !declaration.getSourceFile().fileName.includes('/packages/halfmax'))
          continue;
        walk(signature.getReturnType(), `${path}()`, depth + 1);
        for (const parameter of signature.getParameters())
          walk(
            checker.getTypeOfSymbolAtLocation(parameter, declaration),
            `${path}(${parameter.name})`,
            depth + 1,
          );
      }
    };
    for (const { entry, name, symbol } of exported) {
      const [declaration] = symbol.declarations ?? [];
      if (declaration === undefined) continue;
      if (symbol.flags & ts.SymbolFlags.Type)
        walk(checker.getDeclaredTypeOfSymbol(symbol), `${entry} ${name}`, 0);
      if (symbol.flags & ts.SymbolFlags.Value)
        walk(checker.getTypeOfSymbolAtLocation(symbol, declaration), `${entry} ${name}`, 0);
    }
    expect(seen.size).toBeGreaterThan(500);
    expect(found).toEqual([]);
  });

  it('of Node are understood too', () => {
    const right = [
      `import { readFileSync } from 'node:fs';`,
      `import { createInterface } from 'node:readline';`,
      `export const text: string = readFileSync('a', 'utf8');`,
      `export const lines = createInterface({ input: process.stdin });`,
      `export const bytes: number = readFileSync('a').length;`,
    ];
    const wrong = [
      `export const no: number = readFileSync('a', 'utf8');`,
      `export const none = readFileSync('a').noSuchThing;`,
    ];
    expect([...faultyLines(programOf([...right, ...wrong].join('\n')))]).toEqual([
      right.length,
      right.length + 1,
    ]);
  });

  it('would be noticed if they were lost: a declaration of a newer compiler gives `any`', () => {
    const newer = `export interface Made { readonly curve: Float64Array<ArrayBuffer> }\ndeclare const made: Made;\n`;
    const lines = faultyLines(programOf(`${newer}export const lost: symbol = made.curve;`));
    // The interface itself is faulty here, since this file is no declaration file; the mistake below it passes.
    expect(lines.has(2)).toBe(false);
  });
});
