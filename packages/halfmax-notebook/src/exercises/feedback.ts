/** What a check says to an answer. */
export interface Feedback {
  /** Null where there is no answer yet. */
  readonly right: boolean | null;
  /** What was right, or where to look again; it never gives the answer away. */
  readonly says: string;
}

/** An answer of a reader: a number, or null as long as there is none. */
export type NumberAnswer = number | null;

/** The feedback to an exercise without an answer. */
export const unanswered: Feedback = {
  right: null,
  says: 'Not answered yet: put your answer in the place of `null` and run the cell again.',
};

/**
 * Feedback as a sentence to be shown.
 *
 * @param title - such as `Exercise 1`
 * @param feedback - of a check
 * @returns Markdown
 * @example
 * feedbackText('Exercise 1', { right: true, says: 'Half of the peak.' }); // => '**Exercise 1: right.** Half of the peak.'
 */
export function feedbackText(title: string, feedback: Feedback): string {
  const verdict = feedback.right === null ? '' : feedback.right ? ': right' : ': not yet';
  return `**${title}${verdict}.** ${feedback.says}`;
}

/**
 * Whether an answer can be looked at: refuses what is no finite number.
 *
 * @param answer - of the reader
 * @returns feedback that ends the check, or null where the answer is a number
 */
export function withoutNumber(answer: NumberAnswer): Feedback | null {
  if (answer === null || answer === undefined) return unanswered;
  if (typeof answer !== 'number' || !Number.isFinite(answer))
    return { right: false, says: 'The answer is to be a number, with a decimal point, such as `0.25`.' };
  return null;
}

/**
 * Whether an answer agrees with a value.
 *
 * @param answer - of the reader
 * @param value - to be met
 * @param tolerance - largest distance that still counts, 0 or more
 * @returns true where it does
 */
export function agrees(answer: number, value: number, tolerance: number): boolean {
  return Math.abs(answer - value) <= tolerance * (1 + 1e-9);
}
