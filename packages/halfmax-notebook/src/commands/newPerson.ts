import { createInterface } from 'node:readline';
import type { Ask } from '../template/index.js';

/** A person at the terminal who can be asked. */
export interface Person {
  readonly ask: Ask;
  readonly leave: () => void;
}

/**
 * The person at the terminal; lines typed or pasted ahead answer the questions that follow.
 *
 * @param input - where answers come from. @default the standard input
 * @param output - where questions go. @default the standard error
 * @returns whom to ask, or null where the input is no terminal
 */
export function personAtTerminal(
  input: NodeJS.ReadStream = process.stdin,
  output: NodeJS.WritableStream = process.stderr,
): Person | null {
  if (input.isTTY !== true) return null;
  const line = createInterface({ input, output });
  const ahead: string[] = [];
  let answer: ((text: string) => void) | null = null;
  let isOver = false;
  line.on('line', (text) => {
    if (answer === null) ahead.push(text);
    else answer(text);
    answer = null;
  });
  // After the end of the input nobody answers any more: what is asked then stays open.
  line.once('close', () => {
    isOver = true;
    answer?.('');
  });
  return {
    ask: (question) => {
      const next = ahead.shift();
      if (next !== undefined || isOver) return Promise.resolve(next ?? '');
      line.setPrompt(question);
      line.prompt();
      return new Promise((resolve) => {
        answer = resolve;
      });
    },
    leave: () => line.close(),
  };
}
