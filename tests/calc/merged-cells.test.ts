import { afterEach, expect, test } from 'vitest';
import { closeEditors, editor } from './editor.ts';
import { disposeAll, newCalculator, workbook } from './fixture.ts';

afterEach(() => {
  closeEditors();
  disposeAll();
});

/** B5:C6, inside of what a result of 3 × 2 in B4 fills. */
const MERGED = { startRow: 4, endRow: 5, startColumn: 1, endColumn: 2 };
const MERGE = 'sheet.mutation.add-worksheet-merge';
const UNMERGE = 'sheet.mutation.remove-worksheet-merge';

test('a result has no room where cells are merged, says so, and comes back when they are taken apart', async () => {
  const { change, at, words } = await editor({ B4: '=SEQUENCE(3,2)', E4: '=SUM(B4:C6)', E5: '=B6' });
  const shown = () => ['B4', 'C4', 'B5', 'C6', 'E5'].map((cell) => at(cell));
  expect([...shown(), at('E4')]).toEqual([1, 2, 3, 6, 5, 21]);
  await change(MERGE, { ranges: [MERGED] });
  expect(shown()).toEqual(['#SPILL!', null, null, null, 0]);
  expect(at('E4')).toBe('#SPILL!');
  expect(words('B4')).toMatch(/3 × 2.*merged/);
  await change(UNMERGE, { ranges: [MERGED] });
  expect([...shown(), at('E4'), words('B4')]).toEqual([1, 2, 3, 6, 5, 21, '']);
});

test('a merge that only touches what a result fills, or has its formula in it, is in its way; one beside it is not', async () => {
  const { change, at } = await editor({ B4: '=SEQUENCE(3,2)', B9: '=SEQUENCE(2)' });
  await change(MERGE, { ranges: [{ startRow: 8, endRow: 8, startColumn: 1, endColumn: 2 }] });
  expect([at('B9'), at('B10'), at('C6')]).toEqual(['#SPILL!', null, 6]);
  await change(MERGE, { ranges: [{ startRow: 5, endRow: 6, startColumn: 2, endColumn: 3 }] });
  expect([at('B4'), at('C6')]).toEqual(['#SPILL!', null]);
});

test('a single result stands in merged cells as it did', async () => {
  const { change, type, at } = await editor({ B5: '=6*7', A1: 1 });
  await change(MERGE, { ranges: [MERGED] });
  await type({ B5: '=6*7+0' });
  expect(at('B5')).toBe(42);
});

test('a file with merged cells inside of a result shows that it has no room', async () => {
  const data = workbook({ S: { B4: '=SEQUENCE(3,2)' } });
  const sheet = data.sheets['id-S'];
  const calculator = newCalculator();
  calculator.load({ ...data, sheets: { 'id-S': { ...sheet, mergeData: [MERGED] } } });
  calculator.put('S', 3, 1, '=SEQUENCE(3,2)');
  await calculator.recalculate();
  expect(calculator.value('S', 3, 1)).toEqual({ error: '#SPILL!' });
  expect(calculator.value('S', 4, 1)).toBe(null);
  expect(calculator.faults()[0]?.message).toMatch(/merged/);
});
