import { afterAll, expect, it } from 'vitest';
import { book, disposeAll } from './fixture.ts';

const CELLS = { A1: 3, A2: '=1/0', A3: '=NA()', A4: 'q', A5: -7, B1: 1, B2: 2, B3: 4, B4: 8 };

/** What is made of single cells is a value, which sums take as it is: each with what LibreOffice 7.4 gives, but for those below. */
const AS_SPREADSHEETS: readonly [string, unknown][] = [
  ['SUM(B1>0,B2>0)', 2],
  ['SUM(B1>0,5)', 6],
  ['MAX(B1>0,-2)', 1],
  ['MAX(A5,B1>0)', 1],
  ['MIN(A1>0,7)', 1],
  ['AVERAGE(B1>0,3)', 2],
  ['SUMSQ(B1>0,2)', 5],
  ['COUNT(B1>0,"3",B1&"")', 3],
  ['SUM(-(B1>0),5)', 4],
  ['SUM(ISNUMBER(B1),4)', 5],
  ['MAX(ISNUMBER(B1),-4)', 1],
  ['MAX(NOT(B1>2),-2)', 1],
  ['MAX(ABS(A5)>1,-2)', 1],
  ['MAX(IF(TRUE,B1>0),-2)', 1],
  ['MAX(IF(B1>0,B2,B3)>1,-2)', 1],
  ['MAX("ab">SWITCH(5,3,5,B2),-2)', 1],
  ['MAX(VLOOKUP(B1,B1:B4,1,FALSE)=B1,-2)', 1],
  ['SUM(A4&"",2)', '#VALUE!'],
  ['IFNA(A1,A2)', 3],
  ['SUM(IFNA(A1,1/0))', 3],
  ['SUM(IFNA(B1:B2,1/0))', 3],
  ['IFNA(A3,1/0)', '#DIV/0!'],
];
/** From memory, what the spreadsheet program with dynamic arrays gives: text given as a value is read as a number, arrays keep theirs out. */
const FROM_MEMORY: readonly [string, unknown][] = [
  ['SUM(B1&"",2)', 3],
  ['MAX(LEFT("9x",1),2)', 9],
  ['SUM(B1:B4>1)', 0],
  ['SUM(B1:B4&"")', 0],
  ['SUM(A4,2)', 2],
  ['SUM((B1:B4>1)*1)', 3],
];
afterAll(disposeAll);

it('truth values and text made of single cells count as if they were typed, those of ranges do not', async () => {
  const given = [...AS_SPREADSHEETS, ...FROM_MEMORY];
  const formulas = Object.fromEntries(given.map(([formula], at) => [`F${at + 1}`, `=${formula}`]));
  const { at } = await book({ S: { ...CELLS, ...formulas } });
  expect(given.map(([formula], place) => [formula, at(`F${place + 1}`)])).toEqual(given);
});
