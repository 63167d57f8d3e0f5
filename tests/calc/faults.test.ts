import { afterEach, expect, test } from 'vitest';
import { MOST_NESTING, MOST_OPERATORS } from '../../src/calc/guard-faults.ts';
import { book, disposeAll, newCalculator } from './fixture.ts';

afterEach(disposeAll);

const answer = (formula: string): unknown => newCalculator().evaluate([formula])[0];

test('the words of an error reach the reader, through sums and from inside other calls', () => {
  const words = { error: '#N/A', message: 'no such rig' };
  expect(answer('=NARROWS.TEST.FAIL("no such rig")')).toEqual(words);
  expect(answer('=1+2*NARROWS.TEST.FAIL("no such rig")')).toEqual(words);
  expect(answer('=SUM(1,NARROWS.TEST.FAIL("no such rig"))')).toEqual(words);
  expect(answer('=LET(x,NARROWS.TEST.FAIL("no such rig"),x)')).toEqual(words);
  expect(answer('=NARROWS.TEST.TWICE(NARROWS.TEST.FAIL("no such rig"))')).toMatchObject({
    error: '#VALUE!',
    message: expect.stringContaining('no such rig'),
  });
});

test('an error of a branch that is not taken leaves no trace', async () => {
  const taken: [string, unknown][] = [
    ['=IF(TRUE,5,NARROWS.TEST.FAIL("x"))', 5],
    ['=IF(FALSE,NARROWS.TEST.FAIL("x"),6)', 6],
    ['=IFERROR(NARROWS.TEST.FAIL("x"),7)', 7],
    ['=IFNA(NARROWS.TEST.FAIL("x"),7)', 7],
    ['=CHOOSE(2,NARROWS.TEST.FAIL("x"),8)', 8],
    ['=IFS(FALSE,NARROWS.TEST.FAIL("x"),TRUE,9)', 9],
    ['=SWITCH(1,2,NARROWS.TEST.FAIL("x"),1,10)', 10],
    ['=ISERROR(NARROWS.TEST.FAIL("x"))', true],
    ['=IF(TRUE,NARROWS.TEST.FAIL("mine"),NARROWS.TEST.FAIL("not mine"))', 'mine'],
  ];
  const cells = Object.fromEntries(taken.map(([formula], index) => [`A${index + 1}`, formula]));
  const { calculator, at } = await book({ S: cells });
  taken.forEach(([formula, value], index) => {
    const spoken = calculator.evaluate([formula])[0] ?? {};
    if (value === 'mine') {
      expect(spoken).toEqual({ error: '#N/A', message: 'mine' });
      expect(at(`A${index + 1}`)).toBe('#N/A');
    } else {
      expect(spoken).toEqual({ value });
      expect(at(`A${index + 1}`)).toBe(value);
    }
  });
  expect(calculator.faults().map((fault) => fault.message)).toEqual(['mine']);
});

test('words on the sheet belong to the cell at hand, follow references, and go when the error goes', async () => {
  const { calculator, put, words, at } = await book({
    S: { A1: 'x', B1: '=NARROWS.TEST.TWICE(A1)', C1: '=B1+1', D1: '=IFERROR(C1,0)' },
    T: { A1: '=S!C1' },
  });
  expect([at('B1'), at('C1'), at('D1')]).toEqual(['#VALUE!', '#VALUE!', 0]);
  expect(words('B1')).toBe('Value is no number.');
  expect(words('C1')).toBe('S!B1 holds #VALUE!: Value is no number.');
  expect(words('A1', 'T')).toContain('Value is no number.');
  put('A1', 4);
  await calculator.recalculate();
  expect([at('B1'), at('C1'), at('D1')]).toEqual([8, 9, 9]);
  expect(calculator.faults()).toEqual([]);
});

test('words of errors inside a spilled table are kept cell by cell', async () => {
  const { words, at } = await book({ S: { A1: '=MAP({1,"x",3},LAMBDA(v,NARROWS.TEST.TWICE(v)))' } });
  expect([at('A1'), at('B1'), at('C1')]).toEqual([2, '#VALUE!', 6]);
  expect(words('B1')).toBe('Value is no number.');
});

test('a function that breaks down is an error in words; the rest of the sheet comes out', async () => {
  const { at, words } = await book({ S: { A1: '=NARROWS.TEST.THROW()', B1: '=1+1', C1: '=IFERROR(A1,3)' } });
  expect([at('A1'), at('B1'), at('C1')]).toEqual(['#VALUE!', 2, 3]);
  expect(words('A1')).toContain('a part fell off');
});

test('a result without cells and a result that is no number are errors', () => {
  expect(answer('=NARROWS.TEST.EMPTY()')).toMatchObject({ error: '#N/A' });
  expect(answer('=NARROWS.TEST.EMPTY("rows")')).toMatchObject({ error: '#N/A' });
  expect(answer('=ROWS(NARROWS.TEST.EMPTY())')).toMatchObject({ error: '#N/A' });
  expect(answer('=NARROWS.TEST.NAN()')).toMatchObject({ error: '#NUM!' });
});

test('the sign for one value works before calls, cells and strips', async () => {
  expect(answer('=@NARROWS.TEST.TWICE(4)')).toEqual({ value: 8 });
  expect(answer('=@NARROWS.TEST.GRID(3,2)+1')).toEqual({ value: 1 });
  const { at } = await book({ S: { A1: 3, A2: 4, A3: 5, B2: '=@A1:A3', B3: '=@A1', C1: '=@NARROWS.TEST.GRID(3,3)' } });
  expect([at('B2'), at('B3'), at('C1'), at('C2')]).toEqual([4, 3, 0, null]);
});

test('an unknown function, name and sheet are named', () => {
  expect(answer('=PUMPDOWN(1)')).toMatchObject({ error: '#NAME?', message: expect.stringContaining('PUMPDOWN') });
  expect(answer('=TEST.TWICE(1)')).toMatchObject({
    error: '#NAME?',
    message: 'There is no function called TEST.TWICE. Ours is NARROWS.TEST.TWICE.',
  });
  expect(answer('=1+bore')).toMatchObject({ error: '#NAME?', message: expect.stringContaining('bore') });
  expect(answer('=Riser!A1')).toMatchObject({ error: '#REF!', message: expect.stringContaining('called Riser') });
  expect(answer('=NARROWS.TEST.TWICE')).toMatchObject({
    error: '#NAME?',
    message: expect.stringContaining('brackets'),
  });
});

test('every error of ordinary spreadsheet functions has words', () => {
  for (const formula of [
    '=1/0',
    '=SQRT(-1)',
    '="a"*2',
    '=MATCH(9,{1,2},0)',
    '=FILTER({1;2},{0;0})',
    '=INDEX({1,2},3)',
  ]) {
    expect(answer(formula)).toMatchObject({
      error: expect.stringMatching(/^#/),
      message: expect.stringMatching(/.{20}/),
    });
  }
});

test('formulas that cannot be read, or are nested out of all bounds, are errors in words', () => {
  const deep = (levels: number): string => `=${'('.repeat(levels)}1${')'.repeat(levels)}`;
  const hostile = [
    '',
    '=',
    '=(',
    '=)',
    '=1+',
    '="open',
    '={1,2',
    '=NARROWS.TEST.TWICE(',
    '=,',
    '=A1:',
    '=!',
    "='",
    '=\u0000',
    deep(MOST_NESTING + 1),
    deep(10_000),
    `=${'SUM('.repeat(10_000)}1${')'.repeat(10_000)}`,
    `=${'-'.repeat(20_000)}1`,
    `=${'1+'.repeat(20_000)}1`,
    '=LET(f,LAMBDA(g,n,g(g,n+1)),f(f,1))',
    '=LAMBDA(x,x)',
    '=REDUCE(0,1,2)',
  ];
  const answers = newCalculator().evaluate(hostile);
  expect(answers).toHaveLength(hostile.length);
  answers.forEach((given, index) => {
    const told = 'error' in given ? given.message : String(given.value);
    expect(told, hostile[index]?.slice(0, 40)).toMatch(/\S/);
  });
  expect(answers[13]).toMatchObject({ error: '#VALUE!', message: expect.stringContaining('nested too deeply') });
});

test('hostile formulas in cells leave the other cells right', async () => {
  const { at, words } = await book(
    {
      S: {
        A1: `=${'('.repeat(5000)}1${')'.repeat(5000)}`,
        A2: '=(',
        A3: `=${'1+'.repeat(9000)}1`,
        A4: '=again+1',
        A5: `=${'1+'.repeat(MOST_OPERATORS)}1`,
        A6: `=${'-'.repeat(MOST_OPERATORS)}1`,
        A7: `=${'SUM('.repeat(MOST_NESTING)}1${')'.repeat(MOST_NESTING)}`,
        A8: `=${'A7+'.repeat(MOST_OPERATORS - 1)}1`,
        B1: '=1+1',
      },
    },
    { again: '=LAMBDA(x,again(x))(1)' },
  );
  expect(at('B1')).toBe(2);
  expect(at('A1')).toBe('#VALUE!');
  expect(words('A1')).toContain('nested too deeply');
  expect(String(at('A2'))).toMatch(/^#/);
  expect(words('A3')).toContain('9000');
  expect([at('A5'), at('A7'), at('A8')]).toEqual([MOST_OPERATORS + 1, 1, MOST_OPERATORS]);
});

test('an array that would use up the memory is refused before it is made', async () => {
  for (const formula of [
    '=ROWS(MAKEARRAY(100000,10000,LAMBDA(a,b,1)))',
    '=ROWS(EXPAND({1},100000,10000))',
    '=ROWS(SEQUENCE(1000000,90))',
    '=ROWS(RANDARRAY(1000000,90))',
    '=SUM(NARROWS.TEST.GRID(2000,1)*NARROWS.TEST.GRID(1,2000))',
  ]) {
    expect(answer(formula), formula).toMatchObject({ error: '#NUM!', message: expect.stringContaining('cells') });
  }
  expect(answer('=SUM(MAKEARRAY(3,2,LAMBDA(a,b,a*b)))')).toEqual({ value: 18 });
  // more rows than the sheet has, but none of them is placed on it
  expect(answer('=SUM(SEQUENCE(200000))')).toEqual({ value: 20_000_100_000 });
  expect(answer('=ROWS(RANDARRAY(20000))')).toEqual({ value: 20_000 });
  expect(answer('=SUM(SEQUENCE(3)*SEQUENCE(1,3))')).toEqual({ value: 36 });
});

test('a sheet that is not there is an error, whatever the formulas before it have read', async () => {
  const { at, words } = await book({
    S: { A1: 1, A2: 2, C1: '=SUM(A1:A2)', C2: '=SUM(Gone!A1:A2)', C3: '=SUM(A1:A2)', C4: '=Gone!A1', C5: '=A1' },
  });
  expect(['C1', 'C2', 'C3', 'C4', 'C5'].map((cell) => at(cell))).toEqual([3, '#REF!', 3, '#REF!', 1]);
  expect(words('C2')).toContain('no sheet called Gone');
  const calculator = newCalculator();
  const gone = { error: '#REF!', message: 'There is no sheet called Gone.' };
  const formulas = ['=SUM(A1:A5)', '=SUM(Gone!A1:A5)', '=Gone!A1', '=A1', '=SUM(A1:A5)', '=ROWS(Gone!A:A)'];
  expect(calculator.evaluate(formulas)).toEqual([{ value: 0 }, gone, gone, { value: '' }, { value: 0 }, gone]);
});

test('a formula in a cell that cannot be read says so', async () => {
  const { words } = await book({ S: { A1: '=SUM(1,2', A2: '={1,2', A3: '="x"+1' } });
  expect(words('A1')).toContain('cannot be read');
  expect(words('A2')).toContain('cannot be read');
  expect(words('A3')).not.toContain('cannot be read');
});

test('no formula reaches out of the workbook', () => {
  for (const name of ['WEBSERVICE', 'IMAGE', 'IMPORTDATA', 'IMPORTXML', 'IMPORTRANGE', 'IMPORTHTML', 'IMPORTFEED']) {
    expect(answer(`=${name}("http://127.0.0.1/")`)).toMatchObject({ error: '#NAME?' });
  }
});

test('closed calculators do not slow later ones, and workbooks do not see each other', async () => {
  for (let round = 0; round < 5; round++) {
    const { calculator, at } = await book({ S: { A1: round, B1: '=A1*2' } });
    expect(at('B1')).toBe(2 * round);
    calculator.dispose();
    calculator.dispose();
  }
});
