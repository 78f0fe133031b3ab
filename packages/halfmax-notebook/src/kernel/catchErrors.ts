import type { Private } from './patchedNames.js';
import type { RunningCell } from './runningCell.js';

/**
 * Keeps what went wrong in a cell, which tslab prints.
 *
 * @param executor - tslab's module; changed
 * @param current - the cell that runs
 */
export function catchErrors(executor: Private, current: () => RunningCell | null): void {
  const raw = executor.createExecutor;
  executor.createExecutor = (root: string, converters: unknown, console: Private): unknown => {
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
