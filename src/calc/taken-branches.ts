import {
  type AstNode,
  FUNCTION_NODE,
  type InterpreterSeam,
  isReference,
  type NodeValue,
  REFERENCE_NODE,
  type RuntimeSeam,
} from './seams.ts';
import { singleAgain } from './single-values.ts';
import type { Injector, UniverModules } from './univer.ts';

/** A condition as true, false or an error; undefined when it is a range or no condition at all. */
export function truth(value: NodeValue | undefined): boolean | NodeValue | undefined {
  if (value === undefined || isReference(value)) return undefined;
  const single = value.isArray() && value.getRowCount() === 1 && value.getColumnCount() === 1 ? value.get(0, 0) : value;
  if (!single || single.isArray()) return undefined;
  if (single.isError()) return single;
  return single.isBoolean() || single.isNumber() || single.isNull() ? Boolean(single.getValue()) : undefined;
}

/** what the engine's walk gives when the calculation was stopped */
const STOPPED = 1;

/** What a reference to one cell holds, or the value itself; undefined for ranges. */
function heldBy(value: NodeValue): NodeValue | undefined {
  if (!isReference(value)) return value;
  return value.isCell() ? (value.toArrayValueObject().get(0, 0) ?? undefined) : undefined;
}

/** Which of the arguments behind the first are needed once its value is known; undefined where all may be. */
type Needed = (first: NodeValue | null | undefined) => readonly number[] | undefined;
const unlessError: Needed = (first) =>
  !first || isReference(first) || first.isArray() || first.isError() ? undefined : [];
const choices: Readonly<Record<string, Needed>> = {
  IF(first) {
    const condition = first ? truth(heldBy(first)) : undefined;
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
export function walkTakenBranches({ engine }: UniverModules, injector: Injector): void {
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
