import { describe, expect, it } from 'vitest';
import { main } from './cli.js';

async function call(...args: string[]): Promise<{ code: number; out: string; error: string }> {
  let out = '';
  let error = '';
  const code = await main(args, {
    out: (text) => {
      out += text;
    },
    error: (text) => {
      error += text;
    },
    showsProgress: false,
  });
  return { code, out, error };
}

describe('halfmax-notebook', () => {
  it('explains itself, with every exit code', async () => {
    const { code, out } = await call('--help');
    expect(code).toBe(0);
    for (const command of ['rerun', 'compare', 'report', 'kernel', 'lab'])
      expect(out).toContain(`halfmax-notebook ${command}`);
    for (const exit of ['0 ', '2 ', '3 ', '4 ', '1 ', '130 '])
      expect(out.slice(out.indexOf('Exit codes:', out.indexOf('program: running')))).toContain(exit);
    expect((await call('rerun', '--help')).out).toBe(out);
  });

  it.each([
    [[], /no command given/],
    [['dance'], /"dance" is not a command/],
    [['rerun'], /NOTEBOOK: no notebook given/],
    [['rerun', 'none.ipynb'], /--out: no folder/],
    [['rerun', 'none.ipynb', '--out', 'x'], /none\.ipynb: there is no such file/],
    [['rerun', 'x', '--out', 'x', '--fence', 'wall'], /--fence: "wall" is no fence/],
    [['rerun', 'x', '--out', 'x', '--start', 'soon'], /--start: "soon" is no time/],
    [['rerun', 'x', '--out', 'x', '--input', 'a'], /--input: "a" is not NAME=VALUE/],
    [['rerun', 'x', '--out', 'x', '--input', 'seed=1'], /seed has an option of its own/],
    [['rerun', 'x', '--out', 'x', '--memory', '10'], /--memory: "10" is not a whole number from 512/],
    [['kernel'], /--dir: no folder given/],
    [['compare', 'a.ipynb'], /no notebook given/],
  ])('refuses %j with exit code 2 and one line', async (args, expected) => {
    const { code, error } = await call(...args);
    expect(code).toBe(2);
    expect(error).toMatch(expected);
    expect(error.trim().split('\n')).toHaveLength(1);
  });
});
