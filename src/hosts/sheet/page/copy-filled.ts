import {
  type Direction,
  type ICellData,
  IUniverInstanceService,
  type Nullable,
  UniverInstanceType,
  type Workbook,
} from '@univerjs/core';
import { ISheetClipboardService, PREDEFINED_HOOK_NAME_COPY } from '@univerjs/preset-sheets-core';
import {
  AutoFillController,
  discreteRangeToRange,
  type IDiscreteRange,
  type IMoveRangeCommandParams,
  MoveRangeCommand,
  SheetInterceptorService,
  SheetsSelectionsService,
} from '@univerjs/sheets';
import { type Block, blockName, spotName } from '../../../workbook/address.ts';
import type { Bar } from './bar.ts';
import { type FilledCell, filledCells, isWithin } from './filled.ts';
import type { Grid } from './grid.ts';

interface FillLocation {
  readonly source: IDiscreteRange;
  readonly unitId: string;
  readonly subUnitId: string;
}

/** The parts of the library's filling that its types keep private. They hold for the pinned version. */
interface Filling {
  readonly _univerInstanceService: IUniverInstanceService;
  _getCopyData(location: FillLocation, direction: Direction): object[];
}

/**
 * Copies what formulas in other cells fill a cell with: its value. The library copies what a cell holds of its own, so that
 * such cells arrived blank. Where the formula comes along, its result fills the cells anew and nothing may stand there.
 */
export function copyFilledCells(grid: Grid, bar: Bar): void {
  takeIntoClipboard(grid);
  takeIntoFills(grid);
  keepWhereTheyAre(grid, bar);
}

/** Cells of a block that are filled by formulas outside of it. */
const filledFromOutside = (grid: Grid, unitId: string, sheetId: string, block: Block): FilledCell[] =>
  filledCells(grid, unitId, sheetId, block).filter(({ from }) => !isWithin(from, block));

function takeIntoClipboard(grid: Grid): void {
  const clipboard = grid.injector.get(ISheetClipboardService);
  const contentOf = clipboard.generateCopyContent.bind(clipboard);
  clipboard.generateCopyContent = (unitId, sheetId, range, options) => {
    const content = contentOf(unitId, sheetId, range, options);
    if (!content || options?.copyHookType === PREDEFINED_HOOK_NAME_COPY.SPECIAL_COPY_FORMULA_ONLY) return content;
    const { matrixFragment, discreteRange } = content;
    for (const { row, column, value } of filledFromOutside(grid, unitId, sheetId, range)) {
      // rows that a filter hides are left out
      const [atRow, atColumn] = [discreteRange.rows.indexOf(row), discreteRange.cols.indexOf(column)];
      const copied = matrixFragment.getValue(atRow, atColumn);
      if (copied) matrixFragment.setValue(atRow, atColumn, { ...copied, ...value });
    }
    return content;
  };
}

/** Ctrl+D, Ctrl+R and the handle of the selection. */
function takeIntoFills(grid: Grid): void {
  const filling = grid.injector.get(AutoFillController) as unknown as Filling;
  const { _getCopyData: copied } = filling;
  if (copied === undefined) throw new Error('The grid fills cells in another way than this page knows.');
  filling._getCopyData = (location, direction) => {
    const { source, unitId, subUnitId } = location;
    const filled = filledFromOutside(grid, unitId, subUnitId, discreteRangeToRange(source));
    if (filled.length === 0) return copied.call(filling, location, direction);
    const values = new Map(filled.map((cell) => [spotName(cell.row, cell.column), cell.value]));
    const held = grid.injector
      .get(IUniverInstanceService)
      .getUnit<Workbook>(unitId, UniverInstanceType.UNIVER_SHEET)
      ?.getSheetBySheetId(subUnitId)
      ?.getCellMatrix();
    const getValue = (row: number, column: number): Nullable<ICellData> => {
      const own = held?.getValue(row, column);
      const value = values.get(spotName(row, column));
      return value === undefined ? own : { ...own, ...value };
    };
    // the library reads the cells of the sheet itself: it is handed one that holds what is shown
    const shown = { getUnit: () => ({ getSheetBySheetId: () => ({ getCellMatrix: () => ({ getValue }) }) }) };
    return copied.call(Object.create(filling, { _univerInstanceService: { value: shown } }), location, direction);
  };
}

/** A part of a result cannot go elsewhere: what is cut of it is copied, and it is not dragged. The bar says so. */
function keepWhereTheyAre(grid: Grid, bar: Bar): void {
  const clipboard = grid.injector.get(ISheetClipboardService);
  const cut = clipboard.cut.bind(clipboard);
  clipboard.cut = () => {
    const range = grid.injector.get(SheetsSelectionsService).getCurrentLastSelection()?.range;
    const sheet = grid.api.getActiveWorkbook()?.getActiveSheet();
    const stay = range && sheet && filledFromOutside(grid, sheet.getWorkbook().getUnitId(), sheet.getSheetId(), range);
    if (range === undefined || stay === undefined || stay.length === 0) return cut();
    bar.say(`${resultWords(range, stay)}, which stay where they are: the cells were copied, not cut.`);
    return clipboard.copy();
  };
  grid.injector.get(SheetInterceptorService).interceptBeforeCommand({
    async performCheck({ id, params }) {
      if (id !== MoveRangeCommand.id) return true;
      const { fromRange, fromUnitId, fromSubUnitId } = params as IMoveRangeCommandParams;
      const book = grid.api.getActiveWorkbook();
      const unitId = fromUnitId ?? book?.getId() ?? '';
      const sheetId = fromSubUnitId ?? book?.getActiveSheet().getSheetId() ?? '';
      const stay = filledFromOutside(grid, unitId, sheetId, fromRange);
      if (stay.length > 0)
        bar.say(`${resultWords(fromRange, stay)}, which cannot be moved by themselves: nothing was moved.`);
      return stay.length === 0;
    },
  });
}

function resultWords(range: Block, cells: readonly FilledCell[]): string {
  const from = [...new Set(cells.map((cell) => spotName(cell.from.row, cell.from.column)))];
  return `${blockName(range)} shows results of the ${from.length > 1 ? 'formulas' : 'formula'} in ${from.join(', ')}`;
}
