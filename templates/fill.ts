import { createCalculator } from '../src/calc/calculator.ts';
import { loadUniver } from '../src/calc/univer-node.ts';
import { callFunction } from '../src/functions/adapter.ts';
import { functions } from '../src/functions/index.ts';
import { newWorkbook } from '../src/workbook/build.ts';
import type { WorkbookModel } from '../src/workbook/model.ts';
import { readWorkbook } from '../src/workbook/read.ts';
import { writeWorkbook } from '../src/workbook/write.ts';
import { templateModel } from './model.ts';

export interface FilledTemplate {
  readonly bytes: Uint8Array;
  /** cells that end in an error, as "Results!B4 #N/A words"; none in a sound template */
  readonly faults: readonly string[];
}

/** A workbook, by default the template, with the results of its formulas stored beside them: the same bytes each time. */
export async function fillTemplate(model: WorkbookModel = templateModel()): Promise<FilledTemplate> {
  const book = await readWorkbook(await newWorkbook(model));
  const calculator = createCalculator(loadUniver(), functions, callFunction);
  try {
    calculator.load(book.snapshot);
    await calculator.recalculate();
    const faults = calculator
      .faults()
      .map(
        ({ sheet, row, column, code, message }) =>
          `${sheet}!${String.fromCharCode(65 + column)}${row + 1} ${code} ${message}`,
      );
    const results = { snapshot: calculator.snapshot(), spills: calculator.spills() };
    return { bytes: writeWorkbook(book, results), faults };
  } finally {
    calculator.dispose();
  }
}
