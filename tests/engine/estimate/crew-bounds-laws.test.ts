import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Crew, DAY, type Job } from '../../../src/engine/estimate/crew.ts';
import { finishBounds, minutesOf } from '../../../src/engine/estimate/crew-bounds.ts';
import { minuteWalk } from './minute-walk.ts';
import { crew } from './simple.ts';

const job = (setUp: number, pull: number, packUp: number, over: Partial<Job> = {}): Job => ({
  kind: 1e6 * setUp + 1e3 * pull + packUp,
  area: '',
  steps: [
    { kind: 'attended', minutes: setUp },
    { kind: 'waiting', minutes: pull, checkInterval: 20, checkMinutes: 15 },
    { kind: 'attended', minutes: packUp },
  ],
  ...over,
});
const bounds = (jobs: readonly Job[], ...crews: readonly Crew[]) => finishBounds(jobs, { crews, travel: 0 });

describe('the minutes of a unit', () => {
  it('are those of one sort of step or of all', () => {
    expect(minutesOf(job(20, 70, 9))).toBe(99);
    expect(minutesOf(job(20, 70, 9), 'attended')).toBe(29);
    expect(minutesOf(job(20, 70, 9), 'waiting')).toBe(70);
  });
});

describe('no plan is sooner', () => {
  it('than nothing, where there is nothing to do', () => {
    expect(bounds([], crew())).toEqual({ attendedWork: 0, rigTime: 0, longestUnit: 0 });
  });

  it('than its attended work: to the end of a day, and over it into the next', () => {
    const work = (...jobs: Job[]): number => bounds(jobs, crew({ rigs: 9 })).attendedWork;
    expect(work(job(40, 0, 10))).toBeCloseTo(530, 6);
    expect(work(job(240, 0, 200), job(20, 0, 20))).toBeCloseTo(960, 6);
    expect(work(job(240, 0, 200), job(25, 0, 20))).toBeCloseTo(DAY + 500, 6);
    expect(work(job(240, 0, 200), job(55, 0, 20))).toBeCloseTo(DAY + 515, 6);
    // nobody packs up in less than the last step takes
    expect(work(job(240, 0, 210), job(240, 0, 200))).toBeCloseTo(DAY + 480 + 410, 6);
    expect(work(job(240, 0, 210), job(5, 0, 200))).toBeCloseTo(DAY + 680, 6);
  });

  it('than all hands at it allow, each from its own hour on', () => {
    const hall = crew({ technicians: 2, rigs: 5 });
    const late = crew({ start: 600, rigs: 5 });
    // by 600 two have done 240; the other 120 are shared by three
    expect(bounds([job(170, 0, 10), job(170, 0, 10)], hall, late).attendedWork).toBeCloseTo(640, 6);
    expect(bounds([job(100, 0, 20)], crew({ start: DAY + 900 })).attendedWork).toBeCloseTo(2 * DAY + 540, 6);
    expect(bounds([job(100, 0, 20)], crew({ start: 0 })).attendedWork).toBeCloseTo(600, 6);
    // one that comes after its day has ended begins in the morning
    expect(bounds([job(100, 0, 20)], crew({ start: 1000 })).attendedWork).toBeCloseTo(DAY + 600, 6);
  });

  it('than all rigs at it allow, at night where they may run', () => {
    const pulls = [job(20, 700, 10), job(20, 700, 10)];
    expect(bounds(pulls, crew({ rigs: 2 })).rigTime).toBeCloseTo(DAY + 490, 6);
    expect(bounds([job(20, 1000, 10), job(20, 1000, 10)], crew({ rigs: 2 })).rigTime).toBeCloseTo(DAY + 490, 6);
    expect(bounds([job(20, 1440, 10), job(20, 1440, 10)], crew({ rigs: 2 })).rigTime).toBeCloseTo(DAY + 510, 6);
    expect(bounds([job(20, 100, 10)], crew({ start: 0 })).rigTime).toBeCloseTo(610, 6);
    expect(bounds([job(20, 100, 10)], crew({ start: 1000 })).rigTime).toBeCloseTo(DAY + 610, 6);
    const day = crew({ rigs: 2, overnight: false });
    expect(bounds([job(20, 300, 10), job(20, 300, 10)], day).rigTime).toBeCloseTo(810, 6);
    const four = Array.from({ length: 4 }, () => job(20, 300, 10));
    expect(bounds(four, day).rigTime).toBeCloseTo(DAY + 480 + (4 * 330 - 960) / 2, 6);
  });

  it('than its longest unit takes, without looks, in the crew that is soonest of those that can', () => {
    expect(bounds([job(20, 100, 10), job(30, 200, 20)], crew()).longestUnit).toBe(730);
    expect(bounds([job(30, 200, 20)], crew({ start: 600 }), crew({ start: 540 })).longestUnit).toBe(790);
    const early = crew({ start: 0, dayStart: 400, dayEnd: 420 });
    expect(bounds([job(30, 200, 20)], early, crew()).longestUnit).toBe(730);
    // looks of 15 minutes every 20: the one due at the end of a pull of 110 would keep the technician from packing up
    expect(bounds([job(30, 110, 20)], crew()).longestUnit).toBe(480 + 160);
    // a way from hall to roof may be saved
    const apart = [job(20, 100, 10, { area: 'hall' }), job(30, 200, 20, { area: 'roof' })];
    expect(finishBounds(apart, { crews: [crew()], travel: 400 }).longestUnit).toBe(730);
  });
});

describe('the bounds of any site', () => {
  const whole = (min: number, max: number, of = 1) => fc.integer({ min, max }).map((n) => of * n);
  const steps = fc.tuple(whole(1, 12, 5), whole(0, 30, 20), whole(1, 12, 5));
  const some = fc.record({
    units: fc.array(steps, { minLength: 1, maxLength: 12 }),
    crews: fc.array(
      fc.record({
        technicians: fc.integer({ min: 1, max: 3 }),
        rigs: fc.integer({ min: 1, max: 3 }),
        start: fc.constantFrom(0, 480, 600, 1000, 1500, 2100),
        dayStart: fc.constantFrom(420, 480),
        dayEnd: fc.constantFrom(620, 960),
        overnight: fc.boolean(),
      }),
      { maxLength: 2 },
    ),
  });

  it('are those of counting minute by minute, moved on to where a unit can have been packed up', () => {
    for (const { units, crews } of fc.sample(some, { numRuns: 60, seed: 8 })) {
      const jobs = units.map(([setUp, pull, packUp]) => job(setUp, pull, packUp));
      const list = [...crews.map((one) => crew(one)), crew({ start: 720 })];
      const last = Math.min(...units.map(([, , packUp]) => packUp));
      const open = (one: Crew, minute: number): boolean =>
        minute >= one.start && minute % DAY >= one.dayStart && minute % DAY < one.dayEnd;
      const firstOpen = (one: Crew): number => {
        let minute = one.start;
        while (!open(one, minute)) minute++;
        return minute;
      };
      const opens = list.map(firstOpen);
      const ends = (minute: number): boolean =>
        list.some((one, i) => {
          const clock = minute % DAY;
          const since = Math.max(minute - clock + one.dayStart, opens[i] ?? 0);
          return clock <= one.dayEnd && minute >= since + last;
        });
      const reach = (amount: number, gain: (one: Crew, minute: number, i: number) => number): number => {
        let minute = 0;
        for (let sum = 0; sum < amount - 1e-9; minute++)
          sum = list.reduce((all, one, i) => all + gain(one, minute, i), sum);
        while (!ends(minute)) minute++;
        return minute;
      };
      const attended = units.reduce((sum, [setUp, , packUp]) => sum + setUp + packUp, 0);
      const all = units.reduce((sum, [, pull]) => sum + pull, attended);
      const found = bounds(jobs, ...list);
      expect(Math.ceil(found.attendedWork - 1e-4)).toBe(
        reach(attended, (one, minute) => (open(one, minute) ? one.technicians : 0)),
      );
      expect(Math.ceil(found.rigTime - 1e-4)).toBe(
        reach(all, (one, minute, i) => {
          const runs = one.overnight ? minute >= (opens[i] ?? 0) : open(one, minute);
          return runs ? one.rigs : 0;
        }),
      );
      const alone = units.map(([setUp, pull, packUp]) => {
        const unwatched = job(setUp, pull, packUp);
        const steps = unwatched.steps.map((step) => (step.kind === 'waiting' ? { ...step, checkInterval: 0 } : step));
        const able = list.filter(
          ({ dayStart, dayEnd, overnight }) =>
            Math.max(setUp, packUp) <= dayEnd - dayStart && (overnight || setUp + pull + packUp <= dayEnd - dayStart),
        );
        const finishes = able.map(
          (one) => minuteWalk([{ ...unwatched, steps }], [0], { crews: [one], travel: 0 }).placements[0]?.finish ?? 0,
        );
        return Math.min(...finishes);
      });
      expect(found.longestUnit).toBe(Math.max(...alone));
    }
  });
});
