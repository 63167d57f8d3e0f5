import { Fault } from '../faults/issue.ts';
import type { CellRange } from './cells.ts';
import { type Column, type FaultSink, openTable, throwFault } from './table.ts';

/** What one trade costs. Money is plain. */
export interface RoleRow {
  readonly name: string;
  /** money an hour of one person */
  readonly rate: number;
  /** people of the role during attended hours, and people paid while a unit waits */
  readonly attends: number;
  readonly waits: number;
  /** s of paid work in a day */
  readonly dayLength: number;
  /** money a paid day of one person */
  readonly travel: number;
  readonly row: number;
}

export interface RatesTable {
  /** at least one, of which at least one attends */
  readonly roles: readonly RoleRow[];
}

/** More people than this is a slip. */
const MOST_PEOPLE = 100;
const SECONDS_PER_HOUR = 3600;
/** h; common practice, no source */
export const USUAL_DAY = 8;

export const RATES_COLUMNS = {
  role: { header: 'Role', synonyms: ['Trade'], needed: true, description: 'name of the trade' },
  rate: {
    header: 'Rate',
    synonyms: ['Hourly rate', 'Rate per hour'],
    needed: true,
    quantity: 'number',
    limit: { atLeast: 0 },
    description: 'money an hour of one person',
  },
  attends: {
    header: 'Attends',
    quantity: 'number',
    limit: { atLeast: 0, atMost: MOST_PEOPLE },
    description: 'people of this role at a unit during attended hours; 1 where blank',
  },
  waits: {
    header: 'Waits',
    quantity: 'number',
    limit: { atLeast: 0, atMost: MOST_PEOPLE },
    description: 'people of this role who are paid while a unit waits; 0 where blank',
  },
  dayLength: {
    header: 'Day length',
    synonyms: ['Day'],
    quantity: 'time',
    unit: 'h',
    limit: { above: 0, atMost: 24 },
    description: `paid hours of one day; ${USUAL_DAY} h where blank (common practice, no source)`,
  },
  travel: {
    header: 'Travel',
    synonyms: ['Travel per day'],
    quantity: 'number',
    limit: { atLeast: 0 },
    description: 'money for each paid day of one person, for the way to the site or lodging; 0 where blank',
  },
} as const satisfies Record<string, Column>;

/**
 * Reads a rates table: one row a role. Raises `missing` for a role or a rate, `limit` for a negative rate or a day without hours, `wrong`
 * for a table in which nobody attends.
 */
export function readRates(range: CellRange, sink: FaultSink = throwFault): RatesTable {
  const table = openTable(range, 'rates', RATES_COLUMNS, sink);
  const roles: RoleRow[] = [];
  for (let row = 0; row < table.rowCount; row++) {
    const name = table.neededText(row, 'role');
    const rate = table.needed(row, 'rate');
    roles.push({
      name: name ?? '',
      rate: rate ?? 0,
      attends: table.number(row, 'attends') ?? 1,
      waits: table.number(row, 'waits') ?? 0,
      dayLength: table.number(row, 'dayLength') ?? USUAL_DAY * SECONDS_PER_HOUR,
      travel: table.number(row, 'travel') ?? 0,
      row: table.rowNumber(row),
    });
  }
  if (roles.length > 0 && roles.every(({ attends }) => attends === 0))
    sink(
      new Fault(
        {
          kind: 'wrong',
          argument: 'Attends',
          found: '0 in every row',
          allowed: 'at least one role that attends',
          todo: 'Give Attends of the role that does the work.',
        },
        { table: 'rates' },
      ),
    );
  return { roles };
}
