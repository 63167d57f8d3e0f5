/**
 * A workbook as data, before it is a file: what `templates/` writes down and `build.ts` turns into xlsx bytes.
 * Addresses are A1 text ("B4"), ranges "A1:D9"; ranges that leave their sheet carry its name: "'Pipe runs'!$A$1:$D$9".
 * Formulas are as people type them, with the leading =: `=NARROWS.TUBE.BORE("3/8 in")`.
 */

/** The looks that a cell may have. What each looks like is decided once, in `looks.ts`. */
export type Look =
  | 'title'
  | 'heading'
  | 'header'
  | 'text'
  | 'label'
  | 'input'
  | 'formula'
  | 'figure'
  | 'note'
  | 'caution'
  | 'link';

export type ModelValue = string | number | boolean | null;

export interface ModelCell {
  readonly value?: ModelValue;
  /** as typed, with the leading =; a value beside it is the stored result */
  readonly formula?: string;
  /**
   * Range that a spilling formula fills at present ("A3:M132"), when known. A formula with `spills` is stored as a
   * dynamic array whether or not its range is known; `'unknown'` stands for a spill of a size not known yet.
   */
  readonly spills?: string;
  readonly look?: Look;
  /** number format code, e.g. "0.0", "#,##0", "0.0%" */
  readonly format?: string;
  readonly align?: 'left' | 'center' | 'right';
  readonly wrap?: boolean;
  /** text shown when the pointer rests on the cell */
  readonly comment?: string;
}

/** Rows of cells from `at` on; a bare value stands for a cell with only that value. `undefined` skips a cell. */
export interface ModelBlock {
  readonly at: string;
  readonly rows: readonly (readonly (ModelCell | ModelValue | undefined)[])[];
  /** look and format for cells of the block that set none; `columns` by position wins over `look` */
  readonly look?: Look;
  readonly format?: string;
  readonly columns?: readonly { readonly look?: Look; readonly format?: string }[];
}

export interface ModelValidation {
  readonly range: string;
  /** the allowed texts, or a range that lists them ("=Parts!$A$2:$A$40", "=RigNames") */
  readonly list: readonly string[] | string;
  readonly title?: string;
  readonly message?: string;
  /** stop: nothing else may be typed; warning: may be overridden */
  readonly strict?: boolean;
  /** the list only helps: other entries are as good */
  readonly free?: boolean;
}

export interface ModelNumberRule {
  readonly range: string;
  readonly least?: number;
  readonly most?: number;
  readonly title?: string;
  readonly message?: string;
}

export interface ModelSeries {
  readonly name: string;
  readonly values: string;
  /** labels or x of its own, where the series does not share those of the chart */
  readonly categories?: string;
  /** points without a line between them: readings beside a curve */
  readonly points?: boolean;
  /** takes its room in a stacked bar and is not drawn, nor in the legend: what stands before a bar that begins later */
  readonly unseen?: boolean;
}

export interface ModelChart {
  readonly kind: 'bar' | 'column' | 'line' | 'scatter';
  readonly title: string;
  /** top left cell and bottom right cell that the chart covers */
  readonly from: string;
  readonly to: string;
  /** range of the labels, or of x for a scatter */
  readonly categories: string;
  readonly series: readonly ModelSeries[];
  readonly xTitle?: string;
  readonly yTitle?: string;
  readonly xLog?: boolean;
  readonly yLog?: boolean;
  /** bars and columns: series end to end, in place of side by side */
  readonly stacked?: boolean;
  /** from one mark of the values' scale to the next */
  readonly yStep?: number;
  /** lying bars: the values' scale above the first bar, for charts taller than a screen */
  readonly scaleOnTop?: boolean;
  /** what the chart shows, for people who cannot see it */
  readonly altText: string;
}

export interface ModelPrint {
  readonly landscape?: boolean;
  readonly paper?: 'a4' | 'letter';
  /** on one page across, or on as few as leave the text large enough; as many down as it takes */
  readonly fitWidth?: boolean;
  /** rows repeated on each page, e.g. "1:1" */
  readonly repeatRows?: string;
  /** rows, counted from 1, that begin a page */
  readonly breaksBefore?: readonly number[];
  /** columns that begin a page beside the one before, e.g. "I" */
  readonly columnsBefore?: readonly string[];
  /** columns repeated in front of those, e.g. "A:A"; by default the frozen ones */
  readonly repeatColumns?: string;
  /** pages side by side in programs that pass over breaks between columns, where their own cuts would part what belongs together */
  readonly pagesAcross?: number;
  /**
   * One or more ranges, with commas between. Whole columns ("A:K") for a table that grows: programs end them with the last
   * row that shows something.
   */
  readonly area?: string;
}

export interface ModelSheet {
  readonly name: string;
  /** widths in characters, from column A on */
  readonly widths?: readonly (number | undefined)[];
  /** heights in points by row number, counted from 1 */
  readonly heights?: Readonly<Record<number, number>>;
  readonly frozenRows?: number;
  readonly frozenColumns?: number;
  readonly hidden?: boolean;
  readonly gridLines?: boolean;
  /** hex RGB without # */
  readonly tabColour?: string;
  /** single cells by address; they win over blocks */
  readonly cells?: Readonly<Record<string, ModelCell | ModelValue>>;
  readonly blocks?: readonly ModelBlock[];
  readonly merges?: readonly string[];
  readonly validations?: readonly ModelValidation[];
  readonly numberRules?: readonly ModelNumberRule[];
  readonly charts?: readonly ModelChart[];
  readonly print?: ModelPrint;
}

export interface ModelName {
  readonly name: string;
  /** absolute: "Conditions!$A$1:$C$12" */
  readonly range: string;
  readonly comment?: string;
}

export interface WorkbookModel {
  readonly title: string;
  readonly description?: string;
  readonly sheets: readonly ModelSheet[];
  readonly names?: readonly ModelName[];
}
