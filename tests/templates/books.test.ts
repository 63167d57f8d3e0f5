import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readXlsx } from 'hucre/xlsx';
import { describe, expect, it } from 'vitest';
import { createCalculator } from '../../src/calc/calculator.ts';
import { loadUniver } from '../../src/calc/univer-node.ts';
import { callFunction } from '../../src/functions/adapter.ts';
import { functions } from '../../src/functions/index.ts';
import { parseBlock } from '../../src/workbook/address.ts';
import type { ModelSheet, WorkbookModel } from '../../src/workbook/model.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { books } from '../../templates/books.ts';
import { fillTemplate } from '../../templates/fill.ts';
import { templateModel } from '../../templates/model.ts';
import { PATHS } from '../../templates/sheets/start.ts';

const shipped = (name: string): Buffer =>
  readFileSync(fileURLToPath(new URL(`../../templates/${name}.xlsx`, import.meta.url)));
/** The template itself has a test of its own. */
const others = Object.entries(books).filter(([name]) => name !== 'narrows-template');

async function valuesOf(bytes: Uint8Array): Promise<ReadonlyMap<string, unknown>> {
  const { sheets } = await readXlsx(bytes);
  return new Map(
    sheets.flatMap(({ name, rows }) =>
      rows.flatMap((row, down) => row.map((value, across) => [`${name} ${down + 1} ${across + 1}`, value] as const)),
    ),
  );
}

const visible = (model: WorkbookModel): readonly ModelSheet[] => model.sheets.filter(({ hidden }) => hidden !== true);

describe.each(others)('%s.xlsx', (name, model) => {
  it('is the one that ships, without a cell that ends in an error: run `npm run template` when this fails', async () => {
    const { bytes, faults } = await fillTemplate(model());
    expect(faults).toEqual([]);
    const [kept, built] = await Promise.all([valuesOf(shipped(name)), valuesOf(bytes)]);
    expect([...kept.keys()].sort()).toEqual([...built.keys()].sort());
    for (const [place, value] of built) {
      const old = kept.get(place);
      if (typeof value === 'number' && typeof old === 'number')
        expect(Math.abs(old - value), place).toBeLessThanOrEqual(1e-6 * Math.abs(value) + 1e-12);
      else expect(old, place).toEqual(value);
    }
  }, 60_000);

  it('holds no name of another book, and names only what it has', () => {
    const { sheets, names = [] } = model();
    const there = new Set(sheets.map((sheet) => sheet.name));
    for (const { range } of names) expect(there, range).toContain(range.split('!')[0]?.replace(/^'(.*)'$/, '$1'));
    const text = JSON.stringify(sheets);
    const known = new Set(names.map((one) => one.name));
    for (const { name: word } of templateModel().names ?? [])
      if (!known.has(word)) expect(text, word).not.toMatch(new RegExp(`"=[^"]*[(,]${word}[,)]`));
  });
});

describe('all workbooks', () => {
  const sheets = Object.entries(books).flatMap(([book, model]) =>
    visible(model()).map((sheet) => [`${book}, ${sheet.name}`, sheet] as const),
  );

  it.each(sheets)('%s repeats the head of its last table on paper, or begins a page with it', (_, sheet) => {
    if (sheet.name === 'Start') return;
    const { repeatRows = '', breaksBefore = [], area } = sheet.print ?? {};
    const last = /\d+$/.exec(area ?? '')?.[0] ?? '1000';
    const heads = (sheet.blocks ?? [])
      .filter(
        ({ look, at }) =>
          look === 'header' && !sheet.blocks?.some((one) => /^Chart: /.test(String(one.rows[0]?.[0])) && one.at === at),
      )
      .map(({ at }) => Number(/\d+$/.exec(at)?.[0]));
    const lowest = Math.max(...heads.filter((row) => row <= Number(last)));
    if (heads.length > 0)
      expect([...breaksBefore.map((row) => row + 1), Number.parseInt(repeatRows, 10)]).toContain(lowest);
  });

  it.each(sheets)('%s says what it is for in lines that a page of 1280 px shows beside the pane', (_, sheet) => {
    const note = sheet.cells?.A2;
    if (typeof note !== 'object' || note === null || typeof note.value !== 'string') return;
    // at the window's size the grid shows some 130 characters of a note where Calibri is not there
    if (note.value.length <= 120) return;
    const merge = sheet.merges?.find((range) => range.startsWith('A2:'));
    const end = /^A2:([A-Z])2$/.exec(merge ?? '')?.[1]?.charCodeAt(0) ?? Number.NaN;
    const width = (sheet.widths ?? []).slice(0, end - 64).reduce<number>((sum, one) => sum + 7 * (one ?? 9), 0);
    expect(width).toBeGreaterThan(400);
    expect(width).toBeLessThan(890);
    expect(note.wrap).toBe(true);
    expect(sheet.heights?.[2]).toBeGreaterThanOrEqual(26);
  });

  it('hold what the functions remark on the parts in view, in as many lines as the longest usual note takes', () => {
    // over columns that 1280 px show beside the pane; the note on a hose with other figures takes two lines of them
    for (const [, sheet] of sheets.filter(([, { name }]) => name === 'Parts')) {
      expect(sheet.cells?.A3).toMatchObject({ wrap: true });
      const end = /^A3:([A-Z])3$/.exec(sheet.merges?.find((range) => range.startsWith('A3:')) ?? '')?.[1] ?? '';
      const width = (sheet.widths ?? [])
        .slice(0, end.charCodeAt(0) - 64)
        .reduce<number>((sum, one) => sum + 7 * (one ?? 9), 0);
      expect(width).toBeGreaterThan(700);
      expect(width).toBeLessThan(890);
      expect(sheet.heights?.[3]).toBeGreaterThanOrEqual(2 * 11 * 1.3);
    }
  });

  it('leave the columns off the paper that charts alone read', () => {
    for (const [, sheet] of sheets) {
      const heads = (sheet.blocks ?? []).filter(({ rows }) => /^Chart: /.test(String(rows[0]?.[0])));
      const areas = (sheet.print?.area ?? 'A1').split(',').map((range) => parseBlock(range));
      for (const { at } of heads) {
        const column = parseBlock(at)?.startColumn ?? 0;
        for (const area of areas)
          expect(area !== undefined && (column < area.startColumn || column > area.endColumn), sheet.name).toBe(true);
      }
    }
  });

  it.each(sheets)('%s prints on A4 in width, says its title, and counts whole numbers without decimals', (_, sheet) => {
    expect(sheet.print).toMatchObject({ paper: 'a4', fitWidth: true });
    expect(sheet.cells?.A1).toMatchObject({ look: 'title' });
    for (const block of sheet.blocks ?? []) {
      const header = sheet.blocks?.find(({ look, at }) => look === 'header' && at[0] === block.at[0])?.rows[0] ?? [];
      (block.columns ?? []).forEach(({ format, look }, at) => {
        const title = header[at];
        if (look === 'input' && title === 'Count') expect(format, sheet.name).toBe('0');
        if (format !== undefined)
          expect(format, `${sheet.name} ${String(title)}`).toMatch(/^(?:#,##)?0(?:\.[0#]+)?(?:E\+00)?$/);
      });
    }
  });

  it.each(sheets)('%s freezes its header wherever a table can grow, and says why a list refuses', (_, sheet) => {
    const long = (sheet.blocks ?? []).some(({ rows, look }) => rows.length > 30 && look !== 'text');
    if (long && !['Notes', 'One rig', 'Recovery', 'Start'].includes(sheet.name))
      expect(sheet.frozenRows ?? 0, sheet.name).toBeGreaterThan(0);
    for (const { list, title } of sheet.validations ?? []) {
      expect(list.length, sheet.name).toBeGreaterThan(0);
      expect(title ?? '', sheet.name).not.toBe('');
    }
    for (const { title, message } of sheet.numberRules ?? []) expect(title && message, sheet.name).toBeTruthy();
  });

  it('take the lists of parts, sizes and refrigerants from the library by one hidden sheet', () => {
    for (const model of Object.values(books)) {
      const lists = model().sheets.find(({ name }) => name === 'Lists');
      expect(lists?.hidden).toBe(true);
    }
  });
});

describe('the empty template', () => {
  const empty = books['narrows-empty']?.() ?? templateModel();

  it('has every sheet and name of the template, and nothing of its scenario', () => {
    const template = templateModel();
    expect(empty.sheets.map(({ name }) => name)).toEqual(template.sheets.map(({ name }) => name));
    expect(empty.names).toEqual(template.names);
    expect(JSON.stringify(empty)).not.toMatch(/Marrowgate|WS25|archive|invented\./);
  });

  it('says what to fill first, and follows as soon as it is filled', async () => {
    const { snapshot } = await readWorkbook(shipped('narrows-empty'));
    const calculator = createCalculator(loadUniver(), functions, callFunction);
    try {
      calculator.load(snapshot);
      await calculator.recalculate();
      expect(calculator.value('Results', 9, 0)).toBe('fill Units first');
      expect(calculator.value('Long line', 31, 0)).toMatch(/first$/);
      expect(calculator.value('Start', 11, 2) ?? '').toBe('');
      const { sheets: own } = snapshot;
      const units = Object.values(own).find((sheet) => sheet.name === 'Units');
      Object.assign(units?.cellData ?? {}, {
        4: {
          0: { v: 'U1' },
          3: { v: 2 },
          4: { v: 10 },
          5: { v: 'B core out, small hose' },
        },
      });
      calculator.load(snapshot);
      await calculator.recalculate();
      expect(calculator.faults()).toEqual([]);
      expect(calculator.value('Results', 10, 0)).toBe('U1');
      // attended hours, working days and pump hours of the two units
      for (const row of [11, 12, 14]) expect(Number(calculator.value('Start', row, 2))).toBeGreaterThan(0);
    } finally {
      calculator.dispose();
    }
  }, 60_000);
});

describe('the way of each user', () => {
  it('is told on Start in at most three steps, by sheets that are there', () => {
    expect(PATHS.map(([who]) => who)).toEqual(['Estimator', 'Project engineer', 'Trainee']);
    const names = templateModel().sheets.map(({ name }) => name);
    for (const [who, steps] of PATHS) {
      expect(steps.length, who).toBeLessThanOrEqual(3);
      expect(steps.length, who).toBeGreaterThan(0);
      for (const step of steps)
        expect(
          names.some((name) => step.startsWith(name)),
          step,
        ).toBe(true);
    }
  });

  it('has a small example of few sheets: what is worked out first, then what it is worked out from', () => {
    const examples = Object.entries(books).filter(([name]) => name.startsWith('example-'));
    const sheets = examples.map(([name, model]) => [name, visible(model()).map((sheet) => sheet.name)]);
    expect(Object.fromEntries(sheets)).toEqual({
      'example-estimator': ['Results', 'Swaps', 'Units', 'Parts'],
      'example-engineer': ['Sizing', 'One rig', 'Parts'],
      'example-trainee': ['Compare', 'Parts'],
    });
  });

  it('of the engineer is about one chiller: its volume is the same on both sheets, and the answers stand beside their names', () => {
    const [sizing, oneRig] = books['example-engineer']?.().sheets ?? [];
    expect(sizing?.cells?.B4).toMatchObject({ value: 350 });
    expect(oneRig?.cells?.B6).toMatchObject({ value: 350 });
    // the column is wide for the name of a rig: to its right they would be out of view on a narrow window
    for (const cell of ['B4', 'B6', 'B8', 'B9']) expect(sizing?.cells?.[cell]).toMatchObject({ align: 'left' });
  });
});
