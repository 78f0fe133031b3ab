import { spawnSync } from 'node:child_process';
import { BadInputError } from 'halfmax';
import { findProgram } from './findProgram.js';
import { forbidCalls } from './forbidCalls.js';
import { type FenceKind, limitsAllMemory } from './kernelCommand.js';

/** A fence that was chosen, and what there is to say about it. */
export interface ChosenFence {
  readonly kind: FenceKind;
  /** Sentences for the person who runs the notebook. */
  readonly says: readonly string[];
}

/** What can be asked for. */
export type AskedFence = FenceKind | 'auto';

/** What each fence does not stop. */
export const fenceLimits: Readonly<Record<FenceKind, string>> = {
  bwrap:
    'It does not stop a notebook from filling the disk of the out folder, from telling untruths in its outputs, or from ' +
    'reading the programs in /usr; nor a fault of the operating system from being used.',
  node:
    'It does not stop network connections, faults in the native code of the packages, Unix sockets outside of the out folder, ' +
    'signals to other processes of this user, or filling the disk; Node calls it experimental.',
  none: 'The notebook can do whatever the person who runs it can do.',
};

/**
 * Chooses the fence for notebooks, and never a weaker one in silence.
 *
 * @param asked - by the person, or auto
 * @param isOwn - whether all notebooks are of the checkout
 * @returns the fence and sentences about it
 * @throws {BadInputError} what was asked for is not to be had, or auto finds nothing for somebody else's notebook
 */
export function chooseFence(asked: AskedFence, isOwn: boolean): ChosenFence {
  if (asked === 'none') return { kind: 'none', says: [`No fence. ${fenceLimits.none}`] };
  if (asked === 'auto' && isOwn) {
    const why =
      'The notebooks are of this checkout, so they run without a fence (--fence bwrap puts one up).';
    return { kind: 'none', says: [why] };
  }
  const bwrap = asked === 'node' ? null : bwrapFault();
  if (asked === 'bwrap' || (asked === 'auto' && bwrap === null)) {
    if (bwrap !== null)
      refuse(asked, `bubblewrap is asked for, but ${bwrap}`, 'install or allow it, or choose another fence');
    const processes =
      forbidCalls(process.arch) === null
        ? [`It does not stop child processes on ${process.arch}; they stay inside of it.`]
        : [];
    return {
      kind: 'bwrap',
      says: ['Fence: bubblewrap (namespaces of Linux).', ...processes, fenceLimits.bwrap],
    };
  }
  const node = nodeFault();
  if (node !== null) {
    const both = asked === 'auto' ? `no fence can be put up here: ${bwrap}, and ${node}` : node;
    refuse(asked, both, 'read the notebook, then say --fence none if it is to run all the same');
  }
  const weaker = asked === 'auto' ? [`The stronger fence is not to be had: ${bwrap}.`] : [];
  const memory = limitsAllMemory() ? [] : ['Only the heap of Node is limited, not all memory.'];
  const says = ['Fence: permission model of Node.', ...weaker, fenceLimits.node, ...memory];
  return { kind: 'node', says };
}

/** Why bubblewrap cannot be used here, or null. */
function bwrapFault(): string | null {
  if (process.platform !== 'linux') return 'bubblewrap is for Linux only';
  const program = findProgram('bwrap');
  if (program === null) return 'bubblewrap (bwrap) is not installed';
  const probe = [
    '--unshare-all',
    '--die-with-parent',
    '--ro-bind',
    '/',
    '/',
    '--proc',
    '/proc',
    '--dev',
    '/dev',
  ];
  const done = spawnSync(program, [...probe, 'true'], { encoding: 'utf8', timeout: 10_000 });
  if (done.status === 0) return null;
  const [reason = ''] = (done.stderr ?? '').trim().split('\n');
  return `bubblewrap does not work here (${reason === '' ? `exit code ${done.status}` : reason})`;
}

/** Why the permission model of Node cannot be used here, or null. */
function nodeFault(): string | null {
  return process.allowedNodeEnvironmentFlags.has('--experimental-permission')
    ? null
    : `the permission model of Node ${process.versions.node} is not the one that is known here`;
}

function refuse(asked: AskedFence, what: string, fix: string): never {
  throw new BadInputError([{ where: 'halfmax-notebook rerun', place: `--fence ${asked}`, what, fix }]);
}
