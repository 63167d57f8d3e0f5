import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Crew, Job } from '../../../src/engine/estimate/crew.ts';
import { listSchedule, scheduler } from '../../../src/engine/estimate/list-schedule.ts';
import { minuteWalk } from './minute-walk.ts';

/** Whole minutes, so that a walk minute by minute meets every event. */
const whole = (min: number, max: number, of = 1) => fc.integer({ min, max }).map((n) => of * n);
const kindOfJob = fc.record({
  area: fc.constantFrom('', 'hall', 'roof', 'cellar'),
  setUp: whole(0, 12, 5),
  pull: whole(0, 60, 10),
  check: fc.constantFrom(0, 0, 30, 45, 100),
  looks: whole(1, 10),
  // a break in the pull, or the reading before the hold
  between: fc.constantFrom(0, 0, 5, 12),
  hold: whole(0, 6, 10),
  packUp: whole(0, 12, 5),
});
const crewOf = (longDay: boolean) =>
  fc.record({
    technicians: fc.integer({ min: 1, max: 3 }),
    rigs: fc.integer({ min: 1, max: 3 }),
    start: fc.constantFrom(0, 480, 500, 600, 1000, 2000),
    dayStart: fc.constantFrom(420, 480),
    dayEnd: longDay ? fc.constant(960) : fc.constantFrom(540, 700, 780),
    overnight: fc.boolean(),
  });
const site = fc.record({
  kinds: fc.array(kindOfJob, { minLength: 1, maxLength: 4 }),
  picks: fc.array(fc.nat(), { minLength: 1, maxLength: 10 }),
  turn: fc.array(fc.nat(), { minLength: 10, maxLength: 10 }),
  first: crewOf(true),
  others: fc.array(crewOf(false), { maxLength: 2 }),
  travel: fc.constantFrom(0, 7, 20),
  // which crew asks first
  shift: fc.nat(),
});

type Site = typeof site extends fc.Arbitrary<infer T> ? T : never;

function made({ kinds, picks, turn, first, others, travel, shift }: Site) {
  const jobs = picks.map((pick): Job => {
    const kind = pick % kinds.length;
    const { area, setUp, pull, check, looks, between, hold, packUp } = kinds[kind] ?? kinds[0] ?? NONE;
    const steps: Job['steps'] = [
      { kind: 'attended', minutes: setUp },
      { kind: 'waiting', minutes: pull, checkInterval: check, checkMinutes: looks },
      ...(between > 0
        ? ([
            { kind: 'attended', minutes: between },
            { kind: 'waiting', minutes: hold, checkInterval: 0, checkMinutes: 0 },
          ] as const)
        : []),
      { kind: 'attended', minutes: packUp },
    ];
    return { kind: 7 * kind + 3, area, steps };
  });
  const order = jobs.map((_, job) => job).sort((a, b) => (turn[a] ?? 0) - (turn[b] ?? 0) || a - b);
  const list = [...others, { ...first, overnight: true }].map((one, i): Crew => ({ name: `crew ${i}`, ...one }));
  const crews = list.map((_, i) => list[(i + shift) % list.length]).filter((one) => one !== undefined);
  return { jobs, order, site: { crews, travel } };
}
const NONE = { area: '', setUp: 0, pull: 0, check: 0, looks: 0, between: 0, hold: 0, packUp: 0 };

describe('the list rule', () => {
  for (const beginFirst of [false, true])
    for (const longestAtNight of [false, true])
      it(`${beginFirst ? 'with units begun first' : 'with units gone on with first'}${
        longestAtNight ? ' and long pulls at night' : ''
      } does to the minute what a walk through all minutes does`, () => {
        const rule = { beginFirst, longestAtNight };
        for (const one of fc.sample(site, { numRuns: 60, seed: 11 + (beginFirst ? 1 : 0) })) {
          const { jobs, order, site: at } = made(one);
          const { placements, finish, checks, travel } = listSchedule(jobs, order, at, rule);
          const walk = minuteWalk(jobs, order, at, rule);
          expect({ placements, checks, travel }).toEqual(walk);
          expect(finish).toBe(Math.max(...walk.placements.map((placement) => placement.finish)));
        }
      });
});

/** A stream of choices that is the same each time; every fifth one or so is the last, which often is to wait. */
function chooserOf(seed: number) {
  let state = seed;
  const asked: number[] = [];
  const choose = (options: number): number => {
    asked.push(options);
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const part = state / 2 ** 32;
    return part > 0.8 ? options - 1 : Math.floor((part / 0.8) * options);
  };
  return { asked, choose };
}

describe('a plan by choices', () => {
  it('is offered what a walk through all minutes is offered, and comes to the same', () => {
    fc.sample(site, { numRuns: 80, seed: 21 }).forEach((one, seed) => {
      const { jobs, order, site: at } = made(one);
      const [ours, walked] = [chooserOf(seed), chooserOf(seed)];
      const bounds: number[] = [];
      const { placements, finish, checks, travel } = scheduler(jobs, at)(order, {}, (options, soonest) => {
        bounds.push(soonest());
        return ours.choose(options);
      });
      expect({ placements, checks, travel }).toEqual(minuteWalk(jobs, order, at, {}, walked.choose));
      expect(ours.asked).toEqual(walked.asked);
      // no bound along the way is later than the end
      expect(Math.max(...bounds, 0)).toBeLessThanOrEqual(finish);
    });
  });
});
