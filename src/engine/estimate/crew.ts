/**
 * Crews with few technicians and rigs working through many units: times in minutes from midnight of the first day, every day a
 * working day. No SI here.
 */

/** What one unit needs, step by step. The first and the last step are attended; the rig is taken from first to last. */
export type JobStep =
  /** a technician stays with it, without a break */
  | { readonly kind: 'attended'; readonly minutes: number }
  /** nobody is needed but for a look now and then; no checks where the interval is 0 */
  | {
      readonly kind: 'waiting';
      readonly minutes: number;
      readonly checkInterval: number;
      readonly checkMinutes: number;
    };

export interface Job {
  /** equal jobs have the same kind: their order does not matter */
  readonly kind: number;
  readonly area: string;
  readonly steps: readonly JobStep[];
}

export interface Crew {
  readonly name: string;
  readonly technicians: number;
  readonly rigs: number;
  /** minutes from midnight of the first day: no work before it */
  readonly start: number;
  /** minutes of the day between which attended work is done */
  readonly dayStart: number;
  readonly dayEnd: number;
  /** rigs may run while nobody is there */
  readonly overnight: boolean;
}

export interface CrewSite {
  readonly crews: readonly Crew[];
  /** minutes for a technician from one area to another */
  readonly travel: number;
}

export interface Placement {
  /** index of the job as it was given, and of the crew */
  readonly job: number;
  readonly crew: number;
  readonly start: number;
  readonly finish: number;
  /** a rig ran, or stood, through the crew's night */
  readonly overnight: boolean;
}

export interface Schedule {
  /** in the order of their starts */
  readonly placements: readonly Placement[];
  readonly finish: number;
  /** minutes that technicians spent on checks and on the way between areas */
  readonly checks: number;
  readonly travel: number;
}

export const DAY = 1440;

/** Where in its day a crew's moment lies. */
function inDay(time: number): number {
  return time - DAY * Math.floor(time / DAY);
}

/** The first moment from `time` on at which a crew may work for `minutes` without its day ending. */
export function nextWorking(crew: Crew, time: number, minutes: number): number {
  const from = Math.max(time, crew.start);
  const day = DAY * Math.floor(from / DAY);
  if (from < day + crew.dayStart) return day + crew.dayStart;
  return from + minutes <= day + crew.dayEnd + SLACK ? from : day + DAY + crew.dayStart;
}

/** Sums of minutes that should be equal may differ by this. */
const SLACK = 1e-6;

/** Minutes from `time` that a job still needs if nobody keeps it waiting. */
function stretch(steps: readonly JobStep[], from: number): number {
  let sum = 0;
  for (let i = from; i < steps.length; i++) sum += steps[i]?.minutes ?? 0;
  return sum;
}

const NO_JOB: Job = { kind: -1, area: '', steps: [] };

interface Technician {
  freeAt: number;
  area: string | undefined;
}

interface Running {
  readonly job: number;
  readonly area: string;
  readonly steps: readonly JobStep[];
  readonly start: number;
  /** the step that comes next, and when it may begin */
  next: number;
  readyAt: number;
  /** while a waiting step runs: when the next look is due */
  checkAt: number;
}

interface CrewState {
  readonly crew: Crew;
  readonly technicians: readonly Technician[];
  readonly running: Set<Running>;
}

/**
 * Works through the jobs in the order given, by a list rule: whenever a technician is free in the crew's day, the crew does the first of these
 * that there is and that fits into the day: the next step of the unit that has waited longest; a check that is due; the first
 * unit in the list that fits, where a rig is free. Crews ask in their order.
 *
 * A crew that leaves no rig running overnight begins a unit only when all of it fits into the day.
 * Checks that fall in the night, or while the one before is still due, are not made up for.
 *
 * @param order indices of the jobs; every job can be done by some crew (`fitsNowhere`)
 */
export function listSchedule(jobs: readonly Job[], order: readonly number[], { crews, travel }: CrewSite): Schedule {
  const states = crews.map(
    (crew): CrewState => ({
      crew,
      technicians: Array.from({ length: crew.technicians }, () => ({ freeAt: crew.start, area: undefined })),
      running: new Set(),
    }),
  );
  const waitingJobs = [...order];
  const placements: Placement[] = [];
  let checks = 0;
  let travelled = 0;
  let time = Math.min(...crews.map((crew) => nextWorking(crew, crew.start, 0)));

  /** Minutes on the way to an area; the first way to the site is not counted. */
  const wayTo = (technician: Technician, area: string): number =>
    technician.area === undefined || technician.area === area ? 0 : travel;

  const fits = ({ crew }: CrewState, minutes: number): boolean =>
    inDay(time) >= crew.dayStart - SLACK && inDay(time) + minutes <= crew.dayEnd + SLACK;

  /** After an attended step: the waiting steps that follow run by themselves up to the next attended one. */
  const goOn = (index: number, running: Running, end: number): void => {
    running.next += 1;
    running.readyAt = end;
    running.checkAt = Number.POSITIVE_INFINITY;
    const step = running.steps[running.next];
    if (step === undefined) {
      // the rig stays taken until the last step is done
      const { job, start } = running;
      const overnight = Math.floor(start / DAY) !== Math.floor((end - SLACK) / DAY);
      placements.push({ job, crew: index, start, finish: end, overnight });
      return;
    }
    if (step.kind === 'attended') return;
    running.readyAt = end + step.minutes;
    if (step.checkInterval > 0) running.checkAt = end + step.checkInterval;
    running.next += 1;
  };

  const attend = (state: CrewState, index: number, technician: Technician, running: Running): boolean => {
    const step = running.steps[running.next];
    if (step === undefined) return false;
    const way = wayTo(technician, running.area);
    const after = state.crew.overnight ? 0 : (running.steps[running.next + 1]?.minutes ?? 0);
    if (!fits(state, way + step.minutes + after)) return false;
    travelled += way;
    technician.freeAt = time + way + step.minutes;
    technician.area = running.area;
    goOn(index, running, technician.freeAt);
    return true;
  };

  const work = (state: CrewState, index: number, technician: Technician): boolean => {
    const { crew, running } = state;
    for (const one of running) if (one.next >= one.steps.length && one.readyAt <= time + SLACK) running.delete(one);
    const ready: Running[] = [];
    for (const one of running) if (one.readyAt <= time + SLACK) ready.push(one);
    if (ready.length > 1) ready.sort((a, b) => a.readyAt - b.readyAt);
    for (const one of ready) if (attend(state, index, technician, one)) return true;
    for (const one of running) {
      if (one.checkAt > time + SLACK || one.checkAt >= one.readyAt - SLACK) continue;
      const step = one.steps[one.next - 1];
      if (step?.kind !== 'waiting') continue;
      const minutes = wayTo(technician, one.area) + step.checkMinutes;
      if (!fits(state, minutes)) continue;
      travelled += minutes - step.checkMinutes;
      checks += step.checkMinutes;
      technician.freeAt = time + minutes;
      technician.area = one.area;
      // the looks that were missed are not made up for
      one.checkAt += step.checkInterval * Math.max(1, Math.ceil((time - one.checkAt) / step.checkInterval));
      return true;
    }
    if (running.size >= crew.rigs) return false;
    const tooLong = new Set<number>();
    for (let place = 0; place < waitingJobs.length; place++) {
      const job = waitingJobs[place] ?? 0;
      const { area, steps, kind } = jobs[job] ?? NO_JOB;
      if (tooLong.has(kind)) continue;
      const first = steps[0]?.minutes ?? 0;
      const needed = wayTo(technician, area) + (crew.overnight ? first : stretch(steps, 0));
      if (!fits(state, needed)) {
        tooLong.add(kind);
        continue;
      }
      waitingJobs.splice(place, 1);
      const begun: Running = {
        job,
        area,
        steps,
        start: time,
        next: 0,
        readyAt: time,
        checkAt: Number.POSITIVE_INFINITY,
      };
      running.add(begun);
      return attend(state, index, technician, begun);
    }
    return false;
  };

  while (placements.length < order.length) {
    let busy = false;
    states.forEach((state, index) => {
      for (const technician of state.technicians)
        while (technician.freeAt <= time + SLACK && time >= state.crew.start - SLACK && work(state, index, technician))
          busy = true;
    });
    if (busy) continue;
    time = nextEvent(states, time);
  }
  placements.sort((a, b) => a.start - b.start || a.crew - b.crew || a.job - b.job);
  const finish = placements.reduce((latest, placement) => Math.max(latest, placement.finish), 0);
  return { placements, finish, checks, travel: travelled };
}

/** The next moment at which something may begin. */
function nextEvent(states: readonly CrewState[], time: number): number {
  let next = Number.POSITIVE_INFINITY;
  const may = (moment: number): void => {
    if (moment > time + SLACK && moment < next) next = moment;
  };
  for (const { crew, technicians, running } of states) {
    for (const { freeAt } of technicians) may(freeAt);
    for (const { readyAt, checkAt } of running) {
      may(readyAt);
      may(checkAt);
    }
    may(crew.start);
    const day = DAY * Math.floor(time / DAY);
    may(day + crew.dayStart);
    may(day + DAY + crew.dayStart);
  }
  return next;
}

/** The longest attended step of a job, with the way to it where the crew works in several areas; minutes. */
export function longestAttended({ steps }: Job): number {
  return steps.reduce((most, step) => (step.kind === 'attended' ? Math.max(most, step.minutes) : most), 0);
}

/** Why a crew cannot do a job at all: its day is too short for an attended step, or for all of it without a night. */
export function fitsNowhere(job: Job, { crews, travel }: CrewSite): 'attended' | 'stretch' | undefined {
  const attended = longestAttended(job) + travel;
  const able = crews.filter(({ dayStart, dayEnd }) => attended <= dayEnd - dayStart + SLACK);
  if (able.length === 0) return 'attended';
  const whole = stretch(job.steps, 0) + travel;
  if (able.some(({ overnight, dayStart, dayEnd }) => overnight || whole <= dayEnd - dayStart + SLACK)) return undefined;
  return 'stretch';
}
