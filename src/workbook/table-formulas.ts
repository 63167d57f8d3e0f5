import { columnNumber, type Spot } from './address.ts';
import { editsOf, movedBlocks, type SheetEdit } from './edits.ts';
import { movedColumns } from './moved-columns.ts';
import { movedFormula } from './moved-formula.ts';
import { partText } from './package.ts';
import { asStored, asTyped } from './prefixes.ts';
import type { Book } from './read.ts';
import { withColumn } from './table-columns.ts';
import { type TablePart, tablePart, tablesOf } from './table-part.ts';
import { type NamedTables, withRanges } from './tables.ts';
import { unescapeXml } from './xml.ts';

/** The text under which a file has the formula of a cell, where that is not the one that the page shows. */
export type FormulaText = (sheet: string, row: number, column: number, formula: string) => string | undefined;

const CELL = /<(?:\w+:)?c(?=[\s>])([^>]*)>\s*<((?:\w+:)?)f(?=[\s>])[^>]*>([^<]+)<\/\2f\s*>/g;
const PLACE = /\sr\s*=\s*["']([A-Za-z]+)(\d+)["']/;

/**
 * References to tables in formulas of a file that is made anew: the page has ranges in their place. A formula that still means
 * the range which its reference means now is written with the reference, as the file before had it.
 *
 * @param before the file as it was read
 * @param now the file made anew
 */
export function tableFormulas(before: Book, now: Book, edits: readonly SheetEdit[]): FormulaText {
  const moved = movedTables(before, now, edits);
  if (moved.length === 0) return () => undefined;
  const tables: NamedTables = new Map(
    moved.map(({ now: table, sheet }) => [table.name.toUpperCase(), { ...table, sheet }] as const),
  );
  const names = moved.map(({ now: { name } }) => name.toUpperCase());
  const texts = new Map<string, string>();
  for (const { name, part } of before.sheets) {
    const to = edits.reduce((known, edit) => (edit.kind === 'rename' && edit.sheet === known ? edit.to : known), name);
    const own = editsOf(edits, name);
    for (const { spot, formula } of formulasIn(partText(before.parts, part) ?? '', names)) {
      const place = movedBlocks(
        { startRow: spot.row, endRow: spot.row, startColumn: spot.column, endColumn: spot.column },
        own,
      );
      if (place === undefined) continue;
      const text = moved.reduce((known, table) => withNames(known, table), movedFormula(formula, name, edits));
      texts.set(`${place.startRow},${place.startColumn},${to}`, text);
    }
  }
  return (sheet, row, column, formula) => {
    const text = texts.get(`${row},${column},${sheet}`);
    if (text === undefined) return undefined;
    return plain(withRanges(asTyped(text), tables, { sheet, row, column }), sheet) === plain(formula, sheet)
      ? asStored(asTyped(text))
      : undefined;
  };
}

/** A formula without what may be written in one way or another: quotes, and the name of its own sheet. */
function plain(formula: string, sheet: string): string {
  const bare = (text: string): string => text.replace(/[\s']/g, '').toUpperCase();
  const own = `${bare(sheet)}!`;
  return bare(formula)
    .split(/(?<=[^\p{L}\p{N}_.!])/u)
    .map((piece) => (piece.startsWith(own) ? piece.slice(own.length) : piece))
    .join('');
}

/** Formulas of cells that may refer to one of the tables. */
function formulasIn(xml: string, names: readonly string[]): { spot: Spot; formula: string }[] {
  return [...xml.matchAll(CELL)].flatMap(([, given = '', , text = '']) => {
    const place = PLACE.exec(given);
    const upper = text.toUpperCase();
    if (place === null || !names.some((name) => upper.includes(name))) return [];
    const spot = { row: Number(place[2]) - 1, column: columnNumber(place[1] ?? '') };
    return [{ spot, formula: unescapeXml(text) }];
  });
}

interface MovedTable {
  readonly now: TablePart;
  /** the sheet's name in the file made anew */
  readonly sheet: string;
  /** names of columns, before and now */
  readonly names: readonly (readonly [from: string, to: string])[];
}

function movedTables(before: Book, now: Book, edits: readonly SheetEdit[]): MovedTable[] {
  const old = tablesOf(before);
  return [...tablesOf(now)].flatMap(([name, { xml, sheet }]) => {
    const was = old.get(name);
    const [table, from] = [tablePart(xml), was && tablePart(was.xml)];
    if (was === undefined || table === undefined || from === undefined) return [];
    const columns = movedColumns(from.columns, from.block, editsOf(edits, was.sheet));
    const names = columns.flatMap((column, at) => {
      const to = table.columns[at];
      return column === undefined || to === undefined || column === to ? [] : [[column, to] as const];
    });
    return [{ now: table, sheet, names }];
  });
}

function withNames(formula: string, { now, names }: MovedTable): string {
  return names.reduce((text, [from, to]) => withColumn(text, now.name, from, to), formula);
}
