import type { RawArgument } from '../functions/define.ts';
import type { Cell, CellRange } from '../tables/cells.ts';
import { isCellError } from '../tables/cells.ts';
import { type BaseValueObject, isReference, type NodeValue } from './seams.ts';
import type { UniverModules } from './univer.ts';

/** One value of the engine as a cell: blanks and omitted arguments are null, errors are records. */
function cellOf(value: BaseValueObject | null | undefined): Cell {
  if (value === null || value === undefined || value.isNull()) return null;
  if (value.isError()) return { error: String(value.getValue()) };
  if (value.isLambda()) return { error: '#VALUE!' };
  const held = value.getValue();
  if (value.isBoolean()) return Boolean(held);
  return typeof held === 'number' || typeof held === 'string' ? held : null;
}

/** The cells of arrays that were read: the engine hands the same array to every formula that reads a range. */
const readArrays = new WeakMap<object, Cell[][]>();

/**
 * An argument or a result of the engine as cells: a single cell, or rows of cells for anything larger. A reference is
 * read as the cells that it names.
 */
export function cellsOf(variant: NodeValue): RawArgument {
  const value = isReference(variant) ? variant.toArrayValueObject() : variant;
  if (!value.isArray()) return cellOf(value);
  const rows = value.getRowCount();
  const columns = value.getColumnCount();
  if (rows === 1 && columns === 1) return cellOf(value.get(0, 0));
  const known = readArrays.get(value);
  if (known !== undefined) return known;
  const cells: Cell[][] = [];
  for (let row = 0; row < rows; row++) {
    const line: Cell[] = [];
    for (let column = 0; column < columns; column++) line.push(cellOf(value.get(row, column)));
    cells.push(line);
  }
  readArrays.set(value, cells);
  return cells;
}

/** A cell as the engine wants it. Blanks become empty text, as in every spreadsheet that takes a blank from a function. */
function valueOfCell({ engine }: UniverModules, cell: Cell): BaseValueObject {
  if (cell === null || cell === undefined) return engine.StringValueObject.create('') as unknown as BaseValueObject;
  if (isCellError(cell)) return errorValue(engine, cell.error, cell.message ?? '');
  if (typeof cell === 'boolean') return engine.BooleanValueObject.create(cell) as unknown as BaseValueObject;
  if (typeof cell === 'string') return engine.StringValueObject.create(cell) as unknown as BaseValueObject;
  if (!Number.isFinite(cell)) return errorValue(engine, '#NUM!', '');
  return engine.NumberValueObject.create(cell) as unknown as BaseValueObject;
}

export function errorValue(engine: UniverModules['engine'], code: string, message: string): BaseValueObject {
  return engine.ErrorValueObject.create(code as never, message) as unknown as BaseValueObject;
}

const noCells = 'The result has no cells.';

/**
 * Cells as a value of the engine, error cells with their words. An array without cells, which the engine cannot hold, is
 * `#N/A`.
 */
export function engineValue(modules: UniverModules, cells: Cell | CellRange): BaseValueObject {
  if (!Array.isArray(cells)) return valueOfCell(modules, cells as Cell);
  const range = cells as CellRange;
  const columns = range.reduce((widest, row) => Math.max(widest, row.length), 0);
  if (range.length === 0 || columns === 0) return errorValue(modules.engine, '#N/A', noCells);
  const values = range.map((row) => Array.from({ length: columns }, (_, column) => valueOfCell(modules, row[column])));
  return modules.engine.ArrayValueObject.create({
    calculateValueList: values as never,
    rowCount: values.length,
    columnCount: columns,
    unitId: '',
    sheetId: '',
    row: -1,
    column: -1,
  }) as unknown as BaseValueObject;
}
