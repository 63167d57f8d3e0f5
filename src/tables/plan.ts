import { findGas } from '../engine/gas/gas.ts';
import { CURVE_TOP } from '../engine/rig/curve.ts';
import { Fault, type Issue } from '../faults/issue.ts';
import type { CellRange } from './cells.ts';
import { type Column, type FaultSink, type OpenTable, openTable, throwFault } from './table.ts';

/** A pull and the break after it. SI. */
export interface PlanRow {
  /** Pa; undefined in the last row: the target of the conditions */
  readonly pullTo?: number;
  /** s */
  readonly longestPull?: number;
  /** undefined in the last row alone */
  readonly fill?: {
    /** Pa */
    readonly to: number;
    /** name of the gas as it is known */
    readonly gas: string;
    /** Pa */
    readonly supply: number;
    /** s */
    readonly wait: number;
    /** W/K */
    readonly heat?: number;
  };
  readonly row: number;
}

export interface PlanTable {
  /** at least one */
  readonly steps: readonly PlanRow[];
}

/** More steps than this is a wrong range. */
export const MOST_STEPS = 100;
export const USUAL_GAS = 'nitrogen';
/** Pa above Break to: where Supply is blank (a choice of ours; regulators of the trade are set higher still) */
export const USUAL_LEAD = 1e5;
/** Pa; ideal gas is within 1 % up to here (nitrogen, from memory) */
const MOST_SUPPLY = 5e6;

/** Gases that never go into a system with oil in it, and why. */
const REFUSED: ReadonlyMap<string, string> = new Map([
  ['oxygen', 'It explodes with oil. Use dry nitrogen.'],
  ['hydrogen', 'It burns and explodes with air. Use dry nitrogen.'],
  ['water vapour', 'It wets the system. Use dry nitrogen.'],
]);

export const PLAN_COLUMNS = {
  pullTo: {
    header: 'Pull to',
    synonyms: ['Pull down to', 'Vacuum', 'Pull'],
    needed: true,
    quantity: 'pressure',
    unit: 'Pa',
    limit: { above: 0 },
    description: 'pressure at which the pull ends; blank in the last row: Target pressure of the conditions',
  },
  breakTo: {
    header: 'Break to',
    synonyms: ['Break', 'Break pressure', 'Fill to'],
    needed: true,
    quantity: 'pressure',
    unit: 'Pa',
    limit: { above: 0, atMost: CURVE_TOP },
    description:
      'absolute pressure up to which gas is let in after the pull, or text with a gauge unit such as "0.2 bar g"; blank in the last row: no break',
  },
  gas: {
    header: 'Gas',
    synonyms: ['Break gas'],
    description: `gas that is let in; ${USUAL_GAS} where blank`,
  },
  supply: {
    header: 'Supply',
    synonyms: ['Supply pressure', 'Regulator'],
    quantity: 'pressure',
    unit: 'Pa',
    limit: { above: 0, atMost: MOST_SUPPLY },
    description:
      'absolute pressure at the outlet of the regulator, or text such as "2 bar g"; above Break to; 1 bar above it where blank',
  },
  wait: {
    header: 'Wait',
    synonyms: ['Hold', 'Stand', 'Standing time'],
    quantity: 'time',
    unit: 'min',
    limit: { atLeast: 0 },
    description: 'how long the gas stands in the system before the next pull; 0 where blank',
  },
  heat: {
    header: 'Heat under gas',
    synonyms: ['Heat', 'Heat conductance'],
    quantity: 'heat conductance',
    unit: 'W/K',
    limit: { above: 0 },
    description:
      'heat conductance to the water while gas comes in and stands; Heat of the conditions, as in a pull, where blank',
  },
  longest: {
    header: 'Longest pull',
    synonyms: ['Most minutes', 'Pull at most'],
    quantity: 'time',
    unit: 'min',
    limit: { above: 0 },
    description: 'the pull ends after this time even where its pressure is not there yet; no limit where blank',
  },
} as const satisfies Record<string, Column>;

type Source = OpenTable<keyof typeof PLAN_COLUMNS>;

/**
 * Reads a plan of pulls and breaks: one row a step. Every row but the last has its pressures; a plan may end with a break.
 * A blank row below that break, within the range, is a last pull to the target.
 *
 * Raises `order` for a break that is not above its pull or not below its supply, `unknown` for the gas, `wrong` for one
 * that must not go in and for a wait without a break, `missing`, and whatever is wrong with a cell, with its place.
 */
export function readPlan(range: CellRange, sink: FaultSink = throwFault): PlanTable {
  const table = openTable(range, 'plan', PLAN_COLUMNS, sink);
  if (table.rowCount > MOST_STEPS)
    throw new Fault(
      { kind: 'too-many-rows', table: 'plan', rows: table.rowCount, limit: MOST_STEPS },
      { table: 'plan' },
    );
  const steps: PlanRow[] = [];
  for (let row = 0; row < table.rowCount; row++) {
    const last = row === table.rowCount - 1;
    const pullTo = last ? table.number(row, 'pullTo') : table.needed(row, 'pullTo');
    const longestPull = table.number(row, 'longest');
    const fill = readFill(table, row, last, pullTo);
    steps.push({
      ...(pullTo === undefined ? {} : { pullTo }),
      ...(longestPull === undefined ? {} : { longestPull }),
      ...(fill === undefined ? {} : { fill }),
      row: table.rowNumber(row),
    });
  }
  const end = steps.at(-1);
  // the last pull to the target has nothing to say in any cell
  if (end?.fill !== undefined && range.length > end.row) steps.push({ row: end.row + 1 });
  return { steps };
}

function readFill(table: Source, row: number, last: boolean, pullTo: number | undefined): PlanRow['fill'] | undefined {
  const to = last ? table.number(row, 'breakTo') : table.needed(row, 'breakTo');
  const gas = readGas(table, row);
  const stated = table.number(row, 'supply');
  const wait = table.number(row, 'wait') ?? 0;
  if (to === undefined) {
    if (wait > 0 && table.blank(row, 'breakTo')) {
      const todo = 'Give Break to, or leave Wait blank.';
      table.fault(
        { kind: 'wrong', argument: 'Wait', found: 'given without a break', allowed: 'a time after a break', todo },
        row,
        'wait',
      );
    }
    return undefined;
  }
  const order = (upper: string, upperValue: number, lower: string, lowerValue: number): Issue => ({
    kind: 'order',
    upper,
    upperValue,
    lower,
    lowerValue,
    unit: 'Pa',
  });
  if (pullTo !== undefined && !(to > pullTo)) table.fault(order('Break to', to, 'Pull to', pullTo), row, 'breakTo');
  if (stated !== undefined && !(stated > to)) table.fault(order('Supply', stated, 'Break to', to), row, 'supply');
  const heat = table.number(row, 'heat');
  return { to, gas, supply: stated ?? to + USUAL_LEAD, wait, ...(heat === undefined ? {} : { heat }) };
}

function readGas(table: Source, row: number): string {
  const text = table.text(row, 'gas');
  if (text === undefined) return USUAL_GAS;
  try {
    const { name } = findGas(text);
    const why = REFUSED.get(name);
    if (why === undefined) return name;
    const allowed = 'a dry gas that neither burns nor feeds fire, such as nitrogen';
    table.fault({ kind: 'wrong', argument: 'Gas', found: name, allowed, todo: why }, row, 'gas');
  } catch (error) {
    if (!(error instanceof Fault) || error.place !== undefined) throw error;
    table.fault(error.issue, row, 'gas');
  }
  return USUAL_GAS;
}
