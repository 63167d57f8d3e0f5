import { around, arrayOf, isArray } from './engine-arrays.ts';
import { type BaseValueObject, isReference, type NodeValue } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';
import { errorValue } from './values.ts';

type Engine = UniverModules['engine'];

const SECONDS_PER_DAY = 86_400;
/** days: far less than a second, far more than the rounding of a date of today */
const TICK = 1e-9;

/** Functions of samples whose cells of text count for nothing, and the first argument that is one of the sample. */
const SAMPLES: Readonly<Record<string, number>> = {
  ...{ DEVSQ: 0, GEOMEAN: 0, HARMEAN: 0, SKEW: 0, 'SKEW.P': 0, KURT: 0, TRIMMEAN: 0, NPV: 1 },
  ...{ PERCENTRANK: 0, 'PERCENTRANK.INC': 0, 'PERCENTRANK.EXC': 0 },
};
/** They need two numbers. */
const VARIANCES = ['VAR', 'VAR.S', 'STDEV', 'STDEV.S'];

type Cell = BaseValueObject | null;

function mapped(engine: Engine, value: NodeValue, f: (cell: BaseValueObject) => BaseValueObject): NodeValue {
  const read = isReference(value) ? value.toArrayValueObject() : value;
  if (!isArray(read)) return f(read);
  const rows = Array.from({ length: read.getRowCount() }, (_, row) =>
    Array.from({ length: read.getColumnCount() }, (_unused, column): Cell => {
      const cell = read.get(row, column);
      return cell === null ? null : f(cell);
    }),
  );
  return arrayOf(engine, rows, read.getColumnCount());
}

function numbersIn(values: readonly NodeValue[]): number {
  let count = 0;
  for (const value of values) {
    const read = isReference(value) ? value.toArrayValueObject() : value;
    if (!isArray(read)) {
      count += 1;
      continue;
    }
    for (let row = 0; row < read.getRowCount(); row++)
      for (let column = 0; column < read.getColumnCount(); column++)
        if (read.get(row, column)?.isNumber() === true) count += 1;
  }
  return count;
}

/**
 * Ordinary functions in which the engine gives other numbers than every spreadsheet: `TRUNC` of negative numbers with digits; hours,
 * minutes and seconds of a time that is a rounding short of them; samples that hold numbers written as text; the variance
 * of nothing.
 */
export function guardNumbers({ engine }: UniverModules, injector: Injector): void {
  const functions = injector.get(engine.IFunctionService);
  const number = (value: number): BaseValueObject =>
    engine.NumberValueObject.create(value) as unknown as BaseValueObject;

  around(functions, 'TRUNC', (work) => (value, ...digits) => {
    const size = mapped(engine, value as NodeValue, (cell) =>
      cell.isNumber() ? number(Math.abs(Number(cell.getValue()))) : cell,
    );
    const signOf = (cell: BaseValueObject | null | undefined): number =>
      cell?.isNumber() === true && Number(cell.getValue()) < 0 ? -1 : 1;
    const given = value !== undefined && isReference(value) ? value.toArrayValueObject() : value;
    const cut = work(size, ...digits);
    if (!isArray(cut)) {
      const first = isArray(given) ? given.get(0, 0) : (given as BaseValueObject);
      return !isReference(cut) && cut.isNumber() ? number(signOf(first) * Number(cut.getValue())) : cut;
    }
    const rows = Array.from({ length: cut.getRowCount() }, (_, row) =>
      Array.from({ length: cut.getColumnCount() }, (_unused, column): Cell => {
        const cell = cut.get(row, column);
        const from = isArray(given)
          ? given.get(Math.min(row, given.getRowCount() - 1), Math.min(column, given.getColumnCount() - 1))
          : (given as BaseValueObject);
        return cell?.isNumber() === true ? number(signOf(from) * Number(cell.getValue())) : cell;
      }),
    );
    return arrayOf(engine, rows, cut.getColumnCount());
  });

  for (const name of ['HOUR', 'MINUTE', 'SECOND'])
    around(functions, name, (work) => (time, ...rest) => {
      const whole = mapped(engine, time as NodeValue, (cell) => {
        const days = Number(cell.getValue());
        if (!cell.isNumber() || !(days > 0)) return cell;
        return number(Math.round(days * SECONDS_PER_DAY) / SECONDS_PER_DAY + TICK);
      });
      return work(whole, ...rest);
    });

  const blank = (): BaseValueObject => engine.NullValueObject.create() as unknown as BaseValueObject;
  for (const [name, from] of Object.entries(SAMPLES))
    around(functions, name, (work) => (...args) => {
      const clean = args.map((arg, place) =>
        place < from || !isArray(arg) ? arg : mapped(engine, arg, (cell) => (cell.isString() ? blank() : cell)),
      );
      return work(...clean);
    });

  for (const name of VARIANCES)
    around(functions, name, (work) => (...args) => {
      const result = work(...args);
      if (isReference(result) || !result.isNumber() || Number(result.getValue()) !== 0) return result;
      return numbersIn(args) < 2 ? errorValue(engine, '#DIV/0!', '') : result;
    });
}
