import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.ts';
import { type Column, MOST_ROWS, openTable, splitHeader } from '../../src/tables/table.ts';
import { faultOf } from './faults.ts';

const COLUMNS = {
  name: { header: 'Name', needed: true, description: '' },
  bore: {
    header: 'Bore',
    synonyms: ['Inside diameter'],
    quantity: 'length',
    unit: 'mm',
    limit: { above: 0 },
    description: '',
  },
  waterLimit: { header: 'Water limit', quantity: 'pressure', unit: 'Pa', description: '' },
  count: { header: 'Count', quantity: 'number', limit: { atLeast: 1 }, whole: true, description: '' },
  sonic: { header: 'Sonic conductance', quantity: 'sonic conductance', unit: 'm3/(s Pa)', description: '' },
} as const satisfies Record<string, Column>;

const open = (...rows: Cell[][]) => openTable(rows, 'things', COLUMNS);

describe('headers', () => {
  it.each([
    'Bore (mm)',
    'bore(mm)',
    'BORE [mm]',
    'Bore, mm',
    ' Bore ',
    'inside diameter (mm)',
    'Inside-diameter',
    'Bore mm',
    'bore_mm',
    'Bore/mm',
    'Bore in mm',
    'Bore - mm',
  ])('finds the bore in millimetres under %s', (header) => {
    expect(open(['Name', header], ['a', 5]).number(0, 'bore')).toBeCloseTo(0.005, 15);
  });

  it.each(['Bore (in)', 'Bore in', 'Bore (")', 'Inside diameter [inch]'])('reads the unit of %s', (header) => {
    expect(open(['Name', header], ['a', 1]).number(0, 'bore')).toBeCloseTo(0.0254, 15);
  });

  it('reads a unit with parentheses of its own', () => {
    expect(splitHeader('Sonic conductance (dm3/(s bar))')).toEqual({ name: 'sonicconductance', unit: 'dm3/(s bar)' });
    expect(open(['Name', 'Sonic conductance (dm3/(s bar))'], ['a', 2]).number(0, 'sonic')).toBeCloseTo(2e-8, 20);
  });

  it('reads gauge and vacuum units', () => {
    const table = open(['Name', 'Water limit (inHg vac)'], ['a', 29]);
    expect(table.number(0, 'waterLimit')).toBeCloseTo(101325 - 29 * 3386.388640341, 6);
  });

  it('ignores columns that it does not know, in any order', () => {
    const table = open(['Colour', 'Count', 'Name'], ['red', 2, 'a']);
    expect([table.text(0, 'name'), table.number(0, 'count'), table.has('bore')]).toEqual(['a', 2, false]);
  });

  it('refuses a header twice, under whatever synonym', () => {
    expect(faultOf(() => open(['Name', 'Bore', 'Inside diameter'], ['a', 1, 2]))).toEqual({
      issue: { kind: 'duplicate-header', table: 'things', header: 'Bore' },
      place: { table: 'things', row: 1, column: 'Inside diameter' },
    });
  });

  it('says what was found where a needed header is not there', () => {
    expect(faultOf(() => open(['Bore', 'Colour'], [1, 'red']))?.issue).toEqual({
      kind: 'missing-header',
      table: 'things',
      header: 'Name',
      found: ['Bore', 'Colour'],
    });
  });

  it('refuses a unit that the column cannot have', () => {
    expect(faultOf(() => open(['Name', 'Bore (psi)'], ['a', 1]))).toMatchObject({
      issue: { kind: 'unit', unit: 'psi', quantity: 'length' },
      place: { row: 1, column: 'Bore (psi)' },
    });
  });

  it.each(['constructor', '__proto__', 'toString'])('does not take %s for a header', (header) => {
    expect(open(['Name', header], ['a', 1]).rowCount).toBe(1);
  });
});

describe('cells', () => {
  it('may carry their own unit', () => {
    expect(open(['Name', 'Bore (mm)'], ['a', '3/8 in']).number(0, 'bore')).toBeCloseTo(0.375 * 0.0254, 15);
  });

  it('take a fraction without a unit in the unit of the header', () => {
    expect(open(['Name', 'Bore (in)'], ['a', '3/8']).number(0, 'bore')).toBeCloseTo(0.375 * 0.0254, 15);
  });

  it('that are blank in every form are blank', () => {
    const table = open(['Name', 'Bore', 'Count'], ['a', '', null], ['b', undefined, '  ']);
    expect([0, 1].map((row) => [table.number(row, 'bore'), table.number(row, 'count')])).toEqual([
      [undefined, undefined],
      [undefined, undefined],
    ]);
  });

  it('of blank rows are skipped, and rows keep their number', () => {
    const table = open(['Name'], [''], ['a'], [null], [], ['b']);
    expect([table.rowCount, table.rowNumber(0), table.rowNumber(1)]).toEqual([2, 3, 6]);
  });

  it('out of limit are told in the unit of the header, with their place', () => {
    const table = open(['Name', 'Bore (in)'], ['a', -0.5]);
    expect(faultOf(() => table.number(0, 'bore'))).toEqual({
      issue: { kind: 'limit', argument: 'Bore', value: -0.5, rule: 'above', limit: 0, unit: 'in' },
      place: { table: 'things', row: 2, column: 'Bore (in)' },
    });
  });

  const bad: readonly (readonly [Cell, string])[] = [
    ['wide', 'not-a-number'],
    [true, 'not-a-number'],
    [Number.NaN, 'not-a-number'],
    [Number.POSITIVE_INFINITY, 'not-a-number'],
    ['5 psi', 'unit'],
    [{ error: '#REF!' }, 'cell-error'],
    [0, 'limit'],
  ];
  it.each(bad)('that hold %s are a fault', (cell, kind) => {
    const table = open(['Name', 'Bore'], ['a', cell]);
    expect(faultOf(() => table.number(0, 'bore'))?.issue.kind).toBe(kind);
  });

  it('of a count must be whole and at least 1', () => {
    const table = open(['Name', 'Count'], ['a', 1.5], ['b', 0]);
    expect(faultOf(() => table.number(0, 'count'))?.issue.kind).toBe('wrong');
    expect(faultOf(() => table.number(1, 'count'))?.issue.kind).toBe('limit');
  });

  it('that are needed and blank are a fault; so is the header where it is not there', () => {
    expect(faultOf(() => open(['Name', 'Bore'], ['a', '']).needed(0, 'bore'))?.issue.kind).toBe('missing');
    expect(faultOf(() => open(['Name'], ['a']).needed(0, 'bore'))?.issue.kind).toBe('missing-header');
  });
});

describe('a range', () => {
  it('without rows is a fault', () => {
    for (const range of [[], [[]], [['', null]], [['Name']], [['Name'], [''], [null]]]) {
      expect(faultOf(() => openTable(range, 'things', COLUMNS))?.issue.kind).toBe('empty-table');
    }
  });

  it('of a million rows is refused before a cell is read', () => {
    let looked = 0;
    const row = new Proxy([] as Cell[], {
      get: (target, key) => {
        looked += 1;
        return Reflect.get(target, key);
      },
    });
    const range = Array.from({ length: 1_048_576 }, () => row);
    expect(faultOf(() => openTable(range, 'things', COLUMNS))?.issue).toEqual({
      kind: 'too-many-rows',
      table: 'things',
      rows: 1_048_576,
      limit: MOST_ROWS,
    });
    expect(looked).toBe(0);
  });
});
