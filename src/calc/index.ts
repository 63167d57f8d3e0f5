/**
 * The formula engine with our functions and guards in it, for Node and for the page.
 *
 * **Node**: `createNodeCalculator()` from `./node.ts` (not exported here: it loads CommonJS builds that a bundler must not
 * follow). Load a snapshot, `await recalculate()`, then read `value`, `snapshot`, `spills`, `faults`, or `evaluate` formulas
 * that stand in no cell. Dispose of it: open calculators slow later ones.
 *
 * **Page**: after the plugins are registered and the first workbook is created, in the same turn:
 *
 *     import * as core from '@univerjs/core';
 *     import * as engine from '@univerjs/engine-formula';
 *     const modules = { core, engine };
 *     const narrows = installNarrows(modules, univer.__getInjector(), functions, callFunction);
 *
 * That registers the executors and their descriptions (autocomplete and argument hints come from the function service),
 * takes out functions that would fetch, and puts the guards in. Cells keep what was typed; nothing is rewritten.
 *
 * The sheet's own plugins calculate only formulas without a stored value when a workbook opens; circles and spills of a
 * saved workbook need the whole: `UniverSheetsCorePreset({ formula: { initialFormulaComputing: 0 } })` (forced).
 *
 * **Words of errors**: `narrows.messages.at(place)` has the words of a cell's own error, replaced on every calculation;
 * `messages.onChange(listener)` tells when to look again. An error that came from another cell, or from an ordinary
 * function, has none: `createExplainer(modules, injector, messages, reader).cell(place, code)` then traces it and always
 * answers. Compare the code with what the cell shows now: a cell that was cleared leaves its words behind until the
 * next calculation of that cell. On closing a workbook call `messages.clearUnit(unitId)`.
 */
export type { Calculator, CellFault, Spill } from './calculator.ts';
export { createCalculator } from './calculator.ts';
export type { Answer, CellErrorInTable, Plain, PlainTable } from './evaluate.ts';
export { createExplainer, type Explainer, type SheetReader } from './explain.ts';
export { cellName } from './formula-text.ts';
export { type Installation, installNarrows } from './install.ts';
export type { CellMessage, CellPlace, Messages } from './messages.ts';
export type { UniverModules } from './univer.ts';
export { functionDescriptions, NAMESPACE } from './univer-functions.ts';
export { createWorkbookReader, type WorkbookReader } from './workbook-reader.ts';
