import vm from 'node:vm';
import type { CellSources } from './cellSources.js';
import type { Private } from './patchedNames.js';

/**
 * Makes both steps from TypeScript to what runs leave a source map.
 *
 * @param typescript - tslab's compiler; changed
 * @param sources - told of the maps
 */
export function keepSourceMaps(typescript: Private, sources: CellSources): void {
  const { createWatchCompilerHost, transpileModule } = typescript;
  const marker = '//# sourceMappingURL=data:application/json;base64,';
  typescript.createWatchCompilerHost = (files: Private, options: Private, ...rest: Private[]): unknown =>
    createWatchCompilerHost(files, { ...options, inlineSourceMap: true }, ...rest);
  typescript.transpileModule = (input: string, settings: Private): unknown => {
    const at = input.lastIndexOf(marker);
    if (at < 0) return transpileModule(input, settings);
    const first = JSON.parse(Buffer.from(input.slice(at + marker.length), 'base64').toString('utf8'));
    const compilerOptions = { ...settings.compilerOptions, sourceMap: true };
    const done = transpileModule(input.slice(0, at), { ...settings, compilerOptions });
    const outputText = done.outputText.replace(/\n?\/\/# sourceMappingURL=\S*\s*$/, '\n');
    sources.keepMaps(outputText, first, JSON.parse(done.sourceMapText));
    return { ...done, outputText };
  };
}

/**
 * Makes a cell run under its own name, so that a stack trace tells which cell it was.
 *
 * @param sources - told of what runs as which cell
 * @param currentCell - number of the cell that runs
 */
export function nameCells(sources: CellSources, currentCell: () => number): void {
  const raw = vm.runInThisContext;
  const shape = /^\((?:async )?function\(exports, require\) \{ /;
  const suffix = '\n})(__tslab__.exports, __tslab__.require)';
  vm.runInThisContext = (code, options) => {
    const prefix = shape.exec(code)?.[0];
    if (prefix === undefined || !code.endsWith(suffix) || typeof options === 'string')
      return raw(code, options);
    const filename = sources.nameCell(
      code.slice(prefix.length, -suffix.length),
      currentCell(),
      prefix.length,
    );
    return raw(code, { ...options, filename, displayErrors: false });
  };
}
