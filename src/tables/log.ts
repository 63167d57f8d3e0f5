import type { CellRange } from './cells.ts';
import { type Column, type FaultSink, openTable, throwFault } from './table.ts';

/** One reading of a logged pump-down or hold test. SI. */
export interface LogReading {
  /** s */
  readonly time: number;
  /** Pa */
  readonly pressure: number;
  /** K */
  readonly temperature?: number;
  readonly row: number;
}

export interface LogTable {
  /** by rising time */
  readonly readings: readonly LogReading[];
}

export const LOG_COLUMNS = {
  minutes: {
    header: 'Minutes',
    synonyms: ['Time', 'Elapsed'],
    needed: true,
    quantity: 'time',
    unit: 'min',
    limit: { atLeast: 0 },
    description: 'time since the start, rising from row to row',
  },
  pressure: {
    header: 'Pressure',
    // the last is what EVAC.CURVE calls it
    synonyms: ['Reading', 'System pressure'],
    needed: true,
    quantity: 'pressure',
    unit: 'Pa',
    limit: { atLeast: 0 },
    description: 'absolute pressure',
  },
  temperature: {
    header: 'Temperature',
    quantity: 'temperature',
    unit: 'C',
    limit: { above: -273.15 },
    description: 'temperature of the gas, where logged',
  },
} as const satisfies Record<string, Column>;

export function readLog(range: CellRange, sink: FaultSink = throwFault): LogTable {
  const table = openTable(range, 'log', LOG_COLUMNS, sink);
  const readings: LogReading[] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < table.rowCount; row++) {
    const time = table.needed(row, 'minutes');
    const pressure = table.needed(row, 'pressure');
    const temperature = table.number(row, 'temperature');
    if (time === undefined || pressure === undefined) continue;
    if (!(time > last)) {
      const todo = 'Sort the rows by time and remove those given twice.';
      table.fault(
        { kind: 'wrong', argument: 'Minutes', found: 'not later than in the row above', allowed: 'rising time', todo },
        row,
        'minutes',
      );
      continue;
    }
    last = time;
    const reading = { time, pressure, row: table.rowNumber(row) };
    readings.push(temperature === undefined ? reading : { ...reading, temperature });
  }
  return { readings };
}
