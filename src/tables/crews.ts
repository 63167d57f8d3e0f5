import { placeWords } from '../faults/words.ts';
import type { CellRange } from './cells.ts';
import { clockText, readClock } from './clock.ts';
import { type Column, type FaultSink, openTable, plainName, throwFault } from './table.ts';

/** One crew. Clock times in minutes from midnight. */
export interface CrewRow {
  readonly name: string;
  readonly technicians: number;
  /** sets of gear that can run at once: rigs, or pumps where there are fewer of them */
  readonly rigs: number;
  /** first day, from 1 */
  readonly startDay: number;
  readonly dayStart: number;
  readonly dayEnd: number;
  /** rigs may run while nobody is there */
  readonly overnight: boolean;
  /** row within the range, from 1 */
  readonly row: number;
}

export interface CrewsTable {
  /** at least one */
  readonly crews: readonly CrewRow[];
}

/** More than this is a slip. */
const MOST_PEOPLE = 500;
const MOST_DAYS = 10_000;
/** minutes; 08:00 to 16:00 is common practice, no source */
const USUAL_START = 480;
const USUAL_END = 960;

export const CREWS_COLUMNS = {
  crew: { header: 'Crew', synonyms: ['Crew name', 'Team'], needed: true, description: 'name of the crew' },
  technicians: {
    header: 'Technicians',
    synonyms: ['People', 'Fitters'],
    needed: true,
    quantity: 'number',
    limit: { atLeast: 1, atMost: MOST_PEOPLE },
    whole: true,
    description: 'people who attend units, each one unit at a time',
  },
  rigs: {
    header: 'Rigs',
    synonyms: ['Sets', 'Sets of gear'],
    needed: true,
    quantity: 'number',
    limit: { atLeast: 1, atMost: MOST_PEOPLE },
    whole: true,
    description: 'sets of gear, any rig; a unit holds one from its set-up to its pack-up',
  },
  pumps: {
    header: 'Pumps',
    quantity: 'number',
    limit: { atLeast: 1, atMost: MOST_PEOPLE },
    whole: true,
    description: 'pumps of the crew; where they are fewer than its rigs, they limit; blank: one a rig',
  },
  startDay: {
    header: 'Start day',
    synonyms: ['Start', 'First day', 'From day'],
    quantity: 'number',
    limit: { atLeast: 1, atMost: MOST_DAYS },
    whole: true,
    description: 'day on which the crew begins, counted in working days; 1 where blank',
  },
  dayStart: {
    header: 'Day start',
    synonyms: ['Day begins', 'From'],
    description: `clock at which its day begins: text such as 07:30, a time of day of the spreadsheet, or hours from 1 on; ${clockText(USUAL_START)} where blank (common practice, no source)`,
  },
  dayEnd: {
    header: 'Day end',
    synonyms: ['Day ends', 'Until'],
    description: `clock at which its day ends, later the same day; ${clockText(USUAL_END)} where blank (common practice, no source)`,
  },
  overnight: {
    header: 'Overnight',
    synonyms: ['Over night', 'Nights'],
    description: 'yes or no: rigs may run while nobody is there; yes where blank',
  },
} as const satisfies Record<string, Column>;

const YES_NO: ReadonlyMap<string, boolean> = new Map([
  ['yes', true],
  ['y', true],
  ['true', true],
  ['1', true],
  ['allowed', true],
  ['no', false],
  ['n', false],
  ['false', false],
  ['0', false],
]);

/**
 * Reads a crews table. Raises `limit` for a crew without technicians or rigs, `wrong` for a clock that cannot be read, a day
 * that does not end after it begins (a shift over midnight is not known), or a crew given twice.
 */
export function readCrews(range: CellRange, sink: FaultSink = throwFault): CrewsTable {
  const table = openTable(range, 'crews', CREWS_COLUMNS, sink);
  const crews: CrewRow[] = [];
  const taken = new Map<string, number>();
  const clock = (row: number, key: 'dayStart' | 'dayEnd', usual: number): number => {
    const text = table.text(row, key);
    if (text === undefined) return usual;
    const minutes = readClock(text);
    if (minutes !== undefined) return minutes;
    const todo = 'Write it as 07:30, or as hours.';
    const argument = CREWS_COLUMNS[key].header;
    table.fault({ kind: 'wrong', argument, found: `"${text}"`, allowed: 'a clock time of one day', todo }, row, key);
    return usual;
  };
  for (let row = 0; row < table.rowCount; row++) {
    const name = table.neededText(row, 'crew');
    const technicians = table.needed(row, 'technicians');
    const rigs = table.needed(row, 'rigs');
    const pumps = table.number(row, 'pumps') ?? Number.POSITIVE_INFINITY;
    const startDay = table.number(row, 'startDay') ?? 1;
    const dayStart = clock(row, 'dayStart', USUAL_START);
    const dayEnd = clock(row, 'dayEnd', USUAL_END);
    if (!(dayEnd > dayStart))
      table.fault(
        {
          kind: 'wrong',
          argument: 'Day end',
          found: `${clockText(dayEnd)}, with a day that begins at ${clockText(dayStart)}`,
          allowed: 'a clock after Day start, of the same day',
          todo: 'Give a later end; a shift over midnight is to be planned as a day of its own.',
        },
        row,
        'dayEnd',
      );
    const overnightText = table.text(row, 'overnight');
    const overnight = overnightText === undefined ? true : YES_NO.get(plainName(overnightText));
    if (overnight === undefined)
      table.fault(
        {
          kind: 'wrong',
          argument: 'Overnight',
          found: `"${overnightText}"`,
          allowed: 'yes or no',
          todo: 'Write one of them.',
        },
        row,
        'overnight',
      );
    if (name === undefined) continue;
    const key = plainName(name);
    const first = taken.get(key);
    if (first !== undefined) {
      const found = `"${name}" once more (${placeWords({ table: 'crews', row: first })})`;
      const todo = 'Give each crew a name of its own, or add its people to the other row.';
      table.fault({ kind: 'wrong', argument: 'Crew', found, allowed: 'each crew once', todo }, row, 'crew');
      continue;
    }
    taken.set(key, table.rowNumber(row));
    if (technicians === undefined || rigs === undefined) continue;
    crews.push({
      name,
      technicians,
      rigs: Math.min(rigs, pumps),
      startDay,
      dayStart,
      dayEnd,
      overnight: overnight ?? true,
      row: table.rowNumber(row),
    });
  }
  return { crews };
}
