/**
 * Faults as data. Code that finds a fault raises a typed issue; `words.ts` puts it into words.
 * Knows nothing of gases, units, tables or spreadsheets.
 */

/** The cell errors that a function may give. `#DIV/0!` never. */
export type ErrorCode = '#VALUE!' | '#N/A' | '#NUM!';

/** Where in a table argument a fault stands; rows and columns count from 1, the header row is row 1. */
export interface Place {
  readonly table: string;
  readonly row?: number;
  readonly column?: string;
}

export type Issue =
  /** A number on the wrong side of a limit. */
  | {
      readonly kind: 'limit';
      readonly argument: string;
      readonly value: number;
      readonly rule: 'above' | 'at least' | 'below' | 'at most';
      readonly limit: number;
      readonly unit: string;
      readonly todo?: string;
    }
  /** Text, a blank, a boolean, NaN or infinity where a number is wanted. */
  | { readonly kind: 'not-a-number'; readonly argument: string; readonly value: unknown; readonly expected: string }
  | { readonly kind: 'not-text'; readonly argument: string; readonly value: unknown; readonly expected: string }
  /** A unit that does not belong to the quantity, or no unit at all. */
  | {
      readonly kind: 'unit';
      readonly argument: string;
      readonly unit: string;
      readonly quantity: string;
      readonly known: readonly string[];
    }
  /** A required argument is omitted or blank. */
  | { readonly kind: 'missing'; readonly argument: string }
  /** A name that is not in a closed list: gas, rig, unit, kind, condition, function, tube size. */
  | { readonly kind: 'unknown'; readonly what: string; readonly value: string; readonly known: readonly string[] }
  | {
      readonly kind: 'missing-header';
      readonly table: string;
      readonly header: string;
      readonly found: readonly string[];
    }
  | { readonly kind: 'duplicate-header'; readonly table: string; readonly header: string }
  | { readonly kind: 'empty-table'; readonly table: string }
  | { readonly kind: 'too-many-rows'; readonly table: string; readonly rows: number; readonly limit: number }
  /** Two arguments in the wrong order, e.g. an outlet pressure above the inlet pressure. */
  | {
      readonly kind: 'order';
      readonly upper: string;
      readonly upperValue: number;
      readonly lower: string;
      readonly lowerValue: number;
      readonly unit: string;
    }
  /** A pressure that a rig cannot reach. */
  | { readonly kind: 'out-of-reach'; readonly targetPa: number; readonly lowestPa: number; readonly because: string }
  | { readonly kind: 'no-pump'; readonly rig: string }
  | { readonly kind: 'no-solution'; readonly reason: string; readonly todo: string }
  /** An argument cell holds an error value itself. */
  | { readonly kind: 'cell-error'; readonly argument: string; readonly code: string }
  /** Outside the range where a model holds. */
  | {
      readonly kind: 'model-range';
      readonly model: string;
      readonly argument: string;
      readonly value: number;
      readonly min: number;
      readonly max: number;
      readonly unit: string;
    }
  | { readonly kind: 'arguments'; readonly function: string; readonly given: number; readonly most: number }
  | {
      readonly kind: 'wrong';
      readonly argument: string;
      readonly found: string;
      readonly allowed: string;
      readonly todo: string;
    }
  /** A result that is no finite number: the arguments are each allowed, together they leave what can be worked out. */
  | { readonly kind: 'not-finite'; readonly function: string }
  /** A bug of ours: the text is for the reader, the cause goes to the log. */
  | { readonly kind: 'internal'; readonly detail: string };

/** The exception that carries an issue up to the one place that turns it into a cell error. */
export class Fault extends Error {
  readonly issue: Issue;
  readonly place: Place | undefined;
  constructor(issue: Issue, place?: Place) {
    super(issue.kind);
    this.name = 'Fault';
    this.issue = issue;
    this.place = place;
  }
}

export function raise(issue: Issue, place?: Place): never {
  throw new Fault(issue, place);
}

/** Runs `read`; a fault raised inside without a place is given this one. */
export function at<T>(place: Place, read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (error instanceof Fault && error.place === undefined) throw new Fault(error.issue, place);
    throw error;
  }
}
