import type { MergedCells } from './merged-cells.ts';
import type { CellPlace, Messages } from './messages.ts';
import {
  type BaseValueObject,
  type CellRectangle,
  type CurrentConfigSeam,
  type InterpreterSeam,
  isReference,
  type Matrix,
  type NodeValue,
  type RuntimeSeam,
  type StoredCell,
} from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';
import { errorValue } from './values.ts';
import { spillMergedWords, spillWords } from './words.ts';

/** Circular references found in the run at hand. */
export interface Cycles {
  /** words by cell */
  readonly words: Map<string, string>;
  /** true while the engine only asks which cells a formula reads */
  asking: boolean;
}

export const placeKey = ({ unitId, sheetId, row, column }: CellPlace): string =>
  `${unitId}|${sheetId}|${row}|${column}`;

interface RuntimeInside extends RuntimeSeam {
  getRuntimeArrayFormulaCellData(): Record<string, Record<string, Matrix<StoredCell> | undefined> | undefined>;
}

const isInside = (range: CellRectangle | undefined, row: number, column: number): boolean =>
  range !== undefined &&
  row >= range.startRow &&
  row <= range.endRow &&
  column >= range.startColumn &&
  column <= range.endColumn;

const wantedBy = ({ row, column }: CellPlace, rows: number, columns: number): CellRectangle => ({
  startRow: row,
  startColumn: column,
  endRow: row + rows - 1,
  endColumn: column + columns - 1,
});

/**
 * Stands where the engine works out a cell and files its result. Three things happen there that the engine leaves out:
 * cells of a circular reference get an error instead of a number; cells that a smaller new result no longer fills are
 * emptied before anyone reads them; and the words of an error are kept.
 */
export function guardResults(
  { engine }: UniverModules,
  injector: Injector,
  messages: Messages,
  cycles: Cycles,
  merged: MergedCells,
): void {
  const runtime = injector.get(engine.IFormulaRuntimeService) as unknown as RuntimeInside;
  const config = injector.get(engine.IFormulaCurrentConfigService) as unknown as CurrentConfigSeam;
  const index = engine.CELL_INVERTED_INDEX_CACHE;
  const file = runtime.setRuntimeData.bind(runtime);
  /** cells beside an anchor that have words of their own */
  const wordedBeside = new Map<string, CellPlace[]>();

  const currentRange = (place: CellPlace): CellRectangle | undefined =>
    runtime.getUnitArrayFormula()[place.unitId]?.[place.sheetId]?.[place.row]?.[place.column];

  const filedValue = (place: CellPlace): unknown =>
    runtime.getUnitData()[place.unitId]?.[place.sheetId]?.getValue(place.row, place.column)?.v;

  /** What this cell filled before: earlier in this run, or in the run before. */
  function takeEarlierSpill(place: CellPlace): CellRectangle[] {
    const { unitId, sheetId, row, column } = place;
    const earlier: CellRectangle[] = [];
    const thisRun = runtime.getUnitArrayFormula()[unitId]?.[sheetId];
    const range = thisRun?.[row]?.[column];
    if (thisRun && range) {
      earlier.push(range);
      delete thisRun[row]?.[column];
      forEachCell(range, (r, c) => runtime.getRuntimeArrayFormulaCellData()[unitId]?.[sheetId]?.realDeleteValue(r, c));
    }
    const before = config.getArrayFormulaRange()[unitId]?.[sheetId]?.[row]?.[column];
    if (before) earlier.push(before);
    return earlier;
  }

  function emptyLeftCells(place: CellPlace, earlier: readonly CellRectangle[]): void {
    if (earlier.length === 0) return;
    const { unitId, sheetId, row, column } = place;
    const blocked = filedValue(place) === '#SPILL!';
    const now = blocked ? undefined : currentRange(place);
    const stored = config.getArrayFormulaCellData()[unitId]?.[sheetId];
    for (const range of earlier) {
      if (now && isInside(now, range.startRow, range.startColumn) && isInside(now, range.endRow, range.endColumn))
        continue;
      forEachCell(range, (r, c) => {
        if ((r === row && c === column) || isInside(now, r, c)) return;
        stored?.realDeleteValue(r, c);
        index.set(unitId, sheetId, c, null, r, true);
      });
    }
  }

  function keepWords(place: CellPlace, value: NodeValue): void {
    const key = placeKey(place);
    for (const beside of wordedBeside.get(key) ?? []) messages.clear(beside);
    wordedBeside.delete(key);
    const code = filedValue(place);
    if (typeof code !== 'string' || !engine.ERROR_TYPE_SET.has(code as never)) messages.clear(place);
    else if (code === '#SPILL!' && !isReference(value) && value.isArray()) {
      const [rows, columns] = [value.getRowCount(), value.getColumnCount()];
      const isMerged = merged.within(place.unitId, place.sheetId, wantedBy(place, rows, columns));
      messages.set(place, code, (isMerged ? spillMergedWords : spillWords)(rows, columns));
    } else messages.set(place, code, firstError(value)?.getErrorContent() ?? '');
    if (code === '#SPILL!' || isReference(value) || !value.isArray()) return;
    const beside: CellPlace[] = [];
    for (let r = 0; r < value.getRowCount(); r++) {
      for (let c = 0; c < value.getColumnCount(); c++) {
        const held = value.get(r, c);
        if (!held?.isError() || (r === 0 && c === 0) || held.getErrorContent() === '') continue;
        const at = { ...place, row: place.row + r, column: place.column + c };
        messages.set(at, String(held.getValue()), held.getErrorContent());
        beside.push(at);
      }
    }
    if (beside.length > 0) wordedBeside.set(key, beside);
  }

  const currentPlace = (): CellPlace => ({
    unitId: runtime.currentUnitId,
    sheetId: runtime.currentSubUnitId,
    row: runtime.currentRow,
    column: runtime.currentColumn,
  });

  // cells of a circle are not worked out at all: what they would read is not there yet, and would be remembered
  const interpreter = injector.get(engine.Interpreter) as unknown as InterpreterSeam;
  const execute = interpreter.execute.bind(interpreter);
  const executeAsync = interpreter.executeAsync.bind(interpreter);
  const circleHere = (): NodeValue | undefined => {
    if (cycles.asking || cycles.words.size === 0) return undefined;
    const words = cycles.words.get(placeKey(currentPlace()));
    return words === undefined ? undefined : errorValue(engine, '#REF!', words);
  };
  interpreter.execute = (node) => circleHere() ?? execute(node);
  interpreter.executeAsync = async (node) => circleHere() ?? (await executeAsync(node));

  runtime.setRuntimeData = (value) => {
    const place = currentPlace();
    const earlier = takeEarlierSpill(place);
    file(value);
    emptyLeftCells(place, earlier);
    keepWords(place, value);
  };
}

function firstError(value: NodeValue): BaseValueObject | undefined {
  if (isReference(value)) return undefined;
  const first = value.isArray() ? value.get(0, 0) : value;
  return first?.isError() ? first : undefined;
}

function forEachCell(range: CellRectangle, visit: (row: number, column: number) => void): void {
  for (let row = range.startRow; row <= range.endRow; row++) {
    for (let column = range.startColumn; column <= range.endColumn; column++) visit(row, column);
  }
}
