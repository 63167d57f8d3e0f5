import type { ErrorCode } from '../faults/issue.ts';
import type { Cell, CellRange } from '../tables/cells.ts';

/** What a call gives a host: a cell value, a range to spill (never empty), or an error with its words. */
export type Outcome =
  | { readonly ok: true; readonly value: Exclude<Cell, null | undefined> | CellRange }
  | { readonly ok: false; readonly code: ErrorCode; readonly message: string };
