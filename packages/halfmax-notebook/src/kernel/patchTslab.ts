import { answerRequests } from './answerRequests.js';
import { catchErrors } from './catchErrors.js';
import { keepSourceMaps, nameCells } from './followSources.js';
import { leanPrograms } from './leanPrograms.js';
import type { PatchedModules } from './patchedNames.js';
import type { PatchWork } from './patchWork.js';
import { qualifyShorthands } from './qualifyShorthands.js';
import type { RunningCell } from './runningCell.js';
import { type SendQueue, sendInOrder } from './sendInOrder.js';

/**
 * Mends tslab in place: no message is lost, errors are errors of Jupyter with the lines of the TypeScript, a cell is
 * answered as the protocol says, `{ name }` finds a name of an earlier cell, and a kernel that is told to end does.
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
  let running: RunningCell | null = null;

  leanPrograms(modules, work.cellFile);
  keepSourceMaps(modules.typescript, work.sources);
  qualifyShorthands(modules.typescript);
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
