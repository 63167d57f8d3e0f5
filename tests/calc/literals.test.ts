import { afterEach, expect, test } from 'vitest';
import { arrayConstantItems, plainNumeral } from '../../src/calc/guard-literals.ts';
import { book, disposeAll, newCalculator } from './fixture.ts';

afterEach(disposeAll);

const value = (formula: string): unknown => newCalculator().evaluate([formula])[0];

test('a tube size, a percentage or a time in quotes reaches our functions as the text that it is', () => {
  for (const text of ['3/8', '1/4', '50%', '12:30', '$5', '1e3', '007', '2026-01-02', 'TRUE'])
    expect(value(`=NARROWS.TEST.SAW("${text}")`)).toEqual({ value: JSON.stringify([text]) });
});

test('text functions and look-ups leave quoted text alone, functions of dates and amounts still read it', () => {
  expect(value('=TRIM("3/8")')).toEqual({ value: '3/8' });
  expect(value('=VLOOKUP("3/8",{"1/4",1;"3/8",2},2,FALSE)')).toEqual({ value: 2 });
  expect(value('=XLOOKUP("3/8",{"1/4","3/8"},{1,2})')).toEqual({ value: 2 });
  expect(value('=YEAR("2026-01-02")')).toEqual({ value: 2026 });
  expect(value('=MONTH("2026-03-02")')).toEqual({ value: 3 });
  expect(value('=SUM("50%",1)')).toEqual({ value: 1.5 });
});

test('an array constant is cut at the commas and semicolons outside quotes only', () => {
  expect(arrayConstantItems('{1,"a;b";2,""}')).toEqual([
    ['1', '"a;b"'],
    ['2', '""'],
  ]);
  expect(value('={"3/8","50%";"a, b; c","x"}')).toEqual({
    value: [
      ['3/8', '50%'],
      ['a, b; c', 'x'],
    ],
  });
  expect(value('={"say ""hi"", ok";"}"}')).toEqual({ value: [['say "hi", ok'], ['}']] });
  expect(value('=SUM({1,2;3,-4.5})')).toEqual({ value: 1.5 });
});

test('a number is a number however it is written: trailing zeros, no leading zero, powers of ten', () => {
  for (const [written, number] of [
    ['1.50', 1.5],
    ['-1.50', -1.5],
    ['.5', 0.5],
    ['5.', 5],
    ['007', 7],
    ['1E3', 1000],
    ['1e-3', 0.001],
    ['2.5E+02', 250],
    ['1E300', 1e300],
  ] as const) {
    expect(value(`=${written}`), written).toEqual({ value: number });
    expect(value(`=ISNUMBER(${written})`), written).toEqual({ value: true });
    expect(value(`={${written},"x"}`), written).toEqual({ value: [[number, 'x']] });
    expect(value(`=NARROWS.TEST.SAW(${written})`), written).toEqual({ value: JSON.stringify([number]) });
  }
  expect(value('=10.0=10')).toEqual({ value: true });
  expect(value('=MAX({1.50,0.20})')).toEqual({ value: 1.5 });
  expect(value('=SUMPRODUCT({1E3,2},{1,1.0})')).toEqual({ value: 1002 });
  expect(value('=XLOOKUP(1.50,{1.5,2},{"a","b"})')).toEqual({ value: 'a' });
  expect(value('=SUM(1.50%,1)')).toEqual({ value: 1.015 });
});

test('a number too large to be one is an error, and text in quotes is left as it is', () => {
  expect(value('=1E400')).toMatchObject({ error: '#NUM!' });
  expect(value('="1.50"')).toEqual({ value: '1.50' });
  expect(value('={"1E3",2}')).toEqual({ value: [['1E3', 2]] });
  for (const text of ['"1.50"', '0x10', 'TRUE', 'E3', '1e', '.', '', '1 2']) expect(plainNumeral(text)).toBe(text);
});

test('what is no constant is refused in an array constant, in words', () => {
  for (const item of ['1/0', 'A1', 'a', '50%', '- 3', 'NARROWS']) {
    expect(value(`={1,${item}}`), item).toMatchObject({
      errors: [
        { row: 1, column: 2, error: '#VALUE!', message: expect.stringContaining(`${item} cannot stand between`) },
      ],
    });
  }
  expect(value('={1,,"";TRUE,false,#N/A}')).toMatchObject({
    value: [
      [1, '', ''],
      [true, false, '#N/A'],
    ],
  });
});

test('a doubled quote is one quote, in an array constant as anywhere else', async () => {
  for (const [formula, rows] of [
    ['={"3/8""",1}', [['3/8"', 1]]],
    [
      '={1,"a""b";"""c",""}',
      [
        [1, 'a"b'],
        ['"c', ''],
      ],
    ],
    ['={"","",""}', [['', '', '']]],
    [`={"5' 6""","b, c"}`, [[`5' 6"`, 'b, c']]],
    ['={"""",TRUE}', [['"', true]]],
  ] as const)
    expect(value(formula), formula).toEqual({ value: rows });
  expect(value('="a""b"&COUNTA({"x""","y"})&"""{"""')).toEqual({ value: 'a"b2"{"' });
  const { at } = await book({ S: { A1: '=INDEX({"3/8""","x"},1,2)', A2: '=LEN("a""")' } });
  expect([at('A1'), at('A2')]).toEqual(['x', 2]);
});
