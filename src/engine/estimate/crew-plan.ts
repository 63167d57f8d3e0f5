import { randomStream } from '../../numerics/lattice.ts';
import {
  type Crew,
  type CrewSite,
  DAY,
  fitsNowhere,
  type Job,
  listSchedule,
  nextWorking,
  type Schedule,
} from './crew.ts';

/**
 * A good order for the list rule of `crew.ts`, and how far from the best any plan can be. Minutes.
 */

export interface CrewPlan {
  readonly schedule: Schedule;
  /** finish of the list in the order given */
  readonly firstCome: number;
  readonly bounds: FinishBounds;
  /** schedules worked out */
  readonly tried: number;
  /** true where every order was tried */
  readonly everyOrder: boolean;
}

/** No plan finishes before the latest of these. */
export interface FinishBounds {
  /** all attended work, spread over all technicians without a gap */
  readonly attendedWork: number;
  /** all time on rigs, spread over all rigs without a gap */
  readonly rigTime: number;
  /** the unit that takes longest, begun first */
  readonly longestUnit: number;
}

/** Work budget of the search: units placed, over all schedules that are tried. */
const PLACED_UNITS = 20_000;
const FEWEST_TRIES = 12;
const MOST_TRIES = 3000;
/** As many orders are tried one by one. */
const EVERY_ORDER = 720;
const SEED = 11;
const WHOLE = 2 ** 32;

/** What makes one schedule better than another: the finish, then time on the way, then the sum of all finishes. */
function better(a: Schedule, b: Schedule): boolean {
  if (Math.abs(a.finish - b.finish) > 1e-6) return a.finish < b.finish;
  if (Math.abs(a.travel - b.travel) > 1e-6) return a.travel < b.travel;
  return sumOfFinishes(a) < sumOfFinishes(b) - 1e-6;
}

function sumOfFinishes({ placements }: Schedule): number {
  return placements.reduce((sum, { finish }) => sum + finish, 0);
}

/**
 * Plans the jobs: the order given, a few rules (longest first, shortest first, area by area), then every order where there are few,
 * else small changes of the best so far within a fixed amount of work. Never worse than the order given; the same each time.
 */
export function planCrews(jobs: readonly Job[], site: CrewSite): CrewPlan {
  const given = jobs.map((_, job) => job);
  const first = listSchedule(jobs, given, site);
  let best = { order: given, schedule: first };
  let tried = 1;
  const attempt = (order: readonly number[]): boolean => {
    const schedule = listSchedule(jobs, order, site);
    tried += 1;
    if (!better(schedule, best.schedule)) return false;
    best = { order: [...order], schedule };
    return true;
  };
  const bounds = finishBounds(jobs, site);
  const result = (everyOrder: boolean): CrewPlan => ({
    schedule: best.schedule,
    firstCome: first.finish,
    bounds,
    tried,
    everyOrder,
  });
  if (jobs.length < 2) return result(true);
  if (countOrders(jobs) <= EVERY_ORDER) {
    for (const order of everyOrderOf(jobs)) attempt(order);
    return result(true);
  }
  for (const order of ruledOrders(jobs)) attempt(order);
  const most = Math.min(MOST_TRIES, Math.max(FEWEST_TRIES, Math.floor(PLACED_UNITS / jobs.length)));
  const random = randomStream(SEED);
  const pick = (below: number): number => Math.floor((random() / WHOLE) * below);
  while (tried < most) {
    const order = [...best.order];
    const from = pick(order.length);
    const to = pick(order.length);
    if (kindAt(jobs, order, from) === kindAt(jobs, order, to)) {
      tried += 1;
      continue;
    }
    if (random() % 2 === 0) {
      const [moved = 0] = order.splice(from, 1);
      order.splice(to, 0, moved);
    } else [order[from], order[to]] = [order[to] ?? 0, order[from] ?? 0];
    attempt(order);
  }
  return result(false);
}

function kindAt(jobs: readonly Job[], order: readonly number[], place: number): number | undefined {
  return jobs[order[place] ?? -1]?.kind;
}

function minutesOf({ steps }: Job, kind?: 'attended' | 'waiting'): number {
  return steps.reduce((sum, step) => sum + (kind === undefined || step.kind === kind ? step.minutes : 0), 0);
}

/** Orders by simple rules; equal jobs keep their order. */
function ruledOrders(jobs: readonly Job[]): number[][] {
  const by = (compare: (a: Job, b: Job) => number): number[] =>
    jobs
      .map((job, index) => ({ job, index }))
      .sort((a, b) => compare(a.job, b.job) || a.index - b.index)
      .map(({ index }) => index);
  const longest = (a: Job, b: Job): number => minutesOf(b) - minutesOf(a);
  const areas = new Map([...new Set(jobs.map(({ area }) => area))].map((area, index) => [area, index]));
  const area = (a: Job, b: Job): number => (areas.get(a.area) ?? 0) - (areas.get(b.area) ?? 0);
  return [
    by(longest),
    by((a, b) => longest(b, a)),
    by((a, b) => minutesOf(b, 'waiting') - minutesOf(a, 'waiting')),
    by((a, b) => area(a, b) || longest(a, b)),
    by((a, b) => area(a, b) || longest(b, a)),
  ];
}

/** How many orders differ, equal jobs being alike; counts no further than is of use. */
function countOrders(jobs: readonly Job[]): number {
  const seen = new Map<number, number>();
  let count = 1;
  jobs.forEach(({ kind }, index) => {
    const same = (seen.get(kind) ?? 0) + 1;
    seen.set(kind, same);
    count = Math.min((count * (index + 1)) / same, 1e12);
  });
  return Math.round(count);
}

/** Every order that differs. */
function* everyOrderOf(jobs: readonly Job[]): Generator<number[]> {
  const left = new Map<number, number[]>();
  jobs.forEach(({ kind }, index) => {
    left.set(kind, [...(left.get(kind) ?? []), index]);
  });
  const order: number[] = [];
  function* extend(): Generator<number[]> {
    if (order.length === jobs.length) {
      yield order;
      return;
    }
    for (const same of left.values()) {
      const job = same.shift();
      if (job === undefined) continue;
      order.push(job);
      yield* extend();
      order.pop();
      same.unshift(job);
    }
  }
  yield* extend();
}

/** Minutes of a crew's working days between its start and a moment. */
function workingMinutes(crew: Crew, until: number): number {
  let sum = 0;
  for (let day = DAY * Math.floor(crew.start / DAY); day < until; day += DAY) {
    const from = Math.max(crew.start, day + crew.dayStart);
    const to = Math.min(until, day + crew.dayEnd);
    sum += Math.max(0, to - from);
  }
  return sum;
}

/** The first moment at which a capacity (minutes, never falling) reaches an amount. */
function firstReaching(amount: number, capacity: (until: number) => number): number {
  let high = DAY;
  while (capacity(high) < amount) high *= 2;
  let low = 0;
  while (high - low > 1e-6) {
    const middle = 0.5 * (low + high);
    if (capacity(middle) < amount) low = middle;
    else high = middle;
  }
  return high;
}

/** Lower bounds of the finish; checks and ways between areas are left out, as a plan might do without. */
export function finishBounds(jobs: readonly Job[], site: CrewSite): FinishBounds {
  const total = (kind?: 'attended'): number => jobs.reduce((sum, job) => sum + minutesOf(job, kind), 0);
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
    for (const crew of site.crews) {
      const alone = { crews: [crew], travel: 0 };
      if (fitsNowhere(unwatched, alone) === undefined)
        soonest = Math.min(soonest, listSchedule([unwatched], [0], alone).finish);
    }
    longestUnit = Math.max(longestUnit, soonest);
  }
  return { attendedWork, rigTime, longestUnit };
}
