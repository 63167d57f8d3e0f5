import { around, aroundEach, cellAt, isArray, mapped } from './engine-arrays.ts';
import { type BaseValueObject, isReference, type NodeValue } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';

/** Functions of single numbers that the engine refuses for a text such as "5"; `POWER` stands for `^` too. */
const OF_NUMBERS = [
  ...['ABS', 'MOD', 'ROUND', 'ROUNDUP', 'ROUNDDOWN', 'MROUND', 'QUOTIENT'],
  ...['SQRT', 'POWER', 'EXP', 'LN', 'LOG', 'LOG10', 'SIN', 'COS', 'TAN', 'ASIN', 'ACOS', 'ATAN', 'ATAN2'],
  ...['RADIANS', 'DEGREES', 'SINH', 'COSH', 'TANH', 'ASINH', 'ACOSH', 'ATANH', 'EVEN', 'ODD'],
  ...['YEAR', 'MONTH', 'DAY', 'HOUR', 'MINUTE', 'SECOND'],
];
const NUMERAL = /^\s*[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?\s*(%?)\s*$/iu;

/** The number that a text reads as; undefined for others. */
export function numeralIn(text: string): number | undefined {
  const found = NUMERAL.exec(text);
  if (found === null) return undefined;
  const value = Number(text.replace('%', ''));
  return found[1] === '%' ? value / 100 : value;
}

/**
 * Text that reads as a number counts as that number where one number is asked, as it does in sums with `+`: a cell with the
 * text 5, or what `LEFT` gives. `TEXT` makes a text of a truth value.
 */
export function guardNumerals({ engine }: UniverModules, injector: Injector): void {
  const functions = injector.get(engine.IFunctionService);
  const asNumber = (cell: BaseValueObject): BaseValueObject => {
    const value = cell.isString() ? numeralIn(String(cell.getValue())) : undefined;
    return value === undefined ? cell : (engine.NumberValueObject.create(value) as unknown as BaseValueObject);
  };
  const holdsText = (value: NodeValue): boolean =>
    isArray(value) && value.getArrayValue().some((row) => row?.some((cell) => cell?.isString() === true));
  const read = (value: NodeValue): NodeValue => {
    if (isArray(value)) return holdsText(value) ? mapped(engine, value, asNumber) : value;
    return isReference(value) ? value : asNumber(value);
  };
  aroundEach(
    functions,
    OF_NUMBERS,
    (work) =>
      (...args) =>
        work(...args.map(read)),
  );

  const textOf = (truth: BaseValueObject): BaseValueObject =>
    engine.StringValueObject.create(truth.getValue() ? 'TRUE' : 'FALSE') as unknown as BaseValueObject;
  around(functions, 'TEXT', (work) => (value, ...rest) => {
    const made = work(value as NodeValue, ...rest);
    if (isReference(made)) return made;
    return mapped(engine, made, (text, row, column) => {
      const from = cellAt(value, row, column);
      return from?.isBoolean() === true && text.isBoolean() ? textOf(from) : text;
    });
  });
}
