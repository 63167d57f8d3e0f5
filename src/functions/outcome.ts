import type { ErrorCode } from '../faults/issue.ts';
import type { Cell, CellRange } from '../tables/cells.ts';

/** A fault as it leaves: the cell error and its words. */
export interface FaultWords {
  readonly code: ErrorCode;
  readonly message: string;
}

/**
 * What a call gives a host: a cell value, a range to spill (never empty), or an error with its words. A range that was
 * worked out element by element may hold errors; `firstFault` then has the words of the first.
 */
export type Outcome =
  | {
      readonly ok: true;
      readonly value: Exclude<Cell, null | undefined> | CellRange;
      readonly firstFault?: FaultWords;
    }
  | ({ readonly ok: false } & FaultWords);
