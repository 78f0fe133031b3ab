/** Private parts of a package without types. */
// biome-ignore lint/suspicious/noExplicitAny: nothing is known of them
export type Private = any;

/** The version of tslab whose private names are patched here. */
export const TSLAB_VERSION = '1.0.22';

/** The modules that are patched, as `require` gives them. */
export interface PatchedModules {
  readonly jupyter: Private;
  readonly executor: Private;
  readonly converter: Private;
  readonly typescript: Private;
  readonly zeromq: Private;
}

/** Names that must be there for the patches to hold: module, path in it. */
export const patchedNames: readonly (readonly [keyof PatchedModules, string])[] = [
  ['jupyter', 'ZmqServer.prototype.handleExecute'],
  ['jupyter', 'ZmqServer.prototype.handleShellMessage'],
  ['jupyter', 'ZmqServer.prototype.bindSocket'],
  ['jupyter', 'ZmqServer.prototype.close'],
  ['jupyter', 'JupyterHandlerImpl.prototype.handleExecute'],
  ['jupyter', 'JupyterHandlerImpl.prototype.handleExecuteImpl'],
  ['jupyter', 'JupyterHandlerImpl.prototype.handleKernel'],
  ['jupyter', 'JupyterHandlerImpl.prototype.createWriteToIopub'],
  ['executor', 'createExecutor'],
  ['converter', 'createConverter'],
  ['typescript', 'createWatchCompilerHost'],
  ['typescript', 'createWatchProgram'],
  ['typescript', 'transpileModule'],
  ['typescript', 'createAbstractBuilder'],
  ['typescript', 'createSourceFile'],
  ['typescript', 'bindSourceFile'],
  ['zeromq', 'Publisher.prototype.send'],
  ['zeromq', 'Router.prototype.send'],
];

/**
 * The patched names that a set of modules does not have.
 *
 * @param modules - tslab's
 * @returns such as `jupyter.ZmqServer.prototype.close`; empty where all is well
 */
export function missingNames(modules: PatchedModules): string[] {
  return patchedNames
    .filter(([module, path]) => {
      const found = path.split('.').reduce<Private>((at, name) => at?.[name], modules[module]);
      return typeof found !== 'function';
    })
    .map(([module, path]) => `${module}.${path}`);
}
