import { CellValueType } from '@univerjs/core';
import type { FWorkbook, FWorksheet } from '@univerjs/sheets/facade';
import { KEPT_SHEET, type KeptFormula, keptRows, readKept } from '../../pane/kept.ts';
import { type Cell, isCellError } from '../../tables/cells.ts';
import { blockName, parseBlock, spotName } from '../../workbook/address.ts';
import type { Grid } from './page/grid.ts';

const OURS = /\bNARROWS\./i;
const KEPT_WIDTHS = [140, 80, 100, 720];

/**
 * Puts the values that our formulas show, spilled ones with all their cells, in place of the formulas. The formulas are
 * kept on a sheet of their own.
 *
 * @returns how many formulas went
 */
export function freezeSheet(grid: Grid, sheet: FWorksheet): number {
  const unitId = sheet.getWorkbook().getUnitId();
  const sheetId = sheet.getSheetId();
  const spills = grid.formulas.getArrayFormulaRange()[unitId]?.[sheetId] ?? {};
  const found: { readonly row: number; readonly column: number; readonly formula: string }[] = [];
  sheet
    .getSheet()
    .getCellMatrix()
    .forValue((row, column) => {
      const formula = grid.reader.formulaAt({ unitId, sheetId, row, column });
      if (formula !== undefined && OURS.test(formula)) found.push({ row, column, formula });
    });
  if (found.length === 0) return 0;
  // All values are read before the first formula goes: the cells after it would be empty by then.
  const frozen = found.map(({ row, column, formula }) => {
    const single = { startRow: row, startColumn: column, endRow: row, endColumn: column };
    const spill = spills[row]?.[column] ?? single;
    const blocked = isCellError(grid.reader.cellAt({ unitId, sheetId, row, column }));
    const block = blocked ? single : spill;
    const kept = { sheet: sheet.getSheetName(), cell: spotName(row, column), fills: blockName(block), formula };
    return { row, column, kept, cells: grid.reader.cellsIn(unitId, sheetId, block) };
  });
  // Kept before the first one goes: what fails half-way has lost nothing.
  keep(
    grid,
    frozen.map(({ kept }) => kept),
  );
  for (const { row, column, cells } of frozen) {
    sheet
      .getRange(row, column, cells.length, cells[0]?.length ?? 1)
      .setValues(cells.map((line) => line.map((cell) => ({ f: null, si: null, p: null, v: plainValue(cell) }))));
  }
  return frozen.length;
}

/**
 * Puts back the formulas that were kept of a sheet, over the values that stood in for them, and forgets them.
 *
 * @returns how many came back
 */
export function restoreSheet(grid: Grid, sheet: FWorksheet): number {
  const all = keptOf(grid);
  const name = sheet.getSheetName().toLowerCase();
  const mine = all.filter((kept) => kept.sheet.toLowerCase() === name);
  let count = 0;
  for (const { cell, fills, formula } of mine) {
    const block = parseBlock(fills);
    const corner = parseBlock(cell);
    if (block === undefined || corner === undefined) continue;
    // A formula fills blank cells only.
    sheet
      .getRange(
        block.startRow,
        block.startColumn,
        block.endRow - block.startRow + 1,
        block.endColumn - block.startColumn + 1,
      )
      .clearContent();
    sheet.getRange(corner.startRow, corner.startColumn).setValue({ f: formula, v: null, p: null });
    count += 1;
  }
  if (count > 0)
    writeKept(
      grid,
      keptRows(
        all.filter((kept) => !mine.includes(kept)),
        [],
      ),
    );
  return count;
}

function bookOf(grid: Grid): FWorkbook {
  const open = grid.api.getActiveWorkbook();
  if (open === null) throw new Error('no workbook is open');
  return open;
}

function keptOf(grid: Grid): readonly KeptFormula[] {
  const book = bookOf(grid);
  const sheet = book.getSheetByName(KEPT_SHEET);
  if (sheet === null) return [];
  const end = { startRow: 0, startColumn: 0, endRow: sheet.getLastRow(), endColumn: KEPT_WIDTHS.length - 1 };
  return readKept(grid.reader.cellsIn(book.getId(), sheet.getSheetId(), end));
}

function keep(grid: Grid, added: readonly KeptFormula[]): void {
  writeKept(grid, keptRows(keptOf(grid), added));
}

/** Writes the sheet anew; without a formula left it goes. */
function writeKept(grid: Grid, rows: readonly (readonly string[])[]): void {
  const book = bookOf(grid);
  const active = book.getActiveSheet();
  let sheet = book.getSheetByName(KEPT_SHEET);
  if (rows.length <= 1) {
    if (sheet !== null) book.deleteSheet(sheet);
    return;
  }
  const lines = Math.max(rows.length, (sheet?.getLastRow() ?? 0) + 1);
  if (sheet === null) {
    sheet = book.insertSheet(KEPT_SHEET);
    KEPT_WIDTHS.forEach((width, column) => {
      sheet?.setColumnWidth(column, width);
    });
    book.setActiveSheet(active);
  }
  if (sheet.getMaxRows() < lines) sheet.setRowCount(lines);
  const values = Array.from({ length: lines }, (_, row) =>
    KEPT_WIDTHS.map((_width, column) => {
      const text = rows[row]?.[column];
      // Text, though it begins with =.
      return { f: null, si: null, p: null, v: text ?? null, t: text === undefined ? null : CellValueType.FORCE_STRING };
    }),
  );
  sheet.getRange(0, 0, lines, KEPT_WIDTHS.length).setValues(values);
}

function plainValue(cell: Cell): string | number | boolean | null {
  if (isCellError(cell)) return cell.error;
  return cell ?? null;
}
