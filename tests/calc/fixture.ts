import type { IWorkbookData } from '@univerjs/core';
import { type Calculator, createCalculator } from '../../src/calc/calculator.ts';
import { loadUniver } from '../../src/calc/univer-node.ts';
import type { CellFunction, RawArgument } from '../../src/functions/define.ts';
import type { Outcome } from '../../src/functions/outcome.ts';
import { unitsTable } from '../../src/functions/parameters.ts';

/** Functions that only these tests know: what they do is said by their names. */
const bodies: Record<string, (args: readonly RawArgument[]) => Outcome> = {
  'TEST.TWICE': ([value]) =>
    typeof value === 'number'
      ? { ok: true, value: 2 * value }
      : { ok: false, code: '#VALUE!', message: 'Value is no number.' },
  'TEST.FAIL': ([words]) => ({ ok: false, code: '#N/A', message: String(words) }),
  'TEST.THROW': () => {
    throw new Error('a part fell off');
  },
  'TEST.GRID': ([rows, columns, factor]) => ({
    ok: true,
    value: Array.from({ length: Number(rows) }, (_, row) =>
      Array.from({ length: Number(columns) }, (_unused, column) => (row + column / 100) * Number(factor ?? 1)),
    ),
  }),
  'TEST.EMPTY': ([kind]) => ({ ok: true, value: kind === 'rows' ? [[]] : [] }),
  'TEST.NAN': () => ({ ok: true, value: Number.NaN }),
  'TEST.SAW': (args) => ({ ok: true, value: JSON.stringify(args) }),
  'TEST.TABLE': () => ({
    ok: false,
    code: '#N/A',
    message: 'Units, row 2 of the range, column Rig: There is no such rig.',
  }),
  'TEST.BLANKS': () => ({
    ok: true,
    value: [
      ['a', null],
      [undefined, 'b'],
    ],
  }),
};

export const functions: readonly CellFunction[] = Object.keys(bodies).map((id) => ({
  id,
  group: 'Words',
  summary: 'A function of the tests.',
  parameters: id === 'TEST.TABLE' ? { units: unitsTable() } : {},
  result: { kind: 'text', description: 'whatever the test wants' },
  examples: [],
  body: () => '',
}));

/** Calls of our functions since the start of the file. */
export const calls = { count: 0 };

export function call(fn: CellFunction, args: readonly RawArgument[]): Outcome {
  calls.count++;
  return bodies[fn.id]?.(args) ?? { ok: false, code: '#N/A', message: 'no body' };
}

export type Content = string | number | boolean | null;
/** Sheet name -> address such as B3 -> content; text that begins with = is a formula. */
export type Sheets = Record<string, Record<string, Content>>;

export function spot(address: string): { row: number; column: number } {
  const [, letters = 'A', digits = '1'] = /^([A-Z]+)(\d+)$/.exec(address) ?? [];
  const column = [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;
  return { row: Number(digits) - 1, column };
}

export function workbook(sheets: Sheets, names: Record<string, string> = {}, rows = 1000): IWorkbookData {
  const sheetNames = Object.keys(sheets);
  const id = (name: string): string => `id-${name}`;
  const data = {
    id: 'any',
    name: 'any',
    appVersion: '',
    locale: 'enUS',
    styles: {},
    sheetOrder: sheetNames.map(id),
    sheets: Object.fromEntries(
      sheetNames.map((name) => [id(name), { id: id(name), name, rowCount: rows, columnCount: 60, cellData: {} }]),
    ),
    resources: [
      {
        name: 'SHEET_DEFINED_NAME_PLUGIN',
        data: JSON.stringify(
          Object.fromEntries(
            Object.entries(names).map(([name, formulaOrRefString]) => [
              name,
              { id: name, name, formulaOrRefString, localSheetId: 'AllDefaultWorkbook' },
            ]),
          ),
        ),
      },
    ],
  };
  return data as unknown as IWorkbookData;
}

export interface Book {
  readonly calculator: Calculator;
  put(address: string, content: Content, sheet?: string): void;
  /** value of a cell; an error as its code */
  at(address: string, sheet?: string): unknown;
  words(address: string, sheet?: string): string;
}

const open: Calculator[] = [];

export function newCalculator(): Calculator {
  const calculator = createCalculator(loadUniver(), functions, call);
  open.push(calculator);
  return calculator;
}

export function disposeAll(): void {
  for (const calculator of open.splice(0)) calculator.dispose();
}

/** A calculated workbook. */
export async function book(sheets: Sheets, names: Record<string, string> = {}, rows = 1000): Promise<Book> {
  const calculator = newCalculator();
  calculator.load(workbook(sheets, names, rows));
  const first = Object.keys(sheets)[0] ?? '';
  const put = (address: string, content: Content, sheet = first): void => {
    const { row, column } = spot(address);
    calculator.put(sheet, row, column, content);
  };
  for (const [name, cells] of Object.entries(sheets)) {
    for (const [address, content] of Object.entries(cells)) put(address, content, name);
  }
  await calculator.recalculate();
  return {
    calculator,
    put,
    at: (address, sheet = first) => {
      const { row, column } = spot(address);
      const cell = calculator.value(sheet, row, column);
      return typeof cell === 'object' && cell !== null ? cell.error : cell;
    },
    words: (address, sheet = first) => {
      const { row, column } = spot(address);
      const fault = calculator.faults().find((f) => f.sheet === sheet && f.row === row && f.column === column);
      return fault?.message ?? '';
    },
  };
}
