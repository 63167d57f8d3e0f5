import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Crew, type CrewSite, DAY, fitsNowhere, type Job } from '../../../src/engine/estimate/crew.ts';
import { finishBounds } from '../../../src/engine/estimate/crew-bounds.ts';
import { PLACED_UNITS, planCrews } from '../../../src/engine/estimate/crew-plan.ts';
import { listSchedule } from '../../../src/engine/estimate/list-schedule.ts';
import { soonestOfAll } from './every-plan.ts';
import { crew } from './simple.ts';

const job = (setUp: number, pull: number, packUp: number, over: Partial<Job> & { check?: number } = {}): Job => ({
  kind: over.kind ?? 1e6 * setUp + 1e3 * pull + packUp,
  area: over.area ?? 'hall',
  steps: [
    { kind: 'attended', minutes: setUp },
    { kind: 'waiting', minutes: pull, checkInterval: over.check ?? 0, checkMinutes: 5 },
    { kind: 'attended', minutes: packUp },
  ],
});
const site = (crews: readonly Crew[], travel = 0): CrewSite => ({ crews, travel });

describe('a crew of one technician', () => {
  it('with one rig does one unit after another', () => {
    const { placements, finish } = listSchedule([job(20, 60, 10), job(20, 60, 10)], [0, 1], site([crew()]));
    expect(placements.map(({ start }) => start)).toEqual([480, 570]);
    expect(finish).toBe(660);
  });

  it('with two rigs sets the second up while the first pumps', () => {
    const { placements } = listSchedule([job(20, 60, 10), job(20, 60, 10)], [0, 1], site([crew({ rigs: 2 })]));
    expect(placements.map(({ start, finish }) => [start, finish])).toEqual([
      [480, 570],
      [500, 590],
    ]);
  });

  it('lets a long pull run over night and packs up in the morning', () => {
    const { placements } = listSchedule([job(30, 600, 20)], [0], site([crew()]));
    expect(placements).toEqual([{ job: 0, crew: 0, start: 480, finish: DAY + 500, overnight: true }]);
  });

  it('begins no unit that would run into the night where that is not allowed', () => {
    const day = crew({ overnight: false });
    const { placements } = listSchedule([job(30, 240, 30), job(30, 240, 30)], [0, 1], site([day]));
    expect(placements.map(({ start, overnight }) => [start, overnight])).toEqual([
      [480, false],
      [DAY + 480, false],
    ]);
  });

  it('looks after a pull at its interval', () => {
    const { checks, finish } = listSchedule([job(20, 100, 10, { check: 30 })], [0], site([crew()]));
    expect(checks).toBe(15);
    expect(finish).toBe(610);
  });

  it('pays the way from area to area', () => {
    const jobs = [job(20, 0, 10, { area: 'hall' }), job(20, 0, 10, { area: 'roof', kind: 2 })];
    expect(listSchedule(jobs, [0, 1], site([crew()], 15))).toMatchObject({ travel: 15, finish: 555 });
  });

  it('with a day shorter than a step it must stay for can do nothing', () => {
    expect(fitsNowhere(job(500, 10, 10), site([crew()]))).toBe('attended');
    expect(fitsNowhere(job(30, 600, 20), site([crew({ overnight: false })]))).toBe('stretch');
    expect(fitsNowhere(job(30, 600, 20), site([crew()]))).toBeUndefined();
  });
});

const someJobs = fc.array(
  fc.record({
    setUp: fc.integer({ min: 5, max: 60 }),
    pull: fc.integer({ min: 0, max: 900 }),
    packUp: fc.integer({ min: 5, max: 60 }),
    area: fc.constantFrom('hall', 'roof'),
  }),
  { minLength: 1, maxLength: 30 },
);
const toJobs = (records: readonly { setUp: number; pull: number; packUp: number; area: string }[]): Job[] =>
  records.map(({ setUp, pull, packUp, area }) => job(setUp, pull, packUp, { area, check: 60 }));
const crews = [crew({ rigs: 2 }), crew({ name: 'two', technicians: 2, rigs: 3, start: 540 })];

describe('a plan', () => {
  it('is never later than first come, never sooner than its bounds, and does every unit once', () => {
    fc.assert(
      fc.property(someJobs, (records) => {
        const jobs = toJobs(records);
        const { schedule, firstCome, bounds } = planCrews(jobs, site(crews, 10));
        expect(schedule.finish).toBeLessThanOrEqual(firstCome);
        for (const bound of [bounds.attendedWork, bounds.rigTime, bounds.longestUnit])
          expect(schedule.finish).toBeGreaterThanOrEqual(bound - 1e-3);
        expect(schedule.placements.map((placement) => placement.job).sort((a, b) => a - b)).toEqual(
          jobs.map((_, i) => i),
        );
      }),
      { numRuns: 8, seed: 3 },
    );
  }, 60_000);

  it('never uses more rigs or technicians than there are, nor attends out of hours', () => {
    fc.assert(
      fc.property(someJobs, (records) => {
        const jobs = toJobs(records);
        const { placements } = planCrews(jobs, site(crews)).schedule;
        crews.forEach(({ rigs, dayStart, dayEnd }, index) => {
          const own = placements.filter((placement) => placement.crew === index);
          for (const { start } of own)
            expect(own.filter((other) => other.start <= start && other.finish > start).length).toBeLessThanOrEqual(
              rigs,
            );
          for (const { start, finish } of own) {
            expect(start % DAY).toBeGreaterThanOrEqual(dayStart);
            expect(finish % DAY).toBeLessThanOrEqual(dayEnd);
          }
        });
      }),
      { numRuns: 8, seed: 4 },
    );
  }, 60_000);

  it('of few units is the best of all orders', () => {
    const jobs = [job(20, 300, 10), job(30, 20, 15), job(10, 120, 40), job(45, 60, 5), job(15, 200, 20)];
    const two = site([crew({ rigs: 2 })]);
    const { schedule, everyChoice } = planCrews(jobs, two);
    expect(everyChoice).toBe(true);
    const orders = (left: number[]): number[][] =>
      left.length === 0
        ? [[]]
        : left.flatMap((one) => orders(left.filter((other) => other !== one)).map((rest) => [one, ...rest]));
    const finishes = orders([0, 1, 2, 3, 4]).map((order) => byHand(jobs, order, 2));
    expect(schedule.finish).toBeLessThanOrEqual(Math.min(...finishes));
    expect(schedule.finish).toBeGreaterThanOrEqual(soonestOfAll(jobs, crew({ rigs: 2 })));
  });

  it('of few units is the soonest of all plans there are, found by another search', () => {
    let cases = 0;
    let soonest = 0;
    const minutes = (most: number) => fc.integer({ min: 1, max: most }).map((tens) => 10 * tens);
    const few = fc.array(fc.tuple(minutes(10), minutes(90), minutes(10)), { minLength: 2, maxLength: 4 });
    const gear = fc.record({ technicians: fc.integer({ min: 1, max: 2 }), rigs: fc.integer({ min: 1, max: 3 }) });
    fc.assert(
      fc.property(few, gear, (steps, has) => {
        const jobs = steps.map(([setUp, pull, packUp]) => job(setUp, pull, packUp, { area: '' }));
        const least = soonestOfAll(jobs, crew(has));
        const { schedule } = planCrews(jobs, site([crew(has)]));
        expect(schedule.finish).toBeGreaterThanOrEqual(least - 1e-6);
        cases += 1;
        if (schedule.finish <= least + 1e-6) soonest += 1;
      }),
      { numRuns: 60, seed: 5 },
    );
    expect(soonest).toBe(cases);
  }, 60_000);

  it('is never later with one more crew', () => {
    fc.assert(
      fc.property(someJobs, fc.integer({ min: 1, max: 3 }), (records, rigs) => {
        const jobs = toJobs(records);
        const one = planCrews(jobs, site(crews.slice(0, 1), 10)).schedule.finish;
        const two = planCrews(jobs, site([...crews.slice(0, 1), crew({ name: 'new', rigs })], 10)).schedule.finish;
        expect(two).toBeLessThanOrEqual(one);
      }),
      { numRuns: 8, seed: 6 },
    );
  }, 60_000);

  it('gives no unit to a crew whose day is too short for its last step', () => {
    const short = crew({ name: 'short', dayEnd: 540 });
    const { placements } = planCrews(
      [job(30, 60, 90), job(30, 60, 90)],
      site([short, crew({ name: 'long' })]),
    ).schedule;
    expect(placements.map((placement) => placement.crew)).toEqual([1, 1]);
  });

  it('lets short pulls run by day and the long one by night', () => {
    // 4 pulls of 1 h and one of 12 h with one rig: by hand, the short ones end by 14:40 of day 1, and the long one is packed up at once on day 2
    const jobs = [job(20, 720, 20), ...Array.from({ length: 4 }, () => job(20, 60, 20))];
    const { schedule, bounds } = planCrews(jobs, site([crew()]));
    expect(schedule.finish).toBe(DAY + 500);
    expect(schedule.finish).toBe(bounds.longestUnit);
  });

  it('of a thousand units keeps to its budget of work', () => {
    const jobs = Array.from({ length: 1000 }, (_, i) => job(20, 40 + (i % 50), 10, { area: `floor ${i % 4}` }));
    const { tried, schedule } = planCrews(jobs, site(crews, 10));
    expect(schedule.placements.length).toBe(1000);
    expect(tried * jobs.length).toBeLessThanOrEqual(crews.length * PLACED_UNITS);
  });

  it('is the same each time', () => {
    const jobs = toJobs(
      Array.from({ length: 20 }, (_, i) => ({
        setUp: 10 + i,
        pull: 37 * i,
        packUp: 30 - i,
        area: i % 2 ? 'hall' : 'roof',
      })),
    );
    expect(planCrews(jobs, site(crews, 10))).toEqual(planCrews(jobs, site(crews, 10)));
  });
});

describe('the bounds', () => {
  it('are those of counting minute by minute', () => {
    const jobs = [job(40, 200, 20), job(60, 100, 45), job(25, 300, 35), job(90, 30, 10)];
    const some = [
      crew({ rigs: 2, technicians: 2 }),
      crew({ name: 'late', start: DAY + 600, dayStart: 600, overnight: false }),
    ];
    const open = ({ start, dayStart, dayEnd }: Crew, minute: number): boolean =>
      minute >= start && minute % DAY >= dayStart && minute % DAY < dayEnd;
    const reach = (amount: number, gain: (one: Crew, minute: number) => number): number => {
      let sum = 0;
      let minute = 0;
      for (; sum < amount; minute++) for (const one of some) sum += gain(one, minute);
      return minute;
    };
    const attended = 40 + 20 + 60 + 45 + 25 + 35 + 90 + 10;
    const whole = attended + 200 + 100 + 300 + 30;
    const { attendedWork, rigTime, longestUnit } = finishBounds(jobs, site(some));
    const work = reach(attended, (one, minute) => (open(one, minute) ? one.technicians : 0));
    const gear = reach(whole, (one, minute) =>
      (one.overnight ? minute >= one.start : open(one, minute)) ? one.rigs : 0,
    );
    expect(Math.ceil(attendedWork - 1e-3)).toBe(work);
    expect(gear).toBeLessThan(960);
    expect(Math.ceil(rigTime - 1e-3)).toBe(gear);
    expect(longestUnit).toBe(480 + 25 + 300 + 35);
  });

  it('in the night become the first moment at which a unit can be packed up', () => {
    // two pulls of 6 h on one rig: 480 + 2 (30 + 360 + 10) is 21:20
    const { rigTime } = finishBounds([job(30, 360, 10), job(30, 360, 10)], site([crew()]));
    expect(rigTime).toBeCloseTo(DAY + 480 + 10, 3);
  });
});

/** One technician, minute by minute: an own walk through the same rule (pack up what has waited longest, else begin the next). */
function byHand(jobs: readonly Job[], order: readonly number[], rigs: number): number {
  const queue = [...order];
  const out: { ready: number; packUp: number }[] = [];
  let free = 480;
  let finish = 0;
  for (let t = 480; queue.length > 0 || out.length > 0; t++) {
    if (t % 1440 < 480 || t % 1440 >= 960 || t < free) continue;
    const left = 960 - (t % 1440);
    const ready = out.filter((one) => one.ready <= t && one.packUp <= left).sort((a, b) => a.ready - b.ready)[0];
    if (ready !== undefined) {
      out.splice(out.indexOf(ready), 1);
      free = t + ready.packUp;
      finish = Math.max(finish, free);
      continue;
    }
    if (out.length >= rigs) continue;
    const place = queue.findIndex((index) => (jobs[index]?.steps[0]?.minutes ?? 0) <= left);
    if (place < 0) continue;
    const steps = jobs[queue.splice(place, 1)[0] ?? 0]?.steps ?? [];
    free = t + (steps[0]?.minutes ?? 0);
    out.push({ ready: free + (steps[1]?.minutes ?? 0), packUp: steps[2]?.minutes ?? 0 });
  }
  return finish;
}
