import { describe, expect, it } from 'vitest';
import { blockName, parseBlock } from '../../src/workbook/address.ts';
import { editsOf, movedBlocks, movedRanges, movedReference, type SheetEdit } from '../../src/workbook/edits.ts';

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

  it('takes the ranges of a rule one by one', () => {
    expect(movedRanges('A1:A4 C7 D2:D3', editsOf([remove(1, 2)], 'Units'))).toBe('A1:A2 C5');
    expect(movedRanges('D2:D3', editsOf([remove(1, 2)], 'Units'))).toBe('');
  });
});

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
