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

/** Functions that make an array of a size that is written down: where its rows and columns stand among the arguments. */
const makers: readonly (readonly [string, number, number])[] = [
  ['MAKEARRAY', 0, 1],
  ['SEQUENCE', 0, 1],
  ['RANDARRAY', 0, 1],
  ['EXPAND', 1, 2],
  ['MUNIT', 0, 0],
];

function count(value: NodeValue | undefined): number {
  if (value === undefined) return 1;
  const read = isReference(value) ? value.getFirstCell() : value;
  const single = read.isArray() ? read.get(0, 0) : read;
  const number = Number(single?.getValue());
  return Number.isFinite(number) ? Math.max(1, number) : 1;
}

/**
 * Arrays of a size that would use up the memory are refused in words before a single cell of them is made. Those that the
 * sheet has no room for are made all the same: a formula may read them without ever placing them (`#REF!` as it comes).
 */
export function guardSizes({ engine }: UniverModules, injector: Injector): void {
  const functions = injector.get(engine.IFunctionService);
  for (const [name, rowsAt, columnsAt] of makers) {
    const executor = functions.getExecutor(name) as unknown as Executor | undefined;
    if (!executor) continue;
    const make = executor.calculate.bind(executor);
    const setCounts = executor.setSheetRowColumnCount?.bind(executor);
    if (setCounts)
      executor.setSheetRowColumnCount = () => setCounts(Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY);
    executor.calculate = (...args) => {
      const cells = count(args[rowsAt]) * count(args[columnsAt]);
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
