import { readXlsx } from 'hucre/xlsx';
import { beforeAll, describe, expect, it } from 'vitest';
import { parseBlock } from '../../src/workbook/address.ts';
import type { ModelCell, ModelSheet } from '../../src/workbook/model.ts';
import { partText, readParts } from '../../src/workbook/package.ts';
import { fillTemplate } from '../../templates/fill.ts';
import { HOLD_LEAK, HOLD_START, HOLD_VOLUME, holdLog } from '../../templates/hold-log.ts';
import { templateModel } from '../../templates/model.ts';

const NAMES = ['Curves', 'Long line', 'Breaks', 'Hold test'] as const;
const model = templateModel();

function sheetOf(name: string): ModelSheet {
  const found = model.sheets.find((sheet) => sheet.name === name);
  if (found === undefined) throw new Error(`there is no sheet ${name}`);
  return found;
}

type Value = unknown;
let stored: ReadonlyMap<string, readonly (readonly Value[])[]>;
let faults: readonly string[];
let charts: string;
let sheets: ReadonlyMap<string, string>;

beforeAll(async () => {
  const filled = await fillTemplate();
  faults = filled.faults;
  stored = new Map((await readXlsx(filled.bytes)).sheets.map(({ name, rows }) => [name, rows]));
  const parts = readParts(filled.bytes);
  sheets = new Map(
    model.sheets.map(({ name }, index) => [name, partText(parts, `xl/worksheets/sheet${index + 1}.xml`) ?? '']),
  );
  charts = [...parts.keys()]
    .filter((part) => /^xl\/charts\/chart\d+\.xml$/.test(part))
    .map((part) => partText(parts, part) ?? '')
    .join('\n');
});

interface Area {
  readonly startRow: number;
  readonly endRow: number;
  readonly startColumn: number;
  readonly endColumn: number;
}

function area(range: string): Area {
  const found = parseBlock(range.replaceAll('$', ''));
  if (found === undefined) throw new Error(`${range} is no range`);
  return found;
}

/** Values of a range of a sheet as stored in the file. */
function values(sheet: string, range: string): Value[][] {
  const { startRow, endRow, startColumn, endColumn } = area(range);
  const rows = stored.get(sheet) ?? [];
  return Array.from({ length: endRow - startRow + 1 }, (_, down) =>
    Array.from({ length: endColumn - startColumn + 1 }, (_, across) => rows[startRow + down]?.[startColumn + across]),
  );
}

const isBlank = (value: Value): boolean => value === null || value === undefined || value === '';

/** Spilled tables of a sheet: the formula and the range that it fills. */
function spills(name: string): { readonly formula: string; readonly range: string }[] {
  return Object.values(sheetOf(name).cells ?? {}).flatMap((given) => {
    const cell: ModelCell = typeof given === 'object' && given !== null ? given : {};
    return cell.spills === undefined || cell.formula === undefined
      ? []
      : [{ formula: cell.formula, range: cell.spills }];
  });
}

/** The table that the nth formula with these words spills. */
function spilled(name: string, words: string, nth = 0): Value[][] {
  const found = spills(name).filter(({ formula }) => formula.includes(words))[nth];
  if (found === undefined) throw new Error(`${name} spills no ${words}`);
  return values(name, found.range);
}

const column = (table: Value[][], header: string): Value[] => {
  const at = (table[0] ?? []).findIndex((cell) => String(cell).startsWith(header));
  expect(at, header).toBeGreaterThanOrEqual(0);
  return table.slice(1).map((row) => row[at]);
};

describe.each(NAMES)('the sheet %s', (name) => {
  it('has no cell that ends in an error', () => {
    expect(faults.filter((fault) => fault.startsWith(name))).toEqual([]);
  });

  it('stores every spilled table, and says its size as it is', () => {
    expect(spills(name).length).toBeGreaterThan(0);
    for (const { formula, range } of spills(name)) {
      const table = values(name, range);
      for (const cell of table[0] ?? []) expect(isBlank(cell), `${formula}: header`).toBe(false);
      for (const row of table) expect(row.every(isBlank), `${formula}: a blank row`).toBe(false);
      expect(sheets.get(name), formula).toContain(`ref="${range}"`);
    }
  });

  it('keeps inputs and results apart, says what to do, and prints on a page', () => {
    const sheet = sheetOf(name);
    expect(sheet.frozenRows).toBeGreaterThan(0);
    expect(sheet.print).toMatchObject({ paper: 'a4', fitWidth: true, landscape: true });
    const cells = Object.values(sheet.cells ?? {}).filter((cell) => typeof cell === 'object' && cell !== null);
    for (const { look, formula } of cells) if (look === 'input') expect(formula).toBeUndefined();
    for (const { altText } of sheet.charts ?? []) expect(altText.length).toBeGreaterThan(40);
  });

  it('draws its charts over rows that hold values, and all of them', () => {
    const drawn = sheetOf(name).charts ?? [];
    expect(drawn.length).toBeGreaterThan(0);
    for (const { title, categories, series } of drawn)
      for (const one of series) {
        const [x = '', y = ''] = [one.categories ?? categories, one.values];
        expect(charts, title).toContain(y);
        const cells = (address: string): Area => area(address.slice(address.indexOf('!') + 1));
        const [across, up] = [cells(x), cells(y)];
        expect(across.endRow - across.startRow, title).toBe(up.endRow - up.startRow);
        if (one.points === true) continue;
        const spill = spills(name)
          .map(({ range }) => area(range))
          .find(
            (one) =>
              one.startColumn <= up.startColumn &&
              up.startColumn <= one.endColumn &&
              one.endRow >= up.startRow &&
              one.endRow <= up.endRow,
          );
        if (spill !== undefined) expect(up.startRow, title).toBe(spill.startRow + 1);
        // what a chart has room for beyond the table is blank
        const filled = (spill ?? up).endRow - up.startRow + 1;
        values(name, y.slice(y.indexOf('!') + 1).replaceAll('$', '')).forEach(([value], row) => {
          if (row < filled) expect(typeof value, `${title}: ${y}`).toBe('number');
          else expect(isBlank(value), `${title}: ${y}`).toBe(true);
        });
      }
  });
});

describe('the hold test that ships', () => {
  // p = start + Q t/V, Q the leak that the log was made for; one micron is 0.133322387415 Pa
  const rise = (HOLD_LEAK / (HOLD_VOLUME / 1000) / 0.133322387415) * 60;

  it('is a log of a steady leak, each reading within 1.2 % of it', () => {
    expect(holdLog).toHaveLength(25);
    for (const [minutes, micron] of holdLog)
      expect(Math.abs(micron / (HOLD_START + rise * minutes) - 1)).toBeLessThan(0.013);
  });

  it('is told for a leak, at the rate that the log was made for', () => {
    const table = spilled('Hold test', 'HOLD.READ');
    expect(column(table, 'Verdict')).toEqual(['leak']);
    expect(Number(column(table, 'Rate')[0]) / HOLD_LEAK).toBeCloseTo(1, 1);
    expect(Number(column(table, 'Probability')[0])).toBeGreaterThan(95);
    const meaning = values('Hold test', 'B9:B9')[0]?.[0];
    expect(String(meaning)).toMatch(/leak/i);
  });

  it('gives the rate of the leak in grams a year as well', () => {
    const [, row = []] = spilled('Hold test', 'LEAK.RATE');
    const [rate = 0, grams = 0] = row.map(Number);
    expect(rate / HOLD_LEAK).toBeCloseTo(1, 1);
    // Q M/(R T) with R-448A at 86.3 g/mol and 20 C, over a year of 365.25 days
    const expected = ((rate * 86.3) / (8.314462618 * 293.15)) * 365.25 * 86400;
    expect(grams / expected).toBeCloseTo(1, 2);
  });

  it('draws a line that rises by the leak from the first reading', () => {
    const points = values('Hold test', 'D13:E23').map((row) => row.map(Number));
    const [[, first = 0] = []] = points;
    expect(first).toBeCloseTo(holdLog[0]?.[1] ?? 0, 6);
    for (const [minutes = 0, micron = 0] of points)
      expect((micron - first) / (rise * minutes || 1)).toBeCloseTo(minutes === 0 ? 0 : 1, 1);
  });
});

describe('the long line that ships', () => {
  const times = (nth: number): number[] =>
    column(spilled('Long line', 'EVAC.NETWORK', nth), 'Time to target').map(Number);
  const left = (nth: number): number[] =>
    column(spilled('Long line', 'EVAC.NETWORK', nth), 'Pressure at gauge target').map(Number);

  it('has the far ends later at target than the port, and higher when the gauge there shows it', () => {
    const [port = 0, ...others] = times(0);
    for (const other of others) expect(other).toBeGreaterThan(port);
    const [atPort = 0, ...behind] = left(0);
    for (const pressure of behind) expect(pressure).toBeGreaterThan(2 * atPort);
  });

  it('is never later at target through two ports than through one, at any node', () => {
    const [one, two] = [times(0), times(1)];
    expect(two).toHaveLength(one.length);
    two.forEach((minutes, node) => {
      expect(minutes).toBeLessThan(one[node] ?? 0);
    });
  });
});

describe('the curves that ship', () => {
  const minutes = (words: string, rig: number): number[] => column(spilled('Curves', words, rig), 'Time').map(Number);

  it('end at the target, later with water than without, and later with the core in', () => {
    const [dryIn, dryOut] = [0, 1].map((rig) => minutes('EVAC.CURVE', rig).at(-1) ?? 0);
    const [wetIn, wetOut] = [0, 1].map((rig) => minutes('DRY.CURVE', rig).at(-1) ?? 0);
    expect(dryIn).toBeGreaterThan(dryOut ?? 0);
    expect(wetIn).toBeGreaterThan(wetOut ?? 0);
    expect(wetIn).toBeGreaterThan(dryIn ?? 0);
    expect(wetOut).toBeGreaterThan(dryOut ?? 0);
    const figures = values('Curves', 'E5:F6').map((row) => row.map(Number));
    [
      [dryIn, dryOut],
      [wetIn, wetOut],
    ].forEach((row, down) => {
      row.forEach((end, across) => {
        expect(end).toBeCloseTo(figures[down]?.[across] ?? 0, 4);
      });
    });
    // 500 micron of mercury
    for (const rig of [0, 1])
      expect(Number(column(spilled('Curves', 'DRY.CURVE', rig), 'System pressure').at(-1))).toBeCloseTo(66.66, 1);
  });

  it('draw the temperature of the water up to its end and no further', () => {
    for (const rig of [0, 1]) {
      const table = spilled('Curves', 'DRY.CURVE', rig);
      const [time, temperature] = [column(table, 'Time'), column(table, 'Water temperature')];
      const chart = sheetOf('Curves').charts?.find(({ title }) => title.includes('temperature'))?.series[rig];
      const of = (range = ''): Value[] => values('Curves', range.slice(range.indexOf('!') + 1)).map(([value]) => value);
      const wet = temperature.filter((value) => !isBlank(value));
      expect(of(chart?.values).slice(0, wet.length)).toEqual(wet);
      expect(new Set(of(chart?.values).slice(wet.length - 1)).size).toBe(1);
      expect(Math.max(...of(chart?.categories).map(Number))).toBe(time[wet.length - 1]);
    }
  });
});

describe('the plan of breaks that ships', () => {
  const rows = (): Value[][] => spilled('Breaks', 'EVAC.BREAKS').slice(1);
  const timeOf = (what: string): number => Number(rows().find((row) => row[1] === what)?.[3]);

  it('adds up its steps, and stands beside one deep pull', () => {
    const steps = rows().filter((row) => ['pull', 'break', 'wait'].includes(String(row[1])));
    expect(steps).toHaveLength(7);
    const sum = steps.reduce((minutes, row) => minutes + Number(row[3]), 0);
    expect(timeOf('whole plan')).toBeCloseTo(sum, 6);
    const [[plan = 0] = [], [one = 0] = [], [saved = 0] = []] = values('Breaks', 'B20:B22').map((row) =>
      row.map(Number),
    );
    expect([plan, one]).toEqual([timeOf('whole plan'), timeOf('one deep pull')]);
    expect(saved).toBeCloseTo(one - plan, 9);
  });

  it('ends dry at the target, with less water after every step', () => {
    const water = column(spilled('Breaks', 'EVAC.BREAKS'), 'Water left').slice(0, 7).map(Number);
    water.forEach((grams, step) => {
      expect(grams).toBeLessThanOrEqual(water[step - 1] ?? 20);
    });
    expect(water.at(-1)).toBe(0);
  });
});
