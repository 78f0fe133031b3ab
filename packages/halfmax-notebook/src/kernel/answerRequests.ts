import { joinStreams, type StreamName } from './joinStreams.js';
import type { Private } from './patchedNames.js';
import type { PatchWork } from './patchWork.js';
import { errorOf, isCount, type RunningCell } from './runningCell.js';
import type { SendQueue } from './sendInOrder.js';
import type { CellError } from './tidyErrors.js';

/**
 * Makes tslab answer requests as the protocol of Jupyter says: errors as errors, one cell after the other, no output lost.
 *
 * @param jupyter - tslab's module; changed
 * @param work - what describes errors and the kernel
 * @param queues - of messages, waited for at the end
 * @param setRunning - told which cell runs
 */
export function answerRequests(
  { ZmqServer, JupyterHandlerImpl }: Private,
  work: PatchWork,
  queues: readonly SendQueue[],
  setRunning: (running: RunningCell | null) => void,
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
    this: Private,
    request: { code: string; stop_on_error?: boolean },
    hooks: ExecuteHooks,
  ): Promise<object> {
    const queuedAt = hooks.order;
    const turn = this.execQueue.add(async () => {
      if ((failedAt.get(this) ?? -1) > queuedAt) return { status: 'aborted' };
      const running: RunningCell = {
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
      const error = errorOf(running, succeeded, work, (text) => hooks.writeStream('stderr', text));
      hooks.onEnd(error);
      if (error === null)
        return { status: 'ok', execution_count: running.cell, user_expressions: {}, payload: [] };
      if (request.stop_on_error !== false) failedAt.set(this, hooks.newestOrder());
      return { status: 'error', execution_count: running.cell, ...error };
    });
    return (await turn) as object;
  };

  let order = 0;
  server.handleExecute = async function (this: Private, socket: unknown, message: Private): Promise<void> {
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

  server.bindSocket = async function (this: Private, socket: Private, port: number): Promise<void> {
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
