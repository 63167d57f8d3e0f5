import { around, type Cell, cellAt, isArray, mapped, numberIn, readOf } from './engine-arrays.ts';
import { type BaseValueObject, isReference, type NodeValue } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';
import { errorValue } from './values.ts';

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

/** The number under which a week stands in the standard, among the kinds of WEEKNUM. */
const ISO_KIND = 21;
/** Serial number of 1970-01-01 */
const EPOCH = 25_569;
const MS_PER_DAY = SECONDS_PER_DAY * 1000;

/** Week of a serial number: weeks begin on Monday, and each belongs to the year of its Thursday. Source: ISO 8601, from memory. */
function isoWeek(serial: number): number {
  const day = Math.floor(serial);
  // serial number 2 is a Monday
  const thursday = day - ((((day - 2) % 7) + 7) % 7) + 3;
  const year = new Date((thursday - EPOCH) * MS_PER_DAY).getUTCFullYear();
  const firstDay = Date.UTC(year, 0, 1) / MS_PER_DAY + EPOCH;
  return Math.floor((thursday - firstDay) / 7) + 1;
}

/** Serial number so many months later: the same day, or the last one of a month that is too short for it. */
function monthsLater(serial: number, months: number): number {
  const from = new Date((Math.floor(serial) - EPOCH) * MS_PER_DAY);
  const [year, month] = [from.getUTCFullYear(), from.getUTCMonth() + Math.trunc(months)];
  const lastDay = new Date(Date.UTC(year, month + 1, 0)).getUTCDate();
  return Date.UTC(year, month, Math.min(from.getUTCDate(), lastDay)) / MS_PER_DAY + EPOCH;
}

/** What the engine works out of a number, or of a number and another one, and refuses to work out of text. */
const OF_ONE = [
  ...['abs', 'sqrt', 'cbrt', 'exp', 'log', 'log10', 'sin', 'cos', 'tan', 'asin', 'acos', 'atan'],
  ...['sinh', 'cosh', 'tanh', 'asinh', 'acosh', 'atanh'],
];
const OF_TWO = ['mod', 'pow', 'round', 'floor', 'ceil', 'atan2'];
const PARTS_OF_DATES = ['YEAR', 'MONTH', 'DAY', 'HOUR', 'MINUTE', 'SECOND'];
const NUMERAL = /^\s*[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?\s*$/iu;

type Arithmetic = Record<string, ((this: BaseValueObject, other: BaseValueObject) => BaseValueObject) | undefined>;
interface ReadableText extends BaseValueObject {
  convertToNumberObjectValue(): BaseValueObject;
}
interface DatePartSeam {
  _handleSingleObject?(date: BaseValueObject): BaseValueObject;
}

/**
 * Text that reads as a number stands for it where a number is asked: as for the signs of arithmetic, so for functions of one number. This
 * is said to the values themselves, so that ranges are walked no more often, and sums go on passing over text.
 */
function readTextAsNumbers({ engine }: UniverModules): void {
  const text = engine.StringValueObject.prototype as unknown as Arithmetic;
  if (patched.has(text)) return;
  patched.add(text);
  const numberOf = (value: BaseValueObject): BaseValueObject => (value as ReadableText).convertToNumberObjectValue();
  for (const name of [...OF_ONE, ...OF_TWO])
    text[name] = function (other) {
      const read = numberOf(this);
      return read.isError() ? read : ((read as unknown as Arithmetic)[name]?.call(read, other) ?? read);
    };
  const number = engine.NumberValueObject.prototype as unknown as Arithmetic;
  for (const name of OF_TWO) {
    const work = number[name];
    number[name] = function (other) {
      const read = other.isString() ? numberOf(other) : other;
      return read.isError() ? read : (work?.call(this, read) ?? read);
    };
  }
}

function numbersIn(values: readonly NodeValue[]): number {
  let count = 0;
  for (const value of values) {
    const read = readOf(value);
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
 * minutes and seconds of a time that is a rounding short of them; months on from the end of one; weeks of the ISO standard;
 * samples that hold numbers written as text; such text where one number is asked; the variance and the largest of nothing.
 */
export function guardNumbers(modules: UniverModules, injector: Injector): void {
  const { engine } = modules;
  readTextAsNumbers(modules);
  const functions = injector.get(engine.IFunctionService);
  const number = (value: number, like?: BaseValueObject): BaseValueObject =>
    engine.NumberValueObject.create(value, like?.getPattern() ?? '') as unknown as BaseValueObject;

  around(functions, 'TRUNC', (work) => (value, ...digits) => {
    const sizes = mapped(engine, value, (cell) => {
      const size = numberIn(cell);
      return size === undefined ? cell : number(Math.abs(size));
    });
    return mapped(engine, work(sizes, ...digits), (cut, row, column) =>
      (numberIn(cellAt(value, row, column)) ?? 0) < 0 && cut.isNumber() ? number(-Number(cut.getValue())) : cut,
    );
  });

  for (const name of ['HOUR', 'MINUTE', 'SECOND'])
    around(functions, name, (work) => (time, ...rest) => {
      const whole = mapped(engine, time, (cell) => {
        const days = numberIn(cell) ?? 0;
        return days > 0 ? number(Math.round(days * SECONDS_PER_DAY) / SECONDS_PER_DAY + TICK) : cell;
      });
      return work(whole, ...rest);
    });

  around(
    functions,
    'EDATE',
    (work) =>
      (start, months, ...rest) =>
        mapped(engine, work(start as NodeValue, months as NodeValue, ...rest), (date, row, column) => {
          const [from, later] = [numberIn(cellAt(start, row, column)), numberIn(cellAt(months, row, column))];
          if (!date.isNumber() || from === undefined || later === undefined || !(from >= 1)) return date;
          return number(monthsLater(from, later), date);
        }),
  );

  for (const name of PARTS_OF_DATES) {
    const executor = functions.getExecutor(name as never) as unknown as DatePartSeam | undefined;
    const partOf = executor?._handleSingleObject?.bind(executor);
    if (!executor || !partOf) continue;
    executor._handleSingleObject = (date) => {
      const serial = date.isString() ? String(date.getValue()) : '';
      return partOf(NUMERAL.test(serial) ? number(Number(serial)) : date);
    };
  }

  // the time of day is no part of a year's days
  around(functions, 'YEARFRAC', (work) => (from, to, ...basis) => {
    const day = (cell: BaseValueObject): BaseValueObject => {
      const serial = numberIn(cell);
      return serial === undefined ? cell : number(Math.floor(serial), cell);
    };
    return work(mapped(engine, from, day), mapped(engine, to, day), ...basis);
  });

  const weekOf = (work: (date: BaseValueObject) => NodeValue, date: BaseValueObject): BaseValueObject => {
    const read = date.isString() ? functions.getExecutor('DATEVALUE')?.calculate(date as never) : date;
    const serial = numberIn(read as unknown as Cell) ?? 0;
    return serial > 0 ? number(isoWeek(serial)) : (work(date) as BaseValueObject);
  };
  around(functions, 'ISOWEEKNUM', (work) => (date) => mapped(engine, date, (cell) => weekOf(work, cell)));
  around(
    functions,
    'WEEKNUM',
    (work) =>
      (date, ...kind) =>
        numberIn(cellAt(kind[0], 0, 0)) === ISO_KIND
          ? mapped(engine, date, (cell) => weekOf((one) => work(one, ...kind), cell))
          : work(date as NodeValue, ...kind),
  );

  const blank = (): BaseValueObject => engine.NullValueObject.create() as unknown as BaseValueObject;
  for (const [name, from] of Object.entries(SAMPLES))
    around(functions, name, (work) => (...args) => {
      const clean = args.map((arg, place) =>
        place < from || !isArray(arg) ? arg : mapped(engine, arg, (cell) => (cell.isString() ? blank() : cell)),
      );
      return work(...clean);
    });

  for (const name of ['MAXIFS', 'MINIFS'])
    around(functions, name, (work) => (...args) => {
      const result = work(...args);
      if (isReference(result)) return result;
      return mapped(engine, result, (cell) => (cell.isNull() || cell.getValue() === '' ? number(0) : cell));
    });

  for (const name of VARIANCES)
    around(functions, name, (work) => (...args) => {
      const result = work(...args);
      if (isReference(result) || !result.isNumber() || Number(result.getValue()) !== 0) return result;
      return numbersIn(args) < 2 ? errorValue(engine, '#DIV/0!', '') : result;
    });
}

const patched = new WeakSet<object>();
