import { callFunction } from '../functions/adapter.ts';
import { functions } from '../functions/index.ts';
import { type Calculator, createCalculator } from './calculator.ts';
import { loadUniver } from './univer-node.ts';

/** A calculator with all our functions, in Node. */
export function createNodeCalculator(): Calculator {
  return createCalculator(loadUniver(), functions, callFunction);
}
