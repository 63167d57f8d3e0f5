import type { CellRange } from '../tables/cells.ts';
import type { Restored } from './kept.ts';
import type { Separators } from './separators.ts';

/** The little that the task pane needs from the spreadsheet around it. Each host gives one; the pane knows no more. */
export interface CellFault {
  /** e.g. Results!B4 */
  readonly address: string;
  readonly formula: string;
  /** the error as the cell shows it */
  readonly code: string;
  readonly message: string;
  /** the cell, or the first of the row, that the words of a fault of a table begin with: there it can be gone to */
  readonly about?: string;
  /** whether the cell only holds the error of another one, or the same one of its row again; a host that cannot say leaves this out */
  readonly repeats?: boolean;
}

/** Something to look at that is no error. */
export interface CellNote {
  readonly address: string;
  readonly message: string;
  /** what can be written to be rid of it */
  readonly mend?: Mend;
}

export interface Mend {
  /** words of its button */
  readonly label: string;
  readonly cells: readonly NewCell[];
}

/** A cell and what is to be written there; null leaves it blank. */
export interface NewCell {
  readonly address: string;
  readonly value: string | number | null;
}

/** Cells as they show, with the place of the first; row and column count from 0. */
export interface CellBlock {
  /** plain name, without quotes */
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly cells: CellRange;
}

export interface PaneHost {
  /** Name of the host for the status line. */
  readonly name: string;
  /** how formulas are typed there; plain commas if absent */
  readonly separators?: Separators;
  /** Puts a formula (with its leading =) into the selected cell. */
  insertFormula(formula: string): Promise<void>;
  /** Address of the selected cell, e.g. Parts!C3, or undefined. */
  selectedAddress(): Promise<string | undefined>;
  /** What is wrong in one cell, if anything. A host that cannot say leaves this out. */
  faultAt?(address: string): Promise<CellFault | undefined>;
  /** Calls back when another cell is selected, or the selected one was calculated anew; returns how to stop. */
  onSelection(listener: () => void): () => void;
  /** What a defined name or an address stands for; undefined where the workbook has neither. */
  cells(reference: string): Promise<CellBlock | undefined>;
  /** What the row of the selected cell shows. */
  selectedRow(): Promise<CellBlock | undefined>;
  /** Calls back when values in cells have changed; returns how to stop. */
  onChange(listener: () => void): () => void;
  /** Adds the template's sheets; a sheet that exists is left alone and named in `skipped`. */
  addTemplate(): Promise<{ readonly added: readonly string[]; readonly skipped: readonly string[] }>;
  /** Every cell of the active sheet (or the whole workbook) that ends in an error, with our words for it, those last that repeat another's. */
  faults(scope: 'sheet' | 'workbook'): Promise<readonly CellFault[]>;
  /** What else to look at on the active sheet (or in the workbook). A host that cannot say leaves this out. */
  notes?(scope: 'sheet' | 'workbook'): Promise<readonly CellNote[]>;
  /** What is to be looked at in the row of one cell, if anything. A host that would have to ask for long leaves this out. */
  noteAt?(address: string): Promise<CellNote | undefined>;
  /** Writes values into cells, undone as one step where the host can. */
  put(cells: readonly NewCell[]): Promise<void>;
  goTo(address: string): Promise<void>;
  /** Enters formulas again that show a name error; returns how many. */
  reenter(): Promise<number>;
  /** Replaces our formulas on the active sheet by their values, and keeps the formulas on a sheet; returns how many. */
  freeze(): Promise<number>;
  /** Puts the formulas back that were kept of the active sheet, but for those whose cells were changed since. */
  restore(): Promise<Restored>;
}
