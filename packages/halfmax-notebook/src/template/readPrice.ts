/** A price as a session holds it. */
export interface Price {
  readonly amount: number;
  readonly currency: string;
}

const NUMBER = String.raw`(\d+(?:[.,]\d{1,2})?)`;
const CURRENCY = String.raw`(\p{Sc}|\p{L}{1,12}\.?)`;
const FORMS = [
  { form: new RegExp(`^${NUMBER}\\s*${CURRENCY}$`, 'u'), amount: 1, currency: 2 },
  { form: new RegExp(`^${CURRENCY}\\s*${NUMBER}$`, 'u'), amount: 2, currency: 1 },
];

/**
 * A price with its currency.
 *
 * @param answer - such as `349 EUR`, `EUR 349` or `349,50 €`, without marks between thousands
 * @returns amount and currency, codes of three letters in capitals; null where one of the two is missing
 * @example
 * readPrice('349,50 eur'); // => { amount: 349.5, currency: 'EUR' }
 */
export function readPrice(answer: string): Price | null {
  for (const { form, amount, currency } of FORMS) {
    const found = form.exec(answer.trim());
    if (found === null) continue;
    const word = found[currency]!;
    return {
      amount: Number(found[amount]!.replace(',', '.')),
      currency: /^[a-z]{3}$/i.test(word) ? word.toUpperCase() : word,
    };
  }
  return null;
}
