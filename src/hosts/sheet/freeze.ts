import { CellValueType } from '@univerjs/core';
import type { FWorkbook, FWorksheet } from '@univerjs/sheets/facade';
import {
  frozenValue,
  KEPT_SHEET,
  type KeptFormula,
  keptRows,
  type Restored,
  readKept,
  whyLeft,
} from '../../pane/kept.ts';
import { isCellError } from '../../tables/cells.ts';
import { blockName, parseBlock, spotName } from '../../workbook/address.ts';
import { editsOf, movedRange, type SheetEdit } from '../../workbook/edits.ts';
import { movedFormula } from '../../workbook/moved-formula.ts';
import { callsOurs } from '../../workbook/prefixes.ts';
import type { Edits } from './page/edits.ts';
import type { Grid } from './page/grid.ts';

const KEPT_WIDTHS = [140, 80, 100, 720, 160];

export interface Freezer {
  /**
   * Puts the values that our formulas show, spilled ones with all their cells, in place of the formulas. The formulas are
   * kept on a sheet of their own.
   *
   * @returns how many formulas went
   */
  freeze(sheet: FWorksheet): number;
  /**
   * Puts back the formulas that were kept of a sheet, over the values that stood in for them, and forgets them. One whose
   * cells hold something else by now stays on the list, and they stay as they are.
   */
  restore(sheet: FWorksheet): Restored;
  /** Writes the list as it is now: its addresses, and those in its formulas, have followed rows, columns and sheets. */
  settle(): void;
}

export function createFreezer(grid: Grid, edits: Edits): Freezer {
  /** How much had been done to rows and columns when a formula was kept; nothing, for what came with the file. */
  const since = new Map<string, number>();
  const placeOf = ({ sheet, cell }: KeptFormula): string => `${bookOf(grid).getId()} ${sheet}!${cell}`.toLowerCase();
  const nowOf = (kept: KeptFormula): KeptFormula => moved(kept, edits.done.slice(since.get(placeOf(kept)) ?? 0));

  function settle(): void {
    const before = keptOf(grid);
    const after = before.map((kept) => {
      const now = nowOf(kept);
      // one whose cells are gone may come back when that is undone
      return parseBlock(now.cell) === undefined || parseBlock(now.fills) === undefined ? kept : now;
    });
    if (after.every((kept, i) => kept === before[i])) return;
    after.forEach((kept, i) => {
      if (kept !== before[i]) since.set(placeOf(kept), edits.done.length);
    });
    writeKept(grid, keptRows(after, []));
  }

  return {
    settle,
    freeze(sheet) {
      const found = ourFormulas(grid, sheet);
      if (found.length === 0) return 0;
      settle();
      // Kept before the first one goes: what fails half-way has lost nothing.
      writeKept(grid, keptRows(keptOf(grid), found));
      for (const kept of found) {
        since.set(placeOf(kept), edits.done.length);
        const values = kept.values ?? [];
        rangeOf(sheet, kept.fills)?.setValues(
          values.map((line) => line.map((v) => ({ f: null, si: null, p: null, v }))),
        );
      }
      return found.length;
    },
    restore(sheet) {
      const all = keptOf(grid);
      const name = sheet.getSheetName().toLowerCase();
      const mine = all
        .map((kept) => ({ kept, now: nowOf(kept) }))
        .filter(({ now }) => now.sheet.toLowerCase() === name)
        // All are compared before the first one comes back: what it fills is no change of the others.
        .map((pair) => ({ ...pair, why: whyNot(grid, sheet, pair.now) }));
      const back = mine.filter(({ why }) => why === undefined);
      for (const { now } of back) {
        // A formula fills blank cells only.
        rangeOf(sheet, now.fills)?.clearContent();
        rangeOf(sheet, now.cell)?.setValue({ f: now.formula, v: null, p: null });
      }
      const gone = new Set(back.map(({ kept }) => kept));
      if (gone.size > 0)
        writeKept(
          grid,
          keptRows(
            all.filter((kept) => !gone.has(kept)),
            [],
          ),
        );
      const left = mine.flatMap(({ kept, now, why }) =>
        why === undefined ? [] : [{ cell: parseBlock(now.cell) ? now.cell : kept.cell, why }],
      );
      return { count: back.length, left };
    },
  };
}

/** Our formulas of a sheet, with what they show: all of it is read before the first one goes, which would empty the others. */
function ourFormulas(grid: Grid, sheet: FWorksheet): readonly KeptFormula[] {
  const unitId = sheet.getWorkbook().getUnitId();
  const sheetId = sheet.getSheetId();
  const spills = grid.formulas.getArrayFormulaRange()[unitId]?.[sheetId] ?? {};
  const found: KeptFormula[] = [];
  sheet
    .getSheet()
    .getCellMatrix()
    .forValue((row, column) => {
      const place = { unitId, sheetId, row, column };
      const formula = grid.reader.formulaAt(place);
      if (formula === undefined || !callsOurs(formula)) return;
      const single = { startRow: row, startColumn: column, endRow: row, endColumn: column };
      const block = isCellError(grid.reader.cellAt(place)) ? single : (spills[row]?.[column] ?? single);
      const values = grid.reader.cellsIn(unitId, sheetId, block).map((line) => line.map(frozenValue));
      found.push({
        sheet: sheet.getSheetName(),
        cell: spotName(row, column),
        fills: blockName(block),
        formula,
        values,
      });
    });
  return found;
}

/** A kept formula after edits of rows, columns and names of sheets; the same one where nothing moved. */
function moved(kept: KeptFormula, edits: readonly SheetEdit[]): KeptFormula {
  if (edits.length === 0) return kept;
  const own = editsOf(edits, kept.sheet);
  let sheet = kept.sheet;
  for (const edit of edits) if (edit.kind === 'rename' && edit.sheet === sheet) sheet = edit.to;
  const now = {
    ...kept,
    sheet,
    cell: movedRange(kept.cell, own),
    fills: movedRange(kept.fills, own),
    formula: movedFormula(kept.formula, kept.sheet, edits),
  };
  const same = (['sheet', 'cell', 'fills', 'formula'] as const).every((part) => now[part] === kept[part]);
  return same ? kept : now;
}

function whyNot(grid: Grid, sheet: FWorksheet, kept: KeptFormula): string | undefined {
  const block = parseBlock(kept.fills);
  const unitId = sheet.getWorkbook().getUnitId();
  const sheetId = sheet.getSheetId();
  const now =
    block === undefined || parseBlock(kept.cell) === undefined
      ? undefined
      : grid.reader.cellsIn(unitId, sheetId, block);
  return whyLeft(kept, now, (down, across) => {
    const [row, column] = [(block?.startRow ?? 0) + down, (block?.startColumn ?? 0) + across];
    return grid.reader.formulaAt({ unitId, sheetId, row, column }) !== undefined;
  });
}

function rangeOf(sheet: FWorksheet, name: string): ReturnType<FWorksheet['getRange']> | undefined {
  const block = parseBlock(name);
  if (block === undefined) return undefined;
  const { startRow, startColumn, endRow, endColumn } = block;
  return sheet.getRange(startRow, startColumn, endRow - startRow + 1, endColumn - startColumn + 1);
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
  const end = { startRow: 0, startColumn: 0, endRow: sheet.getLastRow(), endColumn: sheet.getLastColumn() };
  return readKept(grid.reader.cellsIn(book.getId(), sheet.getSheetId(), end));
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
  const across = Math.max(rows[0]?.length ?? 0, (sheet?.getLastColumn() ?? 0) + 1);
  if (sheet === null) {
    sheet = book.insertSheet(KEPT_SHEET);
    KEPT_WIDTHS.forEach((width, column) => {
      sheet?.setColumnWidth(column, width);
    });
    book.setActiveSheet(active);
  }
  if (sheet.getMaxRows() < lines) sheet.setRowCount(lines);
  if (sheet.getMaxColumns() < across) sheet.setColumnCount(across);
  const values = Array.from({ length: lines }, (_, row) =>
    Array.from({ length: across }, (_unused, column) => {
      const text = rows[row]?.[column] || null;
      // Text, though it begins with =.
      return { f: null, si: null, p: null, v: text, t: text === null ? null : CellValueType.FORCE_STRING };
    }),
  );
  sheet.getRange(0, 0, lines, across).setValues(values);
}
