import { afterEach, expect, test } from 'vitest';
import { closeEditors, editor } from './editor.ts';

afterEach(closeEditors);

const NUMBERS = { A1: 1, A2: 2, A3: 3, A4: 4 };
const SUMS = { C1: '=SUM(Nums)', C2: '=SUM(A1:A4)', C3: '=SUM(nums)', C4: '=COUNT(Twice)' };
const NAMES = { Nums: 'S!$A$1:$A$4', Twice: 'Nums*2' };
const rowAt = (row: number) => ({ range: { startRow: row, endRow: row, startColumn: 0, endColumn: 20 } });

test('a sum over a name takes in the row that is put into the range, and what is typed there', async () => {
  const { change, type, at } = await editor({ ...NUMBERS, E1: '=SUM(Nums)' }, 100, NAMES);
  await type(SUMS);
  expect(['C1', 'C2', 'C3', 'C4'].map(at)).toEqual([10, 10, 10, 4]);
  await change('sheet.command.insert-row-by-range', { ...rowAt(2), direction: 0 });
  await type({ A3: 100 });
  // the sums in rows 3 and 4 have gone down a row
  expect(['C1', 'C2', 'C4', 'C5', 'E1'].map(at)).toEqual([110, 110, 110, 5, 110]);
  // the last row is in it too, and so it is for a formula that is typed only now
  await type({ A5: 1000, D1: '=SUM(Nums)' });
  expect(['C1', 'C2', 'C4', 'D1', 'E1'].map(at)).toEqual([1106, 1106, 1106, 1106, 1106]);
});

test('a sum over a name follows rows that are taken out', async () => {
  const { change, at } = await editor({ ...NUMBERS, C1: '=SUM(Nums)', D1: '=ROWS(Nums)' }, 100, NAMES);
  await change('sheet.command.remove-row-by-range', rowAt(2));
  expect([at('C1'), at('D1')]).toEqual([7, 3]);
});

test('a formula follows a name that is given another range, taken away and given back', async () => {
  const { change, at } = await editor({ ...NUMBERS, C1: '=SUM(Nums)', C2: '=SUM(Twice)' }, 100, NAMES);
  expect([at('C1'), at('C2')]).toEqual([10, 20]);
  const name = { id: 'Nums', name: 'Nums', localSheetId: 'AllDefaultWorkbook' };
  await change('formula.mutation.set-defined-name', { ...name, formulaOrRefString: 'S!$A$1:$A$2' });
  expect([at('C1'), at('C2')]).toEqual([3, 6]);
  await change('formula.mutation.remove-defined-name', { ...name, formulaOrRefString: 'S!$A$1:$A$2' });
  expect([at('C1'), at('C2')]).toEqual(['#NAME?', '#NAME?']);
  await change('formula.mutation.set-defined-name', { ...name, formulaOrRefString: 'S!$A$2:$A$4' });
  expect([at('C1'), at('C2')]).toEqual([9, 18]);
});
