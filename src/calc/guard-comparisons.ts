import { comparisons } from './comparing.ts';
import type { BaseValueObject } from './seams.ts';
import type { UniverModules } from './univer.ts';

interface Comparable {
  compare(value: BaseValueObject, operator: string, ...rest: unknown[]): BaseValueObject;
}

interface BooleanSeam extends Comparable {
  _compareString(operator: string): boolean;
}

const patched = new WeakSet<object>();

/**
 * Comparisons of unlike kinds: for the engine a truth value differs from no number and no text (`TRUE<>"yes"` was FALSE), and FALSE and
 * empty text are no blank cell. A look-up of 0 or of an empty text found a blank cell. In every spreadsheet truth values come after all numbers and text, and blank is FALSE.
 */
export function guardComparisons({ engine }: UniverModules): void {
  const boolean = engine.BooleanValueObject.prototype as unknown as BooleanSeam;
  if (patched.has(boolean)) return;
  patched.add(boolean);
  boolean._compareString = (operator) => operator === '>' || operator === '>=' || operator === '<>';

  /** Compares with `like` where a cell is blank. */
  const blankIs = (prototype: Comparable, like: BaseValueObject): void => {
    const compare = prototype.compare;
    prototype.compare = function (this: Comparable, value, ...rest) {
      return compare.call(this, value.isNull() ? like : value, ...rest);
    };
  };
  const noText = engine.StringValueObject.create('') as unknown as BaseValueObject & Comparable;
  blankIs(boolean, engine.BooleanValueObject.create(false) as unknown as BaseValueObject);
  blankIs(engine.StringValueObject.prototype as unknown as Comparable, noText);

  // a text is looked for in columns that are mostly blank: the engine makes an empty text for each blank cell
  const blank = engine.NullValueObject.prototype as unknown as Comparable;
  const compareBlank = blank.compare;
  const no = engine.BooleanValueObject.create(false) as unknown as BaseValueObject;
  blank.compare = function (this: Comparable, value, ...rest) {
    if (comparisons.as === 'matches' && rest[0] === '=' && !value.isNull()) return no;
    return value.isString() ? noText.compare(value, ...rest) : compareBlank.call(this, value, ...rest);
  };
}
