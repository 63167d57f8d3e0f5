import { describe, expect, it } from 'vitest';
import type { Crew, Job } from '../../../src/engine/estimate/crew.ts';
import { planCrews } from '../../../src/engine/estimate/crew-plan.ts';
import { listSchedule } from '../../../src/engine/estimate/list-schedule.ts';
import { crew, jobOf as pulledJob } from './simple.ts';

type Steps = readonly [setUp: number, pull: number, packUp: number];
const jobOf = (kind: number, steps: Steps, area = ''): Job => pulledJob(kind, ...steps, area);

/** A crew whose runs are counted: each schedule asks once how many technicians it has. */
function counted(over: Partial<Crew> = {}): { one: Crew; runs: () => number } {
  let runs = 0;
  const plain = crew(over);
  const one = {
    ...plain,
    get technicians() {
      runs += 1;
      return plain.technicians;
    },
  };
  return { one, runs: () => runs };
}

describe('small changes of a plan of many units', () => {
  // units of a few kinds, in an order in which neither the list as it comes nor a simple order is the best
  it.each([
    [
      '13 units of 7 kinds',
      '6634646043411',
      ['25 350 40', '5 190 25', '40 120 35', '15 160 40', '30 170 35', '30 150 40', '30 60 30'],
      true,
    ],
    ['21 units of 4 kinds', '033000201121001210210', ['35 150 10', '10 60 30', '20 50 30', '40 260 35'], true],
    ['24 units by day alone', '110110221200021011220102', ['40 60 40', '15 120 35', '10 60 40'], false],
  ] as const)('find for %s one in which the technician has not a minute to wait', (_, units, kinds, overnight) => {
    const jobs = [...units].map((kind) => {
      const [setUp = 0, pull = 0, packUp = 0] = (kinds[Number(kind)] ?? '').split(' ').map(Number);
      return jobOf(Number(kind), [setUp, pull, packUp]);
    });
    // eight hours a day of set-ups and pack-ups without a gap: no plan is sooner
    const attended = jobs.reduce((sum, { steps }) => sum + (steps[0]?.minutes ?? 0) + (steps[2]?.minutes ?? 0), 0);
    const days = Math.ceil(attended / 480) - 1;
    const { schedule, firstCome } = planCrews(jobs, { crews: [crew({ rigs: 4, overnight })], travel: 0 });
    expect(schedule.finish).toBe(1440 * days + 480 + attended - 480 * days);
    expect(firstCome).toBeGreaterThan(schedule.finish);
    expect(schedule.placements.map(({ job }) => job).sort((a, b) => a - b)).toEqual([...jobs.keys()]);
  });

  it('are no more than it says, and none of them changes units that are alike', () => {
    const { one, runs } = counted({ rigs: 2 });
    const differ = Array.from({ length: 8 }, (_, i) => jobOf(i, [10 + i, 20 + 30 * i, 10]));
    // one of eight picks is the same place twice; besides, the order given and the bound of each kind are worked out
    const { tried } = planCrews(differ, { crews: [one], travel: 10 });
    expect(tried).toBe(1200);
    expect(runs()).toBeLessThan(1200);
    expect(runs()).toBeGreaterThan(1000);
    // 20 of one kind and 3 of another, 1771 orders: two picks in three are of one kind
    const alike = counted({ rigs: 2 });
    const jobs = Array.from({ length: 23 }, (_, i) => (i % 6 < 5 ? jobOf(1, [20, 110, 15]) : jobOf(2, [35, 40, 10])));
    const plan = planCrews(jobs, { crews: [alike.one], travel: 10 });
    expect(plan.tried).toBe(521);
    expect(alike.runs()).toBeLessThan(0.5 * 521);
  });
});

describe('of two plans that end together', () => {
  /** Shorter units in three areas beside a pull that ends the next morning, whatever comes first. */
  const long = jobOf(9, [10, 700, 10]);
  const site = { crews: [crew({ rigs: 4 })], travel: 5 };

  it('the one with less time on the way counts, though it ends its units later on the whole', () => {
    const jobs = [long, jobOf(1, [5, 0, 5], 'hall'), jobOf(2, [10, 0, 10], 'roof'), jobOf(3, [30, 0, 30], 'hall')];
    const { schedule } = planCrews(jobs, site);
    // the two of the hall and then the roof, or the other way round: one way; by length there are two, and the sum is less
    expect([schedule.finish, schedule.travel]).toEqual([1440 + 490, 5]);
    const byLength = listSchedule(jobs, [1, 2, 3, 0], site);
    expect([byLength.finish, byLength.travel]).toEqual([1440 + 490, 10]);
    const sum = (placements: readonly { finish: number }[]) => placements.reduce((all, { finish }) => all + finish, 0);
    expect(sum(byLength.placements)).toBeLessThan(sum(schedule.placements));
  });

  it('and with as much time on the way the one whose units end sooner on the whole', () => {
    const jobs = [long, jobOf(1, [30, 0, 30], 'hall'), jobOf(2, [10, 0, 10], 'roof')];
    const { schedule } = planCrews(jobs, site);
    // roof first: 20 + 5 + 60 minutes; hall first would be 60 + 5 + 20
    expect(schedule.travel).toBe(5);
    const ends = schedule.placements.filter(({ job }) => job > 0).map(({ job, finish }) => [job, finish]);
    expect(ends).toEqual([
      [2, 480 + 20],
      [1, 480 + 85],
    ]);
  });

  it('the first found is kept: the list as it comes where no order is better', () => {
    const alike = [jobOf(1, [20, 0, 10]), jobOf(2, [20, 0, 10]), jobOf(3, [20, 0, 10])];
    const one = { crews: [crew()], travel: 0 };
    const { schedule } = planCrews(alike, one);
    expect(schedule).toEqual(listSchedule(alike, [0, 1, 2], one));
  });

  it('units of one kind are begun in the order of the table', () => {
    const [short, slow] = [jobOf(1, [10, 0, 10]), jobOf(2, [60, 0, 30])];
    const { schedule } = planCrews([slow, short, slow, short, short], { crews: [crew()], travel: 0 });
    // shortest first: the sum of the ends is least
    expect(schedule.placements.map(({ job }) => job)).toEqual([1, 3, 4, 0, 2]);
  });

  it('a plan of fewer crews is not looked for where it can at best end with that of all', () => {
    // one long pull ends both with one crew and with two
    const jobs = [long, jobOf(1, [20, 0, 10]), jobOf(2, [40, 0, 10])];
    const { schedule, tried } = planCrews(jobs, { crews: [crew({ rigs: 2 }), crew({ name: 'two' })], travel: 0 });
    expect([schedule.finish, tried]).toEqual([1440 + 490, 1 + 4 * 6]);
  });
});
