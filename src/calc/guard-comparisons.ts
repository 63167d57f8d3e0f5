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
 * empty text are no blank cell. A look-up of 0 or of an empty text found a blank cell, and the condition "<>", which leaves out blank
 * cells, left out the empty text of formulas. In every spreadsheet truth values come after all numbers and text, and blank is FALSE.
 */
export function guardComparisons({ engine }: UniverModules): void {
  const boolean = engine.BooleanValueObject.prototype as unknown as BooleanSeam;
  if (patched.has(boolean)) return;
  patched.add(boolean);
  boolean._compareString = (operator) => operator === '>' || operator === '>=' || operator === '<>';

  const yes = engine.BooleanValueObject.create(true) as unknown as BaseValueObject;
  const no = engine.BooleanValueObject.create(false) as unknown as BaseValueObject;
  const noText = engine.StringValueObject.create('') as unknown as BaseValueObject & Comparable;
  const isUnlikeBlank = (value: BaseValueObject, operator: unknown): boolean =>
    comparisons.as === 'numerals' && operator === '<>' && value.isString() && value.getValue() === '';

  const compareBoolean = boolean.compare;
  boolean.compare = function (this: Comparable, value, ...rest) {
    return compareBoolean.call(this, value.isNull() ? no : value, ...rest);
  };
  const text = engine.StringValueObject.prototype as unknown as Comparable;
  const compareText = text.compare;
  text.compare = function (this: Comparable, value, operator, ...rest) {
    if (isUnlikeBlank(value, operator)) return yes;
    return compareText.call(this, value.isNull() ? noText : value, operator, ...rest);
  };

  // a text is looked for in columns that are mostly blank: the engine makes an empty text for each blank cell
  const blank = engine.NullValueObject.prototype as unknown as Comparable;
  const compareBlank = blank.compare;
  blank.compare = function (this: Comparable, value, operator, ...rest) {
    if (comparisons.as === 'matches' && operator === '=' && !value.isNull()) return no;
    if (isUnlikeBlank(value, operator)) return no;
    if (value.isString()) return noText.compare(value, operator, ...rest);
    return compareBlank.call(this, value, operator, ...rest);
  };
}
