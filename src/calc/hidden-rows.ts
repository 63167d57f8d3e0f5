import type { Injector, UniverModules } from './univer.ts';

type HiddenRows = Record<string, Record<string, Record<number, { readonly hd: 1 }>>>;

/**
 * Finds the rows that are hidden, which SUBTOTAL and AGGREGATE leave out, among the rows of which something is recorded. The
 * engine asks of each row of each sheet, used or not, at each calculation; a row without a record is never hidden, since
 * nothing here filters rows but by hiding them.
 */
export function findHiddenRowsQuickly({ core, engine }: UniverModules, injector: Injector): void {
  const instances = injector.get(core.IUniverInstanceService);
  const model = injector.get(engine.FormulaDataModel) as unknown as { getHiddenRowsFiltered(): HiddenRows };
  model.getHiddenRowsFiltered = () => {
    const found: HiddenRows = {};
    for (const book of instances.getAllUnitsForType<InstanceType<typeof core.Workbook>>(
      core.UniverInstanceType.UNIVER_SHEET,
    )) {
      const sheets: HiddenRows[string] = {};
      for (const sheet of book.getSheets()) {
        const hidden: Record<number, { readonly hd: 1 }> = {};
        for (const row of Object.keys(sheet.getRowManager().getRowData()))
          if (Number(row) < sheet.getRowCount() && !sheet.getRowVisible(Number(row))) hidden[Number(row)] = { hd: 1 };
        sheets[sheet.getSheetId()] = hidden;
      }
      found[book.getUnitId()] = sheets;
    }
    return found;
  };
}
