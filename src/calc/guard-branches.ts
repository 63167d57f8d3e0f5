import { around, cellAt, isArray, mapped, readOf } from './engine-arrays.ts';
import {
  type AstNode,
  type BaseValueObject,
  type InterpreterSeam,
  isReference,
  type NodeValue,
  type RuntimeSeam,
} from './seams.ts';
import { singleAgain } from './single-values.ts';
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

const REFERENCE_NODE = 1;
const FUNCTION_NODE = 4;
/** what the engine's walk gives when the calculation was stopped */
const STOPPED = 1;

/** The one value that a reference to a cell holds, or the value itself; undefined for ranges. */
function single(value: NodeValue): NodeValue | undefined {
  if (!isReference(value)) return value;
  return value.isCell() ? (value.toArrayValueObject().get(0, 0) ?? undefined) : undefined;
}

/** Which of the arguments behind the first are needed once its value is known; undefined where all may be. */
type Needed = (first: NodeValue | null | undefined) => readonly number[] | undefined;
const unlessError: Needed = (first) =>
  !first || isReference(first) || first.isArray() || first.isError() ? undefined : [];
const choices: Readonly<Record<string, Needed>> = {
  IF(first) {
    const condition = first ? truth(single(first)) : undefined;
    if (condition === undefined) return undefined;
    if (typeof condition === 'object') return [];
    return [condition ? 1 : 2];
  },
  IFERROR: unlessError,
  IFNA: unlessError,
};

/**
 * Works out of a choice only what is taken. Where the condition is a range, all of it is worked out, as before. Formulas nest
 * thousands deep, so this stands in the place of the engine's own walk, with no more calls for each level. What is made of single
 * cells is single again behind it.
 */
function workOutTheTaken({ engine }: UniverModules, injector: Injector): void {
  const interpreter = injector.get(engine.Interpreter) as unknown as InterpreterSeam;
  const runtime = injector.get(engine.IFormulaRuntimeService) as unknown as RuntimeSeam;
  const notTaken = engine.NullValueObject.create() as unknown as NodeValue;
  const work: InterpreterSeam['_execute'] = (node, x = 0, y = 0) => {
    if (runtime.isStopExecution()) return STOPPED;
    const needed = node.nodeType === FUNCTION_NODE ? choices[node.getToken().toUpperCase()] : undefined;
    const children = node.getChildren();
    let taken: readonly number[] | undefined;
    for (let at = 0; at < children.length; at++) {
      const child = children[at] as AstNode;
      if (taken && !taken.includes(at)) child.setValue(notTaken);
      // a LAMBDA without parameters is worked out where it is called
      else if (child.isEmptyParamFunction?.() && child.getToken().toUpperCase() === 'LAMBDA') child.execute();
      else work(child, x, y);
      if (needed && at === 0) taken = needed(child.getValue());
    }
    if (node.nodeType === REFERENCE_NODE) node.setRefOffset?.(x, y);
    node.execute();
    singleAgain(node);
    return 0;
  };
  interpreter._execute = work;
}

/**
 * The engine works out all branches of a choice before one is taken: IF, IFERROR and IFNA work out theirs alone here. CHOOSE takes
 * its own of them all; IFS ended in the first error of any branch: with single conditions it is answered here; ranges of
 * conditions go on to the engine's own.
 */
export function guardBranches(modules: UniverModules, injector: Injector): void {
  const { engine } = modules;
  const functions = injector.get(engine.IFunctionService);
  workOutTheTaken(modules, injector);
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
