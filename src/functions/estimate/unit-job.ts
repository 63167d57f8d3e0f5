import type { JobStep } from '../../engine/estimate/crew.ts';
import { jobSteps, type UnitLabour } from '../../engine/estimate/labour.ts';
import type { Rig } from '../../engine/rig/rig.ts';
import { Fault } from '../../faults/issue.ts';
import type { Conditions, LabourConditions } from '../../tables/conditions.ts';
import type { PartsTable } from '../../tables/rigs.ts';
import type { RunsTable } from '../../tables/runs.ts';
import { plainName } from '../../tables/table.ts';
import type { UnitRow, UnitWork } from '../../tables/units.ts';
import { rigFinder, volumeOf } from '../evacuation/project-rows.ts';
import { projectWork } from '../evacuation/project-work.ts';

const SECONDS_PER_MINUTE = 60;

/** The work on one unit of a row in minutes: the row's own cells, else the conditions. */
export function labourOf(row: UnitWork, standard: LabourConditions): UnitLabour {
  const minutes = (seconds: number): number => seconds / SECONDS_PER_MINUTE;
  return {
    setUp: minutes(row.setUp ?? standard.setUp),
    packUp: minutes(row.packUp ?? standard.packUp),
    hold: minutes(row.hold ?? standard.hold),
    holdReadings: row.holdReadings ?? standard.holdReadings,
    readingTime: minutes(row.readingTime ?? standard.readingTime),
    checkInterval: minutes(row.checkInterval ?? standard.checkInterval),
    checkTime: minutes(row.checkTime ?? standard.checkTime),
    breaks: row.breaks ?? standard.breaks,
    breakTime: minutes(row.breakTime ?? standard.breakTime),
    charging: minutes(row.charging ?? standard.charging),
    access: row.access ?? standard.access,
  };
}

/** Rows of units with their pulls and steps. Made anew for each call of a function. */
export interface UnitJobs {
  /** without regard to case and outer spaces */
  rig(name: string): Rig | Fault;
  /** minutes until dry, at the target, and the far end at the target, as Total of EVAC.PROJECT; or why not, with its place */
  pull(unit: UnitRow, rig: string): number | Fault;
  /** kg in one unit */
  waterOf(unit: UnitRow): number;
  /** K around a unit whose gas is at Ambient; undefined where it is at Temperature */
  ambientOf(unit: UnitRow): number | undefined;
  /** the steps of one unit of the row with its own rig; or why not */
  steps(unit: UnitRow): readonly JobStep[] | Fault;
}

export function unitJobs(parts: PartsTable, runs: RunsTable | undefined, conditions: Conditions): UnitJobs {
  const project = projectWork(conditions, runs);
  const rig = rigFinder(parts);
  const pull = (unit: UnitRow, rigName: string): number | Fault => {
    const { fault, row, target } = unit;
    if (fault !== undefined) return fault;
    const placed = (found: Fault, column?: string): Fault =>
      found.place === undefined
        ? new Fault(found.issue, { table: 'units', row, ...(column === undefined ? {} : { column }) })
        : found;
    const volume = volumeOf(unit, runs);
    if (typeof volume === 'string') {
      const [what = volume, ...todo] = volume.split(': ');
      const issue = { kind: 'no-solution', reason: what, todo: sentence(todo.join(': ')) } as const;
      return placed(new Fault(issue), 'Volume');
    }
    const gear = rig(rigName);
    if (gear instanceof Fault) return placed(gear, rigName === unit.rig ? 'Rig' : 'Other rig');
    const worked = project.work(unit, gear, volume, target ?? conditions.target);
    if (worked instanceof Fault) return placed(worked);
    return worked.total instanceof Fault ? placed(worked.total) : worked.total / SECONDS_PER_MINUTE;
  };
  return {
    rig,
    pull,
    waterOf: project.waterOf,
    ambientOf: project.ambientOf,
    steps: (unit) => {
      const minutes = pull(unit, unit.rig);
      return minutes instanceof Fault ? minutes : jobSteps(labourOf(unit.labour, conditions.labour), minutes);
    },
  };
}

function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/**
 * Minutes on the way to the units of each row: once for a row whose Area differs from that of the last row above that has one. The
 * first way to the site is not counted, nor is a row without an area or without units.
 */
export function travelMinutes(units: readonly UnitRow[], { travel }: LabourConditions): readonly number[] {
  let last: string | undefined;
  return units.map(({ labour: { area }, count }) => {
    if (area === undefined || count === 0) return 0;
    const here = plainName(area);
    const moved = last !== undefined && here !== last;
    last = here;
    return moved ? travel / SECONDS_PER_MINUTE : 0;
  });
}
