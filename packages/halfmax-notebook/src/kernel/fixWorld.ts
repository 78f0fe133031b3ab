import { performance } from 'node:perf_hooks';
import { randomStream } from 'halfmax/numeric';

/**
 * Makes the process reproducible: Math.random follows the seed, every clock stands at one time.
 *
 * The clock of Date, performance and process.hrtime does not move: code that waits by reading it never ends, code that
 * waits by a timer does. Threads and crypto are outside of it.
 *
 * @param seed - 0 to 4294967295
 * @param startedAtMs - milliseconds since 1970
 * @returns the time of day as it really is, for the kernel's own use
 */
export function fixWorld(seed: number, startedAtMs: number): { readonly realNow: () => number } {
  const realNow = Date.now.bind(Date);
  const stream = randomStream(seed);
  Math.random = () => stream.uniform();
  fixDate(startedAtMs);
  Object.defineProperty(performance, 'now', { value: () => 0, configurable: true });
  Object.defineProperty(performance, 'timeOrigin', { value: startedAtMs, configurable: true });
  process.uptime = () => 0;
  const still = (previous?: [number, number]): [number, number] =>
    previous === undefined ? [0, 0] : [-previous[0], -previous[1]];
  process.hrtime = Object.assign(still, { bigint: () => 0n });
  return { realNow };
}

function fixDate(startedAtMs: number): void {
  const RealDate = Date;
  const FixedDate = new Proxy(RealDate, {
    construct: (target, args, newTarget) =>
      Reflect.construct(target, args.length === 0 ? [startedAtMs] : args, newTarget) as object,
    apply: () => new RealDate(startedAtMs).toString(),
  });
  RealDate.now = () => startedAtMs;
  RealDate.prototype.constructor = FixedDate;
  globalThis.Date = FixedDate;

  // Formatters read the clock themselves when they are given no date.
  const { prototype } = Intl.DateTimeFormat;
  const format = Object.getOwnPropertyDescriptor(prototype, 'format')?.get;
  if (format !== undefined) {
    Object.defineProperty(prototype, 'format', {
      configurable: true,
      get(this: Intl.DateTimeFormat) {
        const raw = format.call(this) as (date?: Date | number) => string;
        return (date?: Date | number) => raw(date ?? startedAtMs);
      },
    });
  }
  const { formatToParts } = prototype;
  prototype.formatToParts = function (date) {
    return formatToParts.call(this, date ?? startedAtMs);
  };
}
