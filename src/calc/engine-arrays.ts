import { type BaseValueObject, isReference, type NodeValue } from './seams.ts';
import type { UniverModules } from './univer.ts';

/** What the guards of ordinary functions have in common: arrays of the engine, and functions wrapped in others. */

export interface ArraySeam extends BaseValueObject {
  getArrayValue(): (BaseValueObject | null)[][];
  _batchOperator(value: BaseValueObject, ...rest: unknown[]): BaseValueObject;
}

interface Executor {
  calculate(...args: NodeValue[]): NodeValue;
}

export const isArray = (value: NodeValue | undefined): value is ArraySeam =>
  value !== undefined && !isReference(value) && value.isArray();

/** An array that stands in no sheet. */
export function arrayOf(
  engine: UniverModules['engine'],
  rows: readonly (readonly (BaseValueObject | null)[])[],
  columns: number,
): ArraySeam {
  const size = { rowCount: rows.length, columnCount: columns };
  const nowhere = { unitId: '', sheetId: '', row: -1, column: -1 };
  const made = engine.ArrayValueObject.create({ calculateValueList: rows as never, ...size, ...nowhere });
  return made as unknown as ArraySeam;
}

/** Makes of what a function does what it is to do. */
export type Around = (work: Executor['calculate']) => Executor['calculate'];

/** Puts something around a function of the engine, where it has it. */
export function around(functions: { getExecutor(name: string): unknown }, name: string, make: Around): void {
  const executor = functions.getExecutor(name) as Executor | undefined;
  if (executor) executor.calculate = make(executor.calculate.bind(executor));
}

/** Puts the same around several functions. */
export function aroundEach(
  functions: { getExecutor(name: string): unknown },
  names: readonly string[],
  make: Around,
): void {
  for (const name of names) around(functions, name, make);
}

/** What `work` gives while `state` has another value under `key`. */
export function during<S extends object, K extends keyof S, R>(state: S, key: K, value: S[K], work: () => R): R {
  const before = state[key];
  state[key] = value;
  try {
    return work();
  } finally {
    state[key] = before;
  }
}

/** A cell of an array. */
export type Cell = BaseValueObject | null | undefined;

/** A reference as the array of its cells. */
export const readOf = (value: NodeValue | undefined): BaseValueObject | undefined =>
  value !== undefined && isReference(value) ? value.toArrayValueObject() : value;

/** The cell that stands at a place; a single row, column or cell stands for all. */
export function cellAt(value: NodeValue | undefined, row: number, column: number): Cell {
  const read = readOf(value);
  if (!isArray(read)) return read;
  return read.get(Math.min(row, read.getRowCount() - 1), Math.min(column, read.getColumnCount() - 1));
}

export const numberIn = (cell: Cell): number | undefined =>
  cell?.isNumber() === true ? Number(cell.getValue()) : undefined;

/** Each cell of a value turned into another one. */
export function mapped(
  engine: UniverModules['engine'],
  value: NodeValue | undefined,
  f: (cell: BaseValueObject, row: number, column: number) => BaseValueObject,
): NodeValue {
  const read = readOf(value);
  if (read === undefined) return engine.NullValueObject.create() as unknown as BaseValueObject;
  if (!isArray(read)) return f(read, 0, 0);
  const rows = Array.from({ length: read.getRowCount() }, (_, row) =>
    Array.from({ length: read.getColumnCount() }, (_unused, column) => {
      const cell = read.get(row, column);
      return cell === null ? null : f(cell, row, column);
    }),
  );
  return arrayOf(engine, rows, read.getColumnCount());
}
