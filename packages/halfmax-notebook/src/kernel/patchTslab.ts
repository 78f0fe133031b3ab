import vm from 'node:vm';
import type { CellSources } from './cellSources.js';
import { joinStreams, type StreamName } from './joinStreams.js';
import { type SendQueue, sendInOrder } from './sendInOrder.js';
import type { CellError, Diagnostic } from './tidyErrors.js';

/** The version of tslab whose private names are patched here. */
export const TSLAB_VERSION = '1.0.22';

/** The modules that are patched, as `require` gives them. */
export interface PatchedModules {
  readonly jupyter: Any;
  readonly executor: Any;
  readonly typescript: Any;
  readonly zeromq: Any;
}

/** What the patches need to know of the kernel. */
export interface PatchWork {
  readonly sources: CellSources;
  readonly realNow: () => number;
  readonly describeThrown: (thrown: unknown) => CellError;
  readonly describeDiagnostics: (
    diagnostics: readonly Diagnostic[],
    cell: number,
    source: string,
  ) => CellError;
  /** Joins what a kernel_info reply says. */
  readonly kernelInfo: () => object;
  /** Written where a person can see it, not into a cell. */
  readonly complain: (text: string) => void;
  /** The last thing that is called. */
  readonly exit: () => void;
}

// biome-ignore lint/suspicious/noExplicitAny: private parts of a package without types
type Any = any;

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
  ['typescript', 'createWatchCompilerHost'],
  ['typescript', 'transpileModule'],
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
      const found = path.split('.').reduce<Any>((at, name) => at?.[name], modules[module]);
      return typeof found !== 'function';
    })
    .map(([module, path]) => `${module}.${path}`);
}

/** What a cell that runs has come to. */
interface Running {
  readonly cell: number;
  readonly source: string;
  diagnostics: Diagnostic[];
  thrown: { readonly value: unknown } | null;
}

/**
 * Mends tslab in place: no message is lost, errors are errors of Jupyter with the lines of the TypeScript, a cell is
 * answered as the protocol says, and a kernel that is told to end does.
 *
 * @param modules - tslab's own
 * @param work - what the patches call
 * @returns told of a rejected promise that nobody handled; and the queues of messages
 */
export function patchTslab(
  modules: PatchedModules,
  work: PatchWork,
): { readonly onRejection: (reason: unknown) => boolean; readonly queues: readonly SendQueue[] } {
  const { zeromq } = modules;
  const onFault = (fault: unknown): void => work.complain(`a message was not sent: ${String(fault)}`);
  const queues = [sendInOrder(zeromq.Publisher, onFault), sendInOrder(zeromq.Router, onFault)];
  let running: Running | null = null;

  keepSourceMaps(modules.typescript, work.sources);
  nameCells(work.sources, () => running?.cell ?? 0);
  catchErrors(modules.executor, () => running);
  answerRequests(modules.jupyter, work, queues, (cell) => {
    running = cell;
  });
  const onRejection = (reason: unknown): boolean => {
    if (running === null) return false;
    running.thrown ??= { value: reason };
    return true;
  };
  return { onRejection, queues };
}

/** Both steps from TypeScript to what runs leave a source map. */
function keepSourceMaps(typescript: Any, sources: CellSources): void {
  const { createWatchCompilerHost, transpileModule } = typescript;
  const marker = '//# sourceMappingURL=data:application/json;base64,';
  typescript.createWatchCompilerHost = (files: Any, options: Any, ...rest: Any[]): unknown =>
    createWatchCompilerHost(files, { ...options, inlineSourceMap: true }, ...rest);
  typescript.transpileModule = (input: string, settings: Any): unknown => {
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

/** A cell runs under its own name, so that a stack trace tells which cell it was. */
function nameCells(sources: CellSources, currentCell: () => number): void {
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

/** tslab prints what went wrong; here it is kept instead. */
function catchErrors(executor: Any, current: () => Running | null): void {
  const raw = executor.createExecutor;
  executor.createExecutor = (root: string, converters: unknown, console: Any): unknown => {
    const error = (...args: unknown[]): void => {
      const running = current();
      const [format, fileName, line, character, messageText] = args;
      if (running === null) console.error(...args);
      else if (format === '%s%d:%d - %s') {
        const start = { line: Number(line) - 1, character: Number(character) - 1 };
        const named = String(fileName).trim();
        const diagnostic = { start, messageText: String(messageText) };
        running.diagnostics.push(named === '' ? diagnostic : { ...diagnostic, fileName: named });
      } else running.thrown ??= { value: format };
    };
    return raw(root, converters, { ...console, error });
  };
}

function answerRequests(
  { ZmqServer, JupyterHandlerImpl }: Any,
  work: PatchWork,
  queues: readonly SendQueue[],
  setRunning: (running: Running | null) => void,
): void {
  const handler = JupyterHandlerImpl.prototype;
  const server = ZmqServer.prototype;

  const handleKernel = handler.handleKernel;
  handler.handleKernel = function (): object {
    return { ...handleKernel.call(this), ...work.kernelInfo() };
  };

  const createWriteToIopub = handler.createWriteToIopub;
  handler.createWriteToIopub = function (name: string, writeStream: unknown): unknown {
    const write = createWriteToIopub.call(this, name, writeStream);
    return (data: unknown, encoding: unknown, done: unknown): boolean => {
      write(data, encoding);
      const callback = typeof encoding === 'function' ? encoding : done;
      if (typeof callback === 'function') setImmediate(callback as () => void);
      return true;
    };
  };

  // One cell after the other; after a failed one those that wait are not run, if the client wants it so.
  const failedAt = new WeakMap<object, number>();
  handler.handleExecute = async function (
    this: Any,
    request: { code: string; stop_on_error?: boolean },
    hooks: ExecuteHooks,
  ): Promise<object> {
    const queuedAt = hooks.order;
    const turn = this.execQueue.add(async () => {
      if ((failedAt.get(this) ?? -1) > queuedAt) return { status: 'aborted' };
      const running: Running = {
        cell: this.execCount + 1,
        source: request.code,
        diagnostics: [],
        thrown: null,
      };
      setRunning(running);
      hooks.onStart(running.cell);
      let succeeded = false;
      try {
        await this.handleExecuteImpl(request, hooks.writeStream, hooks.writeDisplayData);
        succeeded = true;
        // A rejection that nobody handles is reported once the promises of this turn have settled.
        await new Promise((resolve) => setImmediate(resolve));
      } catch (fault) {
        if (succeeded || (running.thrown === null && running.diagnostics.length === 0 && !isCount(fault)))
          running.thrown ??= { value: fault };
      } finally {
        setRunning(null);
      }
      const error = errorOf(running, succeeded, work, hooks);
      hooks.onEnd(error);
      if (error === null)
        return { status: 'ok', execution_count: running.cell, user_expressions: {}, payload: [] };
      if (request.stop_on_error !== false) failedAt.set(this, hooks.newestOrder());
      return { status: 'error', execution_count: running.cell, ...error };
    });
    return (await turn) as object;
  };

  let order = 0;
  server.handleExecute = async function (this: Any, socket: unknown, message: Any): Promise<void> {
    const publish = (type: string, content: object): void => {
      const out = message.createReply();
      out.header.msg_type = type;
      out.content = content;
      out.signAndSend(this.connInfo.key, this.iopub);
    };
    const streams = joinStreams((name, text) => publish('stream', { name, text }), work.realNow);
    const { code } = message.content;
    const hooks: ExecuteHooks = {
      order: ++order,
      newestOrder: () => order + 1,
      onStart: (cell) => publish('execute_input', { code, execution_count: cell }),
      writeStream: streams.write,
      writeDisplayData: (data, update) => {
        streams.flush();
        publish(update ? 'update_display_data' : 'display_data', data);
      },
      onEnd: (error) => {
        streams.flush();
        if (error !== null) publish('error', error);
      },
    };
    const reply = message.createReply();
    reply.header.msg_type = 'execute_reply';
    reply.content = await this.handler.handleExecute(message.content, hooks);
    reply.signAndSend(this.connInfo.key, socket);
  };

  const handleShellMessage = server.handleShellMessage;
  server.handleShellMessage = async function (...args: unknown[]): Promise<void> {
    try {
      await handleShellMessage.apply(this, args);
    } catch (fault) {
      work.complain(`a request was refused: ${fault instanceof Error ? fault.message : String(fault)}`);
    }
  };

  server.bindSocket = async function (this: Any, socket: Any, port: number): Promise<void> {
    const { transport, ip } = this.connInfo;
    // Zero: no message is ever dropped because a client is slow.
    if (socket === this.iopub) socket.sendHighWaterMark = 0;
    await socket.bind(transport === 'ipc' ? `ipc://${ip}-${port}` : `${transport}://${ip}:${port}`);
  };

  const close = server.close;
  server.close = async function (): Promise<void> {
    await Promise.all(queues.map((queue) => queue.drained()));
    close.call(this);
    work.exit();
  };
}

interface ExecuteHooks {
  readonly order: number;
  readonly newestOrder: () => number;
  readonly onStart: (cell: number) => void;
  readonly writeStream: (name: StreamName, text: string) => void;
  readonly writeDisplayData: (data: object, update: boolean) => void;
  readonly onEnd: (error: CellError | null) => void;
}

/** tslab throws the number of a cell that failed, having told why before. */
function isCount(fault: unknown): boolean {
  return typeof fault === 'object' && fault !== null && 'count' in fault;
}

function errorOf(
  running: Running,
  succeeded: boolean,
  work: PatchWork,
  hooks: ExecuteHooks,
): CellError | null {
  if (running.thrown !== null) return work.describeThrown(running.thrown.value);
  if (running.diagnostics.length === 0)
    return succeeded ? null : { ename: 'Failed', evalue: 'the cell failed without a reason', traceback: [] };
  const error = work.describeDiagnostics(running.diagnostics, running.cell, running.source);
  if (!succeeded) return error;
  // A cell that declares a module is kept in spite of its faults.
  hooks.writeStream('stderr', `${error.traceback.join('\n')}\n`);
  return null;
}
