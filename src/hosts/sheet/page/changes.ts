import { CommandType, type IExecutionOptions } from '@univerjs/core';
import type { Grid } from './grid.ts';

export interface Changes {
  /** whether anything was changed since the last save */
  pending(): boolean;
  /** whether something other than what cells hold was changed since the file was read: sheets, rows, widths, looks, names */
  beyondCells(): boolean;
  /** The workbook is in a file as it is now. What it was read from stays as it was. */
  saved(): void;
  /** Another workbook stands in its place. */
  forget(): void;
}

/** Changes that the calculation and the view make by themselves. */
const NOT_A_PERSONS = [
  /^formula\.mutation\.(?!(?:set|remove)-defined-name$)/,
  /^sheet\.mutation\.set-worksheet-(?:row-auto-height|active)/,
  /^doc\./,
];
const CELLS = 'sheet.mutation.set-range-values';

/** A command of the grid that is done. */
interface Done {
  readonly id: string;
  readonly type?: CommandType | undefined;
  readonly options?: IExecutionOptions | undefined;
}

/** Whether something was done to the workbook that a person asked for. */
export const isOfAPerson = ({ id, type, options }: Done): boolean =>
  type === CommandType.MUTATION &&
  !(id === CELLS && options?.fromFormula) &&
  !NOT_A_PERSONS.some((pattern) => pattern.test(id));

/** Watches the workbook for changes of its content, and warns before the page is left with some. */
export function watchChanges(grid: Grid): Changes {
  let pending = false;
  let beyondCells = false;
  grid.api.addEvent(grid.api.Event.CommandExecuted, (done) => {
    if (!isOfAPerson(done)) return;
    if (done.id !== CELLS || setsLooks(done.params)) beyondCells = true;
    pending = true;
  });
  addEventListener('beforeunload', (event) => {
    if (pending) event.preventDefault();
  });
  return {
    pending: () => pending,
    beyondCells: () => beyondCells,
    saved() {
      pending = false;
    },
    forget() {
      pending = false;
      beyondCells = false;
    },
  };
}

function setsLooks(params: unknown): boolean {
  const { cellValue } = (params ?? {}) as { cellValue?: Record<string, Record<string, { s?: unknown } | null>> };
  return Object.values(cellValue ?? {}).some((row) => Object.values(row ?? {}).some((cell) => cell?.s !== undefined));
}
