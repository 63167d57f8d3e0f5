import { type Block, blockName, parseBlock, quoteSheetName } from './address.ts';
import { joined, type Token, tokens } from './tokens.ts';

/** A named table of a sheet. Rows and columns count from 0. */
export interface NamedTable {
  readonly name: string;
  readonly sheet: string;
  readonly block: Block;
  readonly columns: readonly string[];
  /** the first row names the columns */
  readonly header: boolean;
  /** the last row holds totals */
  readonly totals: boolean;
}

export type NamedTables = ReadonlyMap<string, NamedTable>;

/** A sheet as the file reader gives it, as far as its tables go. */
interface SheetWithTables {
  readonly name: string;
  readonly tables?: readonly {
    readonly name: string;
    readonly displayName?: string;
    readonly range?: string;
    readonly columns: readonly { readonly name: string }[];
    readonly showTotalRow?: boolean;
  }[];
}

/** @param headless names of tables without a header row, which the file reader does not tell from the others */
export function namedTables(
  sheets: readonly SheetWithTables[],
  headless: ReadonlySet<string> = new Set(),
): NamedTables {
  const found = new Map<string, NamedTable>();
  for (const sheet of sheets) {
    for (const table of sheet.tables ?? []) {
      const block = table.range === undefined ? undefined : parseBlock(table.range);
      if (block === undefined) continue;
      const name = table.displayName ?? table.name;
      const columns = table.columns.map((column) => column.name);
      const header = !headless.has(name);
      const totals = table.showTotalRow === true;
      found.set(name.toUpperCase(), { name, sheet: sheet.name, block, columns, header, totals });
    }
  }
  return found;
}

/** Where a formula stands. */
interface FormulaPlace {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

/**
 * The formula with references to tables (`Units[Speed]`, ISO/IEC 29500-1 §18.17.2.2) as ranges, which is what the
 * calculation knows. What cannot be told is left as it is.
 * @param place the formula's own, for references to the same row and, within a table, to columns without its name
 */
export function withRanges(formula: string, tables: NamedTables, place: FormulaPlace): string {
  if (tables.size === 0) return formula;
  const list = tokens(formula);
  const out: Token[] = [];
  for (let index = 0; index < list.length; index++) {
    const token = list[index] as Token;
    const next = list[index + 1];
    const table = token.kind === 'name' ? tables.get(token.text.toUpperCase()) : undefined;
    if (token.kind === 'bracket' && list[index - 1]?.kind !== 'name') {
      const range = ownRange(tables, token.text, place);
      out.push(range === undefined ? token : { kind: 'name', text: range });
      continue;
    }
    if (table === undefined || next?.text === '(' || next?.text === '!') {
      out.push(token);
      continue;
    }
    const bracket = next?.kind === 'bracket' ? next.text : '[]';
    const range = rangeOf(table, bracket, place.row);
    if (range === undefined) out.push(token);
    else {
      out.push({ kind: 'name', text: range });
      if (next?.kind === 'bracket') index++;
    }
  }
  return joined(out);
}

/** The range of `[Column]` in a cell of the table that it stands in. */
function ownRange(tables: NamedTables, bracket: string, { sheet, row, column }: FormulaPlace): string | undefined {
  for (const table of tables.values()) {
    const { startRow, endRow, startColumn, endColumn } = table.block;
    const inside = row >= startRow && row <= endRow && column >= startColumn && column <= endColumn;
    if (table.sheet === sheet && inside) return rangeOf(table, bracket, row);
  }
  return undefined;
}

function rangeOf(table: NamedTable, bracket: string, row: number): string | undefined {
  const { items, columns, spans } = piecesOf(bracket.slice(1, -1));
  const places = columns.map((name) =>
    table.columns.findIndex((column) => column.toUpperCase() === name.toUpperCase()),
  );
  if (places.includes(-1) || places.length > 2 || (places.length === 2 && !spans)) return undefined;
  const { startRow, endRow, startColumn, endColumn } = table.block;
  const data = { from: startRow + Number(table.header), to: table.totals ? endRow - 1 : endRow };
  const rows = items.length === 0 ? [data] : items.map((item) => rowsOf(item, table, data, row));
  const known = rows.filter((part) => part !== undefined);
  if (known.length !== rows.length) return undefined;
  const [first = 0, last = endColumn - startColumn] =
    places.length === 0 ? [] : [Math.min(...places), Math.max(...places)];
  const block = {
    startRow: Math.min(...known.map((part) => part.from)),
    endRow: Math.max(...known.map((part) => part.to)),
    startColumn: startColumn + first,
    endColumn: startColumn + last,
  };
  if (block.endRow < block.startRow) return undefined;
  return `${quoteSheetName(table.sheet)}!${blockName(block).replace(/([A-Z]+)(\d+)/g, '$$$1$$$2')}`;
}

function rowsOf(item: string, { block, header, totals }: NamedTable, data: { from: number; to: number }, row: number) {
  switch (item.toUpperCase()) {
    case '#ALL':
      return { from: block.startRow, to: block.endRow };
    case '#DATA':
      return data;
    case '#HEADERS':
      return header ? { from: block.startRow, to: block.startRow } : undefined;
    case '#TOTALS':
      return totals ? { from: block.endRow, to: block.endRow } : undefined;
    case '#THIS ROW':
      return row >= data.from && row <= data.to ? { from: row, to: row } : undefined;
    default:
      return undefined;
  }
}

/** What stands in the bracket: items such as #All, and column names, two of them with a colon for a span. */
function piecesOf(inside: string): { items: string[]; columns: string[]; spans: boolean } {
  const text = inside.startsWith('@') ? `[#This Row],${inside.slice(1)}` : inside;
  const pieces: string[] = [];
  let spans = false;
  if (!text.includes('[')) pieces.push(text);
  else {
    for (const match of text.matchAll(/\[((?:'.|[^\]'])*)\]|(:)|([^[\],:\s][^[\],:]*)/g)) {
      if (match[2] === ':') spans = true;
      else pieces.push(match[1] ?? match[3] ?? '');
    }
  }
  const isItem = (piece: string): boolean => piece.startsWith('#');
  return {
    items: pieces.filter(isItem),
    columns: pieces.filter((piece) => piece !== '' && !isItem(piece)).map((piece) => piece.replace(/'(.)/g, '$1')),
    spans,
  };
}
