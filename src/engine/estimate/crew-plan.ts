import { randomStream } from '../../numerics/lattice.ts';
import type { CrewSite, Job, Schedule } from './crew.ts';
import { type FinishBounds, finishBounds, minutesOf } from './crew-bounds.ts';
import { type ListRule, type Scheduler, scheduler } from './list-schedule.ts';

/**
 * A good order for the list rule of `list-schedule.ts`, and how far from the best any plan can be. Minutes.
 */

export interface CrewPlan {
  readonly schedule: Schedule;
  /** finish of the list in the order given, by the plain rule */
  readonly firstCome: number;
  readonly bounds: FinishBounds;
  /** schedules worked out */
  readonly tried: number;
  /** true where every choice was followed up, so that no plan by the same rules is sooner */
  readonly everyChoice: boolean;
}

/** Work budget of the search: units placed times crews, over all schedules that are tried for one set of crews. */
export const PLACED_UNITS = 12_000;
const FEWEST_TRIES = 4;
const MOST_TRIES = 1200;
/** As many orders are tried one by one. */
const EVERY_ORDER = 720;
const SEED = 11;
const WHOLE = 2 ** 32;

const PLAIN: ListRule = {};
const NIGHT: ListRule = { longestAtNight: true };
const BEGIN: ListRule = { beginFirst: true };
const BOTH: ListRule = { beginFirst: true, longestAtNight: true };
/** All that the list rule leaves open, the plain rule first. */
const RULES: readonly ListRule[] = [PLAIN, NIGHT, BOTH, BEGIN];

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
 * Plans the jobs: the order given, then every order by every rule where there are few orders, and every choice at every moment as far as
 * the work allows; else simple orders (longest first,
 * shortest first, area by area) by every rule and small changes of the best so far, within a fixed amount of work.
 *
 * Never later than the order given, nor than the plan of the first crews alone, though more hands can make a list rule
 * later (an anomaly that Graham showed); the same each time.
 *
 * @param jobs every one can be done by some crew (`fitsNowhere`)
 */
export function planCrews(jobs: readonly Job[], site: CrewSite): CrewPlan {
  const given = jobs.map((_, job) => job);
  const firstCome = scheduler(jobs, site)(given).finish;
  const bounds = finishBounds(jobs, site);
  let { schedule, tried, everyChoice } = search(jobs, site, latest(bounds));
  for (let few = site.crews.length - 1; few >= 1; few--) {
    const fewer = { ...site, crews: site.crews.slice(0, few) };
    const soonest = latest(finishBounds(jobs, fewer));
    // most often the crews that are left cannot be as soon as all of them
    if (!(soonest < schedule.finish)) continue;
    const found = search(jobs, fewer, soonest);
    tried += found.tried;
    if (better(found.schedule, schedule)) schedule = found.schedule;
  }
  return { schedule, firstCome, bounds, tried, everyChoice };
}

export function latest({ attendedWork, rigTime, longestUnit }: FinishBounds): number {
  return Math.max(attendedWork, rigTime, longestUnit);
}

interface Found {
  readonly schedule: Schedule;
  readonly tried: number;
  readonly everyChoice: boolean;
}

function search(jobs: readonly Job[], site: CrewSite, soonest: number): Found {
  const run: Scheduler = scheduler(jobs, site);
  const given = jobs.map((_, job) => job);
  let best = { order: given, rule: PLAIN, schedule: run(given) };
  let tried = 1;
  const attempt = (order: readonly number[], rule: ListRule): void => {
    const schedule = run(order, rule);
    tried += 1;
    if (better(schedule, best.schedule)) best = { order: [...order], rule, schedule };
  };
  if (countOrders(jobs) <= EVERY_ORDER) {
    for (const order of everyOrderOf(jobs)) for (const rule of RULES) attempt(order, rule);
    if (best.schedule.finish <= soonest + 1e-3) return { schedule: best.schedule, tried, everyChoice: true };
    const sooner = everyPlan(run, given, best.schedule.finish, EVERY_PLAN / site.crews.length);
    return { schedule: sooner.schedule ?? best.schedule, tried: tried + sooner.tried, everyChoice: sooner.every };
  }
  const most = Math.min(
    MOST_TRIES,
    Math.max(FEWEST_TRIES, Math.floor(PLACED_UNITS / (jobs.length * site.crews.length))),
  );
  const done = (): boolean => tried >= most || best.schedule.finish <= soonest + 1e-3;
  for (const [order, rule] of usualPlans(jobs)) {
    if (done()) break;
    attempt(order, rule);
  }
  const random = randomStream(SEED);
  const pick = (below: number): number => Math.floor((random() / WHOLE) * below);
  while (!done()) {
    const order = [...best.order];
    const from = pick(order.length);
    const to = pick(order.length);
    const way = pick(3);
    if (kindAt(jobs, order, from) === kindAt(jobs, order, to)) {
      tried += 1;
      continue;
    }
    if (way === 0) {
      const [moved = 0] = order.splice(from, 1);
      order.splice(to, 0, moved);
    } else if (way === 1) [order[from], order[to]] = [order[to] ?? 0, order[from] ?? 0];
    else {
      // all units of a kind at once
      const kind = kindAt(jobs, order, from);
      const same = order.filter((job) => jobs[job]?.kind === kind);
      const rest = order.filter((job) => jobs[job]?.kind !== kind);
      rest.splice(Math.min(to, rest.length), 0, ...same);
      order.splice(0, order.length, ...rest);
    }
    attempt(order, best.rule);
  }
  return { schedule: best.schedule, tried, everyChoice: false };
}

function kindAt(jobs: readonly Job[], order: readonly number[], place: number): number | undefined {
  return jobs[order[place] ?? -1]?.kind;
}

/** Simple orders with the rules that suit them; what did best on made-up projects first, since of long tables few are tried. */
function usualPlans(jobs: readonly Job[]): (readonly [readonly number[], ListRule])[] {
  const given = jobs.map((_, job) => job);
  const minutes = jobs.map((job) => minutesOf(job));
  const areas = new Map([...new Set(jobs.map(({ area }) => area))].map((area, index) => [area, index]));
  const areaOf = jobs.map(({ area }) => areas.get(area) ?? 0);
  const by = (...keys: readonly ((job: number) => number)[]): number[] =>
    [...given].sort((a, b) => {
      for (const key of keys) if (key(a) !== key(b)) return key(a) - key(b);
      return a - b;
    });
  const shortest = (job: number): number => minutes[job] ?? 0;
  const longest = (job: number): number => -(minutes[job] ?? 0);
  const area = (job: number): number => areaOf[job] ?? 0;
  const short = by(shortest);
  const long = by(longest);
  const areaShort = by(area, shortest);
  const areaLong = by(area, longest);
  return [
    [areaShort, NIGHT],
    [short, NIGHT],
    [areaShort, BOTH],
    [areaShort, PLAIN],
    [areaLong, BEGIN],
    [short, BOTH],
    [given, BOTH],
    [given, NIGHT],
    [areaLong, PLAIN],
    [areaShort, BEGIN],
    [given, BEGIN],
    [areaLong, BOTH],
    [long, PLAIN],
    [long, NIGHT],
    [long, BEGIN],
    [short, PLAIN],
  ];
}

/** As many plans are followed up, most of them given up early. */
const EVERY_PLAN = 2500;

/** Every choice at every moment, waiting on purpose too, left where it cannot end before `finish`. */
function everyPlan(
  run: Scheduler,
  given: readonly number[],
  finish: number,
  most: number,
): { readonly schedule: Schedule | undefined; readonly tried: number; readonly every: boolean } {
  let schedule: Schedule | undefined;
  let soonest = finish;
  let tried = 0;
  /** the choice at each moment of the plan, and how many there were */
  const choices: number[] = [];
  const counts: number[] = [];
  while (tried < most) {
    let moment = 0;
    const found = run(given, PLAIN, (options, bound) => {
      if (bound() >= soonest - 1e-6) return undefined;
      const chosen = choices[moment] ?? 0;
      choices[moment] = chosen;
      counts[moment] = options;
      moment += 1;
      return chosen;
    });
    tried += 1;
    if (found.finish < soonest - 1e-6) {
      schedule = found;
      soonest = found.finish;
    }
    let last = moment - 1;
    while (last >= 0 && (choices[last] ?? 0) + 1 >= (counts[last] ?? 0)) last -= 1;
    if (last < 0) return { schedule, tried, every: true };
    choices.length = last + 1;
    choices[last] = (choices[last] ?? 0) + 1;
  }
  return { schedule, tried, every: false };
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
    const same = left.get(kind);
    if (same === undefined) left.set(kind, [index]);
    else same.push(index);
  });
  for (const same of left.values()) same.reverse();
  const order: number[] = [];
  function* extend(): Generator<number[]> {
    if (order.length === jobs.length) {
      yield order;
      return;
    }
    for (const same of left.values()) {
      const job = same.pop();
      if (job === undefined) continue;
      order.push(job);
      yield* extend();
      order.pop();
      same.push(job);
    }
  }
  yield* extend();
}
