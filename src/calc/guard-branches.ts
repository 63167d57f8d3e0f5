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

/**
 * All branches of a choice are worked out before one is taken. IF, IFERROR and CHOOSE then take theirs; IFS ended in the
 * first error of any branch. With single conditions it is answered here; ranges of conditions go on to the engine's own.
 */
export function guardBranches({ engine }: UniverModules, injector: Injector): void {
  const ifs = injector.get(engine.IFunctionService).getExecutor('IFS') as unknown as Executor | undefined;
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
