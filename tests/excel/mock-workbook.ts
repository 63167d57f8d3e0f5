/**
 * An open workbook for tests: sheets of cells behind the add-in mock, which keeps the platform's rule that a property is
 * readable only after load and sync. What it does not do is calculate.
 */
import { OfficeMockObject } from 'office-addin-mock';
import { type Block, blockName, parseBlock } from '../../src/workbook/address.ts';

export interface MockCell {
  formula: string | number | boolean;
  value: unknown;
  /** cells that the formula's result fills */
  spill?: string;
}

export interface MockWorkbook {
  readonly sheets: Map<string, Map<string, MockCell>>;
  readonly names: Map<string, string>;
  /** what was done beside writing cells, in order */
  readonly log: string[];
  active: { sheet: string; cell: string };
  readonly selected: (() => void)[];
  readonly changed: (() => void)[];
  readonly calculated: (() => void)[];
  /** how this Excel writes numbers */
  readonly writes: { decimal: string; system: boolean; systemDecimal: string; culture: string };
}

type Mock = OfficeMockObject & Record<string, unknown>;

/** Installs `Excel` for the workbook; returns how to take it away. */
export function installMock(book: MockWorkbook): () => void {
  const made: Mock[] = [];
  const mock = (data: Record<string, unknown>): Mock => {
    // the host type is told by which top object the data has
    const object = new OfficeMockObject(data, 'Excel' as never) as Mock;
    made.push(object);
    return object;
  };

  function cellsIn(sheet: string): Map<string, MockCell> {
    const cells = book.sheets.get(sheet);
    if (cells === undefined) throw new Error(`no sheet ${sheet}`);
    return cells;
  }

  function rangeOf(sheet: string, address: string): Mock {
    const block = parseBlock(address);
    if (block === undefined) throw new Error(`no range ${address}`);
    const cells = cellsIn(sheet);
    const grid = (pick: (cell: MockCell | undefined) => unknown) =>
      block.endRow - block.startRow > 10_000 || block.endColumn - block.startColumn > 10_000
        ? [[]]
        : Array.from({ length: block.endRow - block.startRow + 1 }, (_, down) =>
            Array.from({ length: block.endColumn - block.startColumn + 1 }, (_, across) =>
              pick(cells.get(nameOf(block.startRow + down, block.startColumn + across))),
            ),
          );
    const range = mock({
      address: `${sheet}!${address}`,
      isNullObject: false,
      rowIndex: block.startRow,
      columnIndex: block.startColumn,
      values: grid((cell) => cell?.value ?? ''),
      formulas: grid((cell) => cell?.formula ?? ''),
      worksheet: { name: sheet },
      format: { font: {}, fill: {}, borders: { getItem: () => ({}) } },
      dataValidation: {},
      merge: () => book.log.push(`merge ${sheet}!${address}`),
      select: () => {
        book.active = { sheet, cell: address };
      },
      copyFrom: (source: Mock, type: string) => {
        book.log.push(`copy ${type} ${sheet}!${address}`);
        for (const name of namesIn(parseBlock(String(source.key).split('!')[1] ?? ''))) {
          const cell = cells.get(name);
          if (cell !== undefined) cells.set(name, { formula: cell.value as string, value: cell.value });
        }
      },
      getUsedRangeOrNullObject: () => usedIn(sheet, block),
      getEntireRow: () => rangeOf(sheet, blockName({ ...block, startColumn: 0, endColumn: 999 })),
      clear: () => {
        for (const name of [...cells.keys()]) if (isWithin(block, parseBlock(name))) cells.delete(name);
      },
      getSpillingToRangeOrNullObject: () => {
        const spill = cells.get(nameOf(block.startRow, block.startColumn))?.spill;
        return spill === undefined ? nothing() : rangeOf(sheet, spill);
      },
      getSpecialCellsOrNullObject: (_kind: string, type?: string) => {
        const found = [...cells].filter(
          ([, cell]) => String(cell.formula).startsWith('=') && (type === undefined || /^#/.test(String(cell.value))),
        );
        if (found.length === 0) return nothing();
        const areas = mock({});
        return Object.assign(mock({ isNullObject: false }), {
          areas: Object.assign(areas, { load: () => areas, items: found.map(([name]) => readable(sheet, name)) }),
        });
      },
    });
    range.key = `${sheet}!${address}`;
    Object.defineProperty(range, 'formulas', {
      get: () => grid((cell) => cell?.formula ?? ''),
      set: (rows: readonly (readonly (MockCell['formula'] | null)[])[]) => {
        const height = block.endRow - block.startRow + 1;
        const width = block.endColumn - block.startColumn + 1;
        if (rows.length !== height || rows.some((row) => row.length !== width)) {
          throw new Error(`${address} takes ${height} × ${width} entries`);
        }
        rows.forEach((row, down) => {
          row.forEach((formula, across) => {
            if (formula === null) return;
            cells.set(nameOf(block.startRow + down, block.startColumn + across), { formula, value: formula });
          });
        });
      },
    });
    return range;
  }

  /** An area as it stands after load and sync. */
  function readable(sheet: string, name: string): Record<string, unknown> {
    const cell = cellsIn(sheet).get(name);
    const block = parseBlock(name);
    return {
      formulas: [[cell?.formula]],
      values: [[cell?.value]],
      rowIndex: block?.startRow,
      columnIndex: block?.startColumn,
    };
  }

  /** The smallest range with all that is filled. */
  function usedIn(sheet: string, block: Block): Mock {
    const filled = [...cellsIn(sheet).keys()]
      .flatMap((name) => parseBlock(name) ?? [])
      .filter((spot) => isWithin(block, spot));
    if (filled.length === 0) return nothing();
    const rows = filled.map((spot) => spot.startRow);
    const columns = filled.map((spot) => spot.startColumn);
    return rangeOf(
      sheet,
      blockName({
        startRow: Math.min(...rows),
        endRow: Math.max(...rows),
        startColumn: Math.min(...columns),
        endColumn: Math.max(...columns),
      }),
    );
  }

  function nothing(): Mock {
    return mock({ isNullObject: true, address: '', values: [], rowIndex: 0, columnIndex: 0, worksheet: { name: '' } });
  }

  function sheetOf(name: string): Mock {
    return mock({
      name,
      isNullObject: false,
      freezePanes: {
        freezeAt: () => book.log.push(`freeze ${name}`),
        freezeRows: () => book.log.push(`freeze ${name}`),
        freezeColumns: () => book.log.push(`freeze ${name}`),
      },
      pageLayout: {
        setPrintTitleRows: () => undefined,
        setPrintTitleColumns: () => undefined,
        setPrintArea: () => undefined,
      },
      verticalPageBreaks: { add: () => undefined },
      charts: {
        add: () => {
          book.log.push(`chart ${name}`);
          const line = () => ({
            setValues: () => undefined,
            setXAxisValues: () => undefined,
            format: { fill: { clear: () => book.log.push(`unseen bars ${name}`) } },
          });
          return {
            title: {},
            legend: {},
            setPosition: () => undefined,
            series: { getItemAt: line, add: line },
            axes: { categoryAxis: { title: {} }, valueAxis: { title: {} } },
          };
        },
      },
      activate: () => {
        book.active = { sheet: name, cell: 'A1' };
      },
      delete: () => book.sheets.delete(name),
      getUsedRangeOrNullObject: () => usedIn(name, WHOLE_SHEET),
      getRange: (address = 'A1:XFD1048576') => rangeOf(name, address),
      getCell: (row: number, column: number) => rangeOf(name, nameOf(row, column)),
    });
  }

  const context = mock({
    application: {
      suspendApiCalculationUntilNextSync: () => undefined,
      decimalSeparator: book.writes.decimal,
      useSystemSeparators: book.writes.system,
      cultureInfo: {
        name: book.writes.culture,
        numberFormat: { numberDecimalSeparator: book.writes.systemDecimal },
      },
    },
    workbook: {
      getActiveCell: () => rangeOf(book.active.sheet, book.active.cell),
      onSelectionChanged: {
        add: (handler: () => void) => {
          book.selected.push(handler);
          return { context: undefined, remove: () => book.selected.splice(book.selected.indexOf(handler), 1) };
        },
      },
      names: {
        getItemOrNullObject: (name: string) => {
          const [sheet = '', cells = ''] = (book.names.get(name) ?? '').replace(/[=$']/g, '').split('!');
          if (!book.names.has(name)) return nothing();
          return mock({ isNullObject: false, getRangeOrNullObject: () => rangeOf(sheet, cells) });
        },
        add: (name: string, reference: string) => book.names.set(name, reference),
      },
      worksheets: {
        onChanged: {
          add: (handler: () => void) => {
            book.changed.push(handler);
            return { context: undefined, remove: () => book.changed.splice(book.changed.indexOf(handler), 1) };
          },
        },
        onCalculated: {
          add: (handler: () => void) => {
            book.calculated.push(handler);
            return { context: undefined, remove: () => book.calculated.splice(book.calculated.indexOf(handler), 1) };
          },
        },
        getActiveWorksheet: () => sheetOf(book.active.sheet),
        getItem: (name: string) => sheetOf(name),
        getItemOrNullObject: (name: string) => (book.sheets.has(name) ? sheetOf(name) : nothing()),
        add: (name: string) => {
          if (book.sheets.has(name)) throw new Error(`the sheet ${name} is there already`);
          book.sheets.set(name, new Map());
          return sheetOf(name);
        },
      },
    },
  });
  const { worksheets, names: definedNames } = context.workbook as Record<string, Mock>;
  if (worksheets === undefined || definedNames === undefined) throw new Error('the mock has no worksheets');
  Object.assign(definedNames, { load: () => undefined });
  Object.defineProperty(definedNames, 'items', {
    get: () => [...book.names.keys()].map((name) => ({ name, type: 'Range' })),
  });
  Object.assign(worksheets, { load: () => undefined });
  Object.defineProperty(worksheets, 'items', { get: () => [...book.sheets.keys()].map(readableSheet) });
  function readableSheet(name: string): unknown {
    return Object.assign(sheetOf(name), { name });
  }
  const sync = async () => {
    for (const object of [...made]) if (object !== context) await object.sync();
    await new Promise((resolve) => setImmediate(resolve));
  };
  Object.assign(context, { sync });
  made.push(context.application as Mock);

  const names = (kind: string) => new Proxy({}, { get: (_, key) => `${kind}.${String(key)}` });
  const Excel = {
    run: async (first: unknown, second?: (given: unknown) => Promise<unknown>) =>
      (second ?? (first as (given: unknown) => Promise<unknown>))(context),
    ...Object.fromEntries(ENUMS.map((kind) => [kind, names(kind)])),
  };
  Object.assign(globalThis, { Excel });
  return () => {
    Reflect.deleteProperty(globalThis, 'Excel');
  };
}

const ENUMS = [
  'ChartAxisScaleType',
  'ChartSeriesBy',
  'ChartType',
  'ClearApplyTo',
  'DataValidationAlertStyle',
  'DataValidationOperator',
  'PageOrientation',
  'PaperType',
  'RangeCopyType',
  'SheetVisibility',
  'SpecialCellType',
  'SpecialCellValueType',
];

const WHOLE_SHEET: Block = { startRow: 0, startColumn: 0, endRow: 1_048_575, endColumn: 16_383 };

function isWithin(block: Block, spot: Block | undefined): boolean {
  if (spot === undefined) return false;
  const { startRow: row, startColumn: column } = spot;
  return row >= block.startRow && row <= block.endRow && column >= block.startColumn && column <= block.endColumn;
}

function nameOf(row: number, column: number): string {
  return blockName({ startRow: row, endRow: row, startColumn: column, endColumn: column });
}

function namesIn(block: Block | undefined): readonly string[] {
  const names: string[] = [];
  if (block === undefined) return names;
  for (let row = block.startRow; row <= block.endRow; row += 1) {
    for (let column = block.startColumn; column <= block.endColumn; column += 1) names.push(nameOf(row, column));
  }
  return names;
}

export function emptyWorkbook(): MockWorkbook {
  return {
    sheets: new Map([['Mine', new Map()]]),
    names: new Map(),
    log: [],
    active: { sheet: 'Mine', cell: 'A1' },
    selected: [],
    changed: [],
    calculated: [],
    writes: { decimal: '.', system: true, systemDecimal: '.', culture: 'en-US' },
  };
}
