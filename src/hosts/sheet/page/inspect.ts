import { ICommandService } from '@univerjs/core';
import { SetFormulaCalculationResultMutation } from '@univerjs/engine-formula';
import type { CellPlace } from '../../../calc/messages.ts';
import type { PaneHost } from '../../../pane/host.ts';
import { isCellError } from '../../../tables/cells.ts';
import { partsOf } from '../faults.ts';
import type { Grid } from './grid.ts';
import { drawnNumber } from './narrow-numbers.ts';

const QUIET_MS = 150;

/** What a script in the page can ask of the sheet. The grid is a picture to scripts: without this nothing reads a cell. */
export interface Inspect {
  /** the value that a cell holds; an error as its code; null if blank */
  value(address: string): string | number | boolean | null;
  /** the formula that a cell holds, as typed; null if it holds none */
  formula(address: string): string | null;
  /** what is drawn of the number in a cell of the selected sheet; null where no number is, or none was drawn yet */
  drawn(address: string): string | null;
  select(address: string): Promise<void>;
  /** where the selected sheet draws a cell while it is not scrolled, in pixels of the page */
  place(address: string): { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  /**
   * Resolves when the calculation that runs, or the next one, is over and the page has had a chance to draw; with the moment
   * (of `performance.now`) at which the results were in the cells.
   */
  calculated(): Promise<number>;
  /** resolves when nothing has been calculated for a moment */
  idle(): Promise<void>;
}

export function inspect(grid: Grid, host: PaneHost): Inspect {
  function placeOf(address: string): CellPlace | undefined {
    const book = grid.api.getActiveWorkbook();
    const { sheetName, cell } = partsOf(address);
    const sheet = sheetName === '' ? book?.getActiveSheet() : book?.getSheetByName(sheetName);
    if (!book || !sheet) return undefined;
    const range = sheet.getRange(cell);
    return { unitId: book.getId(), sheetId: sheet.getSheetId(), row: range.getRow(), column: range.getColumn() };
  }
  return {
    value(address) {
      const place = placeOf(address);
      const held = place && grid.reader.cellAt(place);
      return isCellError(held) ? held.error : (held ?? null);
    },
    formula(address) {
      const place = placeOf(address);
      return (place && grid.reader.formulaAt(place)) ?? null;
    },
    drawn(address) {
      const place = placeOf(address);
      return (place && drawnNumber(grid, place.row, place.column)) ?? null;
    },
    select: (address) => host.goTo(address),
    place(address) {
      const sheet = grid.api.getActiveWorkbook()?.getActiveSheet();
      const cell = sheet?.getRange(partsOf(address).cell).getCellRect();
      const canvas = document.querySelector('canvas[id^="univer-sheet-main"]')?.getBoundingClientRect();
      if (sheet === undefined || cell === undefined || canvas === undefined) return { x: 0, y: 0, width: 0, height: 0 };
      // the library gives it in the sheet's own size
      const zoom = sheet.getZoom();
      const [x, y] = [canvas.x + cell.x * zoom, canvas.y + cell.y * zoom];
      return { x, y, width: cell.width * zoom, height: cell.height * zoom };
    },
    calculated: () =>
      new Promise((resolve) => {
        let written: number | undefined;
        const commands = grid.injector.get(ICommandService).onCommandExecuted(({ id }) => {
          if (id === SetFormulaCalculationResultMutation.id) written = performance.now();
        });
        const stop = grid.messages.onChange(() => {
          stop();
          // The results reach the cells in the same turn, after the listeners.
          setTimeout(() => {
            commands.dispose();
            resolve(written ?? performance.now());
          });
        });
      }),
    idle: () =>
      new Promise((resolve) => {
        let timer: ReturnType<typeof setTimeout> | undefined;
        const wait = () => {
          clearTimeout(timer);
          timer = setTimeout(() => {
            if (grid.pace.progress().running) return wait();
            stop();
            resolve();
          }, QUIET_MS);
        };
        const stop = grid.pace.onProgress(wait);
        wait();
      }),
  };
}
