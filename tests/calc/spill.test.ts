import { afterEach, expect, test } from 'vitest';
import { installLookupIndex } from '../../src/calc/lookup-index.ts';
import { loadUniver } from '../../src/calc/univer-node.ts';
import { book, calls, disposeAll } from './fixture.ts';

afterEach(disposeAll);

test('a table of 10,000 × 12 is on the sheet, with one step of work for each cell', async () => {
  const work = installLookupIndex(loadUniver());
  const before = { ...work };
  const { at, calculator } = await book({ S: { A1: '=NARROWS.TEST.GRID(10000,12)' } }, {}, 10_100);
  expect([at('A1'), at('B2'), at('L10000')]).toEqual([0, 1.01, 9999.11]);
  expect(calculator.spills().map(({ range }) => range)).toEqual([
    { startRow: 0, startColumn: 0, endRow: 9999, endColumn: 11 },
  ]);
  expect(work.set - before.set).toBeLessThanOrEqual(2 * 120_000);
  expect(work.steps - before.steps).toBeLessThanOrEqual(120_000);
});

test('look-ups into a spilled column are right, also after it has changed', async () => {
  const { at, put, calculator } = await book(
    {
      S: {
        A1: 1,
        C1: '=NARROWS.TEST.GRID(2000,3,A1)',
        G1: '=MATCH(1500*A1,C1:C2000,0)',
        G2: '=VLOOKUP(1500*A1,C1:E2000,3,FALSE)',
        G3: '=XLOOKUP(1500*A1,C1:C2000,D1:D2000)',
        G4: '=COUNTIF(C1:C2000,1500)',
        G5: '=COUNTIF(C1:C2000,">=1990")',
        G6: '=SUMIF(C1:C2000,3,E1:E2000)',
        G7: '=COUNTIF(C1:C2000,0)',
        G8: '=SUM(C1:C2000)',
      },
    },
    {},
    2100,
  );
  expect([at('G1'), at('G2'), at('G3'), at('G4'), at('G5')]).toEqual([1501, 1500.02, 1500.01, 1, 10]);
  expect([at('G6'), at('G7'), at('G8')]).toEqual([3.02, 1, 1999000]);
  put('A1', 2);
  await calculator.recalculate();
  expect([at('G1'), at('G2'), at('G3'), at('G4'), at('G5')]).toEqual([1501, 3000.04, 3000.02, 1, 1005]);
  // no row holds 3 once all are doubled
  expect([at('G6'), at('G7'), at('G8')]).toEqual([0, 1, 3998000]);
});

test('a formula before the spill in the sheet reads the cells that the spill fills', async () => {
  const { at } = await book({ S: { A1: '=SUM(C2:C4)', C1: '=SEQUENCE(5,1,10)' } });
  expect(at('A1')).toBe(11 + 12 + 13);
});

test('spills that read the inside of other spills come out whatever their order on the sheet', async () => {
  const { at } = await book({
    S: {
      A1: '=SUM(C1:C9)',
      C1: '=E2:E5*10',
      E1: '=G3:G7+1',
      G1: '=SEQUENCE(7)',
      I1: '=SUM(A1)+1',
    },
  });
  // G = 1..7, E = 4..8, C = 50..80, A1 = 50 + 60 + 70 + 80
  expect([at('E1'), at('E5'), at('C1'), at('C4'), at('A1'), at('I1')]).toEqual([4, 8, 50, 80, 260, 261]);
});

test('a spill that gets shorter leaves nothing behind', async () => {
  const { at, put, calculator } = await book({
    S: { A1: 5, C1: '=SEQUENCE(A1)', E1: '=SUM(C1:C10)', F1: '=COUNT(C1:C10)' },
  });
  expect([at('E1'), at('F1')]).toEqual([15, 5]);
  put('A1', 2);
  await calculator.recalculate();
  expect([at('E1'), at('F1'), at('C3')]).toEqual([3, 2, null]);
});

test('a spill without room says how much it needs', async () => {
  const { at, words } = await book({ S: { A1: '=SEQUENCE(3,2)', A2: 'occupied', D1: '=SUM(A1#)' } });
  expect(at('A1')).toBe('#SPILL!');
  expect(words('A1')).toContain('3 × 2');
  expect(at('D1')).toBe('#REF!');
  expect(words('D1')).toContain('S!A1');
});

test('a spilled range is named by its first cell: whole, in sums, from other sheets, and as the range changes', async () => {
  const { at, put, calculator } = await book({
    S: {
      A1: 3,
      C1: '=SEQUENCE(A1)',
      E1: '=SUM(C1#)',
      F1: '=C1#*2',
      H1: '=ROWS(C1#)',
      I1: '=SUM(C1#,1)',
      J1: '=INDEX(C1#,2)',
    },
    Other: { A1: '=SUM(S!C1#)', B1: '=S!C1#' },
  });
  expect([at('E1'), at('F1'), at('F3'), at('H1'), at('I1'), at('J1')]).toEqual([6, 2, 6, 3, 7, 2]);
  expect([at('A1', 'Other'), at('B3', 'Other')]).toEqual([6, 3]);
  put('A1', 4);
  await calculator.recalculate();
  expect([at('E1'), at('F4'), at('H1'), at('A1', 'Other')]).toEqual([10, 8, 4, 10]);
});

test('the mark behind a cell that holds no formula is refused in words that name the cell', async () => {
  const { at, words } = await book({ Parts: { A1: 7, C1: '=SUM(A1#)', D1: '=A1#', E1: '=SUM(B9#)' } });
  expect([at('C1'), at('D1'), at('E1')]).toEqual(['#REF!', '#REF!', '#REF!']);
  expect(words('C1')).toContain('Parts!A1');
  expect(words('D1')).toContain('Parts!A1');
});

test('the mark behind a formula with a single value gives that value', async () => {
  const { at } = await book({ S: { A1: '=6*7', B1: '=A1#', C1: '=SUM(A1#)' } });
  expect([at('B1'), at('C1')]).toEqual([42, 42]);
});

test('a function that spills runs once for each calculation', async () => {
  const before = calls.count;
  const { at } = await book({ S: { A1: '=NARROWS.TEST.GRID(4,2)', D1: '=SUM(A1:B4)', E1: '=NARROWS.TEST.TWICE(3)' } });
  expect(at('E1')).toBe(6);
  expect(calls.count - before).toBe(2);
});

test('formulas in the way of a spill are in its way before they have a value, too', async () => {
  const { at, put, calculator } = await book({
    S: { A1: '=SEQUENCE(4)', A3: '=B1+1', B1: 5, C1: '=SEQUENCE(1,3)', E1: '=A3*2', D3: '=SEQUENCE(2,2)', E4: '=7' },
  });
  const shown = () => ['A1', 'A2', 'A3', 'A4', 'C1', 'D1', 'E1', 'D3', 'E3', 'E4'].map((cell) => at(cell));
  expect(shown()).toEqual(['#SPILL!', null, 6, null, '#SPILL!', null, 12, '#SPILL!', null, 7]);
  await calculator.recalculate();
  expect(shown()).toEqual(['#SPILL!', null, 6, null, '#SPILL!', null, 12, '#SPILL!', null, 7]);
  put('A3', null);
  put('E1', null);
  put('E4', null);
  await calculator.recalculate();
  expect(shown()).toEqual([1, 2, 3, 4, 1, 2, 3, 1, 2, 4]);
});

test('of two results that would cross, one spills and the other says so, the same each time', async () => {
  const { at, words, put, calculator } = await book({
    S: { A2: '=SEQUENCE(2,3)', B1: '=SEQUENCE(3,1,7)', E1: '=SEQUENCE(2)' },
  });
  const shown = () => ['A2', 'B2', 'C3', 'B1', 'E2'].map((cell) => at(cell));
  const first = ['#SPILL!', 8, null, 7, 2];
  expect(shown()).toEqual(first);
  expect(words('A2')).toContain('2 × 3');
  await calculator.recalculate();
  expect(shown()).toEqual(first);
  put('B1', null);
  await calculator.recalculate();
  expect(shown()).toEqual([1, 2, 6, null, 2]);
  // it may change within what is its own
  put('A2', '=SEQUENCE(2,2,40)');
  await calculator.recalculate();
  expect([at('A2'), at('B3'), at('C3')]).toEqual([40, 43, null]);
});

test('a spill mark on another sheet gives a reference to that sheet, whatever function asks for it', async () => {
  const cells = {
    // the cells of the same addresses on the sheet of the formulas
    ...{ M1: 111, M2: 222 },
    A1: "=INDEX('The rig'!M1#,1)",
    A2: "=SUM(OFFSET('The rig'!M1#,0,0))",
    A3: "=SUM(CHOOSE(1,'The rig'!M1#))",
    A4: "=LET(x,'The rig'!M1#,INDEX(x,2))",
    A5: "=COUNTIF(INDEX('The rig'!M1#,0,1),4)",
    A6: '=INDEX(filled,2)',
    A7: "=OFFSET('The rig'!M1#,1,0,1,1)",
    A8: "=ROWS('The rig'!M1#)",
    A9: "=SUM(IF(TRUE,'The rig'!M1#))",
    A10: '=INDEX(M1#,1)',
  };
  const { at, put, calculator } = await book(
    { T: cells, 'The rig': { M1: '=SEQUENCE(2,1,2,2)', A10: '=SUM(INDEX(M1#,0,1))' } },
    { filled: "'The rig'!$M$1#" },
  );
  const seen = () => ['A1', 'A2', 'A3', 'A4', 'A5', 'A6', 'A7', 'A8', 'A9'].map((address) => at(address));
  expect(seen()).toEqual([2, 6, 6, 4, 1, 4, 4, 2, 6]);
  // a mark behind a cell of the formula's own sheet goes on meaning that sheet
  expect([at('A10'), at('A10', 'The rig')]).toEqual(['#REF!', 6]);
  put('M1', '=SEQUENCE(3,1,4,10)', 'The rig');
  await calculator.recalculate();
  expect(seen()).toEqual([4, 42, 42, 14, 1, 14, 14, 3, 42]);
});
