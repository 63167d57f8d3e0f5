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

/** @param rows of each sheet, where the page of the embedded sheet gives more of them than a file */
async function opened(model: WorkbookModel, rows = 0): Promise<Calculator> {
  const made = createCalculator(loadUniver(), functions, callFunction);
  const { snapshot } = await readWorkbook(await newWorkbook(model));
  for (const sheet of Object.values(snapshot.sheets)) sheet.rowCount = Math.max(sheet.rowCount ?? 0, rows);
  made.load(snapshot);
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

  it('has totals up to the last row that they read, and no total of a part where there are more', async () => {
    // rows 11 to 1000 of Results; of Labour, from row 17, Total and three rows below the units as well
    const UNITS = 990;
    const figures = ['Results!B4', 'Results!B5', 'Results!B6', 'Results!B7', 'Results!B8', 'Results!B9'];
    const made = await opened(withRoom(emptied(templateModel()), 'Units', UNITS + 1), 2000);
    for (let index = 0; index < UNITS; index++) {
      putUnit(made, FIRST_UNIT + index, `U${index + 1}`);
      // so that there is a plan of three units alone
      put(made, `Units!D${FIRST_UNIT + index}`, index === 0 || index > UNITS - 3 ? 1 : 0);
    }
    await made.recalculate();
    expect(at(made, 'Results!A3')).toBe('');
    expect(at(made, 'Results!B4')).toBe(3);
    expect(at(made, 'Results!B8')).toBeCloseTo(30, 9);
    expect(at(made, 'Start!E15')).toBe('');
    const labour = 'no totals of over 984 rows: join equal units or split the project; see row 1001';
    expect(at(made, 'Labour!A3')).toBe(labour);
    for (const row of [4, 5, 6, 7, 8, 9, 10]) expect(at(made, `Labour!B${row}`), `row ${row}`).toBe('no total');
    expect(at(made, 'Start!C12')).toBe('no total');
    expect(at(made, 'Start!E12')).toBe(`${labour} on Labour`);
    // the chart shows its rows all the same
    expect(at(made, 'Labour!W17')).toBe('U1');

    putUnit(made, FIRST_UNIT + UNITS, 'one more');
    await made.recalculate();
    expect(made.faults()).toEqual([]);
    const results = 'no totals of over 990 rows: join equal units or split the project; see row 1001';
    expect(at(made, 'Results!A3')).toBe(results);
    for (const cell of [...figures, 'Start!C15']) expect(at(made, cell), cell).toBe('no total');
    expect(at(made, 'Start!E15')).toBe(`${results} on Results`);
    undo.length = 0;
    made.dispose();
  }, 120_000);

  it('has no days of a plan that is longer than the figures of Crew read', async () => {
    const made = template;
    // what a plan of 3,000 units shows there: working one out takes a minute
    put(made, 'Crew!L3001', 'best of 40 plans');
    await made.recalculate();
    expect(made.faults()).toEqual([]);
    const words = 'no totals of over 2987 rows: join equal units or split the project; see row 3001';
    expect(at(made, 'Crew!A3')).toBe(words);
    for (const row of [4, 5, 6, 7, 8, 9, 10]) expect(at(made, `Crew!C${row}`), `row ${row}`).toBe('no total');
    expect(at(made, 'Start!C13')).toBe('no total');
    expect(at(made, 'Start!E13')).toBe(`${words} on Crew`);
  }, 60_000);

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
    expect(at(made, 'Results!A3')).toBe(words);
    expect(at(made, 'Start!E12')).toBe(`${words} on Labour; no risk: see Risk`);
    expect(at(made, 'Start!E15')).toBe(`${words} on Results`);
    expect(at(made, 'Crew!A3')).toBe('without 2 rows that could not be planned: see Note');
    expect(at(made, 'Start!E13')).toMatch(/; without 2 rows that could not be planned: see Note on Crew$/);
    for (const cell of ['B11', 'B12', 'B13']) expect(at(made, `Labour!${cell}`)).toBe('#N/A');
    expect(at(made, 'Labour!C13')).toBe('no risk: see Risk');
    expect(at(made, 'Risk!B14')).toMatch(/^no risk: a row that it reads is wrong; /);
  }, 60_000);

  it('and leaves those rows out of every total alike, which is as if their Count were 0', async () => {
    const made = template;
    const [second, third] = [1, 2].map((index) => scenarioUnits[index]?.count ?? 0) as [number, number];
    const total = (row: string, column: string): unknown => {
      const found = Array.from({ length: 60 }, (_, index) => 17 + index).find(
        (index) => at(made, `Labour!A${index}`) === row,
      );
      return at(made, `Labour!${column}${found}`);
    };
    const figures = ['B4', 'B5', 'B6', 'B7', 'B8', 'B9'].map((cell) => `Results!${cell}`);
    for (const row of [6, 7]) put(made, `Units!D${row}`, 0);
    await made.recalculate();
    const wanted = figures.map((cell) => Number(at(made, cell)));
    for (const [row, count] of [
      [6, second],
      [7, third],
    ] as const) {
      put(made, `Units!D${row}`, count);
      put(made, `Units!F${row}`, 'a rig that is gone');
    }
    await made.recalculate();
    for (const [index, cell] of figures.entries()) expect(at(made, cell), cell).toBeCloseTo(wanted[index] ?? 0, 9);
    expect(at(made, 'Results!B4')).toBe(total('Total', 'B'));
    expect(at(made, 'Start!C15')).toBe(at(made, 'Results!B5'));
    expect(at(made, 'Start!C12')).toBe(total('Total', 'G'));
  }, 60_000);

  it('and that rows keep their own rig where the other one is wrong, beside what the other rigs save', async () => {
    const made = template;
    put(made, 'Units!T5', 'a rig that is gone');
    await made.recalculate();
    const words = '1 row keeps its own rig beside the other';
    expect(at(made, 'Labour!A3')).toBe('');
    expect(at(made, 'Labour!A14')).toBe(words);
    expect(at(made, 'Start!E14')).toMatch(new RegExp(`; ${words}$`));
  }, 60_000);

  it('as one cause: with a misspelt rig no cell of the book fails for another reason', async () => {
    const made = template;
    put(made, 'Units!F6', 'a rig that is gone');
    await made.recalculate();
    const faults = made.faults();
    expect(faults.length).toBeGreaterThan(0);
    for (const { sheet, row, column, message } of faults)
      expect(message, `${sheet} ${row} ${column}`).toContain('There is no rig "a rig that is gone"');
  }, 60_000);

  it('on Recovery, too: hours are those of the other kinds, and say that they are without one', async () => {
    const made = template;
    expect(at(made, 'Recovery!A3')).toBe('');
    const [coresIn, coresOut] = [Number(at(made, 'Recovery!B13')), Number(at(made, 'Recovery!B14'))];
    const of = (column: string): number => Number(at(made, `Recovery!${column}18`));
    const count = of('C');
    const [left, leftOut] = [(count * (of('H') + of('J'))) / 60, (count * (of('I') + of('K'))) / 60];
    expect(left).toBeGreaterThan(0);
    put(made, 'Recovery!B18', 'no such gas');
    await made.recalculate();
    expect(at(made, 'Recovery!A3')).toBe('without 1 row that could not be worked out: see the errors of its cells');
    expect(at(made, 'Recovery!B13')).toBeCloseTo(coresIn - left, 9);
    expect(at(made, 'Recovery!B14')).toBeCloseTo(coresOut - leftOut, 9);
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

describe('a part of the Parts sheet', () => {
  it('that was renamed and kept its figures is told above the table, with its row, and not on Start', async () => {
    for (const made of [template, empty]) {
      put(made, 'Parts!B7', 'hose 1/2 in x 6 ft');
      await made.recalculate();
      // 3/16 in, 5 ft; 1/2 in, 6 ft
      expect(at(made, 'Parts!A3')).toBe(
        "Row 7: Note: hose 1/2 in x 6 ft: the row's own Bore 4.7625 mm and Length 1.524 m count, not the library's 12.7 mm and 1.8288 m.",
      );
      expect(at(made, 'Start!A3')).toBe('');
      put(made, 'Parts!D7', null);
      put(made, 'Parts!E7', null);
      await made.recalculate();
      expect(at(made, 'Parts!A3')).toBe('');
      put(made, 'Parts!F7', 0);
      await made.recalculate();
      expect(at(made, 'Parts!A3')).toMatch(/^Row 7: Count /);
    }
  }, 120_000);
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

it('the hint for a rig says where its name is to be added for the list, as the header there calls it', () => {
  const { sheets, names = [] } = templateModel();
  const range = names.find(({ name }) => name === 'RigNames')?.range ?? '';
  const header = range.replace(/^.*!\$?([A-Z]+)\$?(\d+):.*$/, (_, column, row) => `${column}${Number(row) - 1}`);
  const cell = sheets.find(({ name }) => name === 'Parts')?.cells?.[header];
  const called = typeof cell === 'object' && cell !== null ? cell.value : cell;
  expect(called).toEqual(expect.any(String));
  const rig = sheets.find(({ name }) => name === 'Units')?.validations?.find(({ title }) => title === 'Rig');
  expect(rig?.message).toMatch(new RegExp(`describe it there and add its name under ${called}`));
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
    expect(shown.length).toBeGreaterThanOrEqual(8);
    for (const [said, rows] of shown) expect(rows).toBe(said);
  });

  it('show the water of a plan of breaks to its end, however long the plan, and none of the rows below it', async () => {
    const made = template;
    const drawn = (): (readonly [unknown, unknown])[] =>
      Array.from(
        { length: 34 },
        (_, row) => [at(made, `Breaks!M${47 + row}`), at(made, `Breaks!N${47 + row}`)] as const,
      );
    const events = (): (readonly [unknown, unknown])[] => {
      const rows = Array.from({ length: 60 }, (_, row) => 47 + row);
      const end = rows.find((row) => at(made, `Breaks!B${row}`) === 'whole plan') ?? 0;
      return rows
        .filter((row) => row < end)
        .map((row) => [at(made, `Breaks!E${row}`), at(made, `Breaks!H${row}`)] as const);
    };
    const pull = (row: number): void => {
      for (const [index, column] of ['E', 'F', 'G', 'H', 'I', 'J', 'K'].entries())
        put(made, `Breaks!${column}${row}`, [1000, '0.2 bar g', 'nitrogen', '2 bar g', 8, 15, 2][index] ?? null);
    };
    for (const length of [3, 5]) {
      if (length === 5) {
        for (const row of [7, 8]) pull(row);
        put(made, 'Breaks!E9', 500);
        await made.recalculate();
      }
      const wanted = events();
      // three rows a pull with a break and its wait, one for the last
      expect(wanted).toHaveLength(3 * (length - 1) + 1);
      // the curve ends at its last point: the rest of its room repeats that
      const last = wanted.at(-1);
      expect(drawn()).toEqual([...wanted, ...Array.from({ length: 34 - wanted.length }, () => last)]);
    }
  }, 60_000);

  it('keep totals out when a unit goes', async () => {
    const made = template;
    const last = FIRST_UNIT + scenarioUnits.length - 1;
    for (const column of 'ABCDEFGHIJKLMNOPQRST') put(made, `Units!${column}${last}`, null);
    await made.recalculate();
    const drawn = Array.from({ length: 30 }, (_, row) => at(made, `Labour!W${17 + row}`)).filter((unit) => unit !== '');
    expect(drawn).toEqual(scenarioUnits.slice(0, -1).map(({ unit }) => unit));
    const units = Array.from({ length: 150 }, (_, row) => at(made, `Crew!AA${14 + row}`)).filter((unit) => unit !== '');
    expect(units).toHaveLength(scenarioUnits.slice(0, -1).reduce((sum, { count }) => sum + count, 0));
  }, 60_000);
});
