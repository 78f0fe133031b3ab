import { PassThrough } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { personAtTerminal } from '../../packages/halfmax-notebook/src/commands/newPerson.js';

/** A terminal on which lines can be typed. */
function terminal() {
  const input = Object.assign(new PassThrough(), { isTTY: true }) as unknown as NodeJS.ReadStream &
    PassThrough;
  const output = new PassThrough();
  let seen = '';
  output.on('data', (data: Buffer) => {
    seen += data.toString();
  });
  return { input, output, seen: () => seen, person: personAtTerminal(input, output)! };
}

describe('the person at the terminal', () => {
  it('is asked and answers', async () => {
    const { input, person, seen } = terminal();
    const answer = person.ask('Which? ');
    input.write('this one\n');
    expect(await answer).toBe('this one');
    expect(seen()).toContain('Which? ');
    person.leave();
  });

  it('may answer ahead: no line is lost', async () => {
    const { input, person } = terminal();
    const first = person.ask('1? ');
    input.write('a\nb\n\nd\n');
    expect(await first).toBe('a');
    expect([await person.ask('2? '), await person.ask('3? '), await person.ask('4? ')]).toEqual([
      'b',
      '',
      'd',
    ]);
    person.leave();
  });

  it('leaves the rest open at the end of the input', async () => {
    const { input, person } = terminal();
    const answer = person.ask('1? ');
    input.end();
    expect([await answer, await person.ask('2? ')]).toEqual(['', '']);
  });

  it('is not there where the input is no terminal', () => {
    expect(personAtTerminal(new PassThrough() as unknown as NodeJS.ReadStream)).toBeNull();
  });
});
