import { type BaseValueObject, isReference, type NodeValue } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';
import { errorValue } from './values.ts';
import { tooManyCellsWords } from './words.ts';

/** Cells of one array. More than any sheet of ours holds, and few enough for the memory of a browser tab. */
export const MOST_CELLS = 2_000_000;

interface Executor {
  calculate(...args: NodeValue[]): NodeValue;
  setSheetRowColumnCount?(rows: number, columns: number): void;
}
interface ArraySeam extends BaseValueObject {
  _batchOperator(value: BaseValueObject, ...rest: unknown[]): BaseValueObject;
}

/**
 * Functions that make an array of a size that is written down: where its rows and columns stand among the arguments, and how many
 * of the arguments, given as arrays, ask for an array for each of their cells.
 */
const makers: readonly (readonly [name: string, rows: number, columns: number, each: number])[] = [
  ['MAKEARRAY', 0, 1, 0],
  ['SEQUENCE', 0, 1, 4],
  ['RANDARRAY', 0, 1, 0],
  ['EXPAND', 1, 2, 0],
  ['MUNIT', 0, 0, 1],
];

/** The number in a cell of an argument, at least 1; a single row, column or cell stands for all. */
function count(value: NodeValue | undefined, row: number, column: number): number {
  if (value === undefined) return 1;
  const read = isReference(value) ? value.getFirstCell() : value;
  const single = read.isArray()
    ? read.get(Math.min(row, read.getRowCount() - 1), Math.min(column, read.getColumnCount() - 1))
    : read;
  const number = Number(single?.getValue());
  return Number.isFinite(number) ? Math.max(1, number) : 1;
}

/** Cells that a maker would make; counted until they are too many. */
function cellsToMake(args: readonly NodeValue[], rowsAt: number, columnsAt: number, each: number): number {
  let rows = 1;
  let columns = 1;
  for (const arg of args.slice(0, each)) {
    if (isReference(arg) || !arg.isArray()) continue;
    rows = Math.max(rows, arg.getRowCount());
    columns = Math.max(columns, arg.getColumnCount());
  }
  let cells = 0;
  for (let row = 0; row < rows && cells <= MOST_CELLS; row++)
    for (let column = 0; column < columns && cells <= MOST_CELLS; column++)
      cells += count(args[rowsAt], row, column) * count(args[columnsAt], row, column);
  return cells;
}

/**
 * Arrays of a size that would use up the memory are refused in words before a single cell of them is made. Those that the
 * sheet has no room for are made all the same: a formula may read them without ever placing them (`#REF!` as it comes).
 */
export function guardSizes({ engine }: UniverModules, injector: Injector): void {
  const functions = injector.get(engine.IFunctionService);
  for (const [name, rowsAt, columnsAt, each] of makers) {
    const executor = functions.getExecutor(name) as unknown as Executor | undefined;
    if (!executor) continue;
    const make = executor.calculate.bind(executor);
    const setCounts = executor.setSheetRowColumnCount?.bind(executor);
    if (setCounts)
      executor.setSheetRowColumnCount = () => setCounts(Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY);
    executor.calculate = (...args) => {
      const cells = cellsToMake(args, rowsAt, columnsAt, each);
      return cells > MOST_CELLS ? errorValue(engine, '#NUM!', tooManyCellsWords(cells, MOST_CELLS)) : make(...args);
    };
  }

  const array = engine.ArrayValueObject.prototype as unknown as ArraySeam;
  if (patched.has(array)) return;
  patched.add(array);
  const operate = array._batchOperator;
  array._batchOperator = function (this: ArraySeam, value, ...rest) {
    if (value.isArray()) {
      const rows = Math.max(this.getRowCount(), value.getRowCount());
      const columns = Math.max(this.getColumnCount(), value.getColumnCount());
      if (rows * columns > MOST_CELLS && rows * columns > this.getRowCount() * this.getColumnCount()) {
        return errorValue(engine, '#NUM!', tooManyCellsWords(rows * columns, MOST_CELLS));
      }
    }
    return operate.call(this, value, ...rest);
  };
}

const patched = new WeakSet<object>();
