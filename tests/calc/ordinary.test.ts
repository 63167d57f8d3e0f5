import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Answer } from '../../src/calc/evaluate.ts';
import { book, type Content, disposeAll } from './fixture.ts';

/** A table as people keep them: text in two cases, a blank, a number that is text. */
const TABLE: readonly (readonly Content[])[] = [
  ['Name', 'Qty', 'Price', 'Date', 'Flag'],
  ['apple', 3, 1.5, 45_000, true],
  ['pear', 5, 0.75, 45_010, false],
  ['fig', null, 2, 45_020, true],
  ['apple', 2, 4, 45_030, false],
  ['Kiwi', -1, 'n/a', 45_040, true],
];
const CELLS = Object.fromEntries(
  TABLE.flatMap((row, r) => row.map((value, c) => [`${String.fromCharCode(65 + c)}${r + 1}`, value] as const)),
);

/** Formulas on that table with what every spreadsheet gives for them; from memory. */
const CASES = readFileSync(new URL('./ordinary.tsv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .map((line) => {
    const [formula = '', value = ''] = line.split('\t');
    return { formula, wanted: JSON.parse(value) as string | number | boolean };
  });

/** The first cell of an answer, an error as its code. */
function firstOf(answer: Answer | undefined): unknown {
  if (answer === undefined) return undefined;
  if ('error' in answer) return answer.error;
  const { value } = answer;
  return Array.isArray(value) ? value[0]?.[0] : value;
}

const near = (wanted: unknown): unknown =>
  typeof wanted === 'number'
    ? expect.closeTo(wanted, Math.max(0, 9 - Math.ceil(Math.log10(Math.abs(wanted) + 1))))
    : wanted;

describe('ordinary formulas', () => {
  let first: readonly Answer[] = [];
  let backwards: readonly Answer[] = [];
  beforeAll(async () => {
    const { calculator } = await book({ S: CELLS });
    first = calculator.evaluate(CASES.map(({ formula }) => formula));
    backwards = calculator.evaluate(CASES.map(({ formula }) => formula).reverse());
  });
  afterAll(disposeAll);

  it.each(CASES.map(({ formula, wanted }, at) => ({ formula, wanted, at })))(
    'give what every spreadsheet gives, whatever was worked out before: $formula',
    ({ wanted, at }) => {
      expect(firstOf(first[at])).toEqual(near(wanted));
      expect(firstOf(backwards[CASES.length - 1 - at])).toEqual(near(wanted));
    },
  );
});
