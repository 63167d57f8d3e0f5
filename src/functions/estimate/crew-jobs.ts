import { type CrewSite, crewCannot, DAY, fitsNowhere, type Job, longestAttended } from '../../engine/estimate/crew.ts';
import { Fault, type Issue } from '../../faults/issue.ts';
import type { Conditions } from '../../tables/conditions.ts';
import type { CrewsTable } from '../../tables/crews.ts';
import { plainName } from '../../tables/table.ts';
import type { UnitRow } from '../../tables/units.ts';
import type { UnitJobs } from './unit-job.ts';

/** More units than this are no plan that anybody reads. */
export const MOST_PLANNED = 20_000;
/** Looks at pumps over all units: beyond this a plan would take minutes to work out. */
const MOST_CHECKS = 1_000_000;
const SECONDS_PER_MINUTE = 60;

export interface PlannedJobs {
  readonly jobs: readonly Job[];
  /** by job: its row of the units table */
  readonly units: readonly UnitRow[];
  /** rows that cannot be planned, and why */
  readonly leftOut: readonly { readonly unit: UnitRow; readonly fault: Fault }[];
}

export function crewSite({ crews }: CrewsTable, { labour }: Conditions): CrewSite {
  return {
    travel: labour.travel / SECONDS_PER_MINUTE,
    crews: crews.map(({ name, technicians, rigs, startDay, dayStart, dayEnd, overnight }) => ({
      name,
      technicians,
      rigs,
      start: (startDay - 1) * DAY + dayStart,
      dayStart,
      dayEnd,
      overnight,
    })),
  };
}

function tooMany(units: number): Fault {
  return new Fault(
    {
      kind: 'limit',
      argument: 'Count, summed over all rows,',
      value: units,
      rule: 'at most',
      limit: MOST_PLANNED,
      unit: 'units',
      todo: 'Plan the project in parts, for example one building at a time.',
    },
    { table: 'units', column: 'Count' },
  );
}

/** Every unit of every row as a job. Raises where there are too many. */
export function plannedJobs(rows: readonly UnitRow[], site: CrewSite, work: UnitJobs): PlannedJobs {
  const total = rows.reduce((sum, { count }) => sum + count, 0);
  if (total > MOST_PLANNED) throw tooMany(total);
  const kinds = new Map<string, number>();
  const jobs: Job[] = [];
  const units: UnitRow[] = [];
  const leftOut: { unit: UnitRow; fault: Fault }[] = [];
  const areas = new Set(rows.flatMap(({ labour: { area } }) => (area === undefined ? [] : [plainName(area)])));
  const effective = areas.size > 1 ? site : { ...site, travel: 0 };
  let checks = 0;
  for (const unit of rows) {
    if (unit.count === 0 && unit.fault === undefined) continue;
    const steps = work.steps(unit);
    if (steps instanceof Fault) {
      leftOut.push({ unit, fault: steps });
      continue;
    }
    const area = plainName(unit.labour.area ?? '');
    const key = JSON.stringify([area, steps]);
    const kind = kinds.get(key) ?? kinds.size;
    kinds.set(key, kind);
    const job: Job = { kind, area, steps };
    const misfit = fitsNowhere(job, effective);
    if (misfit !== undefined) {
      leftOut.push({ unit, fault: misfitFault(unit, job, effective) });
      continue;
    }
    for (const step of steps)
      if (step.kind === 'waiting' && step.checkInterval > 0) checks += unit.count * (step.minutes / step.checkInterval);
    if (checks > MOST_CHECKS)
      throw new Fault(
        {
          kind: 'limit',
          argument: 'The number of checks',
          value: Math.ceil(checks),
          rule: 'at most',
          limit: MOST_CHECKS,
          unit: 'checks',
          todo: 'Give a longer Check interval, or plan the project in parts.',
        },
        { table: 'units', row: unit.row },
      );
    for (let i = 0; i < unit.count; i++) {
      jobs.push(job);
      units.push(unit);
    }
  }
  return { jobs, units, leftOut };
}

const oneDecimal = (minutes: number): string => String(Number(minutes.toFixed(1)));

function misfitFault(unit: UnitRow, job: Job, site: CrewSite): Fault {
  const windows = site.crews.map(({ dayStart, dayEnd }) => dayEnd - dayStart);
  const longest = Math.max(...windows);
  const way = site.travel > 0 ? `, with ${oneDecimal(site.travel)} min on the way` : '';
  const byNight = site.crews.some((crew) => crewCannot(job, crew, site.travel) === 'stretch');
  const whole = job.steps.reduce((sum, { minutes }) => sum + minutes, 0);
  const issue: Issue = byNight
    ? {
        kind: 'no-solution',
        reason: `"${unit.name}" takes ${oneDecimal(whole)} min from set-up to pack-up${way}, more than a day of ${oneDecimal(longest)} min, and no crew that could do it lets rigs run overnight`,
        todo: 'Set Overnight of a crew to yes, lengthen its day, or use a faster rig.',
      }
    : {
        kind: 'no-solution',
        reason: `"${unit.name}" has a step of ${oneDecimal(longestAttended(job))} min that somebody stays for${way}, longer than any crew’s day (${oneDecimal(longest)} min)`,
        todo: 'Set Day start and Day end of a crew further apart, or shorten the step.',
      };
  return new Fault(issue, { table: 'units', row: unit.row });
}
