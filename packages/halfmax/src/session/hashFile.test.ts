import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { hashFile } from './hashFile.js';

const folder = mkdtempSync(join(tmpdir(), 'halfmax-hash-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('hashFile', () => {
  it('gives the digests of the standard', () => {
    // FIPS 180-2, appendix B.1 and B.3: "abc", and a million times "a".
    const path = join(folder, 'a.txt');
    writeFileSync(path, 'abc');
    expect(hashFile(path, 'a.txt')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
    writeFileSync(path, 'a'.repeat(1_000_000));
    expect(hashFile(path, 'a.txt')).toBe('cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0');
  });

  it('takes a file of several pieces', () => {
    // sha256sum (GNU coreutils 9.1) of 3 000 000 times "a".
    const path = join(folder, 'long.txt');
    writeFileSync(path, 'a'.repeat(3_000_000));
    expect(hashFile(path, 'long.txt')).toBe(
      '2a152c894398719c0570f83fac34ac03a0f6e8e474b995c2403aa5434f7b9dd4',
    );
  });

  it('refuses what cannot be read', () => {
    expect(() => hashFile(join(folder, 'none'), 'none')).toThrow('none: cannot be read');
  });
});
