import type { PaneHost } from '../../pane/host.ts';
import { separatorsOf } from '../../pane/separators.ts';
import { cellAddress, splitAddress } from './addresses.ts';
import { findFaults } from './faults.ts';
import { freezeFormulas } from './freeze.ts';
import { reenterFormulas } from './reenter.ts';

/**
 * What the pane asks of the spreadsheet, answered by Excel.
 * @param locale language of the workbook, such as de-DE, for the separators of the examples
 */
export function excelHost(locale = 'en'): PaneHost {
  return {
    name: 'Excel',
    separators: separatorsOf(locale),
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
    onSelection,
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
  };
}

function onSelection(listener: () => void): () => void {
  const subscription = Excel.run(async (context) => {
    const handler = context.workbook.onSelectionChanged.add(async () => listener());
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
