import { type Block, parseBlock, parseSpot, spotName } from '../src/workbook/address.ts';
import type { ModelBlock, ModelCell, ModelSheet, ModelValue, WorkbookModel } from '../src/workbook/model.ts';
import { rangeOf } from './layout.ts';
import { recoverySpot } from './sheets/recovery.ts';

/** A table of the scenario that real work fills anew: a defined name of the model, or a range. */
interface Emptied {
  readonly range: string;
  /** what the cells that wait for it ask for; absent where a table may stay empty */
  readonly waits?: string;
}

/** By defined name where there is one, so that a table finds its place when its sheet changes. */
const NAMED: Readonly<Record<string, string | undefined>> = {
  Units: 'fill Units first',
  Runs: undefined,
  LineRuns: 'fill the line first',
  LinePort: 'fill One port first',
  LinePorts: 'fill Two ports first',
  HoldLog: 'type the readings first',
};

/** Sentences that are true of the example only. */
const EXAMPLE_ONLY = / ?The (?:readings|line) shown (?:is|are) invented\.| Clear the old ones before\./g;
const ABOUT =
  'For your own work: fill the cells that are yours to fill. Rigs and conditions are a start; change them as they are.';

interface Place extends Block {
  readonly sheet: string;
}

function placeOf(range: string): Place {
  const split = range.lastIndexOf('!');
  const block = parseBlock(range.slice(split + 1));
  if (block === undefined) throw new Error(`${range} is no range`);
  const sheet = range
    .slice(0, split)
    .replace(/^'(.*)'$/, '$1')
    .replaceAll("''", "'");
  return { sheet, ...block };
}

const meets = (a: Place, b: Place): boolean =>
  a.sheet === b.sheet &&
  a.startRow <= b.endRow &&
  b.startRow <= a.endRow &&
  a.startColumn <= b.endColumn &&
  b.startColumn <= a.endColumn;

/** The rows under the header. */
const bodyOf = (place: Place): Place => ({ ...place, startRow: place.startRow + 1 });

function asCell(given: ModelCell | ModelValue | undefined): ModelCell | undefined {
  if (given === undefined) return undefined;
  return typeof given === 'object' && given !== null ? given : { value: given };
}

/** Every cell of the sheet passed through `change`, which is given where it stands. */
function mapCells(sheet: ModelSheet, change: (cell: ModelCell, at: Place) => ModelCell): ModelSheet {
  const place = (row: number, column: number): Place => ({
    sheet: sheet.name,
    startRow: row,
    endRow: row,
    startColumn: column,
    endColumn: column,
  });
  const blocks = sheet.blocks?.map((block): ModelBlock => {
    const from = parseSpot(block.at) ?? { row: 0, column: 0 };
    const rows = block.rows.map((row, down) =>
      row.map((given, across) => {
        const cell = asCell(given);
        return cell && change(cell, place(from.row + down, from.column + across));
      }),
    );
    return { ...block, rows };
  });
  const cells = Object.entries(sheet.cells ?? {}).map(([at, given]): [string, ModelCell] => {
    const spot = parseSpot(at) ?? { row: 0, column: 0 };
    return [at, change(asCell(given) ?? {}, place(spot.row, spot.column))];
  });
  return { ...sheet, cells: Object.fromEntries(cells), ...(blocks === undefined ? {} : { blocks }) };
}

interface Formula {
  readonly id: string;
  /** what it fills: its cell, or the table that it spills */
  readonly fills: Place;
  readonly reads: readonly Place[];
  /** begins by asking whether its own row is blank */
  readonly asks: boolean;
}

const REFERENCE =
  /(?:(?:'((?:[^']|'')+)'|([A-Za-z_][\w.]*))!)?(\$?[A-Z]{1,3}\$?\d{1,7}(?::\$?[A-Z]{1,3}\$?\d{1,7})?)(?![\w.(])/g;
/** Counts what stands in a table and around it: right for an empty one, too. */
const COUNTS = /^=IF\(COUNTA\(/;
const OWN_ROW = /^=IF\(\$?[A-Z]{1,3}\$?\d+="","",/;

function readsOf(formula: string, sheet: string, names: ReadonlyMap<string, Place>): Place[] {
  const text = formula.replace(/"[^"]*"/g, '""');
  const places = [...text.matchAll(REFERENCE)].map(([, quoted, bare, cells = '']) =>
    placeOf(`'${(quoted ?? bare ?? sheet).replaceAll("''", "'").replaceAll("'", "''")}'!${cells}`),
  );
  for (const [name, place] of names) if (new RegExp(`(?<![\\w.!'])${name}(?![\\w.(!'])`).test(text)) places.push(place);
  return places;
}

function formulasOf(model: WorkbookModel, names: ReadonlyMap<string, Place>): Formula[] {
  return model.sheets.flatMap((sheet) => {
    const found = new Map<string, Formula>();
    mapCells(sheet, (cell, at) => {
      if (cell.formula === undefined) return cell;
      const spill = cell.spills === undefined ? undefined : parseBlock(cell.spills);
      const id = `${sheet.name}!${spotName(at.startRow, at.startColumn)}`;
      found.set(id, {
        id,
        fills: spill === undefined ? at : { sheet: sheet.name, ...spill },
        reads: COUNTS.test(cell.formula) ? [] : readsOf(cell.formula, sheet.name, names),
        asks: OWN_ROW.test(cell.formula),
      });
      return cell;
    });
    return [...found.values()];
  });
}

/** For each formula the tables that it waits for, through the cells between. */
function waiting(formulas: readonly Formula[], tables: readonly (Emptied & { readonly body: Place })[]) {
  const waits = new Map<string, Set<(typeof tables)[number]>>(
    formulas.map(({ id, reads }) => [id, new Set(tables.filter(({ body }) => reads.some((one) => meets(one, body))))]),
  );
  for (let grew = true; grew; ) {
    grew = false;
    for (const { id, reads } of formulas) {
      const own = waits.get(id) ?? new Set();
      for (const other of formulas) {
        if (other.id === id || !reads.some((one) => meets(one, other.fills))) continue;
        for (const table of waits.get(other.id) ?? []) {
          if (own.has(table)) continue;
          own.add(table);
          grew = true;
        }
      }
    }
  }
  return waits;
}

function absolute({ sheet, startRow, endRow, startColumn }: Place): string {
  const column = spotName(0, startColumn).slice(0, -1);
  const quoted = /^\w+$/.test(sheet) ? sheet : `'${sheet.replaceAll("'", "''")}'`;
  return `${quoted}!$${column}$${startRow + 1}:$${column}$${endRow + 1}`;
}

/** Units may all carry a volume of their own: while Pipe runs is blank, formulas leave it out. */
function withoutRuns(
  formula: string,
  tables: readonly { readonly range: string; readonly waits?: string; readonly body: Place }[],
): string {
  const runs = tables.find(({ waits }) => waits === undefined);
  if (runs === undefined || !/,Runs(?=[,)])/.test(formula)) return formula;
  return `IF(COUNTA(${absolute(runs.body)})=0,${formula.replace(/,Runs(?=[,)])/g, ',')},${formula})`;
}

/**
 * The same workbook for real work: the tables of the scenario blank, and each formula that would end in an error for want
 * of them waiting: a table says what to fill first, a figure stays blank. Whatever sheets the model has, they come along.
 */
export function emptied(model: WorkbookModel): WorkbookModel {
  const names = new Map((model.names ?? []).map(({ name, range }) => [name, placeOf(range)]));
  const tables = [
    ...Object.entries(NAMED).map(([name, waits]) => {
      const range = model.names?.find((one) => one.name === name)?.range;
      if (range === undefined) throw new Error(`the template has no name ${name}`);
      return { range, ...(waits === undefined ? {} : { waits }) };
    }),
    { range: rangeOf(recoverySpot), waits: 'fill the kinds of unit first' },
  ].map((table) => ({ ...table, body: bodyOf(placeOf(table.range)) }));
  const formulas = formulasOf(model, names);
  const asks = new Set(formulas.filter((one) => one.asks).map(({ id }) => id));
  const waits = waiting(formulas, tables);
  const sheets = model.sheets.map((sheet) =>
    mapCells(sheet, (cell, at) => {
      if (cell.formula === undefined) {
        if (tables.some(({ body }) => meets(body, at))) return { ...cell, value: null };
        return typeof cell.value === 'string' ? { ...cell, value: cell.value.replace(EXAMPLE_ONLY, '') } : cell;
      }
      const id = `${sheet.name}!${spotName(at.startRow, at.startColumn)}`;
      const missing = [...(waits.get(id) ?? [])].filter(({ waits: words }) => words !== undefined);
      if (missing.length === 0 || asks.has(id)) return cell;
      const spills = cell.spills !== undefined;
      const formula = missing.reduceRight(
        (rest, { body, waits: words }) => `IF(COUNTA(${absolute(body)})=0,"${spills ? words : ''}",${rest})`,
        withoutRuns(cell.formula.slice(1), tables),
      );
      return { ...cell, formula: `=${formula}`, ...(spills ? { spills: 'unknown' } : {}) };
    }),
  );
  const start = sheets.map((sheet) =>
    sheet.name === 'Start'
      ? { ...sheet, cells: { ...sheet.cells, A2: { value: ABOUT, look: 'note' as const, wrap: false } } }
      : sheet,
  );
  return { ...model, description: 'Empty, for your own work', sheets: start };
}
