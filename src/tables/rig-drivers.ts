import { ballastWaterLimit, USUAL_PUMP_TEMPERATURE } from '../engine/rig/ballast.ts';
import type { Machine, Pump } from '../engine/rig/rig.ts';
import type { LibraryPart } from './library/parts.ts';
import type { PartsColumn } from './parts-columns.ts';
import type { OpenTable } from './table.ts';

/** The first row of a rig: the pump or the recovery machine that draws through it. */

type Source = OpenTable<PartsColumn>;

/** The pump of a row, or what a machine is as a pump; undefined where its speed is faulty or missing. */
export function readPump(
  table: Source,
  row: number,
  kind: 'pump' | 'machine',
  library: LibraryPart | undefined,
): Pump | undefined {
  const speed = table.number(row, 'speed') ?? library?.speed ?? table.needed(row, 'speed');
  if (speed === undefined) return undefined;
  const ultimate = table.number(row, 'ultimate') ?? library?.ultimate ?? 0;
  const ballast = table.number(row, 'gasBallast');
  const temperature = table.number(row, 'pumpTemperature') ?? USUAL_PUMP_TEMPERATURE;
  // the row's own ballast says more than the library's usual limit
  const worked = ballast === undefined ? undefined : ballastWaterLimit(speed, ballast, temperature);
  const waterLimit = table.number(row, 'waterLimit') ?? worked ?? library?.waterLimit;
  const count = table.number(row, 'count') ?? 1;
  const pump = { name: table.text(row, 'part') ?? kind, speed: count * speed, ultimate };
  return waterLimit === undefined ? pump : { ...pump, waterLimit };
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
