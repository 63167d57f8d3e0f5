import { pumpWaterLimit, USUAL_PUMP_TEMPERATURE } from '../engine/rig/ballast.ts';
import { pumpOfSpeed } from '../engine/rig/change.ts';
import { type SpeedPoint, ultimatePressure } from '../engine/rig/pump.ts';
import type { Machine, PartKind, Pump } from '../engine/rig/rig.ts';
import { Fault } from '../faults/issue.ts';
import { shortNumber } from '../faults/words.ts';
import { fromSI } from '../units/quantity.ts';
import type { LibraryPart } from './library/parts.ts';
import type { PartsColumn } from './parts-columns.ts';
import { readSpeedPairs, SAME_PRESSURE } from './speed-table.ts';
import type { OpenTable } from './table.ts';

/** The first row of a rig: the pump or the recovery machine that draws through it. */

type Source = OpenTable<PartsColumn>;

/** Part by which a Speed or Ultimate may miss what the Speed table beside it says: figures are rounded. */
const ROUNDED = 0.01;

/** The pump of a row, or what a machine is as a pump; undefined where its speed is faulty or missing. */
export function readPump(
  table: Source,
  row: number,
  kind: 'pump' | 'machine',
  library: LibraryPart | undefined,
): Pump | undefined {
  const name = table.text(row, 'part') ?? kind;
  if (kind === 'machine') refuseSpeedTable(table, row, kind);
  const byTable = kind === 'pump' && !table.blank(row, 'speedTable');
  const rated = byTable ? readTabled(table, row, name, library) : readRated(table, row, name, library);
  if (rated === undefined) return undefined;
  const ballast = table.number(row, 'gasBallast');
  const temperature = table.number(row, 'pumpTemperature') ?? USUAL_PUMP_TEMPERATURE;
  // the row's own ballast says more than the library's usual limit
  const worked = ballast === undefined ? undefined : pumpWaterLimit(rated, ballast, temperature);
  const waterLimit = table.number(row, 'waterLimit') ?? worked ?? library?.waterLimit;
  const count = table.number(row, 'count') ?? 1;
  const pump = pumpOfSpeed(rated, count * rated.speed);
  return waterLimit === undefined ? pump : { ...pump, waterLimit };
}

/** One pump by its rated speed. */
function readRated(table: Source, row: number, name: string, library: LibraryPart | undefined): Pump | undefined {
  const speed = table.number(row, 'speed') ?? library?.speed ?? table.needed(row, 'speed');
  if (speed === undefined) return undefined;
  return { name, speed, ultimate: table.number(row, 'ultimate') ?? library?.ultimate ?? 0 };
}

/** One pump by its speed table, which goes before the library's speed. */
function readTabled(table: Source, row: number, name: string, library: LibraryPart | undefined): Pump | undefined {
  const points = readPoints(table, row);
  if (points === undefined) return undefined;
  const speed = Math.max(...points.map(([, at]) => at));
  refuseOtherSpeed(table, row, speed);
  const end = ultimatePressure({ name, speed, ultimate: 0, speedTable: points });
  if (end > 0) {
    refuseOtherEnd(table, row, end);
    return { name, speed, ultimate: end, speedTable: points };
  }
  const ultimate = endBelow(table, row, points[0]?.[0] ?? 0, library);
  return { name, speed, ultimate, speedTable: ultimate > 0 ? [[ultimate, 0], ...points] : points };
}

function readPoints(table: Source, row: number): readonly SpeedPoint[] | undefined {
  const text = table.text(row, 'speedTable');
  if (text === undefined) return undefined;
  try {
    return readSpeedPairs(text);
  } catch (error) {
    if (!(error instanceof Fault) || error.place !== undefined) throw error;
    table.fault(error.issue, row, 'speedTable');
    return undefined;
  }
}

/** Pa at which a table whose lowest pair still has a speed ends: the row's own Ultimate, else the library's if it is below. */
function endBelow(table: Source, row: number, lowest: number, library: LibraryPart | undefined): number {
  const isBelow = (pressure: number): boolean => pressure * (1 + SAME_PRESSURE) < lowest;
  const own = table.number(row, 'ultimate');
  if (own === undefined) return library?.ultimate !== undefined && isBelow(library.ultimate) ? library.ultimate : 0;
  if (isBelow(own)) return own;
  const upper = 'the lowest pressure of Speed table';
  table.fault(
    { kind: 'order', upper, upperValue: lowest, lower: 'Ultimate', lowerValue: own, unit: 'Pa' },
    row,
    'ultimate',
  );
  return 0;
}

/** A speed that the table never reaches would be passed over, or stretch the table: neither is what its writer sees. */
function refuseOtherSpeed(table: Source, row: number, largest: number): void {
  const own = table.number(row, 'speed');
  if (own === undefined || Math.abs(own - largest) <= ROUNDED * largest) return;
  const inUnit = (speed: number): string => `${shortNumber(fromSI(speed, 'L/s', 'volume flow'))} L/s`;
  const found = `${inUnit(own)} beside a Speed table whose largest speed is ${inUnit(largest)}`;
  const todo = 'Clear Speed, or correct one of them.';
  table.fault(
    { kind: 'wrong', argument: 'Speed', found, allowed: 'a blank, or that largest speed', todo },
    row,
    'speed',
  );
}

function refuseOtherEnd(table: Source, row: number, end: number): void {
  const own = table.number(row, 'ultimate');
  if (own === undefined || Math.abs(own - end) <= ROUNDED * end) return;
  const found = `${shortNumber(own)} Pa beside a Speed table that comes to 0 at ${shortNumber(end)} Pa`;
  const todo = 'Clear Ultimate, or correct one of them.';
  table.fault(
    { kind: 'wrong', argument: 'Ultimate', found, allowed: 'a blank, or that pressure', todo },
    row,
    'ultimate',
  );
}

/** Only a pump has a speed table; elsewhere it stands in the wrong row and would be passed over. */
export function refuseSpeedTable(table: Source, row: number, kind: PartKind | 'machine'): void {
  if (table.blank(row, 'speedTable')) return;
  const todo =
    kind === 'machine'
      ? 'Clear the cell: Speed, Clearance, Efficiency and Ultimate say what a machine draws.'
      : 'Clear the cell, or move it to the row of the pump.';
  const found = `given for kind "${kind}"`;
  table.fault(
    { kind: 'wrong', argument: 'Speed table', found, allowed: 'the speeds of a pump', todo },
    row,
    'speedTable',
  );
}

/** Equal machines side by side (Count) are one of their displacement and liquid rate together. */
export function readMachine(table: Source, row: number, { name, speed, ultimate }: Pump): Machine {
  const count = table.number(row, 'count') ?? 1;
  const clearance = table.number(row, 'clearance');
  const liquidRate = table.number(row, 'liquidRate');
  return {
    name,
    displacement: speed,
    ultimate,
    ...(clearance === undefined ? {} : { clearance }),
    efficiency: table.number(row, 'efficiency') ?? 1,
    ...(liquidRate === undefined ? {} : { liquidRate: count * liquidRate }),
    approach: table.number(row, 'approach') ?? 0,
  };
}
