import { type Around, around, aroundEach, type Cell, isArray, mapped, readOf } from './engine-arrays.ts';
import { type BaseValueObject, isReference, type NodeValue } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';
import { errorValue } from './values.ts';
import { piecesOf, placeOfAll } from './wildcards.ts';

const NO_CONDITION = 'A condition is TRUE, FALSE or a number; here it is text.';
const NOT_FOUND = 'The text that is looked for is not in there.';

/** Functions that write numbers out as text; & is the first of them. */
const WRITERS = ['CONCATENATE', 'CONCAT', 'TEXTJOIN'];
/** Significant digits of a number as text. */
const DIGITS = 15;

/** The number as it is written out, where that is another one. */
function written(cell: BaseValueObject): number | undefined {
  if (!cell.isNumber()) return undefined;
  const value = Number(cell.getValue());
  // whole numbers of up to fifteen digits are most of what is written
  if (Number.isInteger(value) && Math.abs(value) < 10 ** DIGITS) return undefined;
  const short = Number(value.toPrecision(DIGITS));
  return short === value ? undefined : short;
}

const textOf = (cell: Cell): string | undefined => {
  if (cell === null || cell === undefined || cell.isError()) return undefined;
  const value = cell.getValue();
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  return value === null || value === undefined ? '' : String(value);
};

/**
 * Ordinary functions that take text for something else than every spreadsheet does: any text is a condition that holds, numbers are
 * written with all of their digits, 1/3 with sixteen, `CONCAT` writes TRUE in small letters, `TEXT` gives it back as it is, `SEARCH` knows no wildcards, and `UNIQUE`
 * tells capitals from small letters.
 */
export function guardText({ engine }: UniverModules, injector: Injector): void {
  const functions = injector.get(engine.IFunctionService);
  const text = (value: string): BaseValueObject => engine.StringValueObject.create(value) as unknown as BaseValueObject;

  const condition = (cell: BaseValueObject): BaseValueObject => {
    if (!cell.isString()) return cell;
    const word = String(cell.getValue()).toUpperCase();
    if (word !== 'TRUE' && word !== 'FALSE') return errorValue(engine, '#VALUE!', NO_CONDITION);
    return engine.BooleanValueObject.create(word === 'TRUE') as unknown as BaseValueObject;
  };
  around(
    functions,
    'IF',
    (work) =>
      (given, ...branches) =>
        work(mapped(engine, given, condition), ...branches),
  );
  /** What a function makes of its arguments, each turned into another first. */
  const ofTurned =
    (turned: (arg: NodeValue) => NodeValue): Around =>
    (work) =>
    (...args) =>
      work(...args.map(turned));
  // in these, text counts for nothing where it stands in a range
  const single = (arg: NodeValue): NodeValue => (isReference(arg) || arg.isArray() ? arg : condition(arg));
  aroundEach(functions, ['AND', 'OR', 'XOR'], ofTurned(single));

  const shortened = (arg: NodeValue): NodeValue => {
    let longer = false;
    mapped(engine, arg, (cell) => {
      longer ||= written(cell) !== undefined;
      return cell;
    });
    if (!longer) return arg;
    return mapped(engine, arg, (cell) => {
      const short = written(cell);
      return short === undefined
        ? cell
        : (engine.NumberValueObject.create(short, cell.getPattern()) as unknown as BaseValueObject);
    });
  };
  aroundEach(functions, WRITERS, ofTurned(shortened));
  const capital = (cell: BaseValueObject): BaseValueObject => (cell.isBoolean() ? text(textOf(cell) ?? '') : cell);
  around(
    functions,
    'CONCAT',
    ofTurned((arg) => mapped(engine, arg, capital)),
  );

  around(
    functions,
    'TEXT',
    (work) =>
      (...args) =>
        mapped(engine, work(...args), capital),
  );

  around(functions, 'SEARCH', (work) => (wanted, within, ...start) => {
    const sought = readOf(wanted);
    const one = isArray(sought) && sought.getRowCount() * sought.getColumnCount() === 1 ? sought.get(0, 0) : sought;
    const pattern = isArray(one ?? undefined) ? undefined : textOf(one);
    if (pattern === undefined || within === undefined || !/[?*~]/u.test(pattern))
      return work(...([wanted, within, ...start] as NodeValue[]));
    const from = start[0] === undefined ? 1 : Number(textOf(readOf(start[0])));
    const wildcards = piecesOf(pattern);
    return mapped(engine, within, (cell) => {
      const content = textOf(cell);
      if (content === undefined) return cell;
      if (!(from >= 1 && from <= content.length + 1)) return errorValue(engine, '#VALUE!', NOT_FOUND);
      const at = placeOfAll(wildcards, content.toLowerCase(), Math.trunc(from) - 1);
      if (at < 0) return errorValue(engine, '#VALUE!', NOT_FOUND);
      return engine.NumberValueObject.create(at + 1) as unknown as BaseValueObject;
    });
  });

  around(functions, 'UNIQUE', (work) => (array, ...rest) => {
    /** the text that stands first, by what it is in small letters */
    const first = new Map<string, BaseValueObject>();
    const alike = mapped(engine, array, (cell) => {
      if (!cell.isString()) return cell;
      const key = String(cell.getValue()).toLowerCase();
      const known = first.get(key);
      if (known === undefined) first.set(key, cell);
      return known ?? cell;
    });
    return work(alike, ...rest);
  });
}
