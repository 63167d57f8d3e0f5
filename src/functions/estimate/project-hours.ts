import type { Rig } from '../../engine/rig/rig.ts';
import { Fault } from '../../faults/issue.ts';
import { placeWords } from '../../faults/words.ts';
import type { Conditions } from '../../tables/conditions.ts';
import type { RunsTable } from '../../tables/runs.ts';
import type { UnitRow } from '../../tables/units.ts';
import { volumeOf } from '../evacuation/project-rows.ts';
import { faultWords } from '../evacuation/project-verdict.ts';
import { projectWork } from '../evacuation/project-work.ts';

/** Units of a project that any rig would take equally long for; SI. */
export interface UnitGroup {
  readonly unit: UnitRow;
  readonly volume: number;
  readonly target: number;
  count: number;
}

export interface ProjectHours {
  readonly groups: readonly UnitGroup[];
  /** rows without a volume or with a bad cell, and why */
  readonly leftOut: readonly { readonly unit: UnitRow; readonly why: string }[];
  /** s of pump time for all units of the groups with one rig, or the first reason that there is no answer */
  seconds(groups: readonly UnitGroup[], rig: Rig): number | string;
}

/**
 * Pump time of a whole project by rig, water and lines included, as Total of EVAC.PROJECT. Equal rows are worked out once.
 *
 * @param byRig true: rows with different rigs are kept apart
 */
export function projectHours(
  units: readonly UnitRow[],
  runs: RunsTable | undefined,
  conditions: Conditions,
  { byRig }: { readonly byRig: boolean },
): ProjectHours {
  const project = projectWork(conditions, runs);
  const groups = new Map<string, UnitGroup>();
  const leftOut: { unit: UnitRow; why: string }[] = [];
  for (const unit of units) {
    const volume = unit.fault === undefined ? volumeOf(unit, runs) : faultWords(unit.fault);
    if (typeof volume === 'string') {
      leftOut.push({ unit, why: volume });
      continue;
    }
    const target = unit.target ?? conditions.target;
    const { water, ambient, heat, port } = unit;
    const key = JSON.stringify([
      volume,
      target,
      water,
      ambient,
      heat,
      port,
      port === undefined ? '' : unit.name,
      byRig ? unit.rig.toLowerCase() : '',
    ]);
    const known = groups.get(key);
    if (known === undefined) groups.set(key, { unit, volume, target, count: unit.count });
    else known.count += unit.count;
  }
  return {
    groups: [...groups.values()].filter(({ count }) => count > 0),
    leftOut,
    seconds(some, rig) {
      let sum = 0;
      for (const { unit, volume, target, count } of some) {
        const worked = project.work(unit, rig, volume, target);
        const total = worked instanceof Fault ? worked : worked.total;
        if (total instanceof Fault) return `${unit.name}: ${faultWords(total)}`;
        sum += count * total;
      }
      return sum;
    },
  };
}

/** What was left out, as words for the last row of a table; undefined where nothing was. */
export function leftOutWords({ leftOut }: ProjectHours): string | undefined {
  const [first] = leftOut;
  if (first === undefined) return undefined;
  const rows = leftOut.length === 1 ? '1 row of the units is' : `${leftOut.length} rows of the units are`;
  const { row, fault } = first.unit;
  // words of a fault of the row name it already
  const where = fault?.place?.row === row ? '' : `${placeWords({ table: 'units', row })}: `;
  return `${rows} left out; ${where}${first.why}`;
}
