import { afterEach, expect, test } from 'vitest';
import { closeEditors, editor } from './editor.ts';
import { book, disposeAll } from './fixture.ts';

afterEach(() => {
  closeEditors();
  disposeAll();
});

/** Formulas with names of their own on H1:H3 = 5, 6, 7, and the first cell of what they give. */
const FORMULAS: readonly (readonly [string, unknown])[] = [
  ['=LET(x,H1,x*2)', 10],
  ['=LET(x,5,IF(x>1,x,0))', 5],
  ['=LET(x,H1,IF(ISNUMBER(x),x*2,0))', 10],
  ['=LET(x,H1,y,x+1,IF(y>1,y,x))', 6],
  ['=LET(x,H1:H3,IF(SUM(x)>1,INDEX(x,2),0))', 6],
  ['=IF(TRUE,LET(x,H1,x+1),0)', 6],
  ['=IFERROR(LET(x,H1,1/x),9)', 0.2],
  ['=LET(x,H1,SWITCH(x,5,"five","other"))', 'five'],
  ['=LAMBDA(x,IF(x>1,x,0))(H1)', 5],
  ['=SUM(MAP(H1:H3,LAMBDA(a,IF(a>5,a,0))))', 13],
  ['=REDUCE(1,H1:H3,LAMBDA(a,b,a*b))', 210],
  ['=SUM(BYROW(H1:H3,LAMBDA(r,SUM(r)*2)))', 36],
];
const at = (index: number): string => `A${5 * index + 1}`;
const CELLS = {
  ...{ H1: 5, H2: 6, H3: 7 },
  ...Object.fromEntries(FORMULAS.map(([formula], index) => [at(index), formula])),
};

test('names of a formula hold in every workbook, the second with the same formula too, and wherever it is worked out', async () => {
  const first = await book({ S: CELLS });
  const second = await book({ S: CELLS });
  const typed = await editor(CELLS);
  const answers = first.calculator.evaluate(FORMULAS.map(([formula]) => formula));
  FORMULAS.forEach(([formula, wanted], index) => {
    expect([first.at(at(index)), second.at(at(index)), typed.at(at(index))], formula).toEqual([wanted, wanted, wanted]);
    expect(answers[index], formula).toMatchObject({ value: wanted });
  });
  first.put('H1', 4);
  await first.calculator.recalculate();
  await typed.type({ H1: 4 });
  expect([first.at(at(0)), typed.at(at(0))]).toEqual([8, 8]);
});

test('a defined name that is a LAMBDA can be called from many cells and workbooks', async () => {
  const sheet = { S: { H1: 5, A1: '=TWICE(H1)+1', A2: '=TWICE(3)', A3: '=LET(x,TWICE(H1),x-1)' } };
  for (let i = 0; i < 3; i++) {
    const { at: cell } = await book(sheet, { TWICE: '=LAMBDA(x,x*2)' });
    expect(['A1', 'A2', 'A3'].map((one) => cell(one))).toEqual([11, 6, 9]);
  }
});
