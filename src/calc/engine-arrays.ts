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

/** Puts something around a function of the engine, where it has it. */
export function around(
  functions: { getExecutor(name: string): unknown },
  name: string,
  make: (work: Executor['calculate']) => Executor['calculate'],
): void {
  const executor = functions.getExecutor(name) as Executor | undefined;
  if (executor) executor.calculate = make(executor.calculate.bind(executor));
}
