import { afterAll, describe, expect, it } from 'vitest';
import { book, disposeAll } from './fixture.ts';

/** Conditions on errors over A1:B5, each with what LibreOffice 7.4 gives. */
const CELLS = {
  ...{ A1: 3, A2: '=1/0', A3: '=NA()', A4: '=NA()', A5: 'x' },
  ...{ B1: 1, B2: 2, B3: 4, B4: 8, B5: 16 },
  D1: '<>#N/A',
};
const GIVEN: readonly [string, unknown][] = [
  ['COUNTIF(A1:A4,"#N/A")', 2],
  ['COUNTIF(A1:A4,"=#DIV/0!")', 1],
  ['COUNTIF(A1:A4,"<>#N/A")', 2],
  ['COUNTIF(A1:A6,"<>#n/a")', 4],
  ['COUNTIF(A1:A5,"<>x")', 4],
  ['COUNTIF(A1:A4,"<>#REF!")', 4],
  ['COUNTIF(A1:A5,D1)', 3],
  ['SUMIF(A1:A4,"#N/A",B1:B4)', 12],
  ['SUMIF(A1,"<>#N/A")', 3],
  ['SUMIF(A1:A4,"<>#N/A")', '#DIV/0!'],
  ['SUMIF(A1:A4,"<>#DIV/0!",B1:B4)', 13],
  ['SUMIFS(B1:B4,A1:A4,"<>#N/A",A1:A4,"<>#DIV/0!")', 1],
  ['COUNTIFS(A1:A4,"#N/A",B1:B4,">5")', 1],
  ['COUNTIFS(A1:A4,"<>#N/A",B1:B4,"<3")', 2],
  ['AVERAGEIF(A1:A4,"#DIV/0!",B1:B4)', 2],
  ['AVERAGEIF(A3:A5,"<>#N/A",B3:B5)', 16],
];
afterAll(disposeAll);

describe('conditions on errors', () => {
  it.each([
    ['in this order', GIVEN],
    // what was asked of a column before must not change what it answers
    ['in the other', [...GIVEN].reverse()],
  ])('count and add up what spreadsheets do, %s', async (_order, given) => {
    const formulas = Object.fromEntries(given.map(([formula], at) => [`F${at + 1}`, `=${formula}`]));
    const { at } = await book({ S: { ...CELLS, ...formulas } });
    expect(given.map(([formula], place) => [formula, at(`F${place + 1}`)])).toEqual(given);
  });
});
