/** Numbers of system calls, and the tag of their architecture, as in the tables of the Linux kernel. */
interface CallTable {
  readonly architecture: number;
  readonly clone: number;
  /** Calls that start a process whatever their arguments, and calls that reach out of a fence. */
  readonly forbidden: readonly number[];
}

/**
 * By `process.arch`. Source: arch/x86/entry/syscalls/syscall_64.tbl and include/uapi/asm-generic/unistd.h of Linux 6.1;
 * tags from include/uapi/linux/audit.h. In this order: fork, vfork (x86 alone), ptrace, mount, unshare, setns, bpf,
 * userfaultfd, perf_event_open, keyctl, add_key, request_key, io_uring_setup, process_vm_readv, process_vm_writev.
 */
const tables: Readonly<Record<string, CallTable>> = {
  x64: {
    architecture: 0xc000003e,
    clone: 56,
    forbidden: [57, 58, 101, 165, 272, 308, 321, 323, 298, 250, 248, 249, 425, 310, 311],
  },
  arm64: {
    architecture: 0xc00000b7,
    clone: 220,
    forbidden: [117, 40, 97, 268, 280, 282, 241, 219, 217, 218, 425, 270, 271],
  },
};

/** clone3 has its flags in memory, where a filter cannot look; told that there is none, the C library uses clone. */
const CLONE3 = 435;
const CLONE_THREAD = 0x00010000;
/** Calls of the x32 interface carry this bit. */
const X32_BIT = 0x40000000;

const LOAD = 0x20;
const EQUAL = 0x15;
const AT_LEAST = 0x35;
const HAS_BIT = 0x45;
const RETURN = 0x06;
const ALLOW = 0x7fff0000;
const NOT_PERMITTED = 0x00050000 | 1;
const NO_SUCH_CALL = 0x00050000 | 38;
const NUMBER_AT = 0;
const ARCHITECTURE_AT = 4;
const FIRST_ARGUMENT_AT = 16;

/**
 * A filter of system calls for bubblewrap: threads may be started, processes may not.
 *
 * @param architecture - as `process.arch` names it
 * @returns a program of the classic packet filter (linux/filter.h), or null for an architecture that is not known here
 */
export function forbidCalls(architecture: string): Uint8Array | null {
  const table = tables[architecture];
  if (table === undefined) return null;
  // Each line: operation, operand, and the lines to go to. Jumps go forward only, so the ends stand last.
  type Target = 'allow' | 'deny' | 'missing' | 'next';
  const lines: [number, number, Target, Target][] = [
    [LOAD, ARCHITECTURE_AT, 'next', 'next'],
    [EQUAL, table.architecture, 'next', 'deny'],
    [LOAD, NUMBER_AT, 'next', 'next'],
    [AT_LEAST, X32_BIT, 'deny', 'next'],
    [EQUAL, CLONE3, 'missing', 'next'],
    ...table.forbidden.map((call): [number, number, Target, Target] => [EQUAL, call, 'deny', 'next']),
    [EQUAL, table.clone, 'next', 'allow'],
    [LOAD, FIRST_ARGUMENT_AT, 'next', 'next'],
    [HAS_BIT, CLONE_THREAD, 'allow', 'deny'],
  ];
  const ends = { allow: lines.length, deny: lines.length + 1, missing: lines.length + 2 };
  const bytes = new Uint8Array(8 * (lines.length + 3));
  const view = new DataView(bytes.buffer);
  const put = (at: number, code: number, operand: number, yes: number, no: number): void => {
    view.setUint16(8 * at, code, true);
    view.setUint8(8 * at + 2, yes);
    view.setUint8(8 * at + 3, no);
    view.setUint32(8 * at + 4, operand, true);
  };
  for (const [at, [code, operand, yes, no]] of lines.entries()) {
    const jump = (target: Target): number => (target === 'next' ? 0 : ends[target] - at - 1);
    put(at, code, operand, jump(yes), jump(no));
  }
  put(ends.allow, RETURN, ALLOW, 0, 0);
  put(ends.deny, RETURN, NOT_PERMITTED, 0, 0);
  put(ends.missing, RETURN, NO_SUCH_CALL, 0, 0);
  return bytes;
}
