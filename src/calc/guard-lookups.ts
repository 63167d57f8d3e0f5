import {
  type ArraySeam,
  around,
  aroundEach,
  cellAt,
  during,
  isArray,
  mapped,
  numberIn,
  readOf,
} from './engine-arrays.ts';
import type { BaseValueObject, NodeValue } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';

interface Spot {
  readonly row: number;
  readonly column: number;
}
interface Searchable extends ArraySeam {
  orderSearch(value: BaseValueObject, kind?: number, backwards?: boolean, fuzzy?: boolean): Spot | undefined;
  /** place in a row or column */
  binarySearch(value: BaseValueObject, ...rest: unknown[]): number | undefined;
}

/** kinds of a search: the largest of what is not larger; else the smallest of what is not smaller */
const NOT_LARGER = 1;

const plainOf = (cell: BaseValueObject | null | undefined): unknown => {
  const value = cell?.getValue();
  return typeof value === 'string' ? value.toLowerCase() : value;
};

/**
 * Look-ups among values that come more than once. The engine took the last of the nearest values where the first one is asked for,
 * and in sorted ones, for `MATCH` and the look-ups in an array, the first of the equal ones where every spreadsheet gives the last.
 */
export function guardLookups({ engine }: UniverModules, injector: Injector): void {
  const functions = injector.get(engine.IFunctionService);
  around(functions, 'MATCH', (work) => (value, range, ...kind) => {
    const found = work(...([value, range, ...kind] as Parameters<typeof work>));
    const [how] = kind;
    if (how !== undefined && (numberIn(cellAt(how, 0, 0)) ?? 1) === 0) return found;
    const read = readOf(range);
    if (!isArray(read)) return found;
    const down = read.getRowCount() > 1;
    const last = (down ? read.getRowCount() : read.getColumnCount()) - 1;
    const at = (place: number): unknown => plainOf(down ? read.get(place, 0) : read.get(0, place));
    return mapped(engine, found, (cell) => {
      const place = numberIn(cell);
      if (place === undefined) return cell;
      let end = place - 1;
      while (end < last && at(end + 1) === at(place - 1)) end += 1;
      return engine.NumberValueObject.create(end + 1) as unknown as BaseValueObject;
    });
  });

  // a blank cell is looked for as 0, which it stands for in every sum
  const zero = engine.NumberValueObject.create(0) as unknown as BaseValueObject;
  aroundEach(functions, ['VLOOKUP', 'HLOOKUP'], (work) => (value, ...rest) => {
    const read = readOf(value);
    const single = isArray(read) && read.getRowCount() * read.getColumnCount() === 1;
    const cell = single ? (read as ArraySeam).get(0, 0) : read;
    const isBlank = cell === null || (cell !== undefined && !isArray(cell) && cell.isNull());
    return work(isBlank ? zero : (value as NodeValue), ...rest);
  });

  aroundEach(
    functions,
    ['LOOKUP', 'VLOOKUP', 'HLOOKUP'],
    (work) =>
      (...args) =>
        during(looking, 'forLast', true, () => work(...args)),
  );

  const prototype = engine.ArrayValueObject.prototype as unknown as Searchable;
  if (patched.has(prototype)) return;
  patched.add(prototype);
  const halve = prototype.binarySearch;
  prototype.binarySearch = function (this: Searchable, ...args) {
    const found = halve.apply(this, args);
    if (found === undefined || !looking.forLast) return found;
    const at = (place: number): unknown => plainOf(this.getRowCount() > 1 ? this.get(place, 0) : this.get(0, place));
    const last = Math.max(this.getRowCount(), this.getColumnCount()) - 1;
    let place = found;
    while (place < last && at(place + 1) === at(found)) place += 1;
    return place;
  };
  const search = prototype.orderSearch;
  prototype.orderSearch = function (this: Searchable, value, kind = NOT_LARGER, backwards = false, fuzzy = false) {
    const found = search.call(this, value, kind, backwards, fuzzy);
    if (found === undefined) return found;
    // among the nearest, which are equal, the one that is met first
    const nearest = plainOf(this.get(found.row, found.column));
    const [rows, columns] = [this.getRowCount(), this.getColumnCount()];
    for (let i = 0; i < rows * columns; i++) {
      const place = backwards ? rows * columns - 1 - i : i;
      const spot = { row: Math.floor(place / columns), column: place % columns };
      const cell = this.get(spot.row, spot.column);
      if (cell !== null && !cell.isNull() && plainOf(cell) === nearest) return spot;
    }
    return found;
  };
}

/** whether a look-up in a sorted table is at work */
const looking = { forLast: false };

const patched = new WeakSet<object>();
