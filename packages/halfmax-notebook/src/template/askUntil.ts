/** Puts a question to a person; an empty answer means that it stays open. */
export type Ask = (question: string) => Promise<string>;

const MOST_TRIES = 3;

/**
 * Asks again after an answer that cannot be, at most three times.
 *
 * @param ask - puts one question
 * @param question - with a blank at its end
 * @param read - what an answer that is not empty means; null where it cannot be
 * @returns what was answered, or null where it stays open
 */
export async function askUntil<T>(
  ask: Ask,
  question: string,
  read: (answer: string) => T | null,
): Promise<T | null> {
  for (let k = 0; k < MOST_TRIES; k++) {
    const answer = (await ask(k === 0 ? question : `That cannot be. ${question}`)).trim();
    if (answer === '') return null;
    const value = read(answer);
    if (value !== null) return value;
  }
  return null;
}
