import { afterEach, describe, expect, it, test } from 'vitest';
import { book, disposeAll } from './fixture.ts';

afterEach(disposeAll);

const table = (answer: unknown): unknown => (answer as { value?: unknown }).value;

test('TRUNC cuts digits off negative numbers as it does off others, in tables too', async () => {
  const { calculator } = await book({ S: { A1: -2.5, A2: 7.77, A3: -7.77, B1: 2, B2: 1, B3: 0 } });
  const answers = calculator.evaluate([
    '=TRUNC(A1:A3,2)',
    '=TRUNC(A1:A3,1)',
    '=TRUNC(A3,B1:B3)',
    '=TRUNC({-123.456,123.456},-1)',
    '=TRUNC("-2.59",1)',
    '=TRUNC(-0.4)',
    '=TRUNC(A1:A2/0,1)',
  ]);
  expect(answers.slice(0, 6).map(table)).toEqual([
    [[-2.5], [7.77], [-7.77]],
    [[-2.5], [7.7], [-7.7]],
    [[-7.77], [-7.7], [-7]],
    [[-120, 120]],
    -2.5,
    expect.closeTo(0, 12),
  ]);
  expect(answers[6]).toMatchObject({ error: '#DIV/0!' });
});

test('a time that is a rounding short of a minute is that minute', async () => {
  const { calculator } = await book({ S: { A1: 45_000.7, A2: 0.7, A3: 45_000 + 5 / 24 } });
  const parts = calculator.evaluate([
    '=HOUR(A1:A3)',
    '=MINUTE(A1:A3)',
    '=SECOND(A1:A3)',
    '=MINUTE(0.5+59.6/86400)',
    '=HOUR("6:45 PM")',
    '=MINUTE(0)',
    '=SECOND(-1)',
  ]);
  // 0.7 of a day is 16:48
  expect(parts.slice(0, 3).map(table)).toEqual([
    [[16], [16], [5]],
    [[48], [48], [0]],
    [[0], [0], [0]],
  ]);
  // 12:00:59.6 is shown as 12:01:00
  expect(parts.slice(3, 6).map(table)).toEqual([1, 18, 0]);
  expect(parts[6]).toMatchObject({ error: '#NUM!' });
});

test('numbers written as text are no part of a sample, and one number has no variance', async () => {
  const { calculator } = await book({ S: { A1: 1, A2: '10', A3: 3, A4: 'x', A5: 3, A6: 7, C1: 'a', C2: true, D1: 5 } });
  const value = (formula: string): unknown => {
    const [answer] = calculator.evaluate([formula]);
    return answer !== undefined && 'error' in answer ? answer.error : table(answer);
  };
  // of 1, 3, 3, 7: mean 3.5, sum of squares 19, product 63, sum of reciprocals 38/21
  expect(value('=DEVSQ(A1:A6)')).toBeCloseTo(19, 12);
  expect(value('=GEOMEAN(A1:A6)')).toBeCloseTo(63 ** 0.25, 12);
  expect(value('=HARMEAN(A1:A6)')).toBeCloseTo(4 / (38 / 21), 12);
  expect(value('=TRIMMEAN(A1:A6,0.1)')).toBeCloseTo(3.5, 12);
  expect(value('=NPV(0,A1:A6)')).toBeCloseTo(14, 12);
  // sum of cubes 27: skewness of a population 27/4 over (19/4)^1.5
  expect(value('=SKEW.P(A1:A6)')).toBeCloseTo(6.75 / 4.75 ** 1.5, 12);
  expect(value('=PERCENTRANK(A1:A6,3)')).toBeCloseTo(0.333, 12);
  for (const name of ['VAR', 'VAR.S', 'STDEV', 'STDEV.S']) {
    expect(value(`=${name}(C1:C2)`)).toBe('#DIV/0!');
    expect(value(`=${name}(D1:D9)`)).toBe('#DIV/0!');
    expect(value(`=${name}(D1,5)`)).toBe(0);
    expect(value(`=${name}({2,2,2})`)).toBe(0);
  }
  expect(value('=VAR(A1:A6)')).toBeCloseTo(19 / 3, 12);
  // nothing meets the condition
  expect([value('=MAXIFS(A1:A6,A1:A6,">99")'), value('=MINIFS(A1:A6,A1:A6,">99")+1')]).toEqual([0, 1]);
  expect(value('=MAXIFS(A1:A6,A1:A6,">2")')).toBe(7);
});

describe('text that reads as a number', () => {
  // B3 is a text that a formula gives; 45000 is the serial number of 2023-03-15
  const CELLS = {
    A1: '5',
    A2: '9',
    A3: '-5.25',
    A4: '1',
    A5: '0',
    A6: '100',
    A7: '45000.75',
    A8: 'five',
    A9: '50%',
    B3: '=LEFT("5a",1)',
  };

  it.each<[formula: string, expected: unknown]>([
    ['=ABS(A3)', 5.25],
    ['=ABS(B3)', 5],
    ['=ABS(LEFT("5a",1))', 5],
    ['=ABS(TEXT(5,"0.00"))', 5],
    ['=ABS("-3%")', 0.03],
    ['=ABS(A9)', 0.5],
    ['=MOD(A1,3)', 2],
    ['=MOD(12,A1)', 2],
    ['=MOD(12,B3)', 2],
    ['=ROUND(A3,0)', -5],
    ['=ROUND(1.23456,A1-3)', 1.23],
    ['=ROUND(1.23456,A4)', 1.2],
    ['=ROUNDUP(A3,1)', -5.3],
    ['=ROUNDDOWN(A3,A4)', -5.2],
    ['=A1^2', 25],
    ['=2^A1', 32],
    ['=POWER(A1,A4)', 5],
    ['=SQRT(A2)', 3],
    ['=EXP(A5)', 1],
    ['=LN(A4)', 0],
    ['=LOG10(A6)', 2],
    ['=SIN(A5)', 0],
    ['=COS(A5)', 1],
    ['=TAN(A5)', 0],
    ['=ATAN2(A4,A5)', 0],
    ['=YEAR(A7)', 2023],
    ['=MONTH(A7)', 3],
    ['=DAY(A7)', 15],
    ['=HOUR(A7)', 18],
    ['=SUMPRODUCT(ABS(A1:A3))', 19.25],
    ['=SUMPRODUCT(MOD(12,A1:A2))', 5],
    // what reads as no number stays an error, and sums of cells pass over text
    ['=ABS(A8)', '#VALUE!'],
    ['=ROUND(1.5,A8)', '#VALUE!'],
    ['=MOD(A8,2)', '#VALUE!'],
    ['=YEAR(A8)', '#VALUE!'],
    ['=SQRT("")', '#VALUE!'],
    ['=SUM(A1:A6)', 0],
    ['=SUMSQ(A1:A6)', 0],
    ['=COUNT(A1:A6)', 0],
    ['=MAX(A1:A6)', 0],
    ['=SUMPRODUCT(A1:A3,A1:A3)', 0],
  ])('%s gives %s', async (formula, expected) => {
    const { at } = await book({ S: { ...CELLS, J1: formula } });
    if (typeof expected === 'number') expect(at('J1')).toBeCloseTo(expected, 12);
    else expect(at('J1')).toBe(expected);
  });
});
