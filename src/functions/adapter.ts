import { codeOf } from '../faults/codes.ts';
import { Fault, type Issue, raise } from '../faults/issue.ts';
import { issueWords } from '../faults/words.ts';
import { type Cell, type CellRange, isCellError } from '../tables/cells.ts';
import type { Conditions } from '../tables/conditions.ts';
import { toRange } from '../tables/report.ts';
import { isSpillTable, type ReportUnits } from '../tables/spill.ts';
import { isQuantity, scaleFromSI } from '../units/quantity.ts';
import type { CellFunction, Parameter, RawArgument } from './define.ts';
import type { FaultWords, Outcome } from './outcome.ts';
import { isBlankArgument, isRange } from './parameters.ts';

/** Elements of one call that is worked out cell by cell; more is a whole column given by mistake. */
const MOST_LIFTED = 200_000;

type Answer = Exclude<Cell, null | undefined> | CellRange;

/** `criticalRatio` -> `critical ratio`, as people read it. */
export function argumentName(key: string): string {
  return key.replace(/([A-Z])/gu, (letter) => ` ${letter.toLowerCase()}`);
}

function faultWords(error: unknown): FaultWords {
  if (error instanceof Fault) return { code: codeOf(error.issue), message: issueWords(error.issue, error.place) };
  const issue: Issue = { kind: 'internal', detail: error instanceof Error ? error.message : String(error) };
  return { code: codeOf(issue), message: issueWords(issue) };
}

/**
 * The one place where raw arguments from a spreadsheet become the clean values of a body, and what the body gives becomes
 * a cell's value. Never throws.
 *
 * Omitted and blank are the same here. An argument that takes a single cell may be given a range: the function is then
 * worked out element by element, one row or column standing for all. An error in an argument goes on as it came.
 */
export function callFunction(fn: CellFunction, rawArguments: readonly RawArgument[]): Outcome {
  try {
    return call(fn, rawArguments);
  } catch (error) {
    return { ok: false, ...faultWords(error) };
  }
}

type Values = Record<string, unknown>;

interface Lifted {
  readonly key: string;
  readonly parameter: Parameter<unknown>;
  readonly range: CellRange;
}

function call(fn: CellFunction, rawArguments: readonly RawArgument[]): Outcome {
  const parameters = Object.entries(fn.parameters);
  const [, last] = parameters.at(-1) ?? [];
  if (rawArguments.length > parameters.length && last?.repeating !== true) {
    raise({ kind: 'arguments', function: fn.id, given: rawArguments.length, most: parameters.length });
  }
  const values: Values = Object.create(null);
  const lifted: Lifted[] = [];
  parameters.forEach(([key, parameter], index) => {
    if (parameter.repeating) {
      values[key] = readRepeating(key, parameter, rawArguments.slice(index));
      return;
    }
    const raw = unwrapped(rawArguments[index]);
    if (!parameter.takesRange && isRange(raw) && !isBlankArgument(raw)) lifted.push({ key, parameter, range: raw });
    else values[key] = readOne(key, parameter, raw);
  });
  const units = reportUnits(fn, values);
  if (lifted.length > 0) return lift(fn, values, lifted);
  return outcomeOf(answer(fn, values, units));
}

/** An answer as hosts take it: a range that holds errors comes with the words of the first that has any. */
function outcomeOf(value: Answer): Outcome {
  if (!isRange(value)) return { ok: true, value };
  for (const row of value) {
    for (const cell of row) {
      if (!isCellError(cell) || cell.message === undefined) continue;
      return { ok: true, value, firstFault: { code: cell.error as FaultWords['code'], message: cell.message } };
    }
  }
  return { ok: true, value };
}

/** A range of one cell is that cell. */
function unwrapped(raw: RawArgument): RawArgument {
  if (!isRange(raw) || raw.length !== 1) return raw;
  const [row] = raw;
  return row !== undefined && row.length === 1 ? row[0] : raw;
}

function readOne(key: string, parameter: Parameter<unknown>, raw: RawArgument): unknown {
  const name = argumentName(key);
  if (isBlankArgument(raw)) {
    if (!parameter.optional) raise({ kind: 'missing', argument: name });
    return parameter.read(null, name);
  }
  // a table of one cell is still a table: its reader says what is missing
  return parameter.read(raw, name);
}

function readRepeating(key: string, parameter: Parameter<unknown>, raws: readonly RawArgument[]): unknown[] {
  const keepsBlanks = parameter.kind === 'any';
  const given = keepsBlanks ? raws : raws.filter((raw) => !isBlankArgument(raw));
  if (given.length === 0 && !parameter.optional) raise({ kind: 'missing', argument: argumentName(key) });
  return given.flatMap((raw, index) => {
    const name = given.length > 1 ? `${argumentName(key)} ${index + 1}` : argumentName(key);
    return parameter.read(keepsBlanks ? raw : unwrapped(raw), name) as unknown[];
  });
}

function reportUnits(fn: CellFunction, values: Values): ReportUnits {
  for (const [key, parameter] of Object.entries(fn.parameters)) {
    if (parameter.kind === 'conditions') return (values[key] as Conditions | undefined)?.reportUnits ?? 'metric';
  }
  return 'metric';
}

function answer(fn: CellFunction, values: Values, units: ReportUnits): Answer {
  const result = fn.body(values);
  if (typeof result === 'number') return numberOut(fn, result);
  if (typeof result === 'string' || typeof result === 'boolean') return result;
  const range = isSpillTable(result) ? toRange(result, units) : result;
  if (range.length === 0 || (range[0]?.length ?? 0) === 0) {
    raise({ kind: 'internal', detail: `${fn.id} gave an empty table` });
  }
  for (const row of range) {
    for (let i = 0; i < row.length; i++) {
      const cell = row[i];
      if (typeof cell === 'number' && !Number.isFinite(cell)) raise({ kind: 'not-finite', function: fn.id });
    }
  }
  return range;
}

function numberOut(fn: CellFunction, si: number): number {
  const { result } = fn;
  const scale =
    result.kind === 'number' && result.quantity !== undefined && isQuantity(result.quantity)
      ? scaleFromSI(result.unit, result.quantity)
      : undefined;
  const value = scale === undefined ? si : scale(si);
  if (!Number.isFinite(value)) raise({ kind: 'not-finite', function: fn.id });
  // spreadsheets keep 15 digits; the rest is noise of the unit's factor
  return Number(value.toPrecision(15));
}

function widest(range: CellRange): number {
  let most = 1;
  for (const row of range) most = Math.max(most, row.length);
  return most;
}

/** Cell of a range that stands for (row, column) of the whole: one row or one column serves all; else undefined. */
function broadcast(range: CellRange, row: number, column: number): { readonly cell: Cell } | undefined {
  const cells = range.length === 1 ? range[0] : range[row];
  if (cells === undefined) return undefined;
  const index = cells.length === 1 ? 0 : column;
  return index < cells.length ? { cell: cells[index] } : undefined;
}

function lift(fn: CellFunction, fixed: Values, lifted: readonly Lifted[]): Outcome {
  if (fn.result.kind === 'table') {
    const [first] = lifted;
    const todo = 'Give a single cell, and one formula for each.';
    const argument = argumentName(first?.key ?? '');
    raise({ kind: 'wrong', argument, found: 'a range', allowed: `a single cell, since ${fn.id} gives a table`, todo });
  }
  const rowCount = Math.max(...lifted.map(({ range }) => range.length));
  // rows need not be of one length: the longest counts, and what is missing is told in its cell
  const columnCount = Math.max(...lifted.map(({ range }) => widest(range)));
  if (rowCount * columnCount > MOST_LIFTED) {
    raise({
      kind: 'wrong',
      argument: lifted.map(({ key }) => argumentName(key)).join(' by '),
      found: `${rowCount} x ${columnCount} cells`,
      allowed: `at most ${MOST_LIFTED} cells in one formula`,
      todo: 'Give the filled cells only, not whole rows or columns.',
    });
  }
  const element = (row: number, column: number): Cell => {
    const values: Values = { ...fixed };
    try {
      for (const { key, parameter, range } of lifted) {
        const found = broadcast(range, row, column);
        if (found === undefined) {
          const reason = `${argumentName(key)} has fewer cells than another argument`;
          const todo = 'Give ranges of one size.';
          raise({ kind: 'no-solution', reason, todo });
        }
        values[key] = readOne(key, parameter, found.cell);
      }
      const value = answer(fn, values, 'metric');
      if (!isRange(value)) return value;
      const todo = 'Give a single cell, and one formula for each.';
      const allowed = `a single cell, since ${fn.id} gives a table here`;
      return raise({ kind: 'wrong', argument: argumentName(lifted[0]?.key ?? ''), found: 'a range', allowed, todo });
    } catch (error) {
      const { code, message } = faultWords(error);
      return { error: code, message };
    }
  };
  const value = Array.from({ length: rowCount }, (_, row) =>
    Array.from({ length: columnCount }, (_, column) => element(row, column)),
  );
  return outcomeOf(value);
}
