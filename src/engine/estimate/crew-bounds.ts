import { type Crew, type CrewSite, crewCannot, DAY, type Job, nextWorking, SLACK } from './crew.ts';
import { listSchedule } from './list-schedule.ts';

/** How soon any plan at all can be done, whatever its rule. Minutes. */

/** No plan finishes before the latest of these. */
export interface FinishBounds {
  /** all attended work, spread over all technicians without a gap */
  readonly attendedWork: number;
  /** all time on rigs, spread over all rigs without a gap */
  readonly rigTime: number;
  /** the unit that takes longest, begun first */
  readonly longestUnit: number;
}

export function minutesOf({ steps }: Job, kind?: 'attended' | 'waiting'): number {
  return steps.reduce((sum, step) => sum + (kind === undefined || step.kind === kind ? step.minutes : 0), 0);
}

/** Minutes of a crew's working days between its start and a moment. */
function workingMinutes(crew: Crew, until: number): number {
  const upTo = (time: number): number => {
    const days = Math.floor(time / DAY);
    const today = Math.min(Math.max(time - DAY * days - crew.dayStart, 0), crew.dayEnd - crew.dayStart);
    return days * (crew.dayEnd - crew.dayStart) + today;
  };
  return Math.max(0, upTo(until) - upTo(crew.start));
}

/** The first moment at which a capacity (minutes, never falling) reaches an amount. */
function firstReaching(amount: number, capacity: (until: number) => number): number {
  let high = DAY;
  while (capacity(high) < amount) high *= 2;
  let low = 0;
  while (high - low > 1e-9 + 1e-12 * high) {
    const middle = 0.5 * (low + high);
    if (capacity(middle) < amount) low = middle;
    else high = middle;
  }
  return low;
}

/** The first moment from `time` on at which some crew can have ended a unit: never at night, never sooner than its last step allows. */
function atWork(time: number, last: number, { crews }: CrewSite): number {
  return crews.reduce((soonest, crew) => {
    const day = DAY * Math.floor(Math.max(time, crew.start) / DAY);
    const opens = Math.max(day + crew.dayStart, crew.start) + last;
    const sameDay = Math.max(time, opens);
    const moment = sameDay <= day + crew.dayEnd + SLACK ? sameDay : day + DAY + crew.dayStart + last;
    return Math.min(soonest, moment);
  }, Number.POSITIVE_INFINITY);
}

/**
 * Lower bounds of the finish; checks and ways between areas are left out, as a plan might do without. A bound that falls
 * in the night is moved to the first moment at which a unit can have been packed up.
 */
export function finishBounds(jobs: readonly Job[], site: CrewSite): FinishBounds {
  if (jobs.length === 0) return { attendedWork: 0, rigTime: 0, longestUnit: 0 };
  const total = (kind?: 'attended'): number => jobs.reduce((sum, job) => sum + minutesOf(job, kind), 0);
  const last = jobs.reduce((least, { steps }) => Math.min(least, steps.at(-1)?.minutes ?? 0), Number.POSITIVE_INFINITY);
  const attendedWork = firstReaching(total('attended'), (until) =>
    site.crews.reduce((sum, crew) => sum + crew.technicians * workingMinutes(crew, until), 0),
  );
  const rigTime = firstReaching(total(), (until) =>
    site.crews.reduce((sum, crew) => {
      const running = crew.overnight
        ? Math.max(0, until - nextWorking(crew, crew.start, 0))
        : workingMinutes(crew, until);
      return sum + crew.rigs * running;
    }, 0),
  );
  let longestUnit = 0;
  const kinds = new Map(jobs.map((job) => [job.kind, job]));
  for (const job of kinds.values()) {
    const unwatched: Job = {
      ...job,
      steps: job.steps.map((step) => (step.kind === 'waiting' ? { ...step, checkInterval: 0 } : step)),
    };
    let soonest = Number.POSITIVE_INFINITY;
    for (const crew of site.crews)
      if (crewCannot(job, crew, 0) === undefined)
        soonest = Math.min(soonest, listSchedule([unwatched], [0], { crews: [crew], travel: 0 }).finish);
    longestUnit = Math.max(longestUnit, soonest);
  }
  return { attendedWork: atWork(attendedWork, last, site), rigTime: atWork(rigTime, last, site), longestUnit };
}
