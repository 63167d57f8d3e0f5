import { readXlsx } from 'hucre/xlsx';
import { beforeAll, describe, expect, it } from 'vitest';
import { callById } from '../../src/functions/index.ts';
import type { Cell, CellRange } from '../../src/tables/cells.ts';
import { parseBlock } from '../../src/workbook/address.ts';
import type { ModelSheet } from '../../src/workbook/model.ts';
import { fillTemplate } from '../../templates/fill.ts';
import { templateModel } from '../../templates/model.ts';
import { templateRigs } from '../../templates/rigs.ts';
import { scenarioUnits } from '../../templates/scenario.ts';

const SHEETS = ['Labour', 'Risk', 'Crew', 'Gear'] as const;
const model = templateModel();
const UNITS = scenarioUnits.reduce((sum, { count }) => sum + count, 0);
/** What the charts of a sheet draw one by one: rows of Units, units, rigs; the curves of Risk fill all of their points. */
const DRAWN = { Labour: scenarioUnits.length, Risk: 15, Crew: UNITS, Gear: templateRigs.length } as const;

let faults: readonly string[];
let stored: ReadonlyMap<string, readonly (readonly Cell[])[]>;

beforeAll(async () => {
  const filled = await fillTemplate();
  faults = filled.faults;
  stored = new Map((await readXlsx(filled.bytes)).sheets.map(({ name, rows }) => [name, rows as Cell[][]]));
});

function sheetOf(name: string): ModelSheet {
  const found = model.sheets.find((sheet) => sheet.name === name);
  if (found === undefined) throw new Error(`there is no sheet ${name}`);
  return found;
}

/** Values of "Labour!$A$3:$B$9" as stored in the file; empty cells as "". */
function values(address: string): Cell[][] {
  const mark = address.lastIndexOf('!');
  const sheet = address.slice(0, mark).replaceAll("'", '');
  const area = parseBlock(address.slice(mark + 1).replaceAll('$', ''));
  if (area === undefined) throw new Error(`${address} is no range`);
  const rows = stored.get(sheet) ?? [];
  return Array.from({ length: area.endRow - area.startRow + 1 }, (_, down) =>
    Array.from(
      { length: area.endColumn - area.startColumn + 1 },
      (_, across) => rows[area.startRow + down]?.[area.startColumn + across] ?? '',
    ),
  );
}

/** The table that a defined name stands for. */
function named(name: string): CellRange {
  const range = model.names?.find((one) => one.name === name)?.range;
  if (range === undefined) throw new Error(`nothing is called ${name}`);
  return values(range);
}

function spillOf(sheet: string, id: string): string {
  for (const cell of Object.values(sheetOf(sheet).cells ?? {}))
    if (typeof cell === 'object' && cell?.formula?.includes(id) && cell.spills !== undefined)
      return `${sheet}!${cell.spills}`;
  throw new Error(`${sheet} spills no ${id}`);
}
const spilled = (sheet: string, id: string): Cell[][] => values(spillOf(sheet, id));

function call(id: string, names: readonly string[]): readonly (readonly unknown[])[] {
  const outcome = callById(id, names.map(named));
  if (!outcome.ok || !Array.isArray(outcome.value)) throw new Error(`${id} gives no table`);
  return outcome.value as readonly (readonly unknown[])[];
}

/** A number of a table by the name of its row and the beginning of its header. */
function numberAt(table: readonly (readonly unknown[])[], row: string, header: string): number {
  const column = (table[0] ?? []).findIndex((cell) => String(cell).replace(/ \(.*/, '') === header);
  expect(column, header).toBeGreaterThanOrEqual(0);
  const found = table.find(([name]) => name === row);
  expect(found, row).toBeDefined();
  return Number(found?.[column]);
}

const start = (row: number): number => Number(values(`Start!C${row}:C${row}`)[0]?.[0]);

describe.each(SHEETS)('the sheet %s', (name) => {
  it('has no cell that ends in an error', () => {
    expect(faults.filter((fault) => fault.startsWith(`${name}!`))).toEqual([]);
  });

  it('draws its charts over numbers, one for each label', () => {
    for (const { title, categories, series } of sheetOf(name).charts ?? [])
      for (const one of series) {
        const [labels, numbers] = [values(one.categories ?? categories), values(one.values)];
        expect(labels.length, title).toBe(numbers.length);
        expect(labels.length, title).toBeGreaterThanOrEqual(DRAWN[name]);
        labels.forEach(([label], row) => {
          if (row < DRAWN[name]) expect(label, title).not.toBe('');
          else expect(label, title).toBe('');
        });
        numbers.forEach(([value], row) => {
          if (row < DRAWN[name]) expect(typeof value, title).toBe('number');
          else expect(value, title).toBe('');
        });
      }
  });

  it('has a figure beside each of its words', () => {
    for (const { rows } of sheetOf(name).blocks ?? []) {
      const looks = rows.flatMap((row) => row.map((cell) => (typeof cell === 'object' ? cell?.look : undefined)));
      if (!looks.includes('figure')) continue;
      const column = name === 'Crew' ? 'C' : 'B';
      const read = values(`${name}!${column}4:${column}${3 + rows.length}`);
      for (const [value] of read) expect(typeof value).toBe('number');
    }
  });
});

describe.each([
  ['Labour', 'LABOUR.TABLE', ['Units', 'Parts', 'Rates', 'Runs', 'Conditions']],
  ['Risk', 'LABOUR.RISK', ['Units', 'Parts', 'Rates', 'Factors', 'Runs', 'Conditions']],
  ['Crew', 'CREW.PLAN', ['Units', 'Parts', 'Crews', 'Runs', 'Conditions']],
  ['Gear', 'GEAR.PARETO', ['Units', 'Parts', 'Runs', 'Conditions']],
] as const)('on %s, %s', (sheet, id, names) => {
  it('fills the range that it says, with what the function gives for the tables of the book', () => {
    const found = spilled(sheet, id);
    const given = call(id, names);
    expect(found.length).toBe(given.length);
    found.forEach((row, at) => {
      row.forEach((cell, column) => {
        const theirs = given[at]?.[column];
        if (typeof cell === 'number') expect(cell).toBeCloseTo(Number(theirs), 6);
        else expect(cell).toBe(theirs ?? '');
      });
    });
  });
});

describe('the figures on Start', () => {
  it('are the attended hours, the working days and what the other rigs save, from the sheets', () => {
    const hours = spilled('Labour', 'LABOUR.TABLE');
    const plan = spilled('Crew', 'CREW.PLAN');
    expect(start(12)).toBeCloseTo(numberAt(hours, 'Total', 'Attended'), 9);
    const [first, last] = [numberAt(plan, 'Finish of all', 'Day'), numberAt(plan, 'Finish of all', 'Finish day')];
    expect(start(13)).toBe(last - first + 1);
    const saved = numberAt(hours, 'Total', 'Saves attended') + numberAt(hours, 'Total', 'Saves waiting');
    expect(start(14)).toBeCloseTo(saved, 9);
    expect(start(14)).toBeGreaterThan(0);
    const words = String(values('Start!E14:E14')[0]?.[0]);
    expect(words).toContain(String(Math.round(numberAt(hours, 'Total', 'Saves'))));
  });

  it('tell beside the plain sum how far it runs over, from the table of the risk', () => {
    const table = spilled('Risk', 'LABOUR.RISK');
    const of = (percentile: string): number => Math.round(numberAt(table, percentile, 'Attended'));
    expect(of('P80')).toBeGreaterThan(of('P50'));
    expect(values('Start!E12:E12')).toEqual([[`with risk: P50 ${of('P50')} h, P80 ${of('P80')} h`]]);
  });

  it('count the units that stand connected over a night', () => {
    const plan = spilled('Crew', 'CREW.PLAN');
    const nights = plan.filter((row) => row.includes('yes')).length;
    expect(values('Start!E13:E13')[0]?.[0]).toBe(`${nights} units connected over a night`);
  });
});

describe('the hours that ship', () => {
  it('are the sum over the rows of Units', () => {
    const table = spilled('Labour', 'LABOUR.TABLE');
    const rows = table.slice(1, 1 + scenarioUnits.length);
    for (const [column, header] of [
      [6, 'Attended'],
      [7, 'Waiting'],
      [9, 'Cost'],
    ] as const)
      expect(numberAt(table, 'Total', header)).toBeCloseTo(
        rows.reduce((sum, row) => sum + Number(row[column]), 0),
        6,
      );
  });

  it('hold as much attended work as the plan of the crews has to do', () => {
    const [header = [], ...rows] = named('Units').filter((row) => row[0] !== '');
    const table = spilled('Labour', 'LABOUR.TABLE');
    const given = (row: readonly Cell[], name: string, standard: number): number => {
      const cell = row[header.indexOf(name)];
      return typeof cell === 'number' ? cell : standard;
    };
    // one look of 5 min (Conditions) at the end of each whole hour of each part of a pull, then 10 min of way into a new area
    let looks = 0;
    let ways = 0;
    rows.forEach((row, at) => {
      const parts = given(row, 'Breaks', 0) + 1;
      const pull = Number(table[1 + at]?.[3]);
      const each = given(row, 'Access', 1) * 5 * parts * Math.floor(pull / parts / 60 + 1e-9);
      looks += given(row, 'Count', 1) * each;
      const area = header.indexOf('Area');
      if (at > 0 && row[area] !== rows[at - 1]?.[area]) ways += 10;
    });
    const work = numberAt(table, 'Total', 'Attended') - (looks + ways) / 60;
    // the bound: three technicians from 8 to 16 o'clock without a gap
    const plan = spilled('Crew', 'CREW.PLAN');
    const bound = numberAt(plan, 'Bound: attended work', 'Lasts');
    const [days, rest] = [Math.floor(bound / 24), bound % 24];
    expect(3 * (8 * days + rest)).toBeCloseTo(work, 4);
  });
});

describe('the plan that ships', () => {
  it('has every unit once, never ends before a bound, nor after first come', () => {
    const plan = spilled('Crew', 'CREW.PLAN');
    const end = plan.findIndex(([name]) => name === 'Finish of all');
    expect(end - 1).toBe(UNITS);
    const units = plan.slice(1, end).map((row) => row[1]);
    expect(new Set(units).size).toBe(UNITS);
    const finish = numberAt(plan, 'Finish of all', 'Lasts');
    for (const bound of ['attended work', 'rig time', 'longest unit'])
      expect(finish).toBeGreaterThanOrEqual(numberAt(plan, `Bound: ${bound}`, 'Lasts') - 1e-9);
    expect(finish).toBeLessThanOrEqual(numberAt(plan, 'First come', 'Lasts') + 1e-9);
  });

  it('draws a bar for every unit', () => {
    const [bars] = sheetOf('Crew').charts ?? [];
    expect(values(bars?.categories ?? '').filter(([unit]) => unit !== '')).toHaveLength(UNITS);
    expect(bars?.series.map(({ unseen }) => unseen ?? false)).toEqual([true, false]);
  });
});

describe('the risk that ships', () => {
  const PERCENTILES = ['P10', 'P50', 'P80', 'P90'];

  it('rises from P10 through P50 and P80 to P90, in hours, days and money', () => {
    const table = spilled('Risk', 'LABOUR.RISK');
    for (const header of ['Attended', 'Waiting', 'Days', 'Cost']) {
      const rising = PERCENTILES.map((row) => numberAt(table, row, header));
      expect(rising, header).toEqual([...rising].sort((a, b) => a - b));
      expect(new Set(rising).size, header).toBe(PERCENTILES.length);
    }
  });

  it('shares the whole spread among its factors', () => {
    const table = spilled('Risk', 'LABOUR.RISK');
    const shares = table.slice(1).flatMap((row) => (typeof row[9] === 'number' ? [row[9]] : []));
    expect(shares).toHaveLength(5);
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(100, 6);
  });

  it('is drawn as a curve that rises and ends at the last percentile', () => {
    const curve = sheetOf('Risk').charts?.find(({ kind }) => kind === 'scatter');
    const numbers = (address = ''): number[] => values(address).map(([value]) => Number(value));
    for (const points of [numbers(curve?.categories), numbers(curve?.series[0]?.values)]) {
      expect(points).toEqual([...points].sort((a, b) => a - b));
      expect(points.at(-1)).toBe(Math.max(...points));
    }
    expect(numbers(curve?.series[0]?.values).at(-1)).toBe(95);
  });
});
