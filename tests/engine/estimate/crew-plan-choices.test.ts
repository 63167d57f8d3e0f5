import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CrewSite, Job, Schedule } from '../../../src/engine/estimate/crew.ts';
import { latest, planCrews } from '../../../src/engine/estimate/crew-plan.ts';
import { listSchedule, scheduler } from '../../../src/engine/estimate/list-schedule.ts';
import { crew } from './simple.ts';

const jobOf = (kind: number, [setUp = 0, pull = 0, packUp = 0]: readonly number[], area = ''): Job => ({
  kind,
  area,
  steps: [
    { kind: 'attended', minutes: setUp },
    { kind: 'waiting', minutes: pull, checkInterval: 0, checkMinutes: 0 },
    { kind: 'attended', minutes: packUp },
  ],
});
const ordersOf = (left: readonly number[]): number[][] =>
  left.length === 0
    ? [[]]
    : left.flatMap((one) => ordersOf(left.filter((other) => other !== one)).map((rest) => [one, ...rest]));
const RULES = [{}, { longestAtNight: true }, { beginFirst: true }, { beginFirst: true, longestAtNight: true }];
const markOf = ({ finish, travel, placements }: Schedule): number[] => [
  finish,
  travel,
  placements.reduce((sum, one) => sum + one.finish, 0),
];
const compare = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((found, value, i) => (found === 0 ? value - (b[i] ?? 0) : found), 0);

/** The plans at the ends of the tree of choices, branch by branch, each left where it cannot end before the soonest so far. */
function branches(jobs: readonly Job[], site: CrewSite, finish: number): { plans: number; soonest: number } {
  const run = scheduler(jobs, site);
  let plans = 0;
  let soonest = finish;
  const follow = (begun: readonly number[]): void => {
    const widths: number[] = [];
    const plan = run([...jobs.keys()], {}, (options, bound) => {
      if (bound() >= soonest) return undefined;
      widths.push(options);
      return begun[widths.length - 1] ?? 0;
    });
    plans += 1;
    soonest = Math.min(soonest, plan.finish);
    for (let depth = widths.length - 1; depth >= begun.length; depth--)
      for (let choice = 1; choice < (widths[depth] ?? 0); choice++)
        follow([...begun, ...Array<number>(depth - begun.length).fill(0), choice]);
  };
  follow([]);
  return { plans, soonest };
}

describe('a plan whose every choice is followed up', () => {
  const unit = fc.tuple(
    fc.integer({ min: 1, max: 8 }).map((n) => 5 * n),
    fc.integer({ min: 0, max: 30 }).map((n) => 10 * n),
    fc.integer({ min: 1, max: 8 }).map((n) => 5 * n),
  );
  const some = fc.record({
    units: fc.array(unit, { minLength: 2, maxLength: 3 }),
    technicians: fc.integer({ min: 1, max: 2 }),
    rigs: fc.integer({ min: 1, max: 2 }),
  });

  it('is the soonest of the tree of choices, of which no branch is followed for nothing', () => {
    let followed = 0;
    let kept = 0;
    for (const { units, ...gear } of fc.sample(some, { numRuns: 120, seed: 9 })) {
      const jobs = units.map((steps, kind) => jobOf(kind, steps));
      const site = { crews: [crew(gear)], travel: 0 };
      const orders = ordersOf([...jobs.keys()]);
      const marks = orders.flatMap((order) => RULES.map((rule) => markOf(listSchedule(jobs, order, site, rule))));
      const best = marks.sort(compare)[0] ?? [];
      const { schedule, bounds, tried, everyChoice } = planCrews(jobs, site);
      if ((best[0] ?? 0) <= latest(bounds) + 1e-3) continue;
      const { plans, soonest } = branches(jobs, site, best[0] ?? 0);
      if (plans > 2000) continue;
      followed += 1;
      expect([schedule.finish, everyChoice]).toEqual([soonest, true]);
      expect(tried).toBe(1 + 4 * orders.length + plans);
      if (soonest < (best[0] ?? 0)) continue;
      kept += 1;
      // no choice is sooner: the best order stays, though a plan by choices may end with it
      expect(markOf(schedule)).toEqual(best);
    }
    expect(followed).toBeGreaterThan(20);
    expect(kept).toBeGreaterThan(10);
  });
});

it('the best order stays where a plan by choices ends with it and is longer on the way', () => {
  const jobs = [jobOf(0, [10, 80, 20], 'hall'), jobOf(1, [50, 90, 50], 'hall'), jobOf(2, [30, 100, 60], 'roof')];
  const site = { crews: [crew({ rigs: 2 })], travel: 15 };
  const marks = ordersOf([0, 1, 2]).flatMap((order) =>
    RULES.map((rule) => markOf(listSchedule(jobs, order, site, rule))),
  );
  const best = marks.sort(compare)[0];
  const { schedule, everyChoice } = planCrews(jobs, site);
  expect([markOf(schedule), everyChoice]).toEqual([best, true]);
});

describe('two crews', () => {
  it('are both used where the first alone is later, though its bounds are sooner', () => {
    const jobs = ['30 280 30', '35 290 30', '10 230 20', '15 240 30'].map((steps, kind) =>
      jobOf(kind, steps.split(' ').map(Number)),
    );
    const one = { crews: [crew()], travel: 0 };
    const two = { crews: [crew(), crew({ name: 'two', start: 600 })], travel: 0 };
    const orders = ordersOf([0, 1, 2, 3]);
    const best = (site: CrewSite) =>
      Math.min(...orders.flatMap((order) => RULES.map((rule) => listSchedule(jobs, order, site, rule).finish)));
    const both = planCrews(jobs, two);
    expect(latest(planCrews(jobs, one).bounds)).toBeLessThan(1440 + 510);
    // the second day each crew packs up one unit in the morning; one alone has two units a day
    expect([both.schedule.finish, best(two), planCrews(jobs, one).schedule.finish]).toEqual([1950, 1950, 3380]);
    expect(new Set(both.schedule.placements.map((placement) => placement.crew))).toEqual(new Set([0, 1]));
  });
});
