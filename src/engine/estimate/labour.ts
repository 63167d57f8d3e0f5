import type { JobStep } from './crew.ts';
import { checkMinutes, type RiskRow } from './risk.ts';

/**
 * What one unit takes of people's time. Minutes, no SI here. One definition for the table of hours, their spread and the plan
 * of the crews.
 */
export interface UnitLabour {
  readonly setUp: number;
  readonly packUp: number;
  /** how long the system stands shut after the pull */
  readonly hold: number;
  /** how many readings of the hold test, and minutes for one */
  readonly holdReadings: number;
  readonly readingTime: number;
  /** minutes of pump time from look to look, and for one look; no looks where the interval is 0 */
  readonly checkInterval: number;
  readonly checkTime: number;
  /** how many nitrogen breaks, and minutes attended for one */
  readonly breaks: number;
  readonly breakTime: number;
  readonly charging: number;
  /** factor on all attended time: ladders, ceilings, roofs */
  readonly access: number;
}

/**
 * The steps of one unit, attended and waiting in turn: set-up, the pull, the first reading, the hold, the other readings with charging and pack-up.
 * The minutes of the pull are shared equally between its breaks + 1 parts, with a break after each part but the last. The attended
 * minutes are multiplied by `access`. Without a hold all readings come after the pull.
 *
 * @param pull minutes of pump time
 */
export function jobSteps(labour: UnitLabour, pull: number): readonly JobStep[] {
  const { access, breaks, hold, holdReadings, readingTime } = labour;
  const attended = (minutes: number): JobStep => ({ kind: 'attended', minutes: access * minutes });
  const { checkInterval } = labour;
  const part: JobStep = {
    kind: 'waiting',
    minutes: pull / (breaks + 1),
    checkInterval,
    checkMinutes: minutesOfCheck(labour),
  };
  const steps: JobStep[] = [attended(labour.setUp), part];
  for (let i = 0; i < breaks; i++) steps.push(attended(labour.breakTime), part);
  const end = labour.charging + labour.packUp;
  if (!(hold > 0)) return [...steps, attended(holdReadings * readingTime + end)];
  const first = Math.min(1, holdReadings);
  return [
    ...steps,
    attended(first * readingTime),
    { kind: 'waiting', minutes: hold, checkInterval: 0, checkMinutes: 0 },
    attended((holdReadings - first) * readingTime + end),
  ];
}

/** Attended minutes of one look at the pump. */
function minutesOfCheck({ access, checkTime, checkInterval }: UnitLabour): number {
  return checkInterval > 0 ? access * checkTime : 0;
}

/** What the steps of a job come to. */
export interface LabourMinutes {
  /** with the looks during the pull, without the way between areas */
  readonly attended: number;
  /** pull and hold, less the looks */
  readonly waiting: number;
}

export function minutesOfSteps(steps: readonly JobStep[]): LabourMinutes {
  let attended = 0;
  let waiting = 0;
  let checks = 0;
  for (const step of steps) {
    if (step.kind === 'attended') attended += step.minutes;
    else {
      waiting += step.minutes;
      checks += checkMinutes(step.minutes, step.checkInterval, step.checkMinutes);
    }
  }
  return { attended: attended + checks, waiting: Math.max(0, waiting - checks) };
}

/** Attended and waiting minutes of one unit. */
export function labourMinutes(labour: UnitLabour, pull: number): LabourMinutes {
  return minutesOfSteps(jobSteps(labour, pull));
}

/** The work on a unit as the sampling takes it: everything but the pull, the count and the way. */
export function riskWork(labour: UnitLabour): Pick<RiskRow, 'steady' | 'hold' | 'checkInterval' | 'checkMinutes'> {
  const { attended } = minutesOfSteps(jobSteps(labour, 0));
  // equal parts of the pull have equal looks: as many looks at once in as many times the interval
  const parts = labour.breaks + 1;
  return {
    steady: attended,
    hold: labour.hold,
    checkInterval: parts * labour.checkInterval,
    checkMinutes: parts * minutesOfCheck(labour),
  };
}
