import { callFunction } from '../../functions/adapter.ts';
import type { CellFunction } from '../../functions/define.ts';
import { forget, remember } from './messages.ts';
import { type ErrorMaker, fromOutcome, toArguments } from './values.ts';

/** The part of Excel's custom functions runtime that registration needs. */
export interface FunctionsRuntime extends ErrorMaker {
  associate(id: string, body: (...given: unknown[]) => unknown): void;
}

/** Ties every function of the registry to its id. Synchronous: a late registration leaves name errors on the sheet. */
export function associateAll(functions: readonly CellFunction[], runtime: FunctionsRuntime): void {
  for (const entry of functions) runtime.associate(entry.id, excelBody(entry, runtime));
}

/** A cell function as Excel calls it. The invocation object tells the cell, for which the words of an error are kept. */
export function excelBody(entry: CellFunction, runtime: ErrorMaker): (...given: unknown[]) => unknown {
  return (...given) => {
    const outcome = callFunction(entry, toArguments(entry, given));
    const address = addressIn(given.at(-1));
    if (address !== undefined) {
      const fault = outcome.ok ? outcome.firstFault : outcome;
      if (fault === undefined) forget(address);
      else remember(address, { code: fault.code, message: fault.message });
    }
    return fromOutcome(runtime, entry, outcome);
  };
}

function addressIn(invocation: unknown): string | undefined {
  if (typeof invocation !== 'object' || invocation === null || !('address' in invocation)) return undefined;
  return typeof invocation.address === 'string' ? invocation.address : undefined;
}
