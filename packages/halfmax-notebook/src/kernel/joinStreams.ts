/** Name of a stream of output. */
export type StreamName = 'stdout' | 'stderr';

/** Output of a cell on its way out. */
export interface JoinedStreams {
  readonly write: (name: StreamName, text: string) => void;
  /** Sends what waits: before anything else is sent, and at the end of the cell. */
  readonly flush: () => void;
}

/** More text than this is sent without waiting for more. */
const FULL_CHARACTERS = 1 << 16;
const WAIT_MS = 100;

/**
 * Joins consecutive writes to one stream into few messages.
 *
 * @param send - sends one message
 * @param realNow - milliseconds, of a clock that moves
 * @returns where to write
 */
export function joinStreams(
  send: (name: StreamName, text: string) => void,
  realNow: () => number,
): JoinedStreams {
  let name: StreamName = 'stdout';
  let parts: string[] = [];
  let size = 0;
  let since = 0;
  let timer: NodeJS.Timeout | null = null;

  const flush = (): void => {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    if (size > 0) send(name, parts.join(''));
    parts = [];
    size = 0;
  };
  const write = (to: StreamName, text: string): void => {
    if (text === '') return;
    if (to !== name) flush();
    if (size === 0) since = realNow();
    name = to;
    parts.push(text);
    size += text.length;
    if (size >= FULL_CHARACTERS || realNow() - since > WAIT_MS) flush();
    else if (timer === null) timer = setTimeout(flush, WAIT_MS).unref();
  };
  return { write, flush };
}
