import { describe, expect, it } from 'vitest';
import { blockName, columnLetters, parseBlock } from '../../src/workbook/address.ts';
import { editsOf, movedBlocks, movedCells, type SheetEdit } from '../../src/workbook/edits.ts';
import { movedColumns } from '../../src/workbook/moved-columns.ts';
import { movedFormula, movedRuleFormula } from '../../src/workbook/moved-formula.ts';

/** Rows from the first to the last, as they are numbered on the sheet, dropped in front of another one. */
const rows = (first: number, last: number, before: number): SheetEdit => ({
  kind: 'move',
  sheet: 'Sums',
  axis: 'row',
  at: first - 1,
  count: last - first + 1,
  to: before - 1,
});
const columns = (first: number, last: number, before: number): SheetEdit =>
  ({ ...rows(first, last, before), axis: 'column' }) as SheetEdit;

const SIZE = 8;

/** Every move of a run of lines of a small sheet, with the old numbers of the lines in their new order: cut out and put in. */
function everyMove(): { first: number; last: number; before: number; order: number[] }[] {
  const all: ReturnType<typeof everyMove> = [];
  for (let first = 1; first <= SIZE; first++)
    for (let last = first; last <= SIZE; last++)
      for (let before = 1; before <= SIZE + 1; before++) {
        if (before >= first && before <= last + 1) continue;
        const order = Array.from({ length: SIZE }, (_, at) => at + 1);
        const cut = order.splice(first - 1, last - first + 1);
        order.splice(before > last ? before - 1 - cut.length : before - 1, 0, ...cut);
        all.push({ first, last, before, order });
      }
  return all;
}

/** New numbers of old lines, in order. */
const places = (order: readonly number[], lines: readonly number[]): number[] =>
  lines.map((line) => order.indexOf(line) + 1).sort((a, b) => a - b);
const oneRun = (numbers: readonly number[]): boolean =>
  (numbers.at(-1) as number) - (numbers[0] as number) === numbers.length - 1;
const fromTo = (start: number, end: number): number[] => Array.from({ length: end - start + 1 }, (_, at) => start + at);

describe('formulas when rows or columns are dragged to another place', () => {
  it('follow a single cell, in every move of a small sheet', () => {
    for (const { first, last, before, order } of everyMove())
      for (let line = 1; line <= SIZE; line++) {
        const to = order.indexOf(line) + 1;
        expect(movedFormula(`=$A${line}`, 'Sums', [rows(first, last, before)])).toBe(`=$A${to}`);
        const [was, is] = [columnLetters(line - 1), columnLetters(to - 1)];
        expect(movedFormula(`=${was}$1`, 'Sums', [columns(first, last, before)])).toBe(`=${is}$1`);
      }
  });

  it('keep the cells of a range where these stay together, in every move of a small sheet', () => {
    for (const { first, last, before, order } of everyMove())
      for (let start = 1; start <= SIZE; start++)
        for (let end = start; end <= SIZE; end++) {
          const now = places(order, fromTo(start, end));
          const staying = fromTo(start, end).filter((line) => line < first || line > last);
          // the range parts: it is what stayed, with what came in between
          const kept = oneRun(now) || staying.length === 0 ? now : places(order, staying);
          const among = now.filter((line) => line >= (kept[0] as number) - 1 && line <= (kept.at(-1) as number) + 1);
          const to = `$A${Math.min(...among)}:$B${Math.max(...among)}`;
          const [formula] = [movedFormula(`=SUM($A${start}:$B${end})`, 'Sums', [rows(first, last, before)])];
          expect(formula, `rows ${first}-${last} before ${before}, ${start}:${end}`).toBe(`=SUM(${to})`);
        }
  });

  it.each([
    ['=SUM(A1:A6)', rows(2, 2, 6), '=SUM(A1:A6)'],
    ['=SUM(A1:A6)', rows(2, 3, 6), '=SUM(A1:A6)'],
    ['=A6', rows(2, 3, 6), '=A6'],
    ['=A5', rows(2, 3, 5), '=A5'],
    ['=A2', rows(5, 6, 2), '=A4'],
    ['=A3', rows(5, 6, 3), '=A5'],
    // an end that moves inside stays inside
    ['=SUM(A1:A6)', rows(1, 1, 4), '=SUM(A1:A6)'],
    ['=SUM(A1:A6)', rows(6, 6, 1), '=SUM(A1:A6)'],
    // moved whole
    ['=SUM(A2:A3)', rows(2, 3, 9), '=SUM(A7:A8)'],
    ['=SUM(A2:A3)', rows(1, 5, 9), '=SUM(A5:A6)'],
    // out of the range, from an end or from inside of it
    ['=SUM(A1:A6)', rows(6, 6, 10), '=SUM(A1:A5)'],
    ['=SUM(A1:A6)', rows(1, 2, 10), '=SUM(A1:A4)'],
    ['=SUM(A1:A6)', rows(3, 3, 10), '=SUM(A1:A5)'],
    ['=SUM(A1:A6)', rows(5, 8, 12), '=SUM(A1:A4)'],
    // into it, and to its ends
    ['=SUM(A1:A6)', rows(9, 9, 3), '=SUM(A1:A7)'],
    ['=SUM(A1:A6)', rows(9, 9, 7), '=SUM(A1:A6)'],
    ['=SUM(A3:A6)', rows(9, 9, 3), '=SUM(A4:A7)'],
    ['=G11', columns(2, 4, 7), '=G11'],
    ['=SUM(G9#)', columns(2, 4, 7), '=SUM(G9#)'],
    ['=SUM(E9#)', columns(2, 4, 7), '=SUM(B9#)'],
    ['=A:A+SUM(2:2)', rows(2, 2, 6), '=A:A+SUM(5:5)'],
    ['=Sums!$A$2+\'Sums\'!A$3+Other!A2+"A2"+LOG10(2)', rows(2, 2, 6), '=Sums!$A$5+Sums!A$2+Other!A2+"A2"+LOG10(2)'],
    ["='Sums'!A1+b7:a1", rows(2, 2, 6), "='Sums'!A1+b7:a1"],
  ] as const)('%s becomes, after %j, %s', (formula, edit, to) => {
    expect(movedFormula(formula, 'Sums', [edit])).toBe(to);
  });

  it('of other sheets change where they name the sheet alone', () => {
    expect(movedFormula('=A2+Sums!A2', 'Other', [rows(2, 2, 6)])).toBe('=A2+Sums!A5');
  });
});

describe('what stands beside cells when rows or columns are dragged', () => {
  it('goes with each of its cells, as one range where they stay together', () => {
    for (const { first, last, before, order } of everyMove())
      for (let start = 1; start <= SIZE; start++)
        for (let end = start; end <= SIZE; end++) {
          const block = parseBlock(`A${start}:B${end}`);
          if (block === undefined) throw new Error('no range');
          const moved = movedCells(block, editsOf([rows(first, last, before)], 'Sums'));
          const now = moved.flatMap(({ startRow, endRow }) => fromTo(startRow + 1, endRow + 1));
          expect(now).toEqual(places(order, fromTo(start, end)));
          expect(moved.length).toBe(now.filter((line, at) => line - 1 !== now[at - 1]).length);
          expect(moved.map(({ startColumn, endColumn }) => [startColumn, endColumn])).toEqual(moved.map(() => [0, 1]));
        }
  });

  it('has columns in their new order', () => {
    for (const { first, last, before, order } of everyMove()) {
      const edits = editsOf([columns(first, last, before)], 'Sums');
      const block = parseBlock('C3:F9');
      const now = block && movedBlocks(block, edits);
      if (block === undefined || now === undefined) throw new Error('no range');
      const names = [3, 4, 5, 6];
      const want = fromTo(now.startColumn + 1, now.endColumn + 1).map((place) => {
        const was = order[place - 1] as number;
        return names.includes(was) ? was : undefined;
      });
      expect(movedColumns(names, block, edits), `${first}-${last} before ${before}`).toEqual(want);
    }
  });

  it('reads with its condition what it read in its row', () => {
    expect(movedRuleFormula('$D5>E5', 'A5:A9', 'Sums', [rows(5, 5, 9)])).toBe('$D5>E5');
    // the row above, though the first row went away from the others
    expect(movedRuleFormula('A5=A4', 'A5:A12', 'Sums', [rows(5, 5, 12)])).toBe('A5=A4');
    expect(movedRuleFormula('$D5>E$2', 'A5:A9', 'Sums', [rows(2, 2, 4)])).toBe('$D5>E$3');
    expect(movedRuleFormula('$D5>E5', 'A5:A9', 'Sums', [rows(1, 2, 12)])).toBe('$D3>E3');
    expect(blockName(movedBlocks(parseBlock('A5:A9') ?? never(), editsOf([rows(1, 2, 12)], 'Sums')) ?? never())).toBe(
      'A3:A7',
    );
  });
});

function never(): never {
  throw new Error('no block');
}
