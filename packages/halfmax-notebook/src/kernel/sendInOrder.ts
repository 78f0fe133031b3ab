/** A socket class of zeromq, as far as it is used here. */
interface SocketClass {
  readonly prototype: { send(message: unknown): Promise<void> };
}

/** Messages that wait to be sent. */
export interface SendQueue {
  /** Resolves when everything handed over so far is sent. */
  readonly drained: () => Promise<void>;
}

/**
 * Makes the sockets of a class send one message after the other, whether or not the caller waits.
 *
 * A socket of zeromq refuses a message while another is being sent, and a caller that does not wait never hears of it.
 * `send` cannot be assigned to, since the inherited one is read-only: it is defined on the class itself.
 *
 * @param socketClass - such as Publisher
 * @param onFault - told of a message that could not be sent
 * @returns the queue of all sockets of the class
 */
export function sendInOrder(socketClass: SocketClass, onFault: (fault: unknown) => void): SendQueue {
  const raw = socketClass.prototype.send;
  const tails = new WeakMap<object, Promise<void>>();
  const all = new Set<Promise<void>>();
  Object.defineProperty(socketClass.prototype, 'send', {
    configurable: true,
    writable: true,
    value(this: object, message: unknown): Promise<void> {
      const before = tails.get(this) ?? Promise.resolve();
      const tail = before.then(() => raw.call(this, message)).catch(onFault);
      tails.set(this, tail);
      all.add(tail);
      void tail.finally(() => all.delete(tail));
      return tail;
    },
  });
  return {
    drained: async () => {
      while (all.size > 0) await Promise.all(all);
    },
  };
}
