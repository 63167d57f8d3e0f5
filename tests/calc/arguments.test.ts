import { afterEach, expect, test } from 'vitest';
import { isTable } from '../../src/calc/evaluate.ts';
import { book, disposeAll, type Sheets } from './fixture.ts';

afterEach(disposeAll);

const sheets: Sheets = {
  Conditions: { A1: 'Gas', B1: 'Nitrogen', A2: 'Start', B2: 1.5, B3: true, B4: '=1/0', C1: '=NARROWS.TEST.SAW(A1:B2)' },
  'Pipe runs': { A1: 'Bore', A2: 8 },
};

async function saw(args: string): Promise<unknown> {
  const { calculator } = await book(sheets, { gas: 'Conditions!$A$1:$B$1', bore: "'Pipe runs'!$A$2" });
  const [answer] = calculator.evaluate([`=NARROWS.TEST.SAW(${args})`]);
  if (!answer || 'error' in answer || isTable(answer.value)) throw new Error(JSON.stringify(answer));
  return JSON.parse(String(answer.value));
}

test('numbers, text and truth values arrive as they are', async () => {
  expect(await saw('1.5,"3/8 in",TRUE,-2')).toEqual([1.5, '3/8 in', true, -2]);
});

test('an omitted argument and a blank cell arrive as nothing, empty text as empty text', async () => {
  expect(await saw('1,,Z50,""')).toEqual([1, null, null, '']);
});

test('an error arrives as an error, typed or in a cell, and stays one inside a range', async () => {
  expect(await saw('#N/A,B4,B3:B4')).toEqual([
    { error: '#N/A' },
    { error: '#DIV/0!' },
    [[true], [{ error: '#DIV/0!' }]],
  ]);
});

test('a range arrives as rows, blank cells in it as nothing', async () => {
  expect(await saw('A1:B3')).toEqual([
    [
      ['Gas', 'Nitrogen'],
      ['Start', 1.5],
      [null, true],
    ],
  ]);
});

test('a range of one cell arrives as that cell', async () => {
  expect(await saw('B1:B1')).toEqual(['Nitrogen']);
});

test('ranges of other sheets, array constants and defined names arrive as ranges', async () => {
  const rows = [['Bore'], [8]];
  expect(await saw('\'Pipe runs\'!A1:A2,{"Bore";8},gas,bore')).toEqual([rows, rows, [['Gas', 'Nitrogen']], 8]);
});

test('a table made by spreadsheet functions arrives as a range', async () => {
  expect(await saw('FILTER({"a",1;"b",2},{0;1}),VSTACK({1,2},{3,4})')).toEqual([
    [['b', 2]],
    [
      [1, 2],
      [3, 4],
    ],
  ]);
});

test('a cell that calls us is worked out like a formula that stands in no cell', async () => {
  const { at } = await book(sheets);
  expect(JSON.parse(String(at('C1')))).toEqual([
    [
      ['Gas', 'Nitrogen'],
      ['Start', 1.5],
    ],
  ]);
});

test('blank cells of a result are empty text', async () => {
  const { calculator, at } = await book({ S: { A1: '=NARROWS.TEST.BLANKS()', D1: '=B1=""', E1: '=LEN(A2)' } });
  expect(calculator.evaluate(['=NARROWS.TEST.BLANKS()'])).toEqual([
    {
      value: [
        ['a', ''],
        ['', 'b'],
      ],
    },
  ]);
  expect([at('B2'), at('D1'), at('E1')]).toEqual(['b', true, 0]);
});

test('TEXT writes truth values out, whatever the format', async () => {
  const { at } = await book({
    S: {
      ...{ A1: true, A2: 2 },
      B1: '=TEXT(TRUE,"0.00")',
      B2: '=ISTEXT(TEXT(A1,"0.00"))',
      B3: '=TEXT(1>2,"yyyy")&"!"',
      B4: '=LEN(TEXT(A1,"@"))',
      B5: '=TEXT(A2,"0.00")',
      C1: '=TEXT(A1:A2,"0.0")',
      D1: '=ISTEXT(C1)',
      E1: '=TEXT(NA(),"0")',
    },
  });
  expect(['B1', 'B2', 'B3', 'B4', 'B5'].map((cell) => at(cell))).toEqual(['TRUE', true, 'FALSE!', 4, '2.00']);
  expect([at('C1'), at('C2'), at('D1'), at('E1')]).toEqual(['TRUE', '2.0', true, '#N/A']);
});
