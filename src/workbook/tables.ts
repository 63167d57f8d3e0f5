import { type Block, blockName, parseBlock, quoteSheetName } from './address.ts';
import { joined, type Token, tokens } from './tokens.ts';

/** A named table of a sheet, with a header row. Rows and columns count from 0. */
export interface NamedTable {
  readonly name: string;
  readonly sheet: string;
  readonly block: Block;
  readonly columns: readonly string[];
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

export function namedTables(sheets: readonly SheetWithTables[]): NamedTables {
  const found = new Map<string, NamedTable>();
  for (const sheet of sheets) {
    for (const table of sheet.tables ?? []) {
      const block = table.range === undefined ? undefined : parseBlock(table.range);
      if (block === undefined) continue;
      const name = table.displayName ?? table.name;
      const columns = table.columns.map((column) => column.name);
      found.set(name.toUpperCase(), { name, sheet: sheet.name, block, columns, totals: table.showTotalRow === true });
    }
  }
  return found;
}

/**
 * The formula with references to tables (`Units[Speed]`, ISO/IEC 29500-1 §18.17.2.2) as ranges, which is what the
 * calculation knows. What cannot be told is left as it is.
 * @param row the row of the formula's cell, for references to the same row
 */
export function withRanges(formula: string, tables: NamedTables, row: number): string {
  if (tables.size === 0) return formula;
  const list = tokens(formula);
  const out: Token[] = [];
  for (let index = 0; index < list.length; index++) {
    const token = list[index] as Token;
    const next = list[index + 1];
    const table = token.kind === 'name' ? tables.get(token.text.toUpperCase()) : undefined;
    if (table === undefined || next?.text === '(' || next?.text === '!') {
      out.push(token);
      continue;
    }
    const bracket = next?.kind === 'bracket' ? next.text : '[]';
    const range = rangeOf(table, bracket, row);
    if (range === undefined) out.push(token);
    else {
      out.push({ kind: 'name', text: range });
      if (next?.kind === 'bracket') index++;
    }
  }
  return joined(out);
}

function rangeOf(table: NamedTable, bracket: string, row: number): string | undefined {
  const { items, columns, spans } = piecesOf(bracket.slice(1, -1));
  const places = columns.map((name) =>
    table.columns.findIndex((column) => column.toUpperCase() === name.toUpperCase()),
  );
  if (places.includes(-1) || places.length > 2 || (places.length === 2 && !spans)) return undefined;
  const { startRow, endRow, startColumn, endColumn } = table.block;
  const data = { from: startRow + 1, to: table.totals ? endRow - 1 : endRow };
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

function rowsOf(item: string, { block, totals }: NamedTable, data: { from: number; to: number }, row: number) {
  switch (item.toUpperCase()) {
    case '#ALL':
      return { from: block.startRow, to: block.endRow };
    case '#DATA':
      return data;
    case '#HEADERS':
      return { from: block.startRow, to: block.startRow };
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
