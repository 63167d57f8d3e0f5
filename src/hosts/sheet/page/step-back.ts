import type { ISelectionWithStyle } from '@univerjs/sheets';
import { getPrimaryForRange, SetSelectionsOperation } from '@univerjs/sheets';
import type { Grid } from './grid.ts';

/**
 * Keeps a current cell when Shift+Tab or Shift+Enter steps back from the first one. The library writes the selection that it
 * steps back to in the place before the first of its list, where nothing finds it, and no cell is current any more. At the
 * first cell of the sheet the step is none, as in other spreadsheets; from others it is made.
 */
export function keepStepsBack(grid: Grid): void {
  grid.api.addEvent(grid.api.Event.BeforeCommandExecute, ({ id, params }) => {
    if (id !== SetSelectionsOperation.id) return;
    const given = params as { selections?: (ISelectionWithStyle | undefined)[] };
    const lost = (given.selections as Record<number, ISelectionWithStyle | undefined> | undefined)?.[-1];
    const [first, ...others] = given.selections ?? [];
    const sheet = grid.api.getActiveWorkbook()?.getActiveSheet().getSheet();
    if (lost === undefined || first === undefined || sheet === undefined) return;
    if (others.length > 0) given.selections = [first, ...others.slice(0, -1), lost];
    else if (comesAfter(lost, first))
      given.selections = [{ ...first, primary: getPrimaryForRange(first.range, sheet) }];
    else given.selections = [lost];
  });
}

function comesAfter(
  { range: { startRow, startColumn } }: ISelectionWithStyle,
  { range }: ISelectionWithStyle,
): boolean {
  return startRow > range.startRow || (startRow === range.startRow && startColumn > range.startColumn);
}
