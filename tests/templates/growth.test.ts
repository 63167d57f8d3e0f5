import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type Calculator, createCalculator } from '../../src/calc/calculator.ts';
import { loadUniver } from '../../src/calc/univer-node.ts';
import { callFunction } from '../../src/functions/adapter.ts';
import { functions } from '../../src/functions/index.ts';
import { parseBlock, parseSpot } from '../../src/workbook/address.ts';
import { newWorkbook } from '../../src/workbook/build.ts';
import type { ModelSheet, WorkbookModel } from '../../src/workbook/model.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { books } from '../../templates/books.ts';
import { emptied } from '../../templates/empty.ts';
import { templateModel } from '../../templates/model.ts';
import { scenarioUnits } from '../../templates/scenario.ts';

const FIRST_UNIT = 5;
const RIG = 'B core out, small hose';

async function opened(model: WorkbookModel): Promise<Calculator> {
  const made = createCalculator(loadUniver(), functions, callFunction);
  made.load((await readWorkbook(await newWorkbook(model))).snapshot);
  await made.recalculate();
  return made;
}

/** Worked out once for all tests; what a test puts in is taken out after it. */
let template: Calculator;
let empty: Calculator;
const undo: (() => void)[] = [];
beforeAll(async () => {
  template = await opened(templateModel());
  empty = await opened(emptied(templateModel()));
}, 120_000);
afterEach(async () => {
  if (undo.length === 0) return;
  for (const back of undo.splice(0).reverse()) back();
  await template.recalculate();
  await empty.recalculate();
});
afterAll(() => {
  template.dispose();
  empty.dispose();
});

/** The model with so many rows put into the range of a name, as a person inserts rows above its last one. */
function withRoom(model: WorkbookModel, name: string, rows: number): WorkbookModel {
  const names = (model.names ?? []).map((one) =>
    one.name === name ? { ...one, range: one.range.replace(/\d+$/, (last) => String(Number(last) + rows)) } : one,
  );
  return { ...model, names };
}

/** What stands in a cell, such as "Labour!B4"; an error as its code. */
function at(made: Calculator, address: string): unknown {
  const [sheet = '', cell = ''] = address.split('!');
  const spot = parseSpot(cell);
  if (spot === undefined) throw new Error(`${address} is no cell`);
  const value: unknown = made.value(sheet, spot.row, spot.column);
  return typeof value === 'object' && value !== null && 'error' in value ? value.error : (value ?? '');
}

function put(made: Calculator, address: string, value: string | number | null): void {
  const [sheet = '', cell = ''] = address.split('!');
  const spot = parseSpot(cell);
  if (spot === undefined) throw new Error(`${address} is no cell`);
  const before: unknown = made.value(sheet, spot.row, spot.column);
  const kept = typeof before === 'string' || typeof before === 'number' ? before : null;
  undo.push(() => made.put(sheet, spot.row, spot.column, kept));
  made.put(sheet, spot.row, spot.column, value);
}

/** One dry unit of 10 L in a row of Units. */
function putUnit(made: Calculator, row: number, name: string): void {
  put(made, `Units!A${row}`, name);
  put(made, `Units!D${row}`, 1);
  put(made, `Units!E${row}`, 10);
  put(made, `Units!F${row}`, RIG);
}

describe('a project with more units than the book came with', () => {
  it('is counted to its last row on Results, Labour and Start, and fills no room of another table', async () => {
    const UNITS = 70;
    const made = await opened(withRoom(emptied(templateModel()), 'Units', UNITS));
    for (let index = 0; index < UNITS; index++) putUnit(made, FIRST_UNIT + index, `U${index + 1}`);
    await made.recalculate();
    expect(made.faults()).toEqual([]);
    expect(at(made, 'Results!B4')).toBe(UNITS);
    expect(at(made, 'Results!B8')).toBeCloseTo(10 * UNITS, 9);
    // 20 + 15 min and two readings of 2 min for each unit (Conditions), so short a pull no look
    expect(at(made, 'Labour!B4')).toBeCloseTo((UNITS * 39) / 60, 6);
    expect(at(made, 'Start!C12')).toBeCloseTo((UNITS * 39) / 60, 6);
    const each = Number(at(made, 'Results!K11'));
    expect(at(made, 'Start!C15')).toBeCloseTo((UNITS * each) / 60, 9);
    undo.length = 0;
    made.dispose();
  }, 120_000);

  it('finds the totals behind a unit that is called Total, and Gear behind one called Gear', async () => {
    const made = empty;
    for (const [index, name] of ['Total', 'Gear', 'U3'].entries()) putUnit(made, FIRST_UNIT + index, name);
    await made.recalculate();
    expect(made.faults()).toEqual([]);
    expect(at(made, 'Labour!B4')).toBeCloseTo((3 * 39) / 60, 6);
    // parts of rig B: pump 260, hose 18, core-removal valve 55
    expect(at(made, 'Labour!B9')).toBe(333);
    const units = [17, 18, 19, 20].map((row) => at(made, `Labour!W${row}`));
    expect(units).toEqual(['Total', 'Gear', 'U3', '']);
  }, 60_000);
});

describe('nothing stands below a table that grows with the rows of a person', () => {
  /** Tables of a length that the formula gives. */
  const FIXED = /NARROWS\.(?:EVAC\.CURVE|DRY\.CURVE|HOLD\.READ|LEAK\.RATE)\(/;
  const sheets = Object.entries(books).flatMap(([book, model]) =>
    model().sheets.map((sheet) => [`${book}, ${sheet.name}`, sheet] as const),
  );

  /** Cells with a value or a formula, by row and column from 0. */
  function filled(sheet: ModelSheet): { readonly row: number; readonly column: number }[] {
    const isFilled = (cell: unknown): boolean =>
      typeof cell === 'object' && cell !== null
        ? 'formula' in cell || ('value' in cell && cell.value !== null && cell.value !== undefined)
        : cell !== null && cell !== undefined;
    const single = Object.entries(sheet.cells ?? {}).flatMap(([cell, given]) =>
      isFilled(given) ? [parseSpot(cell) ?? { row: 0, column: 0 }] : [],
    );
    const blocks = (sheet.blocks ?? []).flatMap(({ at: from, rows }) => {
      const spot = parseSpot(from) ?? { row: 0, column: 0 };
      return rows.flatMap((row, down) =>
        row.flatMap((cell, across) => (isFilled(cell) ? [{ row: spot.row + down, column: spot.column + across }] : [])),
      );
    });
    return [...single, ...blocks];
  }

  it.each(sheets)('%s', (_, sheet) => {
    for (const [cell, given] of Object.entries(sheet.cells ?? {})) {
      if (typeof given !== 'object' || given?.spills === undefined || FIXED.test(given.formula ?? '')) continue;
      const spill = parseBlock(given.spills);
      const from = parseSpot(cell) ?? { row: 0, column: 0 };
      const endColumn = spill?.endColumn ?? from.column;
      const below = filled(sheet).filter(
        ({ row, column }) => row > from.row && column >= from.column && column <= endColumn,
      );
      expect(below, `${sheet.name}!${cell}`).toEqual([]);
    }
  });
});

describe('a fault is told beside the figures', () => {
  it('how many rows the hours and days are without, and the error of the risk in place of "not asked for"', async () => {
    const made = template;
    put(made, 'Units!F6', 'a rig that is gone');
    put(made, 'Units!F7', 'a rig that is gone');
    await made.recalculate();
    const words = 'without 2 rows that could not be worked out: see Verdict';
    expect(at(made, 'Labour!A3')).toBe(words);
    expect(at(made, 'Start!E12')).toBe(`${words} on Labour`);
    expect(at(made, 'Crew!A3')).toBe('without 2 rows that could not be planned');
    expect(at(made, 'Start!E13')).toMatch(/; without 2 rows that could not be planned$/);
    for (const cell of ['B11', 'B12', 'B13']) expect(at(made, `Labour!${cell}`)).toBe('#N/A');
    // Verdict of the rows, not a number without them
    expect(at(made, 'Results!B5')).toBe('#N/A');
  }, 60_000);

  it('by the error of the table where all of it is one, and by no 0', async () => {
    const made = template;
    // the speed of the first pump
    put(made, 'Parts!I5', 'fast');
    await made.recalculate();
    const code = at(made, 'Results!A10');
    expect(code).toMatch(/^#/);
    const figures = ['Results!B4', 'Results!B5', 'Results!B6', 'Results!B7', 'Results!B8', 'Results!B9', 'Start!C15'];
    for (const cell of [...figures, 'Crew!C5', 'Labour!B4', 'Labour!B11']) expect(at(made, cell), cell).toBe(code);
    expect(at(made, 'Curves!E8')).toBe('#VALUE!');
  }, 60_000);

  it('that a percentile was not asked for only where that is so', async () => {
    const made = template;
    const row = [...Array(40).keys()].find((index) => at(made, `Conditions!A${index + 1}`) === 'Percentiles') ?? 0;
    put(made, `Conditions!B${row + 1}`, '50, 90');
    await made.recalculate();
    expect(at(made, 'Labour!B12')).toBe('not asked for');
    expect(at(made, 'Labour!B13')).toBeGreaterThan(Number(at(made, 'Labour!B11')));
  }, 60_000);
});

describe('figures agree with their labels', () => {
  it('litres stay litres when the tables are in cubic feet', async () => {
    const made = template;
    const litres = Number(at(made, 'Results!B8'));
    const row = [...Array(40).keys()].find((index) => at(made, `Conditions!A${index + 1}`) === 'Report units') ?? 0;
    put(made, `Conditions!B${row + 1}`, 'inch');
    await made.recalculate();
    expect(at(made, 'Results!D10')).toBe('Volume (ft3)');
    expect(at(made, 'Results!A8')).toContain('(L)');
    // a cubic foot is 28.316846592 L; the sum over the table is in cubic feet
    const cubicFeet = scenarioUnits.reduce(
      (sum, { count }, index) => sum + count * Number(at(made, `Results!D${11 + index}`)),
      0,
    );
    expect(at(made, 'Results!B8')).toBeCloseTo(28.316846592 * cubicFeet, 6);
    expect(at(made, 'Results!B8')).toBeCloseTo(litres, 6);
  }, 60_000);

  it('savings say that no other rig is given, or that a price is missing, in place of 0', async () => {
    const made = empty;
    putUnit(made, FIRST_UNIT, 'U1');
    await made.recalculate();
    expect(at(made, 'Start!C14')).toBe('');
    expect(at(made, 'Start!E14')).toBe('no other rig is given on Units');
    expect(at(made, 'Labour!B7')).toBe('none given');
    put(made, `Units!T${FIRST_UNIT}`, 'F half-inch hose, core out');
    await made.recalculate();
    expect(at(made, 'Start!C14')).toBeGreaterThan(0);
    // parts of F: pump 330, hose 85, end 12, core-removal valve 55; of B: 260, 18 and 55
    expect(at(made, 'Start!E14')).toMatch(/gear 482, now 333$/);
    for (let row = 5; row < 100; row++) put(made, `Parts!L${row}`, null);
    await made.recalculate();
    expect(at(made, 'Start!E14')).toMatch(/^and .* of labour; a rig has no Cost on Parts$/);
    expect(at(made, 'Labour!B9')).toBe('no Cost');
  }, 60_000);
});

describe('rows below a table', () => {
  it.each([
    ['Units', 'A36', 'Units: Rows below row 35 do not count: insert rows above it'],
    ['Pipe runs', 'B90', undefined],
    ['Parts', 'B120', undefined],
  ])(
    'are told on %s and on Start, in the template and in the empty book',
    async (sheet, cell, onStart) => {
      for (const made of [template, empty]) {
        expect(at(made, `${sheet}!A3`)).toBe('');
        expect(at(made, 'Start!A3')).toBe('');
        put(made, `${sheet}!${cell}`, 'pasted');
        await made.recalculate();
        expect(at(made, `${sheet}!A3`)).toMatch(/^Rows below row \d+ do not count: insert rows above it$/);
        expect(at(made, 'Start!A3')).toBe(onStart ?? `${sheet}: ${at(made, `${sheet}!A3`)}`);
      }
    },
    120_000,
  );
});

describe('the sizing of the engineer', () => {
  it('says that no pump can do it only where that is the answer', async () => {
    const made = await opened(books['example-engineer']?.() ?? templateModel());
    const answer = async (cell: string, value: string | number | null): Promise<unknown> => {
      put(made, `Sizing!${cell}`, value);
      await made.recalculate();
      const found = at(made, 'Sizing!B9');
      undo.pop()?.();
      return found;
    };
    expect(await answer('B6', 0.01)).toBe('no pump: change a part');
    expect(await answer('B6', null)).toBe('give the minutes');
    expect(await answer('B5', 'no such rig')).toBe('#N/A');
    expect(await answer('B4', null)).toMatch(/^#(?:VALUE|NUM|N\/A)/);
    expect(await answer('B6', 10)).toBeGreaterThan(0);
    made.dispose();
  }, 60_000);
});

it('no unit of a book names a rig that the book does not have', () => {
  for (const [book, model] of Object.entries(books)) {
    const { sheets } = model();
    const column = (sheet: string, header: string): unknown[] => {
      const [head, body] = sheets.find(({ name }) => name === sheet)?.blocks ?? [];
      const place = head?.rows[0]?.indexOf(header) ?? -1;
      return (body?.rows ?? []).map((row) => {
        const cell = row[place];
        return typeof cell === 'object' ? cell?.value : cell;
      });
    };
    const rigs = column('Parts', 'Rig');
    for (const header of ['Rig', 'Other rig'])
      for (const rig of column('Units', header)) if (rig) expect(rigs, `${book} ${header}`).toContain(rig);
  }
});

describe('charts of tables that grow', () => {
  it('say how many rows they show, and show that many and no totals', () => {
    const shown = templateModel().sheets.flatMap(({ charts = [] }) =>
      charts.flatMap(({ title, categories }) => {
        const said = /\(first (\d+) /.exec(title)?.[1];
        const area = parseBlock(categories.slice(categories.indexOf('!') + 1).replaceAll('$', ''));
        return said === undefined || area === undefined
          ? []
          : [[Number(said), area.endRow - area.startRow + 1] as const];
      }),
    );
    expect(shown.length).toBeGreaterThanOrEqual(7);
    for (const [said, rows] of shown) expect(rows).toBe(said);
  });

  it('keep totals out when a unit goes', async () => {
    const made = template;
    const last = FIRST_UNIT + scenarioUnits.length - 1;
    for (const column of 'ABCDEFGHIJKLMNOPQRST') put(made, `Units!${column}${last}`, null);
    await made.recalculate();
    const drawn = Array.from({ length: 30 }, (_, row) => at(made, `Labour!W${17 + row}`)).filter((unit) => unit !== '');
    expect(drawn).toEqual(scenarioUnits.slice(0, -1).map(({ unit }) => unit));
    const units = Array.from({ length: 150 }, (_, row) => at(made, `Crew!N${14 + row}`)).filter((unit) => unit !== '');
    expect(units).toHaveLength(scenarioUnits.slice(0, -1).reduce((sum, { count }) => sum + count, 0));
  }, 60_000);
});
