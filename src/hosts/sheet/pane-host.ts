import type { ICellData } from '@univerjs/core';
import { ILayoutService } from '@univerjs/preset-sheets-core';
import { SetRangeValuesCommand } from '@univerjs/sheets';
import type { FRange, FWorkbook, FWorksheet } from '@univerjs/sheets/facade';
import type { CellPlace } from '../../calc/messages.ts';
import type { CellNote, NewCell, PaneHost } from '../../pane/host.ts';
import { contentBelowTables } from './below-tables.ts';
import { cellsNamed, rowOf } from './cells.ts';
import { addressOf, faultAt, faultsOf, partsOf } from './faults.ts';
import type { Freezer } from './freeze.ts';
import { ownFigureNote, ownFigureNotes } from './own-figure-notes.ts';
import type { Edits } from './page/edits.ts';
import type { Grid } from './page/grid.ts';
import { hiddenNumber } from './page/narrow-numbers.ts';
import { addSheets } from './template-sheets.ts';

/** The task pane's view of the embedded sheet. */
export function createPaneHost(
  grid: Grid,
  edits: Edits,
  freezer: Freezer,
  readTemplate: () => Promise<Uint8Array>,
): PaneHost {
  const { api } = grid;

  function book(): FWorkbook {
    const open = api.getActiveWorkbook();
    if (open === null) throw new Error('no workbook is open');
    return open;
  }

  function selected(): FRange | undefined {
    return api.getActiveWorkbook()?.getActiveSheet().getActiveCell() ?? undefined;
  }

  function sheetNamed(name: string): FWorksheet {
    const sheet = name === '' ? book().getActiveSheet() : book().getSheetByName(name);
    if (sheet === null) throw new Error(`there is no sheet called ${name}`);
    return sheet;
  }

  function placeOf(address: string): CellPlace {
    const { sheetName, cell } = partsOf(address);
    const sheet = sheetNamed(sheetName);
    const range = sheet.getRange(cell);
    return { unitId: book().getId(), sheetId: sheet.getSheetId(), row: range.getRow(), column: range.getColumn() };
  }

  function narrowNote(address: string, { row, column }: CellPlace): CellNote | undefined {
    const number = hiddenNumber(grid, row, column);
    return number === undefined ? undefined : { address, message: `${number}: its column is too narrow to show it.` };
  }

  return {
    name: 'Embedded sheet',
    async insertFormula(formula) {
      const cell = selected();
      if (cell === undefined) throw new Error('no cell is selected');
      cell.setValue({ f: formula, v: null, p: null });
    },
    async selectedAddress() {
      const cell = selected();
      return cell && addressOf(cell.getSheetName(), cell.getA1Notation());
    },
    async faultAt(address) {
      return faultAt(grid, placeOf(address));
    },
    onSelection(listener) {
      // The grid tells of a change before it has made all of it.
      const later = () => {
        setTimeout(listener);
      };
      const events = [api.Event.SelectionChanged, api.Event.ActiveSheetChanged].map((event) =>
        api.addEvent(event, later),
      );
      const stop = grid.messages.onChange(later);
      return () => {
        for (const event of events) event.dispose();
        stop();
      };
    },
    async cells(reference) {
      return cellsNamed(grid, book(), reference);
    },
    async selectedRow() {
      const cell = selected();
      return cell && rowOf(grid, book(), cell);
    },
    onChange(listener) {
      const later = () => {
        setTimeout(listener);
      };
      const event = api.addEvent(api.Event.SheetValueChanged, later);
      const stop = grid.messages.onChange(later);
      return () => {
        event.dispose();
        stop();
      };
    },
    async addTemplate() {
      const bytes = await readTemplate();
      return addSheets(grid, bytes, edits.done.length);
    },
    async faults(scope) {
      return faultsOf(grid, scope === 'sheet' ? book().getActiveSheet().getSheetId() : undefined);
    },
    async notes(scope) {
      const sheetId = scope === 'sheet' ? book().getActiveSheet().getSheetId() : undefined;
      return [...contentBelowTables(grid, book(), sheetId), ...ownFigureNotes(grid, book(), sheetId)];
    },
    async noteAt(address) {
      const place = placeOf(address);
      return ownFigureNote(grid, book(), place) ?? narrowNote(address, place);
    },
    async put(cells) {
      const places = cells.map(({ address, value }) => ({ ...placeOf(address), value }));
      for (const sheetId of new Set(places.map((place) => place.sheetId))) {
        // one command is one step to undo
        const value = valuesByPlace(places.filter((place) => place.sheetId === sheetId));
        await api.executeCommand(SetRangeValuesCommand.id, { unitId: book().getId(), subUnitId: sheetId, value });
      }
    },
    async goTo(address) {
      const { sheetName, cell } = partsOf(address);
      const sheet = sheetNamed(sheetName);
      const other = book().getActiveSheet().getSheetId() !== sheet.getSheetId();
      book().setActiveSheet(sheet);
      const range = sheet.getRange(cell);
      range.activate();
      if (other) await drawn();
      if (!inView(sheet, range)) bringIntoView(sheet, range);
      // The next key goes to the cell, not to the button that led there.
      grid.injector.get(ILayoutService).focus();
    },
    async reenter() {
      let count = 0;
      for (const { place, cell } of grid.reader.shownCells()) {
        const formula = grid.reader.formulaAt(place);
        if (formula === undefined || typeof cell !== 'object' || cell?.error !== '#NAME?') continue;
        const sheet = book().getSheetBySheetId(place.sheetId);
        sheet?.getRange(place.row, place.column).setValue({ f: formula, v: null, p: null });
        count += 1;
      }
      return count;
    },
    async freeze() {
      return freezer.freeze(book().getActiveSheet());
    },
    async restore() {
      return freezer.restore(book().getActiveSheet());
    },
  };
}

type NewValue = Pick<CellPlace, 'row' | 'column'> & Pick<NewCell, 'value'>;

/** Cells as the library's commands take them: by row, then by column; what was there before goes. */
function valuesByPlace(cells: readonly NewValue[]): Record<number, Record<number, ICellData>> {
  const rows: Record<number, Record<number, ICellData>> = {};
  for (const { row, column, value } of cells) rows[row] = { ...rows[row], [column]: { v: value, f: null, p: null } };
  return rows;
}

/** Whether all of a cell is drawn where the sheet stands, in its frozen part or in the rest. */
function inView(sheet: FWorksheet, cell: FRange): boolean {
  const [row, column] = [cell.getRow(), cell.getColumn()];
  // the last row and column may be cut off
  return [...(sheet.getVisibleRangesOfAllViewports()?.values() ?? [])].some(
    ({ startRow, endRow, startColumn, endColumn }) =>
      row >= startRow && row < endRow && column >= startColumn && column < endColumn,
  );
}

/** Resolves when the grid has been drawn anew. */
function drawn(): Promise<void> {
  return new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
}

/** Rows and columns that are left to be seen before a cell that was gone to. */
const BEFORE = { rows: 1, columns: 1 };

/** The library brings a cell under the frozen part: a place before it is asked for. */
function bringIntoView(sheet: FWorksheet, cell: FRange): void {
  const row = cell.getRow() - sheet.getFrozenRows() - BEFORE.rows;
  const column = cell.getColumn() - sheet.getFrozenColumns() - BEFORE.columns;
  sheet.scrollToCell(Math.max(0, row), Math.max(0, column));
}
