import { afterEach, expect, test } from 'vitest';
import { circles } from '../../src/calc/cycles.ts';
import { book, disposeAll } from './fixture.ts';

afterEach(disposeAll);

test('two cells that wait for each other are both errors that name both cells', async () => {
  const { at, words } = await book({ Rigs: { A1: '=B1+1', B1: '=A1+1' } });
  expect([at('A1'), at('B1')]).toEqual(['#REF!', '#REF!']);
  expect(words('A1')).toContain('Rigs!A1');
  expect(words('A1')).toContain('Rigs!B1');
  expect(words('B1')).toMatch(/circular/i);
});

test('a cell that reads itself is an error, as are the cells that read it', async () => {
  const { at, words } = await book({ S: { A1: '=A1+1', C1: '=A1*2', D1: '=5' } });
  expect([at('A1'), at('C1'), at('D1')]).toEqual(['#REF!', '#REF!', 5]);
  expect(words('C1')).toContain('S!A1 holds #REF!');
  expect(words('C1')).toMatch(/circular/i);
});

test.each([
  [{ H1: '=H1+1', A1: '=H1+1', A2: '=SUM(H1)', A3: '=IF(H1>0,1,"no")', A4: '=A1*2' }, ['A1', 'A2', 'A3', 'A4', 'H1']],
  [{ A1: '=B1*2', A2: '=A1+1', B1: '=SUM(B1:B3)' }, ['A1', 'A2', 'B1']],
  [{ A1: '=A1+1', A2: '=A1+1', A3: '=A1>0', B1: '=A1&"x"' }, ['A1', 'A2', 'A3', 'B1']],
  [{ A1: '=B1', B1: '=OFFSET(B1,0,0)+1', C1: '=B1' }, ['A1', 'B1', 'C1']],
])('nothing that reads a cell that reads itself is a number, wherever it stands: %j', async (cells, wrong) => {
  const { at } = await book({ S: { ...cells, Z1: '=IFERROR(A1,9)' } });
  expect(wrong.map((address) => at(address))).toEqual(wrong.map(() => '#REF!'));
  expect(at('Z1')).toBe(9);
});

test('cells that read a cell which reads itself are errors wherever they stand', async () => {
  const readers = {
    ...{ A1: '=H1+1', A2: '=IFERROR(H1,9)', A3: '=SUM(H1)', A4: '=IF(H1,1,"no")', A5: '=A1*2' },
    ...{ J1: '=H1+1', J2: '=IFERROR(H1,9)', H2: '=-H1', G1: '=COUNT(H1,1)' },
  };
  const { at, put, words, calculator } = await book({ S: { ...readers, H1: '=H1+1', B1: '=SUM(B1:B3)', A6: '=B1*2' } });
  const seen = () => [...Object.keys(readers), 'H1'].map((address) => at(address));
  const circle = ['#REF!', 9, '#REF!', '#REF!', '#REF!', '#REF!', 9, '#REF!', 1, '#REF!'];
  expect(seen()).toEqual(circle);
  expect([at('B1'), at('A6')]).toEqual(['#REF!', '#REF!']);
  expect(words('A1')).toContain('S!H1 holds #REF!');
  put('H1', 4);
  await calculator.recalculate();
  expect(seen()).toEqual([5, 4, 4, 1, 10, 5, 4, -4, 2, 4]);
  put('H1', '=SUM(H1:H1)');
  await calculator.recalculate();
  expect(seen()).toEqual(circle);
});

test('a circle over a range, another sheet and a defined name is found', async () => {
  const { at, words } = await book(
    { One: { A1: '=SUM(Two!A1:A3)', C1: 1 }, Two: { A2: '=total*2' } },
    { total: 'One!$A$1' },
  );
  expect([at('A1'), at('A2', 'Two')]).toEqual(['#REF!', '#REF!']);
  expect(words('A1')).toContain('Two!A2');
});

test('a circle through the cells that a formula spills into is found', async () => {
  const { at } = await book({ S: { A1: '=SEQUENCE(3)+C1', C1: '=A3', D1: '=SUM(A1:A3)' } });
  expect([at('A1'), at('C1'), at('D1')]).toEqual(['#REF!', '#REF!', '#REF!']);
  expect(at('A2')).toBeNull();
});

test('a circle through the marked spilled range is found', async () => {
  const { at } = await book({ S: { A1: '=SEQUENCE(3)+C1', C1: '=SUM(A1#)' } });
  expect([at('A1'), at('C1')]).toEqual(['#REF!', '#REF!']);
});

test('breaking the circle brings the numbers back', async () => {
  const { at, put, words, calculator } = await book({ S: { A1: '=B1+1', B1: '=A1+1' } });
  put('B1', 4);
  await calculator.recalculate();
  expect([at('A1'), at('B1'), words('A1')]).toEqual([5, 4, '']);
});

test('a cell that asks for its own row or column is no circle', async () => {
  const { at } = await book({
    S: { A1: '=ROW(A1)', B3: '=ROW(B3)+COLUMN(B3)', C1: '=ROWS(C1:C4)', D4: '=ROW(D4)*A1' },
  });
  expect([at('A1'), at('B3'), at('C1'), at('D4')]).toEqual([1, 5, 4, 4]);
});

test('a chain of 10,000 cells is no circle and comes out', async () => {
  const cells: Record<string, string | number> = { A1: 1 };
  for (let row = 2; row <= 10_000; row++) cells[`A${row}`] = `=A${row - 1}+1`;
  const { at } = await book({ S: cells }, {}, 10_001);
  expect(at('A10000')).toBe(10_000);
});

test('a circle of 5,000 cells names its first cells and leaves the rest out', async () => {
  const cells: Record<string, string> = { A1: '=A5000' };
  for (let row = 2; row <= 5000; row++) cells[`A${row}`] = `=A${row - 1}+1`;
  const { at, words } = await book({ S: cells }, {}, 5001);
  expect([at('A1'), at('A2500')]).toEqual(['#REF!', '#REF!']);
  expect(words('A1').length).toBeLessThan(300);
});

test('circles of a graph: two apart, one of a single node, none in a tree', () => {
  const edges: Record<number, number[]> = { 1: [2], 2: [3], 3: [1, 4], 4: [5], 5: [5], 6: [7], 7: [] };
  const found = circles(Object.keys(edges).map(Number), (node) => edges[node] ?? []);
  expect(found.map((circle) => [...circle.members].sort())).toEqual([[5], [1, 2, 3]]);
  expect(found[1]?.walk).toEqual([1, 2, 3]);
});
