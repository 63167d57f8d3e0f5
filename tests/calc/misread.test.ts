import { afterAll, describe, expect, it } from 'vitest';
import { semicolonWords, twoTextsWords } from '../../src/calc/words.ts';
import { book, disposeAll } from './fixture.ts';

afterAll(disposeAll);

const inCell = async (formula: string) => {
  const { at, words } = await book({ S: { A1: 2, B1: formula }, "It's; one": { A1: 7 } });
  return { value: at('B1'), words: words('B1') };
};

describe('formulas that would be read as something else', () => {
  it.each([
    ['=IF(1>0,"ja";"nein")', semicolonWords],
    ['="a";"b"', semicolonWords],
    ['=LEN("a";"b")', semicolonWords],
    ['=SUM(1;A1)', semicolonWords],
    ['=SUM({1;2};3)', semicolonWords],
    ['="a" "b"', twoTextsWords],
    ['=A1&"a""b" "c"', twoTextsWords],
  ])('%s is refused in words', async (formula, words) => {
    expect(await inCell(formula)).toEqual({ value: '#VALUE!', words });
  });

  it.each([
    ['=LEN("a;b")', 3],
    ['="a;"&"""b"""&";"', 'a;"b";'],
    ['=SUM({1;2},{3,4;5,6})', 21],
    ['=INDEX({"a;";"b"},2)', 'b'],
    ["='It''s; one'!A1+A1", 9],
    ['=IF(A1>1 , "a" , "b")', 'a'],
    ['=LEN(""&"")', 0],
  ])('%s is not', async (formula, value) => {
    expect((await inCell(formula)).value).toBe(value);
  });
});
