import { createRequire } from 'node:module';
import type { Workbook } from '@univerjs/core';
import { createExplainer } from '../../src/calc/explain.ts';
import { installNarrows } from '../../src/calc/install.ts';
import { loadUniver } from '../../src/calc/univer-node.ts';
import { createWorkbookReader } from '../../src/calc/workbook-reader.ts';
import { type Content, call, functions, spot, workbook } from './fixture.ts';

const require = createRequire(import.meta.url);
const open: { dispose(): void }[] = [];

/** Call after each test. */
export function closeEditors(): void {
  for (const univer of open.splice(0)) univer.dispose();
}

/**
 * A sheet that is edited cell by cell, with the plugins that the page uses: after each edit only what depends on it is
 * calculated again.
 */
export async function editor(
  cells: Record<string, Content>,
  rows = 1000,
  names: Readonly<Record<string, string>> = {},
) {
  const modules = loadUniver();
  const { core, engine } = modules;
  const { UniverSheetsPlugin } = require('@univerjs/sheets') as typeof import('@univerjs/sheets');
  const { UniverSheetsFormulaPlugin } =
    require('@univerjs/sheets-formula') as typeof import('@univerjs/sheets-formula');
  const univer = new core.Univer({
    locale: core.LocaleType.EN_US,
    locales: { [core.LocaleType.EN_US]: {} },
    logLevel: core.LogLevel.SILENT,
  });
  open.push(univer);
  univer.registerPlugin(engine.UniverFormulaEnginePlugin, {});
  univer.registerPlugin(UniverSheetsPlugin, {});
  univer.registerPlugin(UniverSheetsFormulaPlugin, {});
  const book: Workbook = univer.createUnit(core.UniverInstanceType.UNIVER_SHEET, workbook({ S: {} }, names, rows));
  const injector = univer.__getInjector();
  const { messages } = installNarrows(modules, injector, functions, call);
  const commands = injector.get(core.ICommandService);
  const reader = createWorkbookReader(core, () => book, injector.get(engine.FormulaDataModel));
  const explainer = createExplainer(modules, injector, messages, reader);
  const place = (address: string) => ({ unitId: book.getUnitId(), sheetId: 'id-S', ...spot(address) });

  /** The end of the next calculation; the sheet takes its results over in the same turn. */
  const calculated = (): Promise<void> =>
    new Promise((resolve) => {
      const stop = messages.onChange(() => {
        stop();
        setTimeout(resolve, 20);
      });
    });

  async function type(edits: Record<string, Content>): Promise<void> {
    const done = calculated();
    const value: Record<number, Record<number, object>> = {};
    for (const [address, content] of Object.entries(edits)) {
      const { row, column } = spot(address);
      const line = value[row] ?? {};
      value[row] = line;
      line[column] =
        content === null
          ? { v: null, f: null, si: null, p: null }
          : typeof content === 'string' && content.startsWith('=')
            ? { f: content, v: null, si: null }
            : { v: content, f: null, si: null, t: typeof content === 'number' ? 2 : 1 };
    }
    const params = { unitId: book.getUnitId(), subUnitId: 'id-S', cellValue: value };
    await commands.executeCommand('sheet.mutation.set-range-values', params);
    await done;
  }

  /** Anything else that changes the sheet, such as a row that is put in. */
  async function change(id: string, params: object): Promise<void> {
    const done = calculated();
    await commands.executeCommand(id, { unitId: book.getUnitId(), subUnitId: 'id-S', ...params });
    await done;
  }

  await calculated();
  await type(cells);
  return {
    type,
    change,
    at: (address: string): unknown => {
      const cell = reader.cellAt(place(address));
      return typeof cell === 'object' && cell !== null ? cell.error : cell;
    },
    words: (address: string): string => {
      const cell = reader.cellAt(place(address));
      return typeof cell === 'object' && cell !== null ? explainer.cell(place(address), cell.error) : '';
    },
    formula: (address: string): string | undefined => reader.formulaAt(place(address)),
  };
}
