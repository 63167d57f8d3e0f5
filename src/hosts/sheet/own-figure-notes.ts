import type { FWorkbook } from '@univerjs/sheets/facade';
import type { CellPlace } from '../../calc/messages.ts';
import type { CellNote } from '../../pane/host.ts';
import { libraryNotes, type RowNote } from '../../pane/library-notes.ts';
import { cellsNamed } from './cells.ts';
import { addressOf } from './faults.ts';
import { type NamedTable, tablesOf, tablesRead } from './named-tables.ts';
import type { Grid } from './page/grid.ts';

/** Parts with a name of the library and figures of their own, in the tables that our functions read. */
export function ownFigureNotes(grid: Grid, book: FWorkbook, sheetId?: string): readonly CellNote[] {
  const seen = new Map(
    tablesRead(grid, book, sheetId)
      .flatMap((table) => notesIn(grid, book, table))
      .map((note) => [note.address, note]),
  );
  return [...seen.values()];
}

/** The one about the row of a cell. */
export function ownFigureNote(grid: Grid, book: FWorkbook, { sheetId, row, column }: CellPlace): CellNote | undefined {
  const around = tablesOf(book).filter(
    ({ sheetId: id, block }) =>
      id === sheetId &&
      row > block.startRow &&
      row <= block.endRow &&
      column >= block.startColumn &&
      column <= block.endColumn,
  );
  return around.flatMap((table) => notesIn(grid, book, table)).find((note) => note.row === row);
}

function notesIn(grid: Grid, book: FWorkbook, { name }: NamedTable): readonly RowNote[] {
  const block = cellsNamed(grid, book, name);
  return block === undefined ? [] : libraryNotes(block, addressOf);
}
