import { afterEach, expect, test } from 'vitest';
import { closeEditors, editor } from './editor.ts';

afterEach(closeEditors);

test('what depends on an edited cell follows it, and words of errors come and go', async () => {
  const { type, at, words } = await editor({ A1: 2, B1: '=NARROWS.TEST.TWICE(A1)', C1: '=B1+1' });
  expect([at('B1'), at('C1')]).toEqual([4, 5]);
  await type({ A1: 'two' });
  expect([at('B1'), at('C1')]).toEqual(['#VALUE!', '#VALUE!']);
  expect(words('B1')).toBe('Value is no number.');
  expect(words('C1')).toBe('S!B1 holds #VALUE!: Value is no number.');
  await type({ A1: 3 });
  expect([at('B1'), at('C1'), words('B1')]).toEqual([6, 7, '']);
});

test('a circle that is typed in is an error in all its cells, and breaking it brings the numbers back', async () => {
  const { type, at, words, formula } = await editor({ A1: '=B1+1', B1: 5, D1: '=A1*2' });
  expect([at('A1'), at('D1')]).toEqual([6, 12]);
  await type({ B1: '=A1+1' });
  expect([at('A1'), at('B1'), at('D1')]).toEqual(['#REF!', '#REF!', '#REF!']);
  expect(words('A1')).toContain('S!B1');
  expect(formula('B1')).toBe('=A1+1');
  await type({ B1: 7 });
  expect([at('A1'), at('B1'), at('D1')]).toEqual([8, 7, 16]);
});

test('a cell that is typed in to read itself hands its error on, and so it does to formulas typed in later', async () => {
  const { type, at } = await editor({ A1: '=H1+1', H1: 5, J1: '=SUM(H1:H2)', J2: '=J1*2' });
  expect([at('A1'), at('J1'), at('J2')]).toEqual([6, 5, 10]);
  await type({ H1: '=H1+1' });
  expect([at('H1'), at('A1'), at('J1'), at('J2')]).toEqual(['#REF!', '#REF!', '#REF!', '#REF!']);
  await type({ B1: '=IFERROR(H1,9)' });
  expect([at('H1'), at('B1')]).toEqual(['#REF!', 9]);
  await type({ H1: 7 });
  expect([at('A1'), at('B1'), at('J1'), at('J2')]).toEqual([8, 7, 7, 14]);
});

test('a circle typed in through the cells of a spill is found', async () => {
  const { type, at } = await editor({ A1: '=SEQUENCE(3)+D1', D1: 1 });
  expect([at('A1'), at('A3')]).toEqual([2, 4]);
  await type({ D1: '=A3' });
  expect([at('A1'), at('D1'), at('A3')]).toEqual(['#REF!', '#REF!', null]);
  await type({ D1: 2 });
  expect([at('A1'), at('A3'), at('D1')]).toEqual([3, 5, 2]);
});

test('a marked spilled range follows its formula, and the cell keeps what was typed', async () => {
  const { type, at, formula, words } = await editor({ A1: 3, C1: '=SEQUENCE(A1)', E1: '=SUM(C1#)', F1: '=C1#' });
  expect([at('E1'), at('F3'), at('F4')]).toEqual([6, 3, null]);
  await type({ A1: 4 });
  expect([at('E1'), at('F4')]).toEqual([10, 4]);
  await type({ A1: 2 });
  expect([at('E1'), at('F2'), at('F3')]).toEqual([3, 2, null]);
  await type({ C1: 9 });
  expect([at('E1'), at('F1')]).toEqual(['#REF!', '#REF!']);
  expect(words('E1')).toContain('S!C1');
  await type({ C1: '=SEQUENCE(5)' });
  expect([at('E1'), at('F5')]).toEqual([15, 5]);
  expect([formula('E1'), formula('F1')]).toEqual(['=SUM(C1#)', '=C1#']);
});

test('look-ups into a spilled table follow it when it changes and when it shrinks', async () => {
  const { type, at } = await editor(
    {
      A1: 1,
      A2: 300,
      C1: '=NARROWS.TEST.GRID(A2,3,A1)',
      G1: '=MATCH(250*A1,C1:C400,0)',
      G2: '=VLOOKUP(250*A1,C1:E400,3,FALSE)',
      G3: '=XLOOKUP(250*A1,C1:C400,D1:D400,"none")',
      G4: '=COUNTIF(C1:C400,">=0")',
      G5: '=SUM(C1:C400)',
    },
    500,
  );
  expect([at('G1'), at('G2'), at('G3'), at('G4'), at('G5')]).toEqual([251, 250.02, 250.01, 300, 44850]);
  await type({ A1: 2 });
  expect([at('G1'), at('G2'), at('G3'), at('G4'), at('G5')]).toEqual([251, 500.04, 500.02, 300, 89700]);
  await type({ A2: 100 });
  expect([at('G1'), at('G3'), at('G4'), at('G5')]).toEqual(['#N/A', 'none', 100, 9900]);
});

test('a spill that becomes a single value leaves nothing behind', async () => {
  const { type, at } = await editor({ A1: 1, C1: '=IF(A1=1,SEQUENCE(4),7)', E1: '=SUM(C1:C9)' });
  expect(at('E1')).toBe(10);
  await type({ A1: 0 });
  expect([at('C1'), at('C2'), at('E1')]).toEqual([7, null, 7]);
  await type({ A1: 1 });
  expect([at('C1'), at('C4'), at('E1')]).toEqual([1, 4, 10]);
});

test('text in the way of a spill is an error in words until it is cleared', async () => {
  const { type, at, words } = await editor({ A1: '=SEQUENCE(3)', C1: '=SUM(A1:A3)' });
  expect(at('C1')).toBe(6);
  await type({ A2: 'in the way' });
  expect([at('A1'), at('A2'), at('A3')]).toEqual(['#SPILL!', 'in the way', null]);
  expect(words('A1')).toContain('3 × 1');
  await type({ A2: null });
  expect([at('A1'), at('A3'), at('C1')]).toEqual([1, 3, 6]);
});

test('a chain of spills follows an edit at its start', async () => {
  const { type, at } = await editor({ A1: 3, G1: '=SEQUENCE(A1)', E1: '=G2:G3+1', C1: '=E1#*10', B1: '=SUM(C1:C9)' });
  expect([at('E1'), at('C2'), at('B1')]).toEqual([3, 40, 70]);
  await type({ A1: 2 });
  // G3 is blank now: E = 3, 1
  expect([at('E1'), at('E2'), at('C2'), at('B1')]).toEqual([3, 1, 10, 40]);
});

test('of two spills that would cross one has no room, until the other is shorter or gone', async () => {
  const { type, at, words } = await editor({
    E1: 2,
    F1: 2,
    A3: '=SEQUENCE(1,E1,40)',
    B1: '=SEQUENCE(F1,1,7)',
    D5: '=SUM(A1:C4)',
  });
  expect([at('A3'), at('B3'), at('B1'), at('B2'), at('D5')]).toEqual([40, 41, 7, 8, 96]);
  // B3 is taken
  await type({ F1: 4 });
  expect([at('A3'), at('B3'), at('B1'), at('B2'), at('B4')]).toEqual([40, 41, '#SPILL!', null, null]);
  expect(words('B1')).toContain('4 × 1');
  expect(at('D5')).toBe('#SPILL!');
  // free again
  await type({ E1: 1 });
  expect([at('A3'), at('B1'), at('B2'), at('B3'), at('B4'), at('D5')]).toEqual([40, 7, 8, 9, 10, 74]);
  // now the other one has no room
  await type({ E1: 3 });
  expect([at('A3'), at('B3'), at('B4'), at('C3')]).toEqual(['#SPILL!', 9, 10, null]);
  await type({ B1: null });
  expect([at('A3'), at('B3'), at('C3'), at('B1'), at('B2'), at('B4'), at('D5')]).toEqual([
    40,
    41,
    42,
    null,
    null,
    null,
    123,
  ]);
  await type({ B1: '=SEQUENCE(F1,1,7)' });
  expect([at('A3'), at('B3'), at('C3'), at('B1')]).toEqual([40, 41, 42, '#SPILL!']);
});

test('formulas in the way of a spill follow their inputs, and what is empty in its way stays empty', async () => {
  const { type, at } = await editor({
    ...{ B1: 1, A1: '=SEQUENCE(4)+B1', A3: '=B1+1', E3: '=B1*2', E1: '=SEQUENCE(5,2)+B1' },
    ...{ G1: '=A3+E3', G2: '=COUNTBLANK(A2:A4)', G3: '=ISBLANK(E2)' },
  });
  const shown = () => ['A1', 'A2', 'A3', 'A4', 'E1', 'E3', 'F4', 'G1', 'G2', 'G3'].map((cell) => at(cell));
  expect(shown()).toEqual(['#SPILL!', null, 2, null, '#SPILL!', 2, null, 4, 2, true]);
  await type({ B1: 5 });
  expect(shown()).toEqual(['#SPILL!', null, 6, null, '#SPILL!', 10, null, 16, 2, true]);
  await type({ B1: 7 });
  expect(shown()).toEqual(['#SPILL!', null, 8, null, '#SPILL!', 14, null, 22, 2, true]);
});
