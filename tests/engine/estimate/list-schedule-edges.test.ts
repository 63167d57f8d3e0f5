import { describe, expect, it } from 'vitest';
import { type Crew, DAY, type Job, type JobStep } from '../../../src/engine/estimate/crew.ts';
import { listSchedule, scheduler } from '../../../src/engine/estimate/list-schedule.ts';
import { crew as oneCrew } from './simple.ts';

const crew = (over: Partial<Crew> = {}): Crew => oneCrew({ rigs: 2, ...over });
const attended = (minutes: number): JobStep => ({ kind: 'attended', minutes });
const waiting = (minutes: number, checkInterval = 0, checkMinutes = 0): JobStep => ({
  kind: 'waiting',
  minutes,
  checkInterval,
  checkMinutes,
});
const job = (kind: number, area: string, ...steps: JobStep[]): Job => ({ kind, area, steps });
/** How many ways on there were at each choice, the first always taken, and the bound. */
function askedOf(jobs: readonly Job[], ...crews: Crew[]): [number, number][] {
  const asked: [number, number][] = [];
  scheduler(jobs, { crews, travel: 0 })([...jobs.keys()], {}, (options, soonest) => {
    asked.push([options, soonest()]);
    return 0;
  });
  return asked;
}

describe('the list rule at its edges', () => {
  it('without nights begins no hold that would run into one, although the unit was begun in time', () => {
    const long = job(1, '', attended(10), waiting(100), attended(10), waiting(300), attended(10));
    const other = job(2, '', attended(200), waiting(0), attended(10));
    const day = crew({ overnight: false });
    // pulled at 9:50, but the technician is at the other unit until 11:30: 10 + 300 minutes more would be 16:40
    const finishOf = (one: Crew): number[] =>
      listSchedule([long, other], [0, 1], { crews: [one], travel: 0 }).placements.map(({ finish }) => finish);
    expect(finishOf(day)).toEqual([DAY + 480 + 320, 700]);
    // where pumps and holds may stand over night it is only packed up in the morning
    expect(finishOf(crew())).toEqual([DAY + 490, 710]);
    // the same by choices: at 11:30 the hold is none, packing up the other is
    expect(askedOf([long, other], day).map(([options]) => options)).toEqual([2, 2, 1, 1, 1]);
  });

  it('does attended steps in turn one by one', () => {
    const two = job(1, '', attended(10), attended(20));
    const { placements } = listSchedule([two, two], [0, 1], { crews: [crew()], travel: 0 });
    // the step of the unit under way comes before a new unit
    expect(placements.map(({ start, finish }) => [start, finish])).toEqual([
      [480, 510],
      [510, 540],
    ]);
  });

  it('sends who has been nowhere yet rather than one who has a way', () => {
    const jobs = ['hall', 'roof'].map((area, i) => job(i, area, attended(10), waiting(60), attended(10)));
    const two = crew({ technicians: 2, rigs: 1 });
    expect(listSchedule(jobs, [0, 1], { crews: [two], travel: 15 })).toMatchObject({ travel: 0, finish: 640 });
    expect(listSchedule(jobs, [0, 1], { crews: [crew({ rigs: 1 })], travel: 15 })).toMatchObject({
      travel: 15,
      finish: 655,
    });
  });

  it('needs no time for ways where all units are in one area', () => {
    const whole = job(1, 'hall', attended(480));
    expect(listSchedule([whole], [0], { crews: [crew()], travel: 50 }).finish).toBe(960);
    const nowhere = job(2, '', attended(10));
    expect(listSchedule([whole, nowhere], [0, 1], { crews: [crew()], travel: 50 })).toMatchObject({
      travel: 0,
      finish: DAY + 490,
    });
  });

  it('of units that take as long begins the one that comes first in the table at night', () => {
    const jobs = [
      job(5, '', attended(20), waiting(600), attended(10)),
      job(2, '', attended(10), waiting(600), attended(20)),
    ];
    const { placements } = listSchedule(jobs, [1, 0], { crews: [crew()], travel: 0 }, { longestAtNight: true });
    expect(placements.map((one) => [one.job, one.start])).toEqual([
      [0, 480],
      [1, 500],
    ]);
  });

  it('offers to wait for one who is still looking after a pull that is over', () => {
    const looked = job(1, '', attended(10), waiting(35, 30, 20), attended(10));
    // the look at 8:40 takes until 9:00, the pull is over at 8:45
    expect(askedOf([looked], crew({ technicians: 2, rigs: 1 }))).toEqual([
      [1, 535],
      [2, 535],
    ]);
  });

  it('bounds a unit by the crews that can do it', () => {
    const long = job(1, '', attended(20), waiting(600), attended(10));
    const short = job(2, '', attended(10), waiting(0), attended(10));
    const asked = askedOf([long, short], crew({ overnight: false }), crew({ start: DAY + 600 }));
    // the first crew could begin the short one now; the long one is begun at 10:00 of the second day and packed up on the third morning
    expect(asked[0]).toEqual([2, 2 * DAY + 490]);
  });

  it('leaves a unit that fills the day but for a way to a crew that has time for the way, whatever the rule', () => {
    // 470 minutes of 480 without the way, 490 with it; the longer day has 520
    const jobs = [job(1, 'hall', attended(470)), job(2, 'roof', attended(10))];
    const crews = [crew(), crew({ name: 'longer', dayEnd: 1000 })];
    for (const rule of [{}, { longestAtNight: true }, { beginFirst: true, longestAtNight: true }]) {
      const { placements } = listSchedule(jobs, [0, 1], { crews, travel: 20 }, rule);
      expect(placements.map((one) => [one.job, one.crew, one.finish])).toEqual([
        [1, 0, 490],
        [0, 1, 950],
      ]);
    }
  });
});
