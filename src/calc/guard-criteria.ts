import { aroundEach, cellAt, mapped } from './engine-arrays.ts';
import { type BaseValueObject, isReference, type NodeValue } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';

/** Functions that count or add up what meets conditions: where their first condition stands; the others follow at every second place. */
const FIRST_CONDITION: Readonly<Record<string, number>> = {
  COUNTIF: 1,
  COUNTIFS: 1,
  SUMIF: 1,
  AVERAGEIF: 1,
  SUMIFS: 2,
  AVERAGEIFS: 2,
  MAXIFS: 2,
  MINIFS: 2,
};
/** These take text that reads as a number for one, and look at no cell that is not told of. */
export const CRITERIA = Object.keys(FIRST_CONDITION);
const UNLIKE_ERROR = /^<>(#(?:N\/A|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|NULL!|SPILL!|CALC!))$/iu;
/** a text that no cell holds */
const ERROR_HERE = '\u0000error';

/** The code of the error that a condition leaves out, such as `#N/A` of "<>#N/A". */
function leftOut(condition: NodeValue | undefined): string | undefined {
  if (condition === undefined || (isReference(condition) && !condition.isCell())) return undefined;
  const cell = cellAt(condition, 0, 0);
  return cell?.isString() === true ? UNLIKE_ERROR.exec(String(cell.getValue()))?.[1]?.toUpperCase() : undefined;
}

/**
 * `SUMIF(A1:A9,"<>#N/A")` is how the errors of a range are left out: for the engine a cell with an error that a condition names
 * meets it, with `<>` too. Such errors are a text of its own for this one call.
 */
export function guardCriteria({ engine }: UniverModules, injector: Injector): void {
  const text = (value: string): BaseValueObject => engine.StringValueObject.create(value) as unknown as BaseValueObject;
  /** The range as it is, but read with a text in the place of its errors of one kind. */
  const withErrorsAsText = (range: NodeValue, code: string): NodeValue => {
    if (!isReference(range)) return range;
    const read = mapped(engine, range, (cell) =>
      cell.isError() && cell.getValue() === code ? text(ERROR_HERE) : cell,
    );
    return Object.assign(Object.create(range) as typeof range, { toArrayValueObject: () => read as BaseValueObject });
  };
  for (const [name, first] of Object.entries(FIRST_CONDITION)) {
    aroundEach(injector.get(engine.IFunctionService), [name], (work) => (...args) => {
      const given = [...args];
      for (let at = first; at < args.length; at += 2) {
        const code = leftOut(args[at]);
        const range = args[at - 1];
        if (code === undefined || range === undefined) continue;
        given[at - 1] = withErrorsAsText(range, code);
        given[at] = text(`<>${ERROR_HERE}`);
      }
      return work(...given);
    });
  }
}
