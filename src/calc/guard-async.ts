import { type BaseValueObject, isReference, type NodeValue } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';
import { errorValue } from './values.ts';

interface Lambda extends BaseValueObject {
  execute(...args: unknown[]): BaseValueObject;
}
interface Executor {
  isAsync(): boolean;
  getIndexNumValue(value: NodeValue): number | BaseValueObject;
  calculate(...args: NodeValue[]): NodeValue;
}

/**
 * MAKEARRAY is the one function that the engine works out later rather than at once, without need. Here it answers
 * at once as all others do, so that a formula that stands in no cell has its value when it is asked.
 */
export function guardAsync({ engine }: UniverModules, injector: Injector): void {
  const executor = injector.get(engine.IFunctionService).getExecutor('MAKEARRAY') as unknown as Executor | undefined;
  if (!executor) return;
  executor.isAsync = () => false;
  executor.calculate = (rowsGiven, columnsGiven, lambda) => {
    const wrong = errorValue(engine, '#VALUE!', 'MAKEARRAY needs rows, columns and a LAMBDA of two names.');
    if (rowsGiven === undefined || columnsGiven === undefined || lambda === undefined) return wrong;
    const rows = executor.getIndexNumValue(rowsGiven);
    if (typeof rows !== 'number') return rows;
    const columns = executor.getIndexNumValue(columnsGiven);
    if (typeof columns !== 'number') return columns;
    if (isReference(lambda) || !lambda.isLambda()) return wrong;
    const one = (row: number, column: number): BaseValueObject | null => {
      const at = [row + 1, column + 1].map((place) => engine.NumberValueObject.create(place));
      const value = (lambda as Lambda).execute(...at);
      return value.isArray() ? value.get(0, 0) : value;
    };
    const cells = Array.from({ length: rows }, (_, row) =>
      Array.from({ length: columns }, (_unused, c) => one(row, c)),
    );
    return engine.ArrayValueObject.create({
      calculateValueList: cells as never,
      rowCount: rows,
      columnCount: columns,
      unitId: '',
      sheetId: '',
      row: -1,
      column: -1,
    }) as unknown as NodeValue;
  };
}
