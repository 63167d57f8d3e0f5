import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Crew, CrewSite, Job, Schedule } from '../../../src/engine/estimate/crew.ts';
import { latest, PLACED_UNITS, planCrews } from '../../../src/engine/estimate/crew-plan.ts';
import { listSchedule } from '../../../src/engine/estimate/list-schedule.ts';
import { crew } from './simple.ts';

const job = (setUp: number, pull: number, packUp: number, area = ''): Job => ({
  kind: 1e6 * setUp + 1e3 * pull + packUp + (area === 'roof' ? 0.5 : 0),
  area,
  steps: [
    { kind: 'attended', minutes: setUp },
    { kind: 'waiting', minutes: pull, checkInterval: 0, checkMinutes: 0 },
    { kind: 'attended', minutes: packUp },
  ],
});

/** All orders that differ in their kinds. */
function ordersOf(jobs: readonly Job[], left = jobs.map((_, i) => i)): number[][] {
  if (left.length === 0) return [[]];
  const firsts = left.filter((one, i) => left.findIndex((other) => jobs[other]?.kind === jobs[one]?.kind) === i);
  return firsts.flatMap((one) =>
    ordersOf(
      jobs,
      left.filter((other) => other !== one),
    ).map((rest) => [one, ...rest]),
  );
}
const RULES = [false, true].flatMap((beginFirst) =>
  [false, true].map((longestAtNight) => ({ beginFirst, longestAtNight })),
);
const sumOf = ({ placements }: Pick<Schedule, 'placements'>): number =>
  placements.reduce((sum, { finish }) => sum + finish, 0);
const finishOf = ({ placements }: Pick<Schedule, 'placements'>): number =>
  Math.max(...placements.map(({ finish }) => finish));
/** Finish, time on the way and sum of the finishes of the best order: each is worked through by the list rule. */
function bestByHand(jobs: readonly Job[], site: CrewSite): number[] {
  const walks = ordersOf(jobs).flatMap((order) => RULES.map((rule) => listSchedule(jobs, order, site, rule)));
  const marks = walks.map((walk) => [finishOf(walk), walk.travel, sumOf(walk)]);
  return (
    marks.sort((a, b) => {
      for (let i = 0; i < 3; i++) if (a[i] !== b[i]) return (a[i] ?? 0) - (b[i] ?? 0);
      return 0;
    })[0] ?? []
  );
}

describe('a plan of few units', () => {
  const steps = fc.tuple(
    fc.integer({ min: 1, max: 6 }).map((n) => 10 * n),
    fc.integer({ min: 0, max: 6 }).map((n) => 50 * n),
    fc.integer({ min: 1, max: 6 }).map((n) => 10 * n),
    fc.constantFrom('hall', 'roof'),
  );
  const some = fc.record({
    units: fc.array(steps, { minLength: 2, maxLength: 4 }),
    technicians: fc.integer({ min: 1, max: 2 }),
    rigs: fc.integer({ min: 1, max: 2 }),
    overnight: fc.boolean(),
  });

  it('is the best of all orders by finish, then way, then sum of finishes, where that meets the bounds', () => {
    let met = 0;
    for (const { units, ...gear } of fc.sample(some, { numRuns: 14, seed: 4 })) {
      const jobs = units.map(([setUp, pull, packUp, area]) => job(setUp, pull, packUp, area));
      const site = { crews: [crew(gear)], travel: 15 };
      const { schedule, bounds, tried, everyChoice, firstCome } = planCrews(jobs, site);
      const best = bestByHand(jobs, site);
      expect(firstCome).toBe(finishOf(listSchedule(jobs, [...jobs.keys()], site)));
      expect(schedule.finish).toBe(finishOf(schedule));
      expect(schedule.finish).toBeLessThanOrEqual((best[0] ?? 0) + 1e-9);
      if (schedule.finish > latest(bounds) + 1e-3) continue;
      met += 1;
      expect(everyChoice).toBe(true);
      // no choice is followed up where an order is as soon as can be: the order given, then each by each rule
      if ((best[0] ?? 0) > schedule.finish) continue;
      expect([schedule.finish, schedule.travel, sumOf(schedule)]).toEqual(best);
      expect(tried).toBe(1 + 4 * ordersOf(jobs).length);
    }
    expect(met).toBeGreaterThan(3);
  });

  it('that are alike is worked out once by each rule, however many they are', () => {
    const jobs = Array.from({ length: 40 }, () => job(10, 20, 10));
    // one rig is the bound: 12 units of 40 minutes a day
    const { schedule, tried, everyChoice } = planCrews(jobs, { crews: [crew({ overnight: false })], travel: 0 });
    expect([tried, everyChoice]).toEqual([5, true]);
    expect(schedule.finish).toBe(3 * 1440 + 480 + 4 * 40);
  });

  it('follows up to 720 orders, six units that all differ, and no more', () => {
    // one rig, so that every order is as soon as can be
    const differ = (count: number) => Array.from({ length: count }, (_, i) => job(10 + i, 5, 5));
    const of = (jobs: Job[]) => planCrews(jobs, { crews: [crew()], travel: 0 });
    expect(of(differ(6))).toMatchObject({ tried: 1 + 4 * 720, everyChoice: true });
    expect(of(differ(7))).toMatchObject({ tried: 1, everyChoice: false });
    // 8!/(5! 3!) = 56 and 10!/(4! 3! 3!) = 4200
    const [a, b, c] = differ(3);
    const times = (one: Job | undefined, count: number): Job[] =>
      Array.from({ length: count }, () => one ?? job(1, 1, 1));
    expect(of([...times(a, 5), ...times(b, 3)])).toMatchObject({ tried: 1 + 4 * 56, everyChoice: true });
    expect(of([...times(a, 4), ...times(b, 3), ...times(c, 3)])).toMatchObject({ tried: 1, everyChoice: false });
  });
});

describe('a plan that waits on purpose', () => {
  // by hand: set up A, wait 10 minutes for its break, and only then begin B; the list rule begins B at once and keeps A waiting for an hour
  const attended = (minutes: number) => ({ kind: 'attended', minutes }) as const;
  const waiting = (minutes: number) => ({ kind: 'waiting', minutes, checkInterval: 0, checkMinutes: 0 }) as const;
  const a: Job = { kind: 1, area: '', steps: [attended(10), waiting(10), attended(10), waiting(200), attended(10)] };
  const b: Job = { kind: 2, area: '', steps: [attended(60), waiting(0), attended(10)] };
  const site = { crews: [crew({ rigs: 2 })], travel: 0 };

  it('is found where it is sooner than any order', () => {
    const { schedule, everyChoice, firstCome } = planCrews([a, b], site);
    expect([schedule.finish, everyChoice, firstCome]).toEqual([480 + 240, true, 480 + 290]);
    expect(bestByHand([a, b], site)[0]).toBe(480 + 290);
  });

  it('follows up 2500 plans, shared between the crews, and says that there are more', () => {
    const jobs = [job(20, 95, 10), job(30, 20, 15), job(10, 120, 40), job(45, 60, 5), job(15, 200, 20)];
    const some = [crew({ technicians: 2, rigs: 2 }), crew({ name: 'two', start: 2000 })];
    const one = planCrews(jobs, { crews: some.slice(0, 1), travel: 0 });
    expect([one.tried, one.everyChoice]).toEqual([1 + 4 * 120 + 2500, false]);
    const two = planCrews(jobs, { crews: some, travel: 0 });
    expect([two.tried - one.tried, two.everyChoice]).toEqual([1 + 4 * 120 + 1250, false]);
  });
});

describe('more crews', () => {
  const late = crew({ name: 'late', start: 2000 });

  it('that come too late change nothing: the plan of the first alone is kept', () => {
    const jobs = [job(30, 60, 20, 'hall'), job(40, 90, 10, 'roof'), job(20, 30, 20, 'hall')];
    const one = planCrews(jobs, { crews: [crew()], travel: 10 });
    const two = planCrews(jobs, { crews: [crew(), late], travel: 10 });
    expect(two.schedule).toEqual(one.schedule);
    expect(two.everyChoice).toBe(one.everyChoice);
  });

  it('that would only be in the way get no unit', () => {
    // the second crew is there from 11:40 to 12:00: a unit that it begins is packed up the next day
    const short = crew({ name: 'short', start: 700, dayStart: 700, dayEnd: 720 });
    const jobs = Array.from({ length: 12 }, (_, i) => job(10, 40 + i, 10));
    const one = planCrews(jobs, { crews: [crew({ rigs: 2 })], travel: 0 });
    const two = planCrews(jobs, { crews: [crew({ rigs: 2 }), short], travel: 0 });
    const all = listSchedule(jobs, [...jobs.keys()], { crews: [crew({ rigs: 2 }), short], travel: 0 });
    expect(one.schedule.finish).toBeLessThan(960);
    expect(all.finish).toBeGreaterThan(1440);
    expect(two.schedule).toEqual(one.schedule);
    expect(two.firstCome).toBe(all.finish);
    expect(two.tried).toBe(500 + one.tried);
  });
});

describe('a plan of many units', () => {
  const many = (count: number) =>
    Array.from({ length: count }, (_, i) =>
      job(10 + (i % 7), 30 + 10 * (i % 11), 5 + (i % 5), i % 3 ? 'hall' : 'roof'),
    );

  it('is worked out a fixed number of times where its bounds are out of reach', () => {
    // one technician with way after way cannot do without a gap; 12,000 units placed, at least 4 times, at most 1200
    const tried = (count: number, ...crews: Crew[]): number => planCrews(many(count), { crews, travel: 10 }).tried;
    expect(tried(60, crew({ rigs: 2 }))).toBe(200);
    expect(tried(60, crew({ rigs: 2 }), crew({ rigs: 1, dayStart: 420 }))).toBeGreaterThanOrEqual(100);
    expect(PLACED_UNITS / 60).toBe(200);
  });

  it('of very many is still tried four times', () => {
    expect(planCrews(many(4000), { crews: [crew({ rigs: 4 })], travel: 10 }).tried).toBe(4);
  });

  it('of eight that differ is tried 1200 times and no more', () => {
    expect(planCrews(many(8), { crews: [crew({ rigs: 2 })], travel: 10 })).toMatchObject({
      tried: 1200,
      everyChoice: false,
    });
  });

  it('is better than the list as it comes', () => {
    const { schedule, firstCome, bounds } = planCrews(many(60), { crews: [crew({ rigs: 2 })], travel: 10 });
    expect(schedule.finish).toBeLessThan(firstCome);
    expect(schedule.finish).toBeGreaterThanOrEqual(latest(bounds));
  });
});
