import type { Cell, CellRange } from './cells.ts';

/** A column of a spilled table: rows hold SI values, the unit shown depends on `Report units`. */
export interface SpillColumn {
  readonly name: string;
  /** quantity of the column's numbers; absent for text and plain counts */
  readonly quantity?: string;
  readonly metricUnit?: string;
  readonly inchUnit?: string;
}

export interface SpillTable {
  readonly columns: readonly SpillColumn[];
  /** SI numbers, text, or blanks; converted when the table leaves */
  readonly rows: readonly (readonly Cell[])[];
}

export type ReportUnits = 'metric' | 'inch';

export function isSpillTable(value: unknown): value is SpillTable {
  return typeof value === 'object' && value !== null && 'columns' in value && 'rows' in value;
}

export type { CellRange };
