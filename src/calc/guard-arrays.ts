import { type Answering, comparisons } from './comparing.ts';
import {
  type Around,
  type ArraySeam,
  around,
  aroundEach,
  arrayOf,
  cellAt,
  during,
  isArray,
  readOf,
} from './engine-arrays.ts';
import { CRITERIA } from './guard-criteria.ts';
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

/** The cells of a row or column, or the one value. */
function cellsIn(value: NodeValue | undefined): BaseValueObject[] {
  const read = readOf(value);
  if (read === undefined || read.isNull()) return [];
  if (!isArray(read)) return [read];
  return read
    .getArrayValue()
    .flat()
    .filter((cell) => cell !== null);
}

const wide = (one: BaseValueObject, other: BaseValueObject): boolean =>
  one.getColumnCount() > 1 && other.getColumnCount() > 1 && one.getColumnCount() !== other.getColumnCount();

/**
 * What the engine does to arrays that would show as plausible wrong numbers: `SORT` sorts the cells that it was given, for every
 * formula that reads them after it, and by one key alone; `SUMPRODUCT` leaves out what is longer in one range than in the other; and a row of
 * another width counts as zero where it ends.
 */
export function guardArrays({ engine }: UniverModules, injector: Injector): void {
  const functions = injector.get(engine.IFunctionService);
  around(functions, 'SORT', (work) => (given, ...rest) => {
    const array = readOf(given);
    if (!isArray(array)) return work(given as NodeValue, ...rest);
    const [index, order, ...way] = rest;
    const copy = arrayOf(engine, [...array.getArrayValue()], array.getColumnCount());
    const keys = cellsIn(index);
    if (keys.length < 2) return work(copy, ...rest);
    const orders = cellsIn(order);
    if (orders.length > 1 && orders.length !== keys.length) return errorValue(engine, '#VALUE!', UNEQUAL_ARRAYS);
    // equal ones keep their places, so the first key comes last
    let sorted: NodeValue = copy;
    for (let at = keys.length - 1; at >= 0; at--) {
      const up =
        orders[orders.length === 1 ? 0 : at] ?? (engine.NumberValueObject.create(1) as unknown as BaseValueObject);
      sorted = work(sorted, keys[at] as BaseValueObject, up, ...way);
    }
    return sorted;
  });
  around(functions, 'SUMPRODUCT', (work) => (...args) => {
    const arrays = args.filter(isArray).filter((array) => array.getRowCount() * array.getColumnCount() > 1);
    const [first] = arrays;
    const same = (array: ArraySeam): boolean =>
      array.getRowCount() === first?.getRowCount() && array.getColumnCount() === first.getColumnCount();
    return arrays.every(same) ? work(...args) : errorValue(engine, '#VALUE!', UNEQUAL_ARRAYS);
  });

  const isMany = (value: NodeValue | undefined): boolean => {
    const read = readOf(value);
    return isArray(read) && read.getRowCount() * read.getColumnCount() > 1;
  };
  // an array for each place gave tables within tables, and blank cells errors
  around(functions, 'INDEX', (work) => (from, row, column, ...area) => {
    const places = column === undefined ? [row] : [row, column, ...area];
    if (area.length > 0 || !places.some(isMany)) return work(...([from, ...places] as Parameters<typeof work>));
    const found = work(...([readOf(from), ...places] as Parameters<typeof work>));
    return isArray(found) ? flattened(engine, found) : found;
  });

  const answering =
    (as: Answering): Around =>
    (work) =>
    (...args) =>
      during(comparisons, 'as', as, () => work(...args));
  aroundEach(functions, LOOK_UPS, answering('matches'));
  aroundEach(functions, CRITERIA, answering('numerals'));

  const prototype = engine.ArrayValueObject.prototype as unknown as ArraySeam;
  if (patched.has(prototype)) return;
  patched.add(prototype);
  const operate = prototype._batchOperator;
  prototype._batchOperator = function (this: ArraySeam, value, ...rest) {
    if (isArray(value) && wide(this, value)) {
      const columns = Math.max(this.getColumnCount(), value.getColumnCount());
      return operate.call(padded(engine, this, columns), padded(engine, value, columns), ...rest);
    }
    const told = operate.call(this, value, ...rest);
    // a row, or an array of one cell, is looked for in the index as a value is
    const asked = rest[0] === COMPARISON && (!isArray(value) || value.getRowCount() === 1);
    if (!asked || comparisons.as === 'matches') return told;
    return complete(engine, told, this, value, comparisons.as === 'numerals');
  };
}

/** To tell of all cells would cost these a step for each cell and each look-up. */
const LOOK_UPS = ['MATCH', 'XMATCH', 'LOOKUP', 'VLOOKUP', 'HLOOKUP', 'XLOOKUP'];
const isNumeral = (cell: BaseValueObject | null | undefined): boolean =>
  cell?.isString() === true && NUMERAL.test(String(cell.getValue()));
const NUMERAL = /^\s*[-+$(]?\s*[.\d]/u;
/** among the kinds of operators */
const COMPARISON = 5;

/** The array with the first cell of each array that it holds, and blank cells where it holds none. */
function flattened(engine: Engine, array: ArraySeam): ArraySeam {
  const blank = engine.NullValueObject.create() as unknown as BaseValueObject;
  const columns = array.getColumnCount();
  const rows = Array.from({ length: array.getRowCount() }, (_, row) =>
    Array.from({ length: columns }, (_unused, column) => {
      const cell = array.get(row, column);
      const first = cell !== null && isArray(cell) ? cell.get(0, 0) : cell;
      return first ?? blank;
    }),
  );
  return arrayOf(engine, rows, columns);
}

/**
 * Puts what is missing into a comparison that was answered from the index, where nothing is told of cells that do not match: FALSE,
 * or the error of the cell, or the error that the cells of its column are compared with.
 */
function complete(
  engine: Engine,
  given: BaseValueObject,
  of: ArraySeam,
  compared: BaseValueObject,
  numerals: boolean,
): BaseValueObject {
  if (!isArray(given)) return given;
  const no = engine.BooleanValueObject.create(false) as unknown as BaseValueObject;
  const told = given.getArrayValue() as ((BaseValueObject | null)[] | undefined)[];
  const cells = of.getArrayValue() as ((BaseValueObject | null)[] | undefined)[];
  for (let column = 0; column < of.getColumnCount(); column++) {
    const other = cellAt(compared, 0, column);
    const unlike = !numerals && other?.isError() === true ? other : no;
    for (let row = 0; row < of.getRowCount(); row++) {
      if (told[row]?.[column] != null) continue;
      const cell = cells[row]?.[column];
      // an error as the condition is compared with the errors among the cells afterwards
      if (numerals && !isNumeral(cell) && !(other?.isError() === true && cell?.isError() === true)) continue;
      told[row] ??= [];
      (told[row] as (BaseValueObject | null)[])[column] = !numerals && cell?.isError() === true ? cell : unlike;
    }
  }
  return given;
}

const patched = new WeakSet<object>();
