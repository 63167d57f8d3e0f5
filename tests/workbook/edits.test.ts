import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Block, blockName, parseBlock } from '../../src/workbook/address.ts';
import {
  editsOf,
  movedBlocks,
  movedCells,
  movedRanges,
  movedReference,
  type SheetEdit,
} from '../../src/workbook/edits.ts';

/** Rows and columns count from 0 in an edit, from 1 in an address. */
const shift =
  (kind: 'insert' | 'remove') =>
  (at: number, count: number, axis: 'row' | 'column' = 'row'): SheetEdit => ({ kind, sheet: 'Units', axis, at, count });
const insert = shift('insert');
const remove = shift('remove');
const rename = (sheet: string, to: string): SheetEdit => ({ kind: 'rename', sheet, to });

const moved = (range: string, ...edits: SheetEdit[]): string | undefined => {
  const block = parseBlock(range);
  const to = block && movedBlocks(block, editsOf(edits, 'Units'));
  return to && blockName(to);
};

describe('a range when rows and columns come and go', () => {
  // as spreadsheets do it, common practice, no source
  it.each([
    ['B5:D9', [insert(2, 1)], 'B6:D10'],
    ['B5:D9', [insert(4, 2)], 'B7:D11'],
    ['B5:D9', [insert(5, 3)], 'B5:D12'],
    ['B5:D9', [insert(9, 1)], 'B5:D9'],
    ['B5:D9', [insert(1, 1, 'column')], 'C5:E9'],
    ['B5:D9', [insert(4, 1, 'column')], 'B5:D9'],
    ['B5:D9', [remove(0, 2)], 'B3:D7'],
    ['B5:D9', [remove(3, 2)], 'B4:D7'],
    ['B5:D9', [remove(6, 1)], 'B5:D8'],
    ['B5:D9', [remove(7, 9)], 'B5:D7'],
    ['B5:D9', [remove(9, 1)], 'B5:D9'],
    ['B5:D9', [remove(2, 1, 'column')], 'B5:C9'],
    ['B5:D9', [insert(4, 1), remove(4, 1)], 'B5:D9'],
  ])('%s becomes, after %j, %s', (range, edits, to) => {
    expect(moved(range, ...edits)).toBe(to);
  });

  it('is gone when all of it goes', () => {
    expect(moved('B5:D9', remove(4, 5))).toBeUndefined();
    expect(moved('B5:D9', remove(0, 20), insert(0, 1))).toBeUndefined();
    expect(moved('B5:D9', remove(1, 3, 'column'))).toBeUndefined();
  });

  it('stays whole where it is whole columns or rows', () => {
    expect(parseBlock('A:C')).toEqual(movedBlocks(parseBlock('A:C') ?? never(), editsOf([insert(3, 2)], 'Units')));
    expect(parseBlock('2:3')).toEqual(
      movedBlocks(parseBlock('2:3') ?? never(), editsOf([remove(3, 2, 'column')], 'Units')),
    );
  });

  it('leaves the ranges of other sheets alone, and knows a sheet by its later names', () => {
    expect(editsOf([insert(0, 1)], 'Parts')).toEqual([]);
    const later: SheetEdit = { kind: 'insert', sheet: 'Kinds', axis: 'row', at: 0, count: 1 };
    expect(editsOf([insert(0, 1), rename('Units', 'Kinds'), later, insert(0, 9)], 'Units')).toEqual([
      insert(0, 1),
      later,
    ]);
  });

  it('ends at the end of the sheet, and is gone when it is pushed over it', () => {
    expect(moved('B5:B1048576', insert(1, 2))).toBe('B7:B1048576');
    expect(moved('B1048576', insert(1, 1))).toBeUndefined();
    expect(moved('XFC5:XFD5', insert(1, 1, 'column'))).toBe('XFD5');
  });

  it('takes the ranges of a rule one by one', () => {
    expect(movedRanges('A1:A4 C7 D2:D3', editsOf([remove(1, 2)], 'Units'))).toBe('A1:A2 C5');
    expect(movedRanges('D2:D3', editsOf([remove(1, 2)], 'Units'))).toBe('');
  });
});

/** Cells alone: those below give way in the columns, or those to the right in the rows, from the first to the last. */
const cells = (edit: SheetEdit, first: number, last: number): SheetEdit =>
  ({ ...edit, across: { first, last } }) as never;

describe('a range when cells alone come and go', () => {
  const parts = (range: string, ...edits: SheetEdit[]): string => {
    const block = parseBlock(range);
    return block === undefined ? '' : movedCells(block, editsOf(edits, 'Units')).map(blockName).join(' ');
  };

  // what moves is cut off from what stays, as spreadsheets do it, common practice, no source
  it.each([
    ['B5:B9', cells(insert(6, 2), 1, 1), 'B5:B11'],
    ['B5:B9', cells(insert(2, 2), 1, 1), 'B7:B11'],
    ['B5:B9', cells(insert(2, 2), 2, 2), 'B5:B9'],
    ['B5:B9', cells(insert(20, 2), 1, 1), 'B5:B9'],
    ['B5:D9', cells(insert(20, 2), 1, 1), 'B5:D9'],
    ['B5:D9', cells(insert(6, 2), 2, 2), 'B5:B9 C5:C11 D5:D9'],
    ['B5:D9', cells(insert(2, 1), 0, 2), 'B6:C10 D5:D9'],
    ['B5:D9', cells(insert(2, 1), 0, 3), 'B6:D10'],
    ['B5:D9', cells(insert(2, 1, 'column'), 5, 6), 'B5:D5 B6:E7 B8:D9'],
    ['B5:D9', cells(remove(4, 2), 1, 1), 'B5:B7 C5:D9'],
    ['B5:D9', cells(remove(4, 5), 1, 1), 'C5:D9'],
    ['B5:D9', cells(remove(0, 2, 'column'), 4, 8), 'A5:B9'],
    ['B5', cells(remove(4, 1), 1, 1), ''],
    ['A:C', cells(insert(6, 2), 1, 1), 'A1:C1048576'],
  ] as const)('%s has its cells, after %j, at %s', (range, edit, to) => {
    expect(parts(range, edit)).toBe(to);
  });

  it('has each of its cells where that cell went, whatever is done', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            kind: fc.constantFrom('insert', 'remove'),
            axis: fc.constantFrom('row', 'column'),
            at: fc.nat(9),
            count: fc.integer({ min: 1, max: 3 }),
            first: fc.nat(9),
            more: fc.nat(4),
          }),
          { maxLength: 4 },
        ),
        (given) => {
          const edits = given.map(({ kind, axis, at, count, first, more }) =>
            cells(shift(kind as 'insert')(at, count, axis as 'row'), first, first + more),
          );
          const own = editsOf(edits, 'Units');
          const block = parseBlock('C3:F8');
          if (block === undefined) throw new Error('no range');
          const covered = movedCells(block, own).flatMap(spots);
          const each = spots(block).flatMap(([row, column]) => {
            const cell = { startRow: row, endRow: row, startColumn: column, endColumn: column };
            return movedCells(cell, own).flatMap(spots);
          });
          expect(new Set(covered.map(String)).size).toBe(covered.length);
          for (const spot of each) expect(covered.map(String)).toContain(String(spot));
        },
      ),
    );
  });

  it('is moved as a reference only where the cells reach across all of it', () => {
    expect(moved('B5:D9', cells(insert(2, 1), 1, 3))).toBe('B6:D10');
    expect(moved('B5:D9', cells(insert(2, 1), 1, 2))).toBe('B5:D9');
    expect(moved('B5:D9', cells(remove(2, 9), 0, 7))).toBeUndefined();
    expect(movedReference('Units!$B$5:$B$9', [cells(insert(2, 1), 1, 1)])).toBe('Units!$B$6:$B$10');
    expect(movedReference('Units!$B$5:$B$9', [cells(insert(2, 1), 2, 3)])).toBe('Units!$B$5:$B$9');
  });

  it('is written as the ranges of a rule', () => {
    expect(movedRanges('B5:C9 F2', editsOf([cells(insert(6, 1), 1, 1)], 'Units'))).toBe('B5:B10 C5:C9 F2');
    expect(movedRanges('B5', editsOf([cells(remove(4, 1), 1, 1)], 'Units'))).toBe('');
  });
});

function spots({ startRow, endRow, startColumn, endColumn }: Block): [number, number][] {
  const all: [number, number][] = [];
  for (let row = startRow; row <= endRow; row++)
    for (let column = startColumn; column <= endColumn; column++) all.push([row, column]);
  return all;
}

describe('a reference of a chart or a list', () => {
  it.each([
    ['Units!$A$5:$A$9', [insert(2, 1)], 'Units!$A$6:$A$10'],
    ['Units!A5', [insert(2, 1)], 'Units!A6'],
    ['Units!$A5:A$9', [insert(0, 1, 'column')], 'Units!$B5:B$9'],
    ['Units!$A$5:$A$9', [remove(4, 5)], 'Units!#REF!'],
    ['Parts!$A$5:$A$9', [insert(2, 1)], 'Parts!$A$5:$A$9'],
    ['Units!$A$5:$A$9', [rename('Units', 'Kinds of unit')], "'Kinds of unit'!$A$5:$A$9"],
    ["'Pipe runs'!$A$5", [rename('Pipe runs', "Tom's")], "'Tom''s'!$A$5"],
    ["'Tom''s'!$A$5", [rename("Tom's", 'Units'), insert(0, 1)], 'Units!$A$6'],
    ['rigs', [insert(0, 1)], 'rigs'],
    ['Units!$A:C', [insert(0, 1, 'column')], 'Units!$B:D'],
    ['Units!$A:$C', [insert(0, 1)], 'Units!$A:$C'],
    ['Units!$4:$5', [insert(0, 2)], 'Units!$6:$7'],
    ['Units!$4:$5', [remove(0, 1, 'column')], 'Units!$4:$5'],
  ] as const)('%s becomes, after %j, %s', (reference, edits, to) => {
    expect(movedReference(reference, edits)).toBe(to);
  });
});

function never(): never {
  throw new Error('no block');
}
