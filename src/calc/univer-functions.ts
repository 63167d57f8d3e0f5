import type { BaseFunction, IFunctionInfo } from '@univerjs/engine-formula';
import type { CellFunction, RawArgument } from '../functions/define.ts';
import type { Outcome } from '../functions/outcome.ts';
import { createRegistry } from '../functions/registry.ts';
import { type Addressing, addressing, type ToldCall, toldCall } from './argument-places.ts';
import { isReference, type NodeValue } from './seams.ts';
import type { SheetNames } from './sheet-names.ts';
import type { UniverModules } from './univer.ts';
import { cellsOf, engineValue, errorValue } from './values.ts';

export const NAMESPACE = 'NARROWS';

/** How one of our functions is called with what a spreadsheet hands over. Never throws. */
export type CallFunction = (fn: CellFunction, args: readonly RawArgument[]) => Outcome;

/** The words of errors that came in as arguments: an error inside a call explains the error of the call. */
function wordsOfArguments(args: readonly NodeValue[]): string {
  for (const arg of args) {
    if (isReference(arg)) continue;
    const value = arg.isArray() && arg.getRowCount() === 1 && arg.getColumnCount() === 1 ? arg.get(0, 0) : arg;
    if (value?.isError()) return value.getErrorContent();
  }
  return '';
}

function answer(
  modules: UniverModules,
  fn: CellFunction,
  call: CallFunction,
  addressingOf: (call: ToldCall) => Addressing,
  args: readonly NodeValue[],
) {
  try {
    const cells = args.map(cellsOf);
    const outcome = call(fn, cells);
    // after the call: it may be answered from memory, for a table of the same content that stands elsewhere
    const { words, value } = addressingOf({ fn, args, cells });
    if (outcome.ok) return engineValue(modules, value(outcome.value));
    const message = words(outcome.message);
    const inner = wordsOfArguments(args);
    return errorValue(modules.engine, outcome.code, inner === '' ? message : `${message} ${inner}`);
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error);
    return errorValue(
      modules.engine,
      '#VALUE!',
      `${NAMESPACE}.${fn.id} broke down (${detail}). This is a bug of ours.`,
    );
  }
}

/**
 * Our functions as executors of the formula engine, named `NARROWS.<ID>`. The engine's own argument count check is left
 * open: the registry counts arguments itself and says in words what is wrong.
 */
export function functionExecutors(
  modules: UniverModules,
  functions: readonly CellFunction[],
  call: CallFunction,
  sheetNames: SheetNames,
): BaseFunction[] {
  const { BaseFunction: Base } = modules.engine;
  const { find } = createRegistry(functions);
  const addressingOf = (told: ToldCall): Addressing => addressing(toldCall(told, find), sheetNames);
  return functions.map((fn) => {
    class NarrowsFunction extends Base {
      // references come as they are: where a range stands is told in words of faults
      override needsReferenceObject = true;
      override calculate(...args: never[]): never {
        return answer(modules, fn, call, addressingOf, args as readonly NodeValue[]) as never;
      }
    }
    return new NarrowsFunction(`${NAMESPACE}.${fn.id}`);
  });
}

/** What autocomplete and the argument hints of the sheet show, made from the registry. */
export function functionDescriptions(modules: UniverModules, functions: readonly CellFunction[]): IFunctionInfo[] {
  const { FunctionType } = modules.engine;
  return functions.map((fn) => ({
    functionName: `${NAMESPACE}.${fn.id}`,
    functionType: FunctionType.User,
    description: [fn.summary, fn.result.description, ...(fn.notes ?? [])].join(' '),
    abstract: fn.summary,
    functionParameter: Object.entries(fn.parameters).map(([name, parameter]) => ({
      name,
      detail: parameter.unit ? `${parameter.description} (${parameter.unit})` : parameter.description,
      example: parameter.choices?.[0] === undefined ? '' : `"${parameter.choices[0]}"`,
      require: parameter.optional ? 0 : 1,
      repeat: parameter.repeating ? 1 : 0,
    })),
  }));
}
