import * as core from '@univerjs/core';
import {
  type Injector,
  IResourceLoaderService,
  type IWorkbookData,
  LocaleType,
  LogLevel,
  Univer,
  UniverInstanceType,
  type Workbook,
} from '@univerjs/core';
import { FUniver } from '@univerjs/core/facade';
import * as engine from '@univerjs/engine-formula';
import { CalculationMode, UniverSheetsCorePreset } from '@univerjs/preset-sheets-core';
import enUS from '@univerjs/preset-sheets-core/locales/en-US';
import { createExplainer, type Explainer } from '../../../calc/explain.ts';
import type { Pace } from '../../../calc/guard-stop.ts';
import { installNarrows } from '../../../calc/install.ts';
import type { Messages } from '../../../calc/messages.ts';
import { functionDescriptions } from '../../../calc/univer-functions.ts';
import { createWorkbookReader, type WorkbookReader } from '../../../calc/workbook-reader.ts';
import { callFunction } from '../../../functions/adapter.ts';
import { functions } from '../../../functions/index.ts';
import type { SheetExtras } from '../../../workbook/extras.ts';
import type { Origin } from '../save/origin.ts';
import { calculateAtOnce } from './at-once.ts';
import { drawLayersOnce } from './dirty-layers.ts';
import { dragOnSheetInView } from './drags.ts';
import { keepLines } from './lines.ts';
import { followMoves } from './moves.ts';
import { drawWholeNumbers } from './narrow-numbers.ts';
import { noProtection } from './no-protection.ts';
import { pasteTables } from './paste.ts';
import { removeSheetsWhole } from './removed-sheets.ts';
import { retellRenamedSheets } from './renamed-sheets.ts';
import { guardSuggestions } from './suggestions.ts';
import type { OpenBook } from './workbook.ts';
import '@univerjs/preset-sheets-core/lib/index.css';

export interface Fitted {
  readonly zoom: number;
  readonly before: number;
}

export interface Grid {
  readonly api: FUniver;
  readonly injector: Injector;
  readonly messages: Messages;
  readonly pace: Pace;
  readonly reader: WorkbookReader;
  readonly explainer: Explainer;
  /** what the workbook says of its sheets beyond their cells, by the id of the sheet */
  readonly extras: Map<string, SheetExtras>;
  /** sheets that a narrow window shows smaller, by their id: what it shows them at and what they were shown at before */
  readonly fitted: Map<string, Fitted>;
  /** in which file the sheets are that have one, by the id of the sheet */
  readonly origins: Map<string, Origin>;
  /** where the engine keeps which cells a formula spills into */
  readonly formulas: engine.FormulaDataModel;
  /** The open workbook as data, with the values of its formulas in their cells and its names as they are. */
  snapshot(): IWorkbookData;
  /** Shows another workbook in place of the one that is open. */
  show(book: OpenBook): void;
}

const modules = { core, engine };

/**
 * The library's grid in `container`, light or dark as the person's system asks, with our functions and guards in its
 * calculation.
 *
 * @param book the first workbook: the grid's parts only start with one
 */
export function createGrid(container: HTMLElement, book: OpenBook): Grid {
  const dark = matchMedia('(prefers-color-scheme: dark)');
  const univer = new Univer({
    locale: LocaleType.EN_US,
    locales: { [LocaleType.EN_US]: enUS },
    logLevel: LogLevel.WARN,
    darkMode: dark.matches,
  });
  const preset = UniverSheetsCorePreset({
    container,
    ribbonType: 'simple',
    disableAutoFocus: true,
    // The argument hints read this list only; the autocomplete and the calculation get theirs from the installation.
    formula: {
      description: functionDescriptions(modules, functions),
      // Files store what formulas gave elsewhere, and nothing of what spills: all are worked out on opening.
      initialFormulaComputing: CalculationMode.FORCED,
    },
    footer: { menus: false, zoomSlider: true },
    menu: noProtection,
  });
  for (const plugin of preset.plugins) {
    if (Array.isArray(plugin)) univer.registerPlugin(plugin[0], plugin[1]);
    else univer.registerPlugin(plugin);
  }
  dragOnSheetInView();
  drawLayersOnce();
  drawWholeNumbers();
  followMoves();
  let open = univer.createUnit<IWorkbookData, Workbook>(UniverInstanceType.UNIVER_SHEET, book.snapshot);
  const injector = univer.__getInjector();
  const { messages, pace } = installNarrows(modules, injector, functions, callFunction);
  calculateAtOnce(injector, pace);
  guardSuggestions(injector);
  removeSheetsWhole(injector);
  retellRenamedSheets(injector);
  const formulas = injector.get(engine.FormulaDataModel);
  seedSpills(formulas, book);
  const extras = extrasOf(book);
  const origins = originsOf(book);
  const fitted: Grid['fitted'] = new Map();
  const reader = createWorkbookReader(core, () => open, formulas);
  const api = FUniver.newAPI(univer);
  keepLines(api, injector);
  pasteTables(injector);
  dark.addEventListener('change', () => api.toggleDarkMode(dark.matches));
  return {
    api,
    injector,
    messages,
    pace,
    reader,
    formulas,
    extras,
    fitted,
    origins,
    // not the workbook's own: that has the names of when it was opened
    snapshot: () =>
      unfitted(injector.get(IResourceLoaderService).saveUnit<IWorkbookData>(open.getUnitId()) ?? open.save(), fitted),
    explainer: createExplainer(modules, injector, messages, reader),
    show(next) {
      const before = open.getUnitId();
      api.disposeUnit(before);
      messages.clearUnit(before);
      open = univer.createUnit<IWorkbookData, Workbook>(UniverInstanceType.UNIVER_SHEET, next.snapshot);
      seedSpills(formulas, next);
      fitted.clear();
      extras.clear();
      for (const [id, more] of extrasOf(next)) extras.set(id, more);
      origins.clear();
      for (const [id, origin] of originsOf(next)) origins.set(id, origin);
    },
  };
}

/** The workbook with its sheets as large as a person has them: what a narrow window made of that is not the workbook's. */
function unfitted(snapshot: IWorkbookData, fitted: Grid['fitted']): IWorkbookData {
  for (const [id, { zoom, before }] of fitted) {
    const sheet = snapshot.sheets[id];
    if (sheet?.zoomRatio === zoom) sheet.zoomRatio = before;
  }
  return snapshot;
}

const extrasOf = ({ book }: OpenBook): Map<string, SheetExtras> =>
  new Map(book?.sheets.map(({ id, extras }) => [id, extras]));

const originsOf = ({ book }: OpenBook): Map<string, Origin> =>
  new Map(book?.sheets.map(({ id, name }) => [id, { book, name, edits: [], since: 0 }]));

/**
 * Shows what the formulas filled when the file was saved, until they are worked out: the first view is complete at once, and
 * the order of calculation knows the ranges from the start.
 */
function seedSpills(formulas: engine.FormulaDataModel, { book, snapshot }: OpenBook): void {
  const ranges: Record<string, Record<number, Record<number, object>>> = {};
  const cells: Record<string, Record<number, Record<number, object>>> = {};
  const put = (table: typeof ranges, sheetId: string, row: number, column: number, value: object) => {
    table[sheetId] ??= {};
    const sheet = table[sheetId];
    sheet[row] ??= {};
    sheet[row][column] = value;
  };
  for (const { id, filled } of book?.sheets ?? []) {
    for (const { row, column, block, stored } of filled) {
      if (stored.length === 0) continue;
      put(ranges, id, row, column, block);
      for (const spot of stored) put(cells, id, spot.row, spot.column, spot.cell);
    }
  }
  formulas.setArrayFormulaRange({ [snapshot.id]: ranges } as never);
  formulas.setArrayFormulaCellData({ [snapshot.id]: cells } as never);
}
