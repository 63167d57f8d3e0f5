import { around, cellAt, isArray, mapped, readOf } from './engine-arrays.ts';
import { type BaseValueObject, isReference, type NodeValue } from './seams.ts';
import { truth, walkTakenBranches } from './taken-branches.ts';
import type { Injector, UniverModules } from './univer.ts';
import { errorValue } from './values.ts';

interface Executor {
  calculate(...args: NodeValue[]): NodeValue;
}

function isBlank(value: NodeValue): boolean {
  const read = readOf(value);
  return cellAt(read, 0, 0)?.isNull() !== false && (!isArray(read) || read.getRowCount() * read.getColumnCount() === 1);
}

/**
 * The engine works out all branches of a choice before one is taken: IF, IFERROR and IFNA work out theirs alone here. CHOOSE takes
 * its own of them all; IFS ended in the first error of any branch: with single conditions it is answered here; ranges of
 * conditions go on to the engine's own.
 */
export function guardBranches(modules: UniverModules, injector: Injector): void {
  const { engine } = modules;
  const functions = injector.get(engine.IFunctionService);
  walkTakenBranches(modules, injector);
  // a blank cell as a result is none for the engine
  const nought = (): NodeValue => engine.NumberValueObject.create(0) as unknown as NodeValue;
  around(functions, 'SWITCH', (work) => (...args) => {
    const isResult = (at: number): boolean => at > 0 && (at % 2 === 0 || at === args.length - 1);
    return work(...args.map((arg, at) => (isResult(at) && isBlank(arg) ? nought() : arg)));
  });
  // an error as what stands for #N/A was given whatever the value is
  around(functions, 'IFNA', (work) => (value, instead) => {
    if (value === undefined || instead === undefined || isReference(instead) || !instead.isError())
      return work(...[value, instead].filter((arg) => arg !== undefined));
    const read = readOf(value);
    const put = (cell: BaseValueObject): BaseValueObject =>
      cell.isError() && cell.getValue() === '#N/A' ? instead : cell;
    return isArray(read) ? mapped(engine, read, put) : put(read as BaseValueObject);
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
