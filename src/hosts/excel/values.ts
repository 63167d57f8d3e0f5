import type { CellFunction, RawArgument } from '../../functions/define.ts';
import type { Outcome } from '../../functions/outcome.ts';
import { type Cell, type CellRange, isCellError } from '../../tables/cells.ts';

/** The part of Excel's custom functions runtime that turns our errors into its own. */
export interface ErrorMaker {
  readonly Error: new (code: CustomFunctions.ErrorCode, message?: string) => object;
  readonly ErrorCode: Readonly<Record<'invalidValue' | 'notAvailable' | 'invalidNumber', CustomFunctions.ErrorCode>>;
}

/**
 * A value as Excel hands it over, as a cell of ours. Errors arrive as error objects with a code or as typed values with a
 * plain value inside; so do numbers with a format.
 */
export function toCell(value: unknown): Cell {
  if (value === null || value === undefined) return null;
  if (typeof value === 'number' || typeof value === 'string' || typeof value === 'boolean') return value;
  if (typeof value !== 'object') return { error: '#VALUE!' };
  const { code, type, basicValue } = value as { code?: unknown; type?: unknown; basicValue?: unknown };
  if (typeof code === 'string' && code.startsWith('#')) return { error: code };
  if (type === 'Error') return { error: typeof basicValue === 'string' ? basicValue : '#VALUE!' };
  return basicValue === undefined ? { error: '#VALUE!' } : toCell(basicValue);
}

function toArgument(value: unknown): RawArgument {
  if (!Array.isArray(value)) return toCell(value);
  return value.map((row: unknown) => (Array.isArray(row) ? row.map(toCell) : [toCell(row)]));
}

/**
 * Excel's arguments as ours. Excel fills omitted ones with null, gathers those of a repeating parameter in one array and
 * adds its own invocation object at the end.
 */
export function toArguments(entry: CellFunction, given: readonly unknown[]): readonly RawArgument[] {
  return Object.values(entry.parameters).flatMap((parameter, index) => {
    const value = given[index];
    if (!parameter.repeating) return [toArgument(value)];
    return Array.isArray(value) ? value.map(toArgument) : [];
  });
}

/** The error object for a code; only `#VALUE!` and `#N/A` carry a message in Excel. */
export function excelError(runtime: ErrorMaker, code: string, message?: string): object {
  const { invalidNumber, invalidValue, notAvailable } = runtime.ErrorCode;
  if (code === '#NUM!') return new runtime.Error(invalidNumber);
  return new runtime.Error(code === '#N/A' ? notAvailable : invalidValue, message);
}

/** What Excel gets for an outcome: a value, rows to spill, or the error that is thrown. */
export function fromOutcome(runtime: ErrorMaker, entry: CellFunction, outcome: Outcome): unknown {
  if (!outcome.ok) throw excelError(runtime, outcome.code, outcome.message);
  const leave = (cell: Cell) => (isCellError(cell) ? excelError(runtime, cell.error, cell.message) : (cell ?? ''));
  const { value } = outcome;
  if (Array.isArray(value)) return (value as CellRange).map((row) => row.map(leave));
  const single = leave(value as Cell);
  return entry.result.kind === 'table' ? [[single]] : single;
}
