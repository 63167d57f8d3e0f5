/** What a cell can hold when it reaches us. Blank cells arrive as null, undefined or "" depending on the host. */
export interface CellError {
  readonly error: string;
  /** why, in words, where the one who made the error knows */
  readonly message?: string;
}
export type Cell = number | string | boolean | null | undefined | CellError;
/** Rows of cells, as spreadsheets hand ranges over. */
export type CellRange = readonly (readonly Cell[])[];

export function isCellError(value: unknown): value is CellError {
  return typeof value === 'object' && value !== null && !Array.isArray(value) && 'error' in value;
}

/** The one place that decides what counts as blank. */
export function isBlank(value: unknown): value is null | undefined | '' {
  return value === null || value === undefined || (typeof value === 'string' && value.trim() === '');
}

/** A cell without an answer, and why: `#N/A`. */
export function noAnswer(message: string): CellError {
  return { error: '#N/A', message };
}
