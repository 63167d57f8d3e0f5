import { around, cellAt, isArray, readOf } from './engine-arrays.ts';
import { isReference, type NodeValue } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';
import { errorValue } from './values.ts';

interface Executor {
  calculate(...args: NodeValue[]): NodeValue;
}

/** A condition as true, false or an error; undefined when it is a range or no condition at all. */
function truth(value: NodeValue | undefined): boolean | NodeValue | undefined {
  if (value === undefined || isReference(value)) return undefined;
  const single = value.isArray() && value.getRowCount() === 1 && value.getColumnCount() === 1 ? value.get(0, 0) : value;
  if (!single || single.isArray()) return undefined;
  if (single.isError()) return single;
  return single.isBoolean() || single.isNumber() || single.isNull() ? Boolean(single.getValue()) : undefined;
}

function isBlank(value: NodeValue): boolean {
  const read = readOf(value);
  return cellAt(read, 0, 0)?.isNull() !== false && (!isArray(read) || read.getRowCount() * read.getColumnCount() === 1);
}

/**
 * All branches of a choice are worked out before one is taken. IF, IFERROR and CHOOSE then take theirs; IFS ended in the
 * first error of any branch. With single conditions it is answered here; ranges of conditions go on to the engine's own.
 */
export function guardBranches({ engine }: UniverModules, injector: Injector): void {
  const functions = injector.get(engine.IFunctionService);
  // a blank cell as a result is none for the engine
  const nought = (): NodeValue => engine.NumberValueObject.create(0) as unknown as NodeValue;
  around(functions, 'SWITCH', (work) => (...args) => {
    const isResult = (at: number): boolean => at > 0 && (at % 2 === 0 || at === args.length - 1);
    return work(...args.map((arg, at) => (isResult(at) && isBlank(arg) ? nought() : arg)));
  });
  const ifs = functions.getExecutor('IFS') as unknown as Executor | undefined;
  if (!ifs) return;
  const stock = ifs.calculate.bind(ifs);
  ifs.calculate = (...args) => {
    if (args.length === 0 || args.length % 2 !== 0) return stock(...args);
    for (let index = 0; index < args.length; index += 2) {
      const condition = truth(args[index]);
      if (condition === undefined) return stock(...args);
      if (typeof condition === 'object') return condition;
      if (condition) return args[index + 1] ?? stock(...args);
    }
    return errorValue(engine, '#N/A', 'None of the conditions holds.');
  };
}
