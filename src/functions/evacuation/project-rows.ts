import type { Rig } from '../../engine/rig/rig.ts';
import type { Fault } from '../../faults/issue.ts';
import type { PartsTable } from '../../tables/rigs.ts';
import type { RunsTable } from '../../tables/runs.ts';
import type { UnitRow } from '../../tables/units.ts';
import { orFault } from './project-plans.ts';

/** Volume of a unit by its own cell, else by the pipe runs of its name; words where there is none. */
export function volumeOf(unit: UnitRow, runs: RunsTable | undefined): number | string {
  const volume = unit.volume ?? runs?.volumeOf(unit.name);
  if (volume === undefined)
    return runs === undefined
      ? 'Volume is blank: fill it in, or give the pipe runs.'
      : `Volume is blank, and the runs have no unit "${unit.name}": fill it in, or add its runs.`;
  return volume > 0 ? volume : 'The runs of this unit add up to no volume: check their lengths and counts.';
}

/** Rigs by the name as a unit row writes it, each name looked up once. */
export function rigFinder(parts: PartsTable): (name: string) => Rig | Fault {
  const found = new Map<string, Rig | Fault>();
  return (name) => {
    const known = found.get(name);
    if (known !== undefined) return known;
    const rig = orFault(() => parts.rig(name));
    found.set(name, rig);
    return rig;
  };
}
