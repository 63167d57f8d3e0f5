import { type ArraySeam, around, arrayOf, isArray } from './engine-arrays.ts';
import type { BaseValueObject, NodeValue } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';
import { errorValue } from './values.ts';
import { UNEQUAL_ARRAYS, UNMATCHED_CELL } from './words.ts';

type Engine = UniverModules['engine'];

/** The array with columns of `#N/A` beside it, up to so many. */
function padded(engine: Engine, array: ArraySeam, columns: number): ArraySeam {
  const own = array.getColumnCount();
  const rows = Array.from({ length: array.getRowCount() }, (_, row) =>
    Array.from({ length: columns }, (_unused, column) =>
      column < own ? array.get(row, column) : errorValue(engine, '#N/A', UNMATCHED_CELL),
    ),
  );
  return arrayOf(engine, rows, columns);
}

const wide = (one: BaseValueObject, other: BaseValueObject): boolean =>
  one.getColumnCount() > 1 && other.getColumnCount() > 1 && one.getColumnCount() !== other.getColumnCount();

/**
 * What the engine does to arrays that would show as plausible wrong numbers: `SORT` sorts the cells that it was given, for every
 * formula that reads them after it; `SUMPRODUCT` leaves out what is longer in one range than in the other; and a row of
 * another width counts as zero where it ends.
 */
export function guardArrays({ engine }: UniverModules, injector: Injector): void {
  const functions = injector.get(engine.IFunctionService);
  around(functions, 'SORT', (work) => (array, ...rest) => {
    if (!isArray(array)) return work(array as NodeValue, ...rest);
    return work(arrayOf(engine, [...array.getArrayValue()], array.getColumnCount()), ...rest);
  });
  around(functions, 'SUMPRODUCT', (work) => (...args) => {
    const arrays = args.filter(isArray).filter((array) => array.getRowCount() * array.getColumnCount() > 1);
    const [first] = arrays;
    const same = (array: ArraySeam): boolean =>
      array.getRowCount() === first?.getRowCount() && array.getColumnCount() === first.getColumnCount();
    return arrays.every(same) ? work(...args) : errorValue(engine, '#VALUE!', UNEQUAL_ARRAYS);
  });

  const prototype = engine.ArrayValueObject.prototype as unknown as ArraySeam;
  if (patched.has(prototype)) return;
  patched.add(prototype);
  const operate = prototype._batchOperator;
  prototype._batchOperator = function (this: ArraySeam, value, ...rest) {
    if (!isArray(value) || !wide(this, value)) return operate.call(this, value, ...rest);
    const columns = Math.max(this.getColumnCount(), value.getColumnCount());
    return operate.call(padded(engine, this, columns), padded(engine, value, columns), ...rest);
  };
}

const patched = new WeakSet<object>();
