import type { IWorkbookData, Workbook } from '@univerjs/core';
import type { IAllRuntimeData, IFormulaDatasetConfig } from '@univerjs/engine-formula';
import type { CellFunction } from '../functions/define.ts';
import type { Cell, CellRange } from '../tables/cells.ts';
import { isCellError } from '../tables/cells.ts';
import { type Answer, createEvaluator } from './evaluate.ts';
import { createExplainer } from './explain.ts';
import { installNarrows } from './install.ts';
import type { CellPlace } from './messages.ts';
import type { CellRectangle } from './seams.ts';
import type { UniverModules } from './univer.ts';
import type { CallFunction } from './univer-functions.ts';
import { createWorkbookReader } from './workbook-reader.ts';

/** A spilled result: the sheet, the cell of its formula, and the cells that it fills; rows and columns count from 0. */
export interface Spill {
  readonly sheet: string;
  readonly range: CellRectangle;
  readonly cells: CellRange;
}

/** A cell that ends in an error. */
export interface CellFault {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly code: string;
  readonly message: string;
}

export interface Calculator {
  /** Takes a workbook in place of the one before. Not yet calculated. */
  load(snapshot: IWorkbookData): void;
  /** Works out every formula of the workbook. */
  recalculate(): Promise<void>;
  /** Works out formulas one by one, in order, as if each stood in a free cell of `sheet` (the first one by default). */
  evaluate(formulas: readonly string[], context?: { readonly sheet?: string }): readonly Answer[];
  /** Puts a value or a formula (text that begins with =) into a cell; nothing is calculated. Blank clears. */
  put(sheet: string, row: number, column: number, content: string | number | boolean | null): void;
  /** Names of the sheets, in order. */
  sheets(): readonly string[];
  /** The value that a cell shows, spilled ones included; blank cells are null. */
  value(sheet: string, row: number, column: number): Cell;
  /** The workbook with the values of its formulas in their cells. Spilled values beside a formula are in `spills`. */
  snapshot(): IWorkbookData;
  spills(): readonly Spill[];
  /** Every cell that ends in an error, with words. */
  faults(): readonly CellFault[];
  dispose(): void;
}

/** The resource in which a workbook's defined names are kept. */
const NAMES_RESOURCE = 'SHEET_DEFINED_NAME_PLUGIN';
/** Unit ids are given here: the engine keeps caches by unit id across instances. */
let units = 0;

const emptyWorkbook = (): IWorkbookData => ({
  id: '',
  name: '',
  appVersion: '',
  locale: 'enUS' as never,
  styles: {},
  sheetOrder: ['sheet1'],
  sheets: { sheet1: { id: 'sheet1', name: 'Sheet1', rowCount: 1000, columnCount: 100, cellData: {} } },
});

/** A calculator on its own instance of the formula engine; dispose of it when done. */
export function createCalculator(
  modules: UniverModules,
  functions: readonly CellFunction[],
  call: CallFunction,
): Calculator {
  const { core, engine } = modules;
  const univer = new core.Univer({
    locale: core.LocaleType.EN_US,
    locales: { [core.LocaleType.EN_US]: {} },
    logLevel: core.LogLevel.SILENT,
  });
  univer.registerPlugin(engine.UniverFormulaEnginePlugin, {});
  const injector = univer.__getInjector();
  let workbook: Workbook = createWorkbook(emptyWorkbook());
  const narrows = installNarrows(modules, injector, functions, call);
  const model = injector.get(engine.FormulaDataModel);
  const calculation = injector.get(engine.ICalculateFormulaService);
  const names = injector.get(engine.IDefinedNamesService);
  const reader = createWorkbookReader(core, () => workbook, model);
  const explainer = createExplainer(modules, injector, narrows.messages, reader);
  const evaluator = createEvaluator(modules, injector, explainer);

  let disposed = false;

  function createWorkbook(snapshot: IWorkbookData): Workbook {
    const id = `workbook-${++units}`;
    return univer.createUnit<IWorkbookData, Workbook>(core.UniverInstanceType.UNIVER_SHEET, { ...snapshot, id });
  }

  function disposeWorkbook(): void {
    narrows.messages.clearUnit(workbook.getUnitId());
    names.removeUnitDefinedName(workbook.getUnitId());
    univer.__getInjector().get(core.IUniverInstanceService).disposeUnit(workbook.getUnitId());
    model.setArrayFormulaRange({});
    model.setArrayFormulaCellData({});
  }

  function placeOf(sheet: string, row: number, column: number): CellPlace {
    const unitId = workbook.getUnitId();
    const sheetId = reader.sheetId(unitId, sheet);
    if (sheetId === undefined) throw new Error(`there is no sheet called ${sheet}`);
    return { unitId, sheetId, row, column };
  }

  function keepResults(data: IAllRuntimeData): void {
    const unitId = workbook.getUnitId();
    for (const [sheetId, cells] of Object.entries(data.unitData[unitId] ?? {})) {
      const matrix = workbook.getSheetBySheetId(sheetId)?.getCellMatrix();
      cells?.forValue((row, column, cell) => {
        const before = matrix?.getValue(row, column);
        if (before?.f == null && before?.si == null) return;
        // what HYPERLINK gives is a document without a value beside it
        const text = cell?.p?.body?.dataStream.replace(/\r\n$/, '');
        matrix?.setValue(row, column, { ...before, v: cell?.v ?? text ?? null, t: cell?.t ?? null });
      });
    }
    model.setArrayFormulaRange(data.arrayFormulaRange);
    const spilled: Record<string, Record<string, object>> = { [unitId]: {} };
    for (const [sheetId, cells] of Object.entries(data.arrayFormulaCellData[unitId] ?? {})) {
      const sheets = spilled[unitId];
      if (sheets && cells) sheets[sheetId] = cells.getMatrix();
    }
    model.setArrayFormulaCellData(spilled as never);
  }

  return {
    load(snapshot) {
      disposeWorkbook();
      workbook = createWorkbook(structuredClone(snapshot));
      const kept = snapshot.resources?.find((resource) => resource.name === NAMES_RESOURCE)?.data;
      if (kept) names.registerDefinedNames(workbook.getUnitId(), withoutOurs(JSON.parse(kept)));
    },
    async recalculate() {
      model.setArrayFormulaRange({});
      model.setArrayFormulaCellData({});
      narrows.messages.clearUnit(workbook.getUnitId());
      const done = new Promise<IAllRuntimeData>((resolve) => {
        const listening = calculation.executionCompleteListener$.subscribe((data) => {
          listening.unsubscribe();
          resolve(data);
        });
      });
      const everything: IFormulaDatasetConfig = {
        formulaData: model.getFormulaData(),
        arrayFormulaCellData: {},
        arrayFormulaRange: {},
        forceCalculate: true,
        dirtyRanges: [],
        dirtyNameMap: {},
        dirtyDefinedNameMap: {},
        dirtyUnitFeatureMap: {},
        dirtyUnitOtherFormulaMap: {},
      };
      await calculation.execute(everything);
      keepResults(await done);
      const failure = narrows.takeFailure();
      if (failure !== undefined) throw new Error('the workbook could not be worked out', { cause: failure });
    },
    evaluate(formulas, context) {
      const sheetId =
        context?.sheet === undefined ? (workbook.getSheetOrders()[0] ?? '') : placeOf(context.sheet, 0, 0).sheetId;
      return evaluator(formulas, workbook.getUnitId(), sheetId);
    },
    put(sheet, row, column, content) {
      const { sheetId } = placeOf(sheet, row, column);
      const matrix = workbook.getSheetBySheetId(sheetId)?.getCellMatrix();
      const isFormula = typeof content === 'string' && content.startsWith('=');
      if (content === null || content === '') matrix?.realDeleteValue(row, column);
      else matrix?.setValue(row, column, isFormula ? { f: content } : stored(content));
    },
    sheets: () => workbook.getSheets().map((sheet) => sheet.getName()),
    value: (sheet, row, column) => reader.cellAt(placeOf(sheet, row, column)),
    snapshot: () => workbook.save(),
    spills() {
      const unitId = workbook.getUnitId();
      const found: Spill[] = [];
      for (const [sheetId, rows] of Object.entries(model.getArrayFormulaRange()[unitId] ?? {})) {
        for (const columns of Object.values(rows ?? {})) {
          for (const range of Object.values(columns ?? {}) as CellRectangle[]) {
            if (reader.valueAt({ unitId, sheetId, row: range.startRow, column: range.startColumn }) === '#SPILL!')
              continue;
            found.push({
              sheet: reader.sheetName(unitId, sheetId),
              range,
              cells: reader.cellsIn(unitId, sheetId, range),
            });
          }
        }
      }
      return found;
    },
    faults() {
      return reader.shownCells().flatMap(({ place, cell }) => {
        if (!isCellError(cell)) return [];
        const message = explainer.cell(place, cell.error);
        const sheet = reader.sheetName(place.unitId, place.sheetId);
        return [{ sheet, row: place.row, column: place.column, code: cell.error, message }];
      });
    },
    dispose() {
      if (disposed) return;
      disposed = true;
      narrows.dispose();
      disposeWorkbook();
      univer.dispose();
    },
  };
}

/** A name of the workbook that is also the name of a function of ours would stand in for its calls: such names are left out. */
function withoutOurs<T extends { readonly name?: string }>(names: Record<string, T>): Record<string, T> {
  return Object.fromEntries(Object.entries(names).filter(([, { name }]) => !/^narrows[._]/i.test(name ?? '')));
}

const stored = (content: string | number | boolean): { v: string | number | boolean; t: number } =>
  typeof content === 'number'
    ? { v: content, t: 2 }
    : typeof content === 'boolean'
      ? { v: content ? 1 : 0, t: 3 }
      : { v: content, t: 1 };
