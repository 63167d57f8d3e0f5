import type { CellFunction } from '../functions/define.ts';
import { tellFilteredRows } from './filtered-rows.ts';
import { guardArrays } from './guard-arrays.ts';
import { guardAsync } from './guard-async.ts';
import { guardBranches } from './guard-branches.ts';
import { guardComparisons } from './guard-comparisons.ts';
import { guardConvert } from './guard-convert.ts';
import { guardCriteria } from './guard-criteria.ts';
import { guardFaults } from './guard-faults.ts';
import { guardLambdas } from './guard-lambdas.ts';
import { guardLiterals } from './guard-literals.ts';
import { guardLookups } from './guard-lookups.ts';
import { guardNames } from './guard-names.ts';
import { guardNumbers } from './guard-numbers.ts';
import { guardOrder } from './guard-order.ts';
import { guardReferences } from './guard-references.ts';
import { type Cycles, guardResults } from './guard-results.ts';
import { guardSizes } from './guard-sizes.ts';
import { guardStop, type Pace } from './guard-stop.ts';
import { guardText } from './guard-text.ts';
import { guardWork } from './guard-work.ts';
import { findHiddenRowsQuickly } from './hidden-rows.ts';
import { keepResultsInPlace } from './kept-results.ts';
import { type IndexWork, installLookupIndex } from './lookup-index.ts';
import { watchMergedCells } from './merged-cells.ts';
import { createMessages, type Messages } from './messages.ts';
import { readCellsQuickly } from './read-cells.ts';
import { remembering } from './remember.ts';
import { createSheetNames } from './sheet-names.ts';
import { keepCellsInTheWay } from './spill-aside.ts';
import { installSpillRoom } from './spill-room.ts';
import type { Injector, UniverModules } from './univer.ts';
import { type CallFunction, functionDescriptions, functionExecutors } from './univer-functions.ts';

export interface Installation {
  readonly messages: Messages;
  /** how far the calculation is, and how to stop it */
  readonly pace: Pace;
  /** what the look-up index has cost so far, over all calculations in this process */
  readonly indexWork: IndexWork;
  /** takes the reason why the last calculation as a whole broke down, if it did */
  takeFailure(): unknown;
  dispose(): void;
}

/** Functions that would fetch from an address written in a cell. Formulas cannot reach the machine or the network. */
const outwardFunctions = ['WEBSERVICE', 'IMAGE', 'IMPORTRANGE', 'IMPORTDATA', 'IMPORTXML', 'IMPORTHTML', 'IMPORTFEED'];

/**
 * Puts our functions and all guards into a running formula engine, in Node and in the page alike. Call it once for a
 * Univer, right after its plugins have started and before anything calculates (in the same turn as `createUnit`).
 */
export function installNarrows(
  modules: UniverModules,
  injector: Injector,
  functions: readonly CellFunction[],
  call: CallFunction,
): Installation {
  const { engine } = modules;
  const service = injector.get(engine.IFunctionService);
  const names = createSheetNames(modules, injector);
  service.registerExecutors(...functionExecutors(modules, functions, remembering(call), names));
  service.registerDescriptions(...functionDescriptions(modules, functions));
  service.unregisterExecutors(...outwardFunctions);
  service.unregisterDescriptions(...outwardFunctions);

  const messages = createMessages();
  const cycles: Cycles = { words: new Map(), asking: false };
  let failure: unknown;
  const indexWork = installLookupIndex(modules);
  readCellsQuickly(modules);
  findHiddenRowsQuickly(modules, injector);
  tellFilteredRows(modules, injector);
  keepResultsInPlace(modules, injector);
  const merged = watchMergedCells(modules, injector);
  const room = installSpillRoom(modules, injector, merged);
  keepCellsInTheWay(modules, injector);
  guardNames(modules, injector);
  guardLambdas(modules, injector);
  guardLiterals(modules, injector);
  guardFaults(modules, injector);
  guardBranches(modules, injector);
  guardAsync(modules, injector);
  guardSizes(modules, injector);
  guardArrays(modules, injector);
  guardCriteria(modules, injector);
  guardNumbers(modules, injector);
  guardLookups(modules, injector);
  guardText(modules, injector);
  guardConvert(modules, injector);
  guardComparisons(modules);
  guardWork(modules, injector);
  guardReferences(modules, injector, names);
  guardResults(modules, injector, messages, cycles, merged);
  guardOrder(modules, injector, cycles, names, room, (error) => {
    failure = error;
  });
  const pace = guardStop(modules, injector);
  const done = injector.get(engine.ICalculateFormulaService).executionCompleteListener$.subscribe(() => {
    // one that was overtaken has no results: listeners hear of the one that follows
    if (pace.progress().running) return;
    // listeners read cells: the sheet takes the results over in this turn, before them
    setTimeout(messages.changed, 0);
  });
  return {
    messages,
    pace,
    indexWork,
    takeFailure() {
      const taken = failure;
      failure = undefined;
      return taken;
    },
    dispose() {
      done.unsubscribe();
    },
  };
}
