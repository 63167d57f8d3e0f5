import { describe, expect, it } from 'vitest';
import { type Crew, DAY, type Job } from '../../../src/engine/estimate/crew.ts';
import { listSchedule, scheduler } from '../../../src/engine/estimate/list-schedule.ts';
import { jobOf as job, crew as oneCrew } from './simple.ts';

const crew = (over: Partial<Crew> = {}): Crew => oneCrew({ rigs: 2, ...over });
/** Follows the choices given, the first one where none is left; undefined gives up. Tells what was asked: how many ways on, and the bound. */
function follow(jobs: readonly Job[], crews: readonly Crew[], choices: readonly (number | undefined)[], travel = 0) {
  const asked: [number, number][] = [];
  const schedule = scheduler(jobs, { crews, travel })([...jobs.keys()], {}, (options, soonest) => {
    asked.push([options, soonest()]);
    return asked.length <= choices.length ? choices[asked.length - 1] : 0;
  });
  return { asked, ...schedule };
}

describe('the choices of a plan, by hand', () => {
  const jobs = [job(1, 20, 60, 10), job(2, 30, 100, 20)];

  it('are to begin each kind, to go on with each unit that is ready, or to wait for what is under way', () => {
    const { asked, finish } = follow(jobs, [crew()], [0, 1, 1, 0]);
    expect(asked).toEqual([
      // 8:00, begin either: the second needs 150 minutes
      [2, 480 + 150],
      // the first is set up: begin the second or wait
      [2, 500 + 150],
      // waited till the first is pulled: pack it up or begin the second; nothing else is under way, so no waiting
      [2, 560 + 150],
      // the second is set up instead: pack the first up or wait; both rigs are taken
      [2, 710],
      // the second is pulled at 11:30
      [1, 710],
    ]);
    expect(finish).toBe(710);
  });

  it('are fewer where the rigs are taken', () => {
    const { asked, finish } = follow(jobs, [crew({ rigs: 1 })], [1]);
    // 150 minutes of the second, then 90 of the first
    expect(asked).toEqual([
      [2, 630],
      // the first is still to come, 90 minutes from 10:10 on
      [1, 610 + 90],
      [1, 720],
      [1, 720],
    ]);
    expect(finish).toBe(720);
  });

  it('of equal units are one', () => {
    expect(follow([job(1, 20, 60, 10), job(1, 20, 60, 10)], [crew()], []).asked[0]).toEqual([1, 570]);
  });

  it('look over the night: no unit is packed up before the morning', () => {
    const { asked, finish } = follow([job(1, 20, 600, 10)], [crew()], []);
    expect(asked).toEqual([
      [1, DAY + 490],
      [1, DAY + 490],
    ]);
    expect(finish).toBe(DAY + 490);
    // and one that cannot be set up any more today is begun tomorrow: it may want the rig of the other, which may be put off for it
    const late = follow([job(1, 20, 30, 10), job(2, 400, 30, 10)], [crew({ start: 600 })], [0]);
    expect(late.asked[0]).toEqual([2, DAY + 480 + 440]);
  });

  it('are to wait, too, where there is another crew; only crews that can do a unit count', () => {
    const short = crew({ name: 'short', dayEnd: 500 });
    const one = [job(1, 30, 60, 10)];
    const { asked, placements } = follow(one, [short, crew({ start: 600 })], []);
    expect(asked[0]).toEqual([2, 700]);
    expect(placements.map((placement) => placement.crew)).toEqual([1]);
    // of two that can, the one that is sooner
    const afternoon = crew({ name: 'afternoon', dayStart: 840 });
    expect(follow(one, [crew(), afternoon], []).asked[0]).toEqual([2, 580]);
    expect(follow(one, [afternoon, crew()], []).asked[0]).toEqual([2, 580]);
  });

  it('are left out where the way there does not fit into the day', () => {
    const apart = [job(1, 20, 300, 10, 'hall'), job(2, 120, 5, 10, 'roof')];
    // at 13:50 there are 130 minutes left: 120 fit, with a way of 10 just, of 11 no more
    const crews = [crew({ start: 810 })];
    expect(follow(apart, crews, [0, 0], 10).asked[1]).toEqual([2, DAY + 490]);
    // nothing may be done then before the morning
    expect(follow(apart, crews, [0, 0], 11).asked[1]).toEqual([2, DAY + 480 + 135]);
  });

  it('may be given up, and nothing more is asked', () => {
    const { asked, finish, placements } = follow(jobs, [crew()], [0, undefined]);
    expect([asked.length, finish, placements.length]).toEqual([2, Number.POSITIVE_INFINITY, 0]);
    expect(follow(jobs, [crew(), crew()], [undefined]).asked).toHaveLength(1);
  });
});

describe('a schedule', () => {
  it('that ends at midnight has had no night', () => {
    const night = crew({ start: 1200, dayStart: 1200, dayEnd: 1440 });
    const at = (pull: number) => listSchedule([job(1, 20, pull, 20)], [0], { crews: [night], travel: 0 }).placements[0];
    expect(at(200)).toEqual({ job: 0, crew: 0, start: 1200, finish: 1440, overnight: false });
    expect(at(201)).toMatchObject({ finish: DAY + 1220, overnight: true });
  });

  it('of no units is over at once', () => {
    expect(listSchedule([], [], { crews: [crew()], travel: 5 })).toEqual({
      placements: [],
      finish: 0,
      checks: 0,
      travel: 0,
    });
  });

  it('of part of the units does these alone', () => {
    const jobs = [job(1, 20, 60, 10), job(2, 30, 100, 20), job(1, 20, 60, 10)];
    const { placements } = listSchedule(jobs, [2, 1], { crews: [crew({ rigs: 1 })], travel: 0 });
    expect(placements.map((one) => [one.job, one.start])).toEqual([
      [2, 480],
      [1, 570],
    ]);
  });
});
