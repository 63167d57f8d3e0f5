import type { FWorkbook } from '@univerjs/sheets/facade';
import { NAMESPACE } from '../../functions/registry.ts';
import { type Block, parseBlock } from '../../workbook/address.ts';
import { partsOf } from './faults.ts';
import type { Grid } from './page/grid.ts';

export interface NamedTable {
  readonly name: string;
  readonly sheetId: string;
  readonly sheetName: string;
  readonly block: Block;
}

/** Tables that our functions read by a defined name, of the workbook or of one sheet. */
export function tablesRead(grid: Grid, book: FWorkbook, sheetId?: string): readonly NamedTable[] {
  const formulas = ourFormulas(grid);
  return tablesOf(book).filter(
    (table) => (sheetId === undefined || table.sheetId === sheetId) && isRead(table.name, formulas),
  );
}

function ourFormulas(grid: Grid): readonly string[] {
  return grid.reader.shownCells().flatMap(({ place }) => {
    const formula = grid.reader.formulaAt(place) ?? '';
    return formula.toUpperCase().includes(`${NAMESPACE}.`) ? [formula.replace(/"[^"]*"/g, '""')] : [];
  });
}

/** Defined names of two rows or more: a header and what stands below it. */
export function tablesOf(book: FWorkbook): NamedTable[] {
  return book.getDefinedNames().flatMap((defined) => {
    const { sheetName, cell } = partsOf(defined.getFormulaOrRefString().replace(/^=/, ''));
    const [sheet, block] = [book.getSheetByName(sheetName), parseBlock(cell)];
    if (sheet === null || block === undefined || block.endRow === block.startRow) return [];
    return [{ name: defined.getName(), sheetId: sheet.getSheetId(), sheetName, block }];
  });
}

function isRead(name: string, formulas: readonly string[]): boolean {
  const word = name.replace(/[.\\?]/g, '\\$&');
  const used = new RegExp(`(?<![\\w.!'])${word}(?![\\w.!'(])`, 'i');
  return formulas.some((formula) => used.test(formula));
}
