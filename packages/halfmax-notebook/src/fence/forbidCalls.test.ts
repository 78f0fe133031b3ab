import { describe, expect, it } from 'vitest';
import { forbidCalls } from './forbidCalls.js';

/** What the kernel of Linux does with a filter (linux/filter.h, linux/seccomp.h): the operations that are used. */
function decide(program: Uint8Array, call: number, architecture: number, firstArgument = 0): number {
  const view = new DataView(program.buffer);
  const data: Record<number, number> = { 0: call, 4: architecture, 16: firstArgument };
  let accumulator = 0;
  for (let at = 0; at < program.length / 8; at++) {
    const code = view.getUint16(8 * at, true);
    const operand = view.getUint32(8 * at + 4, true);
    const jump = (isTrue: boolean): number => view.getUint8(8 * at + (isTrue ? 2 : 3));
    if (code === 0x20) accumulator = data[operand]! >>> 0;
    else if (code === 0x06) return operand;
    else if (code === 0x15) at += jump(accumulator === operand);
    else if (code === 0x35) at += jump(accumulator >= operand);
    else if (code === 0x45) at += jump((accumulator & operand) !== 0);
    else throw new Error(`operation ${code}`);
  }
  throw new Error('no end');
}

const ALLOWED = 0x7fff0000;
const EPERM = 0x00050001;
const ENOSYS = 0x00050026;
const X86 = 0xc000003e;
const ARM = 0xc00000b7;

// Numbers of calls: man 2 syscalls; syscall_64.tbl and asm-generic/unistd.h of Linux.
describe('forbidCalls', () => {
  it('lets threads start and processes not', () => {
    const x64 = forbidCalls('x64')!;
    expect(decide(x64, 56, X86, 0x003d0f00)).toBe(ALLOWED); // clone as pthread_create calls it
    expect(decide(x64, 56, X86, 0x01200011)).toBe(EPERM); // clone as fork calls it
    expect(decide(x64, 57, X86)).toBe(EPERM); // fork
    expect(decide(x64, 58, X86)).toBe(EPERM); // vfork
    expect(decide(x64, 435, X86)).toBe(ENOSYS); // clone3
    const arm64 = forbidCalls('arm64')!;
    expect(decide(arm64, 220, ARM, 0x003d0f00)).toBe(ALLOWED);
    expect(decide(arm64, 220, ARM, 0x01200011)).toBe(EPERM);
  });

  it('lets reading, writing, mapping and the replacement of a program pass', () => {
    for (const call of [0, 1, 9, 59, 231]) expect(decide(forbidCalls('x64')!, call, X86)).toBe(ALLOWED);
    for (const call of [63, 64, 222, 221, 94]) expect(decide(forbidCalls('arm64')!, call, ARM)).toBe(ALLOWED);
  });

  it('refuses the calls of another architecture, which have other numbers', () => {
    expect(decide(forbidCalls('x64')!, 0, 0x40000003)).toBe(EPERM); // i386
    expect(decide(forbidCalls('x64')!, 0x40000000 + 1, X86)).toBe(EPERM); // x32
    expect(decide(forbidCalls('arm64')!, 63, X86)).toBe(EPERM);
  });

  it('is not there for an architecture whose numbers are not known here', () => {
    expect(forbidCalls('mips')).toBeNull();
  });
});
