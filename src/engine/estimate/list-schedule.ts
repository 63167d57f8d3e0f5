import {
  type Crew,
  type CrewSite,
  crewCannot,
  DAY,
  inDay,
  type Job,
  type JobStep,
  nextWorking,
  type Placement,
  type Schedule,
  SLACK,
  stretch,
} from './crew.ts';
import { type JobList, jobList } from './job-list.ts';

/** The list rule: from an order of the jobs to who does what when. Minutes. */

interface Technician {
  freeAt: number;
  area: number;
  /** when another area is reached if the way is begun as soon as that can be */
  thereAt: number;
}

interface Running {
  readonly job: number;
  readonly kind: KindOfJob;
  readonly start: number;
  /** the step that comes next, and when it may begin */
  next: number;
  readyAt: number;
  /** while a waiting step runs: when the next look is due */
  checkAt: number;
}

interface CrewState {
  readonly index: number;
  readonly crew: Crew;
  readonly technicians: readonly Technician[];
  readonly running: Running[];
}

/** What equal jobs have in common. */
interface KindOfJob {
  readonly steps: readonly JobStep[];
  readonly area: number;
  readonly first: number;
  readonly whole: number;
  /** by crew: can do it at all */
  readonly able: readonly boolean[];
}

/** of a technician: has been in no area yet; of a job: no area is given, it is on every way */
const NOWHERE = -1;

/** Choices within the list rule that a plan may try. */
export interface ListRule {
  /** begin a unit before units under way are gone on with */
  readonly beginFirst?: boolean;
  /** of the units that cannot be packed up today, begin the one that waits longest */
  readonly longestAtNight?: boolean;
}

/**
 * Decides in place of the list rule: which of so many things that may be done now, the last one often being to wait. `soonest` gives
 * what the plan cannot end before, as it stands. Undefined gives the plan up.
 */
export type Chooser = (options: number, soonest: () => number) => number | undefined;

/** With a chooser the plan may be given up: its finish is then infinite. */
export type Scheduler = (order: readonly number[], rule?: ListRule, chooser?: Chooser) => Schedule;

/**
 * Works through the jobs in an order, by a list rule: whenever a technician is free in the crew's day, the crew does the first of these
 * that there is and that fits into the day: the next step of the unit that has waited longest; a check that is due; the first
 * unit in the list that fits, where a rig is free. Of the free technicians one who is in the area goes, else the one who can be there
 * first. Crews ask in their order.
 *
 * Whoever is free may be on the way already, since nothing else is asked of him until he goes: what is left of a way counts from the
 * moment he came free, in the crew's day and without a break. A unit holds its rig from when it is begun, the rest of the way included.
 *
 * A crew that leaves no rig running overnight begins a unit only when all of it fits into the day, and a pull only when its
 * end does; a unit that was kept waiting may stand connected until the morning.
 * Checks that fall in the night, or while the one before is still due, are not made up for.
 *
 * The schedule for a list of indices of the jobs; every job can be done by some crew (`fitsNowhere`).
 */
export function scheduler(jobs: readonly Job[], { crews, travel }: CrewSite): Scheduler {
  const areas = new Map<string, number>();
  for (const { area } of jobs) if (area !== '' && !areas.has(area)) areas.set(area, areas.size);
  const kinds: KindOfJob[] = [];
  const kindOf = new Int32Array(jobs.length);
  const known = new Map<number, number>();
  const way = areas.size > 1 ? travel : 0;
  jobs.forEach((job, index) => {
    let kind = known.get(job.kind);
    if (kind === undefined) {
      kind = kinds.length;
      known.set(job.kind, kind);
      kinds.push({
        steps: job.steps,
        area: areas.get(job.area) ?? NOWHERE,
        first: job.steps[0]?.minutes ?? 0,
        whole: stretch(job.steps),
        able: crews.map((crew) => crewCannot(job, crew, way) === undefined),
      });
    }
    kindOf[index] = kind;
  });
  // by crew, the least that a unit needs of the day it is begun in: where that does not fit, the list is not looked through
  const shortest = crews.map((_, index) =>
    kinds.reduce((least, kind) => Math.min(least, needOf(kind, crews, index)), Number.POSITIVE_INFINITY),
  );
  const longestFirst = kinds
    .map((_, kind) => kind)
    .sort((a, b) => (kinds[b]?.whole ?? 0) - (kinds[a]?.whole ?? 0) || a - b);
  return (order, rule = {}, chooser) => {
    const work = {
      kinds,
      kindOf,
      longestFirst,
      shortest,
      list: jobList(order, kindOf, kinds.length),
      way,
      rule,
      chooser,
    };
    return runList(work, crews);
  };
}

/** Minutes of one day that a unit needs to be begun. */
function needOf({ able, first, whole }: KindOfJob, crews: readonly Crew[], crew: number): number {
  if (able[crew] !== true) return Number.POSITIVE_INFINITY;
  return crews[crew]?.overnight === true ? first : whole;
}

/** As `scheduler`, for one order. */
export function listSchedule(
  jobs: readonly Job[],
  order: readonly number[],
  site: CrewSite,
  rule: ListRule = {},
): Schedule {
  return scheduler(jobs, site)(order, rule);
}

interface ListWork {
  readonly kinds: readonly KindOfJob[];
  readonly kindOf: Int32Array;
  readonly longestFirst: readonly number[];
  readonly shortest: readonly number[];
  readonly list: JobList;
  readonly way: number;
  readonly rule: ListRule;
  readonly chooser: Chooser | undefined;
}

const NONE: readonly Running[] = [];
const NO_KIND: KindOfJob = { steps: [], area: NOWHERE, first: 0, whole: 0, able: [] };

/** Whether one free technician goes to an area rather than another one. */
function goesRather(one: Technician, other: Technician, area: number): boolean {
  // of two in the area the one who came free last: the other may be on the way elsewhere
  if (one.area === area) return other.area !== area || one.freeAt > other.freeAt;
  if (other.area === area || other.area === NOWHERE) return false;
  return one.area === NOWHERE || one.thereAt < other.thereAt;
}

function runList(
  { kinds, kindOf, longestFirst, shortest, list, way, rule, chooser }: ListWork,
  crews: readonly Crew[],
): Schedule {
  const { order, after, before, firstOf, sameAfter } = list;
  const ending = order.length;
  const states = crews.map(
    (crew, index): CrewState => ({
      index,
      crew,
      technicians: Array.from({ length: crew.technicians }, () => ({
        freeAt: crew.start,
        area: NOWHERE,
        thereAt: crew.start,
      })),
      running: [],
    }),
  );
  const placements: Placement[] = [];
  const refused = new Int32Array(kinds.length).fill(-1);
  const least = [...shortest];
  /** as `least`, for units that are packed up the same day */
  const leastWhole = crews.map(() => 0);
  /** some units have an area and some have none */
  const mixed = way > 0 && kinds.some(({ area }) => area === NOWHERE);
  let looks = 0;
  let checks = 0;
  let travelled = 0;
  let time = Math.min(...crews.map((crew) => nextWorking(crew, crew.start, 0)));
  let clock = inDay(time);

  const isThere = (technician: Technician, area: number): boolean =>
    way === 0 || area === NOWHERE || technician.area === NOWHERE || technician.area === area;

  /** Minutes of a way that are still to go now; the first way to the site is not counted. */
  const wayTo = (technician: Technician, area: number): number =>
    isThere(technician, area) ? 0 : Math.max(0, technician.thereAt - time);

  /** Sends a technician, who may be on the way since he came free; when he is done. */
  const send = ({ crew }: CrewState, technician: Technician, area: number, minutes: number): number => {
    technician.freeAt = time + wayTo(technician, area) + minutes;
    if (!isThere(technician, area)) travelled += way;
    if (area !== NOWHERE) technician.area = area;
    if (way > 0) technician.thereAt = nextWorking(crew, technician.freeAt, way) + way;
    return technician.freeAt;
  };

  const fits = ({ crew }: CrewState, minutes: number): boolean =>
    clock >= crew.dayStart - SLACK && clock + minutes <= crew.dayEnd + SLACK;

  /** The free technician who goes to an area: one who is in it, else one who has been nowhere yet, else the first who can be there. */
  const nearest = ({ technicians }: CrewState, area: number): Technician | undefined => {
    let best: Technician | undefined;
    for (const technician of technicians) {
      if (technician.freeAt > time + SLACK) continue;
      if (best === undefined || goesRather(technician, best, area)) best = technician;
    }
    return best;
  };

  /** After an attended step: the waiting steps that follow run by themselves up to the next attended one. */
  const goOn = (state: CrewState, running: Running, end: number): void => {
    const { steps } = running.kind;
    running.next += 1;
    running.readyAt = end;
    running.checkAt = Number.POSITIVE_INFINITY;
    const step = steps[running.next];
    if (step === undefined) {
      // the rig stays taken until the last step is done
      const { job, start } = running;
      const overnight = Math.floor(start / DAY) !== Math.floor((end - SLACK) / DAY);
      placements.push({ job, crew: state.index, start, finish: end, overnight });
      return;
    }
    if (step.kind === 'attended') return;
    running.readyAt = end + step.minutes;
    if (step.checkInterval > 0) running.checkAt = end + step.checkInterval;
    running.next += 1;
  };

  const attend = (state: CrewState, technician: Technician, running: Running): boolean => {
    const { steps, area } = running.kind;
    const step = steps[running.next];
    if (step === undefined) return false;
    const toThere = wayTo(technician, area);
    const follows = steps[running.next + 1];
    const unwatched = state.crew.overnight || follows?.kind !== 'waiting' ? 0 : follows.minutes;
    if (!fits(state, toThere + step.minutes + unwatched)) return false;
    goOn(state, running, send(state, technician, area, step.minutes));
    return true;
  };

  /** Units whose next step may begin, the one that has waited longest first. */
  const readyOf = ({ running }: CrewState): readonly Running[] => {
    let first: Running | undefined;
    let more: Running[] | undefined;
    for (const one of running) {
      if (one.readyAt > time + SLACK) continue;
      if (first === undefined) first = one;
      else if (more === undefined) more = [first, one];
      else more.push(one);
    }
    if (more !== undefined) return more.sort((a, b) => a.readyAt - b.readyAt);
    return first === undefined ? NONE : [first];
  };

  const goOnWithOne = (state: CrewState): boolean => {
    const ready = readyOf(state);
    for (const one of ready) {
      const technician = nearest(state, one.kind.area);
      if (technician !== undefined && attend(state, technician, one)) return true;
    }
    return false;
  };

  const checkOne = (state: CrewState): boolean => {
    for (const one of state.running) {
      // a pull that is over needs no look
      if (one.checkAt > time + SLACK || one.checkAt >= one.readyAt - SLACK || one.readyAt <= time + SLACK) continue;
      const step = one.kind.steps[one.next - 1];
      const technician = nearest(state, one.kind.area);
      if (step?.kind !== 'waiting' || technician === undefined) continue;
      if (!fits(state, wayTo(technician, one.kind.area) + step.checkMinutes)) continue;
      checks += step.checkMinutes;
      send(state, technician, one.kind.area, step.checkMinutes);
      // the looks that were missed are not made up for
      const missed = Math.floor((time - one.checkAt + SLACK) / step.checkInterval);
      one.checkAt += step.checkInterval * (1 + missed);
      return true;
    }
    return false;
  };

  /** The place of the unit that takes longest of those that may be begun now, one that is on nobody's way before others; or the end. */
  const longestPlace = (state: CrewState): number => {
    let elsewhere = ending;
    for (const number of longestFirst) {
      const place = firstOf[number] ?? ending;
      const kind = kinds[number];
      if (place === ending || kind === undefined) continue;
      const technician = nearest(state, kind.area);
      if (technician === undefined) return ending;
      const toThere = wayTo(technician, kind.area);
      if (toThere > 0 && elsewhere < ending) continue;
      if (!fits(state, toThere + needOf(kind, crews, state.index))) continue;
      if (toThere === 0) return place;
      elsewhere = place;
    }
    return elsewhere;
  };

  /** The first place in the list of a unit that may be begun now, with `today` of one that can be packed up today too; or the end. */
  const firstPlace = (state: CrewState, today: boolean): number => {
    const { index } = state;
    looks += 1;
    let needed = Number.POSITIVE_INFINITY;
    for (let place = after[ending] ?? ending; place < ending; place = after[place] ?? ending) {
      const number = kindOf[order[place] ?? 0] ?? 0;
      if (refused[number] === looks) continue;
      const kind = kinds[number] ?? NO_KIND;
      const technician = nearest(state, kind.area);
      if (technician === undefined) return ending;
      const need = today && kind.able[index] === true ? kind.whole : needOf(kind, crews, index);
      if (fits(state, wayTo(technician, kind.area) + need)) return place;
      if (need < needed) needed = need;
      refused[number] = looks;
    }
    // the list only gets shorter
    if (today) leastWhole[index] = needed;
    else least[index] = needed;
    return ending;
  };

  const beginOne = (state: CrewState): boolean => {
    const { running, index } = state;
    if (running.length >= state.crew.rigs || !fits(state, least[index] ?? 0)) return false;
    let place = ending;
    if (rule.longestAtNight === true) {
      if (fits(state, leastWhole[index] ?? 0)) place = firstPlace(state, true);
      if (place === ending) place = longestPlace(state);
    } else place = firstPlace(state, false);
    if (place === ending) return false;
    const technician = nearest(state, kinds[kindOf[order[place] ?? 0] ?? 0]?.area ?? NOWHERE);
    return technician !== undefined && beginAt(state, place, technician);
  };

  const beginAt = (state: CrewState, place: number, technician: Technician): boolean => {
    const { running } = state;
    const job = order[place] ?? 0;
    const number = kindOf[job] ?? 0;
    const kind = kinds[number] ?? NO_KIND;
    const [previous, following] = [before[place] ?? ending, after[place] ?? ending];
    after[previous] = following;
    before[following] = previous;
    // a kind is begun in the order of the list
    firstOf[number] = sameAfter[place] ?? ending;
    const begun: Running = { job, kind, start: time, next: 0, readyAt: time, checkAt: Number.POSITIVE_INFINITY };
    running.push(begun);
    return attend(state, technician, begun);
  };

  /** A moment before which a job cannot end, gone on with at once. */
  const chain = (crew: Crew, { steps }: KindOfJob, from: number, since: number): number => {
    let moment = since;
    for (let i = from; i < steps.length; i++) {
      const step = steps[i];
      if (step === undefined) break;
      moment = (step.kind === 'attended' ? nextWorking(crew, moment, step.minutes) : moment) + step.minutes;
    }
    return moment;
  };

  const soonest = (): number => {
    let bound = time;
    for (const { crew, running } of states)
      for (const { kind, next, readyAt } of running)
        bound = Math.max(bound, chain(crew, kind, next, Math.max(time, readyAt)));
    kinds.forEach((kind, number) => {
      if ((firstOf[number] ?? ending) === ending) return;
      let least = Number.POSITIVE_INFINITY;
      for (const { crew, index } of states)
        if (kind.able[index] === true) least = Math.min(least, chain(crew, kind, 0, time));
      bound = Math.max(bound, least);
    });
    return bound;
  };

  let givenUp = false;
  /** Of the free technicians those who differ in what they can do after a step in an area; the one of the list rule first. */
  const mayGo = (state: CrewState, area: number): readonly Technician[] => {
    const first = nearest(state, area);
    if (first === undefined) return [];
    const found = [first];
    // a step without an area leaves a technician where he is, so that who goes counts later; else nobody is better than the first
    for (const one of mixed ? state.technicians : []) {
      if (one.freeAt > time + SLACK) continue;
      const place = found.findIndex((other) => other.area === one.area);
      if (place < 0) found.push(one);
      else if (one.freeAt > (found[place]?.freeAt ?? 0)) found[place] = one;
    }
    return found;
  };

  /** As the chooser says: go on with a unit, begin one, or wait and look after pumps. */
  const workAsChosen = (state: CrewState, choose: Chooser): boolean => {
    const { crew, running, technicians } = state;
    const options: (() => boolean)[] = [];
    /** How many of those who may go have no time for it today any more. */
    const offer = (area: number, minutes: number, act: (technician: Technician) => boolean): number => {
      if (minutes === Number.POSITIVE_INFINITY) return 0;
      let late = 0;
      for (const technician of mayGo(state, area))
        if (fits(state, wayTo(technician, area) + minutes)) options.push(() => act(technician));
        else late += 1;
      return late;
    };
    let late = 0;
    for (const one of running) {
      const step = one.kind.steps[one.next];
      if (step === undefined || one.readyAt > time + SLACK) continue;
      const follows = one.kind.steps[one.next + 1];
      const unwatched = crew.overnight || follows?.kind !== 'waiting' ? 0 : follows.minutes;
      late += offer(one.kind.area, step.minutes + unwatched, (technician) => attend(state, technician, one));
    }
    const goingOn = options.length;
    let lateBegins = 0;
    if (running.length < crew.rigs)
      kinds.forEach((kind, number) => {
        const place = firstOf[number] ?? ending;
        if (place === ending) return;
        lateBegins += offer(kind.area, needOf(kind, crews, state.index), (technician) =>
          beginAt(state, place, technician),
        );
      });
    if (options.length === 0) return checkOne(state);
    // what there is no time for today may in the morning want the rig that would be taken now, or somebody who is there
    const morning = way > 0 ? late + lateBegins > 0 : lateBegins > 0 && options.length > goingOn;
    const changes =
      morning ||
      running.some(({ readyAt }) => readyAt > time + SLACK) ||
      technicians.some(({ freeAt }) => freeAt > time + SLACK);
    if (changes || states.length > 1) options.push(() => checkOne(state));
    const chosen = choose(options.length, soonest);
    if (chosen === undefined) {
      givenUp = true;
      return false;
    }
    return options[chosen]?.() ?? false;
  };

  const work = (state: CrewState): boolean => {
    const { crew, running, technicians } = state;
    if (time < crew.start - SLACK || !fits(state, 0)) return false;
    if (!technicians.some(({ freeAt }) => freeAt <= time + SLACK)) return false;
    for (let i = running.length - 1; i >= 0; i--) {
      const one = running[i];
      if (one !== undefined && one.next >= one.kind.steps.length && one.readyAt <= time + SLACK) running.splice(i, 1);
    }
    if (chooser !== undefined) return !givenUp && workAsChosen(state, chooser);
    if (rule.beginFirst === true && beginOne(state)) return true;
    return goOnWithOne(state) || checkOne(state) || (rule.beginFirst !== true && beginOne(state));
  };

  while (placements.length < order.length && !givenUp) {
    let busy = false;
    for (const state of states) while (work(state)) busy = true;
    if (busy) continue;
    time = nextEvent(states, time);
    clock = inDay(time);
  }
  placements.sort((a, b) => a.start - b.start || a.crew - b.crew || a.job - b.job);
  const finish = givenUp
    ? Number.POSITIVE_INFINITY
    : placements.reduce((latest, placement) => Math.max(latest, placement.finish), 0);
  return { placements, finish, checks, travel: travelled };
}

/** The next moment at which something may begin. */
function nextEvent(states: readonly CrewState[], time: number): number {
  const soonest = time + SLACK;
  const day = DAY * Math.floor(time / DAY);
  let next = Number.POSITIVE_INFINITY;
  for (const { crew, technicians, running } of states) {
    for (const { freeAt } of technicians) if (freeAt > soonest && freeAt < next) next = freeAt;
    for (const { readyAt, checkAt } of running) {
      if (readyAt > soonest && readyAt < next) next = readyAt;
      if (checkAt > soonest && checkAt < next) next = checkAt;
    }
    if (crew.start > soonest && crew.start < next) next = crew.start;
    const morning = day + crew.dayStart;
    if (morning > soonest && morning < next) next = morning;
    else if (morning <= soonest && morning + DAY < next) next = morning + DAY;
  }
  return next;
}
