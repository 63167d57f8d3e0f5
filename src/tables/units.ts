import type { Fault } from '../faults/issue.ts';
import type { CellRange } from './cells.ts';
import { MOST_ACCESS, MOST_MINUTES, MOST_OF_A_KIND } from './labour-limits.ts';
import { type Column, type FaultSink, type OpenTable, openTable, throwFault } from './table.ts';

/** One row: a kind of unit, of which there are `count`. SI. */
export interface UnitRow {
  readonly name: string;
  readonly count: number;
  /** m3; undefined: take it from the runs */
  readonly volume: number | undefined;
  readonly rig: string;
  /** Pa */
  readonly target: number | undefined;
  /** kg */
  readonly water: number | undefined;
  /** K */
  readonly ambient: number | undefined;
  /** W/K */
  readonly heat: number | undefined;
  /** node of the unit's runs at which the rig is connected */
  readonly port: string | undefined;
  readonly refrigerant: string | undefined;
  /** kg */
  readonly charge: number | undefined;
  /** work on the unit, its place and its other rig, where the row says something of it */
  readonly labour: UnitWork;
  /** row within the range, from 1 */
  readonly row: number;
  /** the first fault of the row, where faults of rows are kept; its value is then undefined, a name '' */
  readonly fault: Fault | undefined;
}

/** What a row says of the work on one unit. SI; undefined takes the value of the conditions. */
export interface UnitWork {
  readonly setUp: number | undefined;
  readonly packUp: number | undefined;
  readonly hold: number | undefined;
  readonly holdReadings: number | undefined;
  readonly readingTime: number | undefined;
  readonly checkInterval: number | undefined;
  readonly checkTime: number | undefined;
  readonly breaks: number | undefined;
  readonly breakTime: number | undefined;
  readonly charging: number | undefined;
  readonly access: number | undefined;
  readonly area: string | undefined;
  /** rows of one kind are off by the same in LABOUR.RISK */
  readonly kind: string | undefined;
  readonly otherRig: string | undefined;
}

export interface UnitsTable {
  readonly units: readonly UnitRow[];
}

const minutes = { quantity: 'time', unit: 'min', limit: { atLeast: 0, atMost: MOST_MINUTES } } as const;
const number = { quantity: 'number', limit: { atLeast: 0, atMost: MOST_OF_A_KIND }, whole: true } as const;
const FALL_BACK = 'blank takes that of the conditions';

const WORK_COLUMNS = {
  setUp: {
    header: 'Set-up',
    synonyms: ['Set up', 'Set-up time'],
    ...minutes,
    description: `attended time to bring and connect the rig at one unit; ${FALL_BACK}`,
  },
  packUp: {
    header: 'Pack-up',
    synonyms: ['Pack up', 'Pack-up time'],
    ...minutes,
    description: `attended time to take the rig off one unit; ${FALL_BACK}`,
  },
  hold: {
    header: 'Hold',
    synonyms: ['Hold time', 'Hold test'],
    ...minutes,
    description: `time that one unit stands shut after the pull; ${FALL_BACK}`,
  },
  holdReadings: { header: 'Hold readings', ...number, description: `readings of the hold test; ${FALL_BACK}` },
  readingTime: { header: 'Reading time', ...minutes, description: `attended time for one reading; ${FALL_BACK}` },
  checkInterval: {
    header: 'Check interval',
    ...minutes,
    description: `pump time from one look at the pump to the next, 0 for none; ${FALL_BACK}`,
  },
  checkTime: { header: 'Check time', ...minutes, description: `attended time for one look; ${FALL_BACK}` },
  breaks: { header: 'Breaks', synonyms: ['Nitrogen breaks'], ...number, description: `nitrogen breaks; ${FALL_BACK}` },
  breakTime: { header: 'Break time', ...minutes, description: `attended time for one break; ${FALL_BACK}` },
  charging: {
    header: 'Charging',
    synonyms: ['Charging time'],
    ...minutes,
    description: `attended time to charge one unit; ${FALL_BACK}`,
  },
  access: {
    header: 'Access',
    synonyms: ['Access factor'],
    quantity: 'number',
    limit: { above: 0, atMost: MOST_ACCESS },
    description: `factor on all attended time at the unit; ${FALL_BACK}`,
  },
  area: { header: 'Area', synonyms: ['Floor', 'Zone'], description: 'where the units of the row are' },
  kind: {
    header: 'Kind',
    synonyms: ['Unit kind'],
    description: 'rows of one kind are off by the same factors in LABOUR.RISK; blank: the row is a kind of its own',
  },
  otherRig: {
    header: 'Other rig',
    synonyms: ['Better rig', 'Second rig'],
    description: 'rig that LABOUR.TABLE holds beside the first',
  },
} as const satisfies Record<string, Column>;

export const UNITS_COLUMNS = {
  unit: {
    header: 'Unit',
    synonyms: ['Unit name', 'System', 'Name'],
    needed: true,
    description: 'name of the kind of unit',
  },
  count: {
    header: 'Count',
    synonyms: ['Number', 'Qty', 'Quantity'],
    quantity: 'number',
    limit: { atLeast: 0 },
    whole: true,
    description: 'how many of them, default 1',
  },
  volume: {
    header: 'Volume',
    synonyms: ['Internal volume'],
    quantity: 'volume',
    unit: 'L',
    limit: { above: 0 },
    description: 'inside volume of one unit; blank takes it from the runs',
  },
  rig: { header: 'Rig', needed: true, description: 'name of a rig of the parts table' },
  target: {
    header: 'Target',
    synonyms: ['Target pressure'],
    quantity: 'pressure',
    unit: 'Pa',
    limit: { above: 0 },
    description: 'pressure to reach; blank takes that of the conditions',
  },
  water: {
    header: 'Water',
    quantity: 'mass',
    unit: 'g',
    limit: { atLeast: 0 },
    description: 'liquid water left in one unit',
  },
  ambient: {
    header: 'Ambient',
    synonyms: ['Ambient temperature'],
    quantity: 'temperature',
    unit: 'C',
    limit: { above: -273.15 },
    description: 'temperature around the unit',
  },
  heat: {
    header: 'Heat',
    synonyms: ['Heat conductance'],
    quantity: 'heat conductance',
    unit: 'W/K',
    limit: { atLeast: 0 },
    description: 'heat conductance from the surroundings to the water',
  },
  port: {
    header: 'Port',
    synonyms: ['Port node'],
    description: 'node of the unit’s runs at which the rig is connected; blank takes the unit as one volume',
  },
  refrigerant: { header: 'Refrigerant', description: 'refrigerant of the unit' },
  charge: {
    header: 'Charge',
    quantity: 'mass',
    unit: 'kg',
    limit: { atLeast: 0 },
    description: 'mass of refrigerant in one unit',
  },
  ...WORK_COLUMNS,
} as const satisfies Record<string, Column>;

/** Without a rig for each unit, for questions that ask which rig: a missing Rig is then "". */
const COLUMNS_WITHOUT_RIG = { ...UNITS_COLUMNS, rig: { ...UNITS_COLUMNS.rig, needed: false } } as const;

interface UnitsOptions {
  /** false: a Rig column is not needed */
  readonly rigs?: boolean;
  /** true: a fault in a row stays with the row, so that one bad cell does not take the table with it */
  readonly keepFaults?: boolean;
}

/** Reads a units table. Faults of the header and of the table as a whole always go to `sink`. */
export function readUnits(
  range: CellRange,
  sink: FaultSink = throwFault,
  { rigs = true, keepFaults = false }: UnitsOptions = {},
): UnitsTable {
  let fault: Fault | undefined;
  let reading = false;
  const rowSink: FaultSink = (found) => {
    if (reading && found.place?.row !== undefined && found.place.row > 1) fault ??= found;
    else sink(found);
  };
  const table = openTable(range, 'units', rigs ? UNITS_COLUMNS : COLUMNS_WITHOUT_RIG, keepFaults ? rowSink : sink);
  reading = true;
  const units: UnitRow[] = [];
  for (let row = 0; row < table.rowCount; row++) {
    fault = undefined;
    const name = table.neededText(row, 'unit');
    const rig = rigs ? table.neededText(row, 'rig') : (table.text(row, 'rig') ?? '');
    const count = table.number(row, 'count');
    const volume = table.number(row, 'volume');
    const target = table.number(row, 'target');
    const water = table.number(row, 'water');
    const ambient = table.number(row, 'ambient');
    const heat = table.number(row, 'heat');
    const port = table.text(row, 'port');
    const refrigerant = table.text(row, 'refrigerant');
    const charge = table.number(row, 'charge');
    const labour = readWork(table, row);
    if (fault === undefined && (name === undefined || rig === undefined)) continue;
    units.push({
      name: name ?? '',
      count: count ?? 1,
      volume,
      rig: rig ?? '',
      target,
      water,
      ambient,
      heat,
      port,
      refrigerant,
      charge,
      labour,
      row: table.rowNumber(row),
      fault,
    });
  }
  return { units };
}

/** One record for all rows of a table that has none of these columns. */
const NO_WORK: UnitWork = {
  setUp: undefined,
  packUp: undefined,
  hold: undefined,
  holdReadings: undefined,
  readingTime: undefined,
  checkInterval: undefined,
  checkTime: undefined,
  breaks: undefined,
  breakTime: undefined,
  charging: undefined,
  access: undefined,
  area: undefined,
  kind: undefined,
  otherRig: undefined,
};
const WORK_KEYS = Object.keys(WORK_COLUMNS) as (keyof typeof WORK_COLUMNS)[];

function readWork(table: OpenTable<keyof typeof UNITS_COLUMNS>, row: number): UnitWork {
  if (!WORK_KEYS.some((key) => table.has(key))) return NO_WORK;
  return {
    setUp: table.number(row, 'setUp'),
    packUp: table.number(row, 'packUp'),
    hold: table.number(row, 'hold'),
    holdReadings: table.number(row, 'holdReadings'),
    readingTime: table.number(row, 'readingTime'),
    checkInterval: table.number(row, 'checkInterval'),
    checkTime: table.number(row, 'checkTime'),
    breaks: table.number(row, 'breaks'),
    breakTime: table.number(row, 'breakTime'),
    charging: table.number(row, 'charging'),
    access: table.number(row, 'access'),
    area: table.text(row, 'area'),
    kind: table.text(row, 'kind'),
    otherRig: table.text(row, 'otherRig'),
  };
}
