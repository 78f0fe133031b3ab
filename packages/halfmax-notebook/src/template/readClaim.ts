/** A claim of a data sheet, as a session holds it. */
export type Claim = Readonly<
  { value: number; tolerance?: number | readonly [number, number] } | { atLeast: number } | { atMost: number }
>;

const NUMBER = '(\\d+(?:\\.\\d+)?|\\.\\d+)';
const AT_LEAST = new RegExp(`^(?:at least|not below|min(?:imum)?\\.?|>=?|≥)${NUMBER}$`);
const AT_MOST = new RegExp(`^(?:at most|not above|max(?:imum)?\\.?|<=?|≤)${NUMBER}$`);
const EVEN = new RegExp(`^${NUMBER}(?:(?:\\+/?-|±)${NUMBER})?$`);
const UNEVEN = new RegExp(`^${NUMBER}(?:-${NUMBER}/?\\+${NUMBER}|\\+${NUMBER}/?-${NUMBER})$`);

/**
 * What a person types of a data sheet's number: `3`, `3 +/- 0.4`, `656.3 -0.3 +0.5`, `at least 0.9`, `at most 3`.
 *
 * @param answer - decimal point or comma, the unit may follow; a fraction also in per cent
 * @param kind - of the number: a length in nm, or a fraction from 0 to 1
 * @returns the claim, or null where it cannot be one
 * @example
 * readClaim('3 ± 0,4 nm', 'length'); // => { value: 3, tolerance: 0.4 }
 * readClaim('at least 88 %', 'fraction'); // => { atLeast: 0.88 }
 */
export function readClaim(answer: string, kind: 'length' | 'fraction'): Claim | null {
  const isPerCent = kind === 'fraction' && answer.includes('%');
  const unit = kind === 'length' ? /nm/gi : /%/g;
  const text = answer
    .toLowerCase()
    .replace(unit, '')
    .replace(/[−–]/g, '-')
    .replace(/,/g, '.')
    .trim()
    // Blanks beside a sign and between a word and a number go, those between numbers and between words stay.
    .replace(/\s*([-+/±<>=≤≥])\s*/g, '$1')
    .replace(/(?<=[a-z]\.?)\s+(?=[\d.])/g, '');
  const number = (digits: string): number => Number((Number(digits) / (isPerCent ? 100 : 1)).toPrecision(12));
  const claim = claimIn(text, number);
  return claim !== null && isPossible(claim, kind) ? claim : null;
}

function claimIn(text: string, number: (digits: string) => number): Claim | null {
  const least = AT_LEAST.exec(text);
  if (least !== null) return { atLeast: number(least[1]!) };
  const most = AT_MOST.exec(text);
  if (most !== null) return { atMost: number(most[1]!) };
  const even = EVEN.exec(text);
  if (even !== null) {
    const [, value, tolerance] = even;
    return {
      value: number(value!),
      ...(tolerance === undefined ? {} : { tolerance: number(tolerance) }),
    };
  }
  const uneven = UNEVEN.exec(text);
  if (uneven === null) return null;
  const [, value, minus, plus, plusFirst, minusLast] = uneven;
  return { value: number(value!), tolerance: [number((minus ?? minusLast)!), number((plus ?? plusFirst)!)] };
}

function isPossible(claim: Claim, kind: 'length' | 'fraction'): boolean {
  const limits = 'value' in claim ? [claim.value] : Object.values(claim);
  const tolerance = 'value' in claim ? claim.tolerance : undefined;
  const isWide = tolerance === undefined || Math.max(...[tolerance].flat()) > 0;
  return isWide && limits.every((limit) => (kind === 'length' ? limit > 0 : limit >= 0 && limit <= 1));
}
