import { afterEach, expect, test } from 'vitest';
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
