import type { Fault } from '../faults/issue.ts';
import type { CellRange } from './cells.ts';
import { type Column, type FaultSink, openTable, throwFault } from './table.ts';

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
  /** row within the range, from 1 */
  readonly row: number;
  /** the first fault of the row, where faults of rows are kept; its value is then undefined, a name '' */
  readonly fault: Fault | undefined;
}

export interface UnitsTable {
  readonly units: readonly UnitRow[];
}

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
      row: table.rowNumber(row),
      fault,
    });
  }
  return { units };
}
