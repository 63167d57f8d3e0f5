import type { FWorksheet } from '@univerjs/sheets/facade';
import type { Grid } from './grid.ts';

/** Windows above this width show a sheet in its own size. */
const NARROW = 640;
/** Smaller than that nobody reads it: the rest is scrolled to. */
const SMALLEST = 0.65;
const ROW_NAMES = 46;

/**
 * On a narrow window a sheet is shown smaller when it comes into view first, so far that it can be read, to show more of its
 * columns. The slider under the grid is the person's from then on.
 */
export function fitNarrow(grid: Grid, area: HTMLElement): void {
  const fitted = new Set<string>();
  const shrink = (): void => {
    const sheet = grid.api.getActiveWorkbook()?.getActiveSheet();
    if (!sheet || innerWidth > NARROW) return;
    const id = `${sheet.getWorkbook().getUnitId()} ${sheet.getSheetId()}`;
    if (fitted.has(id)) return;
    fitted.add(id);
    // columns that a table is to fill count too: what is filled in later is not fitted again
    const wanted = ROW_NAMES + widthOf(sheet, sheet.getDataRange().getLastColumn());
    const zoom = Math.floor(Math.max(SMALLEST, area.clientWidth / wanted) * 100) / 100;
    const before = sheet.getZoom();
    if (zoom >= before) return;
    grid.fitted.set(sheet.getSheetId(), { zoom, before });
    sheet.zoom(zoom);
  };
  grid.api.addEvent(grid.api.Event.ActiveSheetChanged, () => setTimeout(shrink));
  // what is asked for before the grid is drawn is lost
  const { LifecycleStages } = grid.api.Enum;
  grid.api.addEvent(grid.api.Event.LifeCycleChanged, ({ stage }) => {
    if (stage === LifecycleStages.Rendered) setTimeout(shrink);
  });
}

function widthOf(sheet: FWorksheet, last: number): number {
  let width = 0;
  for (let column = 0; column <= last; column++) width += sheet.getColumnWidth(column);
  return width;
}
