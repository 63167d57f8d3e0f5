import { afterEach, expect, test } from 'vitest';
import { book, disposeAll } from './fixture.ts';

afterEach(disposeAll);

/** 1 2 2 2 5 5 9 down A, names of the rows in B, the same from the largest down D, and across row 10. */
const VALUES = [1, 2, 2, 2, 5, 5, 9];
const CELLS = Object.fromEntries(
  VALUES.flatMap((value, i) => [
    [`A${i + 1}`, value],
    [`B${i + 1}`, `r${i + 1}`],
    [`D${i + 1}`, VALUES[VALUES.length - 1 - i] ?? 0],
    [`${'ABCDEFG'.charAt(i)}10`, value],
  ]),
);

/** What every spreadsheet gives where a value comes more than once; from memory. */
const CASES: readonly (readonly [string, unknown])[] = [
  ['=MATCH(2,A1:A7,1)', 4],
  ['=MATCH(2,A1:A7)', 4],
  ['=MATCH(3,A1:A7,1)', 4],
  ['=MATCH(5,A10:G10)', 6],
  ['=MATCH(99,A1:A7,1)', 7],
  ['=MATCH(0,A1:A7,1)', '#N/A'],
  ['=MATCH(2,A1:A7,0)', 2],
  ['=MATCH(2,D1:D7,-1)', 6],
  ['=MATCH(3,D1:D7,-1)', 3],
  ['=MATCH(2,{1;2;2;3},1)', 3],
  ['=SUM(MATCH({2,5},A1:A7,1))', 10],
  ['=MATCH("B",{"a";"b";"B";"c"})', 3],
  ['=XMATCH(2,A1:A7)', 2],
  ['=XMATCH(2,A1:A7,0,-1)', 4],
  ['=XMATCH(3,A1:A7,-1)', 2],
  ['=XMATCH(3,A1:A7,-1,-1)', 4],
  ['=XMATCH(4,A1:A7,1)', 5],
  ['=XMATCH(4,A10:G10,1,-1)', 6],
  ['=XLOOKUP(3,A1:A7,B1:B7,,-1)', 'r2'],
  ['=XLOOKUP(4,A1:A7,B1:B7,,1)', 'r5'],
  ['=XLOOKUP(3,A1:A7,B1:B7,,-1,-1)', 'r4'],
  ['=XLOOKUP(0,A1:A7,B1:B7,"none",-1)', 'none'],
  ['=VLOOKUP(2,A1:B7,2)', 'r4'],
  ['=VLOOKUP(2,A1:B7,2,FALSE)', 'r2'],
  ['=LOOKUP(5,A1:A7,B1:B7)', 'r6'],
];

test('a value that comes more than once is found where every spreadsheet finds it', async () => {
  const { calculator } = await book({ S: CELLS });
  const answers = calculator.evaluate(CASES.map(([formula]) => formula));
  const shown = answers.map((answer) => ('error' in answer ? answer.error : answer.value));
  expect(CASES.map(([formula], i) => [formula, shown[i]])).toEqual(CASES);
});
