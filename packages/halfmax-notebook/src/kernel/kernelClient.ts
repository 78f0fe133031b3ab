import { randomBytes } from 'node:crypto';
import { Dealer, Subscriber } from 'zeromq';
import { addressOf, type Connection } from './connection.js';
import { packRequest, unpackMessage, type WireMessage } from './wireMessage.js';

/** A message that belongs to a request: from the reply socket, or output and status. */
export type Heard = { readonly from: 'reply' | 'iopub'; readonly message: WireMessage };

/** Speaks to one kernel. */
export interface KernelClient {
  /** Sends a request; `hear` gets everything that belongs to it until it is closed. */
  readonly request: (
    type: string,
    content: object,
    hear: (heard: Heard) => void,
    channel?: 'shell' | 'control',
  ) => Promise<void>;
  /** Resolves when the kernel's output reaches this client. */
  readonly ready: () => Promise<void>;
  /** What the kernel says of itself. */
  readonly info: () => Promise<Readonly<Record<string, unknown>>>;
  readonly close: () => void;
}

const RETRY_MS = 100;

/**
 * Connects to a kernel, which need not be there yet.
 *
 * @param connection - where it is
 * @param onFault - told of a message that cannot be trusted
 * @returns the client; close it
 */
export function kernelClient(connection: Connection, onFault: (fault: unknown) => void): KernelClient {
  const session = randomBytes(16).toString('hex');
  const shell = new Dealer({ linger: 0, routingId: session });
  const control = new Dealer({ linger: 0, routingId: session });
  // Zero: no message is dropped because this client is slow.
  const iopub = new Subscriber({ linger: 0, receiveHighWaterMark: 0 });
  const listeners = new Map<string, (heard: Heard) => void>();
  let isOpen = true;
  let sending: Promise<void> = Promise.resolve();

  shell.connect(addressOf(connection, connection.shell_port));
  control.connect(addressOf(connection, connection.control_port));
  iopub.connect(addressOf(connection, connection.iopub_port));
  iopub.subscribe();

  const listen = async (socket: AsyncIterable<Buffer[]>, from: Heard['from']): Promise<void> => {
    try {
      for await (const frames of socket) {
        const message = unpackMessage(connection.key, frames);
        const parent = message.parent_header.msg_id;
        if (parent !== undefined) listeners.get(parent)?.({ from, message });
      }
    } catch (fault) {
      if (isOpen) onFault(fault);
    }
  };
  void listen(shell, 'reply');
  void listen(control, 'reply');
  void listen(iopub, 'iopub');

  const request: KernelClient['request'] = (type, content, hear, channel = 'shell') => {
    const { frames, id } = packRequest(connection.key, session, type, content);
    listeners.set(id, hear);
    // One message after the other: a socket refuses a second one while the first is on its way.
    sending = sending.then(() => (channel === 'shell' ? shell : control).send(frames));
    return sending;
  };

  // A subscriber that comes late misses what was said before: ask until the answer is heard on iopub too.
  const ready = async (): Promise<void> => {
    let isHeard = false;
    while (isOpen && !isHeard) {
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, RETRY_MS);
        void request('kernel_info_request', {}, ({ from, message }) => {
          if (from !== 'iopub' || message.content['execution_state'] !== 'idle') return;
          isHeard = true;
          clearTimeout(timer);
          resolve();
        }).catch(() => {});
      });
    }
    listeners.clear();
  };

  const info: KernelClient['info'] = () =>
    new Promise((resolve, reject) => {
      request('kernel_info_request', {}, ({ from, message }) => {
        if (from === 'reply') resolve(message.content);
      }).catch(reject);
    });

  const close = (): void => {
    isOpen = false;
    for (const socket of [shell, control, iopub]) socket.close();
  };
  return { request, ready, info, close };
}
