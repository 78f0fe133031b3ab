import { describe, expect, it } from 'vitest';
import { askOfFilter } from '../../packages/halfmax-notebook/src/template/askOfFilter.js';
import { readClaim, readPrice } from '../../packages/halfmax-notebook/src/template/index.js';

/** Answers by the first pattern that fits; keeps what was asked. */
function person(answers: readonly (readonly [RegExp, string])[]) {
  const asked: string[] = [];
  return {
    asked,
    ask: async (question: string): Promise<string> => {
      asked.push(question);
      return answers.find(([form]) => form.test(question))?.[1] ?? '';
    },
  };
}

describe('a number of a data sheet', () => {
  it.each([
    ['3', { value: 3 }],
    ['3 nm', { value: 3 }],
    ['3,5', { value: 3.5 }],
    ['3 +/- 0.4', { value: 3, tolerance: 0.4 }],
    ['3 +- 0.4 nm', { value: 3, tolerance: 0.4 }],
    ['656.3±0.3', { value: 656.3, tolerance: 0.3 }],
    ['656.3 -0.3 +0.5', { value: 656.3, tolerance: [0.3, 0.5] }],
    ['656.3 nm −0.3/+0.5 nm', { value: 656.3, tolerance: [0.3, 0.5] }],
    ['656.3 +0.5 -0.3', { value: 656.3, tolerance: [0.3, 0.5] }],
    ['3 -0 +0.5', { value: 3, tolerance: [0, 0.5] }],
    ['at most 3', { atMost: 3 }],
    ['At least 2.5 nm', { atLeast: 2.5 }],
    ['<= 3', { atMost: 3 }],
    ['≥ 2', { atLeast: 2 }],
    ['max. 3', { atMost: 3 }],
  ])('a length, %j', (answer, claim) => {
    expect(readClaim(answer, 'length')).toEqual(claim);
  });

  it.each([
    ['0.9', { value: 0.9 }],
    ['at least 88 %', { atLeast: 0.88 }],
    ['> 90%', { atLeast: 0.9 }],
    ['90 ± 5 %', { value: 0.9, tolerance: 0.05 }],
    ['1', { value: 1 }],
  ])('a fraction, %j', (answer, claim) => {
    expect(readClaim(answer, 'fraction')).toEqual(claim);
  });

  it.each([
    ['narrow', 'length'],
    ['0', 'length'],
    ['-3', 'length'],
    ['3 ± 0', 'length'],
    ['3 -0 +0', 'length'],
    ['3 4', 'length'],
    ['at most', 'length'],
    ['90', 'fraction'],
    ['at least 120 %', 'fraction'],
    ['at least 1e3', 'length'],
  ] as const)('refused: %j as a %s', (answer, kind) => {
    expect(readClaim(answer, kind)).toBeNull();
  });
});

describe('a price', () => {
  it.each([
    ['349 EUR', { amount: 349, currency: 'EUR' }],
    ['eur 349', { amount: 349, currency: 'EUR' }],
    ['349,50 €', { amount: 349.5, currency: '€' }],
    ['$219.00', { amount: 219, currency: '$' }],
    ['0 EUR', { amount: 0, currency: 'EUR' }],
  ])('%j', (answer, price) => {
    expect(readPrice(answer)).toEqual(price);
  });

  it.each(['349', 'EUR', '-3 EUR', '1.000,00 EUR', '3 EUR each'])('refused: %j', (answer) => {
    expect(readPrice(answer)).toBeNull();
  });
});

describe('what is asked of a filter', () => {
  it('leaves open what is left empty, and asks for no claims where there is no data sheet', async () => {
    const { ask, asked } = person([]);
    expect(await askOfFilter('x-ha', ['H-alpha'], ask)).toEqual({});
    expect(asked).toHaveLength(3);
  });

  it('asks for no centre where the lines lie in two bands', async () => {
    const { ask, asked } = person([
      [/data sheet/, 'y'],
      [/FWHM/, '7'],
    ]);
    expect(await askOfFilter('twin', ['[O III] 500.7', 'H-alpha'], ask)).toEqual({
      claims: { fwhmNm: { value: 7 } },
    });
    expect(asked.some((question) => /Centre/.test(question))).toBe(false);
    const pair = person([[/data sheet/, 'y']]);
    await askOfFilter('s2', ['[S II] 671.6', '[S II] 673.1'], pair.ask);
    expect(pair.asked.some((question) => /Centre/.test(question))).toBe(true);
  });

  it('asks three times after wrong answers, then leaves it open', async () => {
    const { ask, asked } = person([
      [/data sheet/, 'yes'],
      [/FWHM/, 'thin'],
      [/Blocking/, 'at least 4 from 630 to 400'],
      [/Price/, 'dear'],
    ]);
    expect(await askOfFilter('x-ha', ['H-alpha'], ask)).toEqual({});
    for (const form of [/FWHM/, /Blocking/, /Price/])
      expect(asked.filter((question) => form.test(question))).toHaveLength(3);
    expect(asked.filter((question) => question.startsWith('That cannot be. '))).toHaveLength(6);
  });

  it.each([
    ['at least 4 from 400 to 630', { atLeast: 4, fromNm: 400, toNm: 630 }],
    ['OD 3, 540-700 nm', { value: 3, fromNm: 540, toNm: 700 }],
  ])('takes a blocking of %j', async (answer, opticalDensity) => {
    const { ask } = person([
      [/data sheet/, 'yes'],
      [/Blocking/, answer],
    ]);
    expect(await askOfFilter('x-ha', null, ask)).toEqual({ claims: { opticalDensity } });
  });
});
