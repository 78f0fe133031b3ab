import { type DecisionRule, defaultRule } from '../verdict/index.js';
import type { DecisionReport } from './measurement.js';

/**
 * The rule of a session's verdicts, in numbers and in words.
 *
 * @param stated - by the session; null takes the default rule
 * @returns the rule, whether the session states it, and what it says
 * @example
 * decisionReport({ kind: 'simple' }).stated; // => true
 */
export function decisionReport(stated: DecisionRule | null): DecisionReport {
  const rule = stated ?? defaultRule;
  return { rule, stated: stated !== null, words: wordsOf(rule) };
}

function wordsOf(rule: DecisionRule): string {
  switch (rule.kind) {
    case 'probability': {
      const level = `${Number((100 * rule.probability).toPrecision(6))} %`;
      return (
        `met where the chance of the true value lying within the tolerance reaches ${level}, ` +
        `not met where the chance of it lying beyond one limit does, undecided otherwise`
      );
    }
    case 'simple':
      return (
        'met where the measured number lies within the tolerance, not met otherwise: close to a limit the chance ' +
        'of a wrong verdict comes near 50 %'
      );
    case 'guarded': {
      const width = Number((rule.multiple * rule.coverageFactor).toPrecision(6));
      return (
        `met where the measured number lies inside the tolerance by ${width} standard uncertainties or more, ` +
        'not met where it lies outside by more, undecided between'
      );
    }
  }
}
