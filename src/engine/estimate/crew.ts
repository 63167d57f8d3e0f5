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
  /** '' where none is given: no way to it */
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
export function inDay(time: number): number {
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
export const SLACK = 1e-6;

/** Minutes that a job needs from first to last if nobody keeps it waiting. */
export function stretch(steps: readonly JobStep[]): number {
  return steps.reduce((sum, step) => sum + step.minutes, 0);
}

/** The longest attended step of a job, minutes. */
export function longestAttended({ steps }: Job): number {
  return steps.reduce((most, step) => (step.kind === 'attended' ? Math.max(most, step.minutes) : most), 0);
}

export type Misfit = 'attended' | 'stretch';

/** Why a crew cannot do a job: its day is too short for an attended step, or for all of it without a night. */
export function crewCannot(job: Job, { dayStart, dayEnd, overnight }: Crew, way: number): Misfit | undefined {
  const window = dayEnd - dayStart + SLACK;
  if (longestAttended(job) + way > window) return 'attended';
  return overnight || stretch(job.steps) + way <= window ? undefined : 'stretch';
}

/** Why no crew can do a job, or undefined where one can. The site's `travel` is taken as part of its day. */
export function fitsNowhere(job: Job, { crews, travel }: CrewSite): Misfit | undefined {
  const misfits = crews.map((crew) => crewCannot(job, crew, travel));
  if (misfits.includes(undefined)) return undefined;
  return misfits.includes('stretch') ? 'stretch' : 'attended';
}
