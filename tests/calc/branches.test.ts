import { afterEach, describe, expect, it, vi } from 'vitest';
import { loadUniver } from '../../src/calc/univer-node.ts';
import { book, calls, disposeAll } from './fixture.ts';

/** What a formula gives in B1 beside A1 to A5 (a number, a text, a blank, an error, a truth value), and the calls of our functions it took. */
async function workedOut(formula: string): Promise<{ value: unknown; calls: number }> {
  const before = calls.count;
  const { at } = await book({ S: { A1: 3, A2: 'pump', A4: '=1/0', A5: true, B1: formula } });
  return { value: at('B1'), calls: calls.count - before };
}
/** A call of a function of ours that no other formula of the file asks for, so that no answer of before is at hand. */
let unasked = 1000;
const call = (): string => `NARROWS.TEST.TWICE(${++unasked})`;

afterEach(() => {
  vi.restoreAllMocks();
  disposeAll();
});

describe('of a choice only what is taken is worked out', () => {
  it.each([
    ['=IF(TRUE,1,#)', 1],
    ['=IF(FALSE,#,2)', 2],
    ['=IF(A1>2,"yes",#)', 'yes'],
    ['=IF(A1,1,#)', 1],
    ['=IF(A3,#,2)', 2],
    ['=IF(A5,1,#)', 1],
    ['=IF(A1=3,IF(A1=2,#,"inner"),#)', 'inner'],
    ['=1+IF(FALSE,#,2)*3', 7],
    ['=IFERROR(5,#)', 5],
    ['=IFERROR(SUM(A1,2),#)', 5],
    ['=IFNA(5,#)', 5],
    // the engine gave the error of the branch that is not taken
    ['=IFNA("x",1/0)', 'x'],
    ['=LET(x,A1,IF(x>2,x*2,#))', 6],
    ['=IF({TRUE},1,#)', 1],
  ])('%s', async (formula, value) => {
    expect(await workedOut(formula.replaceAll('#', call))).toEqual({ value, calls: 0 });
  });

  it('nor is any branch behind a condition that failed', async () => {
    expect(await workedOut(`=IF(A4,${call()},${call()})`)).toEqual({ value: '#DIV/0!', calls: 0 });
  });

  it('what is taken is worked out, whatever was not before', async () => {
    const { calculator, put, at } = await book({
      S: { A1: 1, B1: `=IF(A1=1,10,${call()})`, B2: `=IFERROR(1/A1,${call()})` },
    });
    for (const [a1, b1, b2] of [
      [1, 10, 1],
      [0, 2 * (unasked - 1), 2 * unasked],
      [1, 10, 1],
    ]) {
      put('A1', a1 ?? null);
      await calculator.recalculate();
      expect([at('B1'), at('B2')]).toEqual([b1, b2]);
    }
  });

  it('conditions that are ranges ask for both', async () => {
    expect(await workedOut('=SUM(IF({1,0,1},10,{1,2,3}))')).toMatchObject({ value: 22 });
    expect(await workedOut('=SUM(IFERROR({1,2}/{1,0},7))')).toMatchObject({ value: 8 });
  });
});

describe('a function that asks for a place alone', () => {
  it.each([
    ['=ROWS(A1:A900)', 900],
    ['=COLUMNS(A1:T900)', 20],
    ['=ROWS(D5:D904)-ROW(D5:D904)', 895],
    ['=SUM(ROW(D1:D900))', 405450],
    ['=SUM(COLUMN(C1:E900))', 12],
    ['=ROWS(A:A)', 1000],
    ['=ROWS(NoSuch!A1:A3)', '#REF!'],
  ])('%s reads none of its cells', async (formula, value) => {
    const read = vi.spyOn(loadUniver().engine.BaseReferenceObject.prototype, 'getCellData');
    const { value: given } = await workedOut(formula);
    expect(given).toBe(value);
    expect(read.mock.calls.length).toBeLessThan(20);
  });
});
