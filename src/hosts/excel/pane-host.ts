import type { PaneHost } from '../../pane/host.ts';
import { PLAIN_SEPARATORS, type Separators } from '../../pane/separators.ts';
import { cellAddress, splitAddress } from './addresses.ts';
import { blockNamed, selectedRow } from './cell-blocks.ts';
import { faultIn, findFaults } from './faults.ts';
import { freezeFormulas, restoreFormulas } from './freeze.ts';
import { ownFigureNotes } from './own-figure-notes.ts';
import { reenterFormulas } from './reenter.ts';

/**
 * What the pane asks of the spreadsheet, answered by Excel.
 * @param separators how formulas are typed in this Excel
 */
export function excelHost(separators: Separators = PLAIN_SEPARATORS): PaneHost {
  return {
    name: 'Excel',
    separators,
    insertFormula: (formula) =>
      Excel.run(async (context) => {
        context.workbook.getActiveCell().formulas = [[formula]];
        await context.sync();
      }),
    selectedAddress: () =>
      Excel.run(async (context) => {
        const cell = context.workbook.getActiveCell();
        cell.load('rowIndex,columnIndex');
        cell.worksheet.load('name');
        await context.sync();
        return cellAddress(cell.worksheet.name, cell.rowIndex, cell.columnIndex);
      }),
    faultAt: (address) => Excel.run((context) => faultIn(context, address)),
    onSelection: (listener) => {
      const stops = [
        listen((context) => context.workbook.onSelectionChanged.add(async () => listener())),
        listen((context) => context.workbook.worksheets.onCalculated.add(async () => listener())),
      ];
      return () => {
        for (const stop of stops) stop();
      };
    },
    cells: (reference) => Excel.run((context) => blockNamed(context, reference)),
    selectedRow: () => Excel.run(selectedRow),
    onChange: (listener) => listen((context) => context.workbook.worksheets.onChanged.add(async () => listener())),
    addTemplate: () =>
      Excel.run(async (context) => {
        // The template is most of the pane's weight and is wanted once a workbook: it is loaded when asked for.
        const [{ addSheets }, { templateModel }] = await Promise.all([
          import('./add-sheets.ts'),
          import('../../../templates/model.ts'),
        ]);
        return addSheets(context, templateModel());
      }),
    faults: (scope) => Excel.run((context) => findFaults(context, scope)),
    notes: (scope) => Excel.run((context) => ownFigureNotes(context, scope)),
    put: (cells) =>
      Excel.run(async (context) => {
        for (const { address, value } of cells) {
          const place = splitAddress(address);
          const range = context.workbook.worksheets.getItem(place.sheet).getRange(place.cells);
          // a null would leave the cell as it is
          range.formulas = [[value ?? '']];
        }
        await context.sync();
      }),
    goTo: (address) =>
      Excel.run(async (context) => {
        const { sheet, cells } = splitAddress(address);
        const worksheet = context.workbook.worksheets.getItem(sheet);
        worksheet.activate();
        worksheet.getRange(cells).select();
        await context.sync();
      }),
    reenter: () => Excel.run(reenterFormulas),
    freeze: () => Excel.run(freezeFormulas),
    restore: () => Excel.run(restoreFormulas),
  };
}

/** Adds a handler of a workbook's event; returns how to take it away. */
function listen<T>(add: (context: Excel.RequestContext) => OfficeExtension.EventHandlerResult<T>): () => void {
  const subscription = Excel.run(async (context) => {
    const handler = add(context);
    await context.sync();
    return handler;
  });
  return () => {
    void subscription.then((handler) =>
      Excel.run(handler.context, async (context) => {
        handler.remove();
        await context.sync();
      }),
    );
  };
}
