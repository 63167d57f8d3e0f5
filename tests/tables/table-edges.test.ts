import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.ts';
import { type Column, MOST_ROWS, openTable, plainNumber, splitHeader } from '../../src/tables/table.ts';
import { allFaults, faultOf } from './faults.ts';

const COLUMNS = {
  name: { header: 'Name', needed: true, description: '' },
  bore: { header: 'Bore', quantity: 'length', unit: 'mm', limit: { above: 0, atMost: 500 }, description: '' },
  plain: { header: 'Water, all', quantity: 'mass', unit: 'kg', description: '' },
  count: { header: 'Count', quantity: 'number', limit: { atLeast: 1 }, whole: true, description: '' },
  price: { header: 'Price', quantity: 'number', description: '' },
  level: { header: 'Level', quantity: 'temperature', unit: 'C', description: '' },
} as const satisfies Record<string, Column>;

const open = (...rows: Cell[][]) => openTable(rows, 'things', COLUMNS);

describe('a header', () => {
  it.each([
    ['Bore (mm)', 'bore', 'mm'],
    [' Bore  [mm] ', 'bore', 'mm'],
    ['Bore, mm', 'bore', 'mm'],
    ['Bore ( mm )', 'bore', 'mm'],
    ['Bore ()', 'bore', undefined],
    ['Bore ( )', 'bore', undefined],
    ['Bore', 'bore', undefined],
    // a mark without a name before it, or with more behind it, names no unit
    ['(mm)', 'mm', undefined],
    ['Bore (mm) inside', 'boremminside', undefined],
  ])('%j is split into a name and a unit', (header, name, unit) => {
    expect(splitHeader(header)).toEqual({ name, unit });
  });

  it('with a comma of its own is known as a whole', () => {
    expect(open(['Name', 'Water, all'], ['a', 5]).number(0, 'plain')).toBe(5);
  });

  it('that ends in a unit of its column is read in it, and no other header is', () => {
    expect(open(['Name', ' Bore  in  mm '], ['a', 5]).number(0, 'bore')).toBeCloseTo(0.005, 15);
    expect(open(['Name', 'Bore__cm'], ['a', 5]).number(0, 'bore')).toBeCloseTo(0.05, 15);
    for (const header of ['Bore psi', 'Count mm', 'Name mm', 'Price 1', 'Bore inside mm', 'Other mm']) {
      const table = open(['Name', header], ['a', 5]);
      expect([table.has('bore'), table.has('count'), table.has('price')], header).toEqual([false, false, false]);
    }
  });

  it('that is no text is passed over', () => {
    const table = open(['Name', 5, true, { error: '#REF!' }, null, ' ', 'Bore'], ['a', 1, 1, 1, 1, 1, 5]);
    expect(table.number(0, 'bore')).toBeCloseTo(0.005, 15);
  });

  it('that is not there is told with those that are, and its place is the first row', () => {
    expect(faultOf(() => open([' Bore ', 5, '', { error: '#REF!' }, null, ' ', 'Colour'], [1]))).toEqual({
      issue: { kind: 'missing-header', table: 'things', header: 'Name', found: [' Bore ', 'Colour'] },
      place: { table: 'things', row: 1 },
    });
  });

  it('is told without the spaces around it', () => {
    expect(faultOf(() => open(['Name', ' Bore (psi) '], ['a', 1]))).toMatchObject({
      issue: { kind: 'unit', argument: 'Bore (psi)', unit: 'psi' },
      place: { table: 'things', row: 1, column: 'Bore (psi)' },
    });
    const table = open(['Name', ' Bore '], ['a', -1]);
    expect(faultOf(() => table.number(0, 'bore'))?.place).toEqual({ table: 'things', row: 2, column: 'Bore' });
  });
});

describe('a cell', () => {
  const table = (header: string, ...cells: Cell[]) => open(['Name', header], ...cells.map((cell) => ['a', cell]));

  it.each<[string, 'bore' | 'count' | 'price', Cell, Cell]>([
    ['Bore', 'bore', 500, 500.1],
    ['Bore', 'bore', 1e-9, 0],
    ['Count', 'count', 1, 0],
    ['Count', 'count', 3, 3.5],
    ['Price', 'price', 1e9, 1.1e9],
    ['Price', 'price', -1e9, -1.1e9],
  ])('of %s (%s) may be %d, not %d', (header, key, within, out) => {
    const both = table(header, within, out);
    expect(both.number(0, key)).toBeDefined();
    expect(faultOf(() => both.number(1, key))?.place).toEqual({ table: 'things', row: 3, column: header });
    // text is held to the same
    const texts = table(header, String(within), String(out));
    expect(texts.number(0, key)).toBe(both.number(0, key));
    expect(faultOf(() => texts.number(1, key))?.place).toEqual({ table: 'things', row: 3, column: header });
  });

  it('of a quantity is held to what is read at all, to the edge', () => {
    const level = table('Level (K)', 1e9, 1.1e9);
    expect(level.number(0, 'level')).toBe(1e9);
    expect(faultOf(() => level.number(1, 'level'))?.issue).toEqual({
      kind: 'limit',
      argument: 'Level',
      value: 1.1e9,
      rule: 'at most',
      limit: 1e9,
      unit: 'K',
    });
    // whole or not, a limit or none: a plain number of a unit with a moved zero
    expect(table('Level', 20).number(0, 'level')).toBeCloseTo(293.15, 9);
  });

  it('with what is no whole number says so in full', () => {
    expect(faultOf(() => table('Count', 1.5).number(0, 'count'))?.issue).toEqual({
      kind: 'wrong',
      argument: 'Count',
      found: '1.5',
      allowed: 'a whole number',
      todo: 'Round it.',
    });
  });

  it('with an error of its own is told as text and as a number', () => {
    const rows = open(['Name', 'Count'], [{ error: '#REF!' }, { error: '#NAME?' }]);
    expect(faultOf(() => rows.text(0, 'name'))).toEqual({
      issue: { kind: 'cell-error', argument: 'Name', code: '#REF!' },
      place: { table: 'things', row: 2, column: 'Name' },
    });
    expect(faultOf(() => rows.number(0, 'count'))?.issue).toEqual({
      kind: 'cell-error',
      argument: 'Count',
      code: '#NAME?',
    });
    const faults = allFaults((sink) => {
      const kept = openTable([['Name'], [{ error: '#REF!' }]], 'things', COLUMNS, sink);
      expect(kept.text(0, 'name')).toBeUndefined();
    });
    expect(faults.length).toBe(1);
  });

  it('as text is without the spaces around it, whatever it holds', () => {
    const rows = open(['Name'], [' a b '], [5], [true]);
    expect([0, 1, 2].map((row) => rows.text(row, 'name'))).toEqual(['a b', '5', 'true']);
  });

  it('that is needed and blank is told, and gives nothing', () => {
    const faults = allFaults((sink) => {
      const rows = openTable(
        [
          ['Name', 'Bore'],
          ['', '5'],
        ],
        'things',
        COLUMNS,
        sink,
      );
      expect(rows.neededText(0, 'name')).toBeUndefined();
      expect(rows.needed(0, 'count')).toBeUndefined();
      expect(rows.needed(0, 'bore')).toBeCloseTo(0.005, 15);
    });
    expect(faults.map(({ issue, place }) => [issue, place])).toEqual([
      [
        { kind: 'missing', argument: 'Name' },
        { table: 'things', row: 2, column: 'Name' },
      ],
      [
        { kind: 'missing-header', table: 'things', header: 'Count', found: ['Name', 'Bore'] },
        { table: 'things', row: 1 },
      ],
    ]);
  });

  it('has a place: row and column as shown, the usual header where it is not there', () => {
    const rows = open(['Name', 'Bore (cm)'], [], ['a', 1]);
    expect(rows.place(0)).toEqual({ table: 'things', row: 3 });
    expect(rows.place(0, 'bore')).toEqual({ table: 'things', row: 3, column: 'Bore (cm)' });
    expect(rows.place(0, 'count')).toEqual({ table: 'things', row: 3, column: 'Count' });
  });
});

describe('a plain number', () => {
  it.each<[Cell, number]>([
    [5, 5],
    ['5', 5],
    ['50 %', 0.5],
    ['1,5', 1.5],
    [' 1/2 ', 0.5],
  ])('is read from %j', (cell, value) => {
    expect(plainNumber(cell, 'x')).toBe(value);
  });

  it.each<Cell>(['five', '5 mm', true, Number.NaN, Number.POSITIVE_INFINITY, null, '1e12'])(
    'is not read from %j',
    (cell) => {
      expect(faultOf(() => plainNumber(cell, 'Price'))?.issue).toEqual({
        kind: 'not-a-number',
        argument: 'Price',
        value: cell,
        expected: 'a number',
      });
    },
  );
});

describe('a range', () => {
  it('holds a header and as many rows as are allowed, and no more', () => {
    const rows = (count: number): Cell[][] => [['Name'], ['a'], ...Array.from({ length: count - 1 }, () => [])];
    expect(open(...rows(10)).rowCount).toBe(1);
    expect(openTable(rows(MOST_ROWS), 'things', COLUMNS).rowCount).toBe(1);
    expect(faultOf(() => openTable(rows(MOST_ROWS + 1), 'things', COLUMNS))).toEqual({
      issue: { kind: 'too-many-rows', table: 'things', rows: MOST_ROWS + 2, limit: MOST_ROWS },
      place: { table: 'things' },
    });
  });

  it('without a header or rows is told with its table', () => {
    for (const range of [[], [[]], [['Name'], [null]]])
      expect(faultOf(() => openTable(range, 'things', COLUMNS))).toEqual({
        issue: { kind: 'empty-table', table: 'things' },
        place: { table: 'things' },
      });
  });
});
