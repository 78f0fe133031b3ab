import { dirname, resolve } from 'node:path';
import type { PatchedModules, Private } from './patchedNames.js';

/** How tslab ends a cell when it has it compiled for the second time: with the names that it found the first time. */
const NAMES_EXPORTED = /\nexport \{[^{}]*\}$/;

/**
 * Makes the compiler do no more for a cell than is asked of it.
 *
 * tslab has each cell compiled twice, the first time only for the names that it declares: those are read from the cell
 * alone. And the compiler keeps no record of which file depends on which: all that is asked of it is which files of
 * TypeScript a cell leads to.
 *
 * @param modules - tslab's compiler and converter; changed
 * @param cellFile - name under which the compiler sees every cell
 */
export function leanPrograms({ typescript, converter }: PatchedModules, cellFile: string): void {
  const { createWatchCompilerHost } = typescript;
  let isWhole = false;
  const lean = (
    files: readonly string[],
    options: Private,
    host: Private,
    old: Private,
    ...rest: Private[]
  ) => {
    const cell = files.find((name) => name.endsWith(`/${cellFile}`));
    const text: string = cell === undefined ? '' : host.readFile(cell);
    const earlier = isWhole || NAMES_EXPORTED.test(text) ? undefined : old?.getProgramOrUndefined();
    if (earlier !== undefined) {
      const alone = typescript.createSourceFile(cell, text, options.target);
      typescript.bindSourceFile(alone, options);
      if (alone.locals?.size > 0) {
        // Else the same cell, run again, would be taken for compiled already.
        const before = earlier.getSourceFile(cell);
        if (before !== undefined) before.version = '';
        return {
          ...old,
          getSourceFile: (name: string) => (name === cell ? alone : earlier.getSourceFile(name)),
        };
      }
    }
    const builder = typescript.createAbstractBuilder(files, options, host, old, ...rest);
    const program = builder.getProgram();
    builder.getAllDependencies = (file: Private) => dependencies(program, file);
    const file = cell === undefined ? undefined : program.getSourceFile(cell);
    if (file !== undefined) typescript.bindSourceFile(file, options);
    return builder;
  };
  typescript.createWatchCompilerHost = (
    files: Private,
    options: Private,
    system: Private,
    create: Private,
    ...rest: Private[]
  ): unknown => createWatchCompilerHost(files, options, system, create ?? lean, ...rest);

  const { createConverter } = converter;
  converter.createConverter = (settings: Private): unknown => {
    const whole =
      (work: (...args: Private[]) => unknown) =>
      (...args: Private[]): unknown => {
        isWhole = true;
        try {
          return work(...args);
        } finally {
          isWhole = false;
        }
      };
    const { inspect, complete, addModule, ...others } = createConverter(settings);
    return { ...others, inspect: whole(inspect), complete: whole(complete), addModule: whole(addModule) };
  };
}

/** Names of a file and of those that it leads to: declarations lead to no TypeScript. */
function dependencies(program: Private, file: Private): string[] {
  const names = new Set<string>();
  const waiting = [file];
  for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
    if (names.has(at.fileName)) continue;
    names.add(at.fileName);
    if (at.isDeclarationFile) continue;
    const lead = (name: string): void => {
      const next = program.getSourceFile(name);
      if (next !== undefined) waiting.push(next);
    };
    at.resolvedModules?.forEach(({ resolvedModule }: Private) => {
      if (resolvedModule !== undefined) lead(resolvedModule.resolvedFileName);
    });
    for (const { fileName } of at.referencedFiles) lead(resolve(dirname(at.fileName), fileName));
  }
  return [...names];
}
