import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crewCannot, DAY, type Job, type JobStep } from '../../../src/engine/estimate/crew.ts';
import { planCrews } from '../../../src/engine/estimate/crew-plan.ts';
import { listSchedule } from '../../../src/engine/estimate/list-schedule.ts';
import { soonestWithWays } from './every-walk.ts';
import { crew, jobOf } from './simple.ts';

describe('a technician who waits', () => {
  it('walks meanwhile, and stands there when the step falls due', () => {
    // hall 8:00 to 8:20, way, roof 8:35 to 8:55; the roof is packed up from 9:55 to 10:05, so that he is in the hall at 10:20, when its pull ends
    const jobs = [jobOf(0, 20, 120, 10, 'hall'), jobOf(1, 20, 60, 10, 'roof')];
    const { finish, travel } = listSchedule(jobs, [0, 1], { crews: [crew({ rigs: 2 })], travel: 15 });
    expect([finish, travel]).toEqual([630, 30]);
  });

  it('is late by what is left of the way where the step falls due before he is there', () => {
    // as above, but the pull in the hall ends at 10:10, when 10 of the 15 minutes are left
    const jobs = [jobOf(0, 20, 110, 10, 'hall'), jobOf(1, 20, 60, 10, 'roof')];
    const { finish } = listSchedule(jobs, [0, 1], { crews: [crew({ rigs: 2 })], travel: 15 });
    expect(finish).toBe(630);
  });

  it('walks to a unit while all rigs are taken', () => {
    // the hall is set up at 8:10; the yard is packed up at 8:40, and its rig is set up on the roof at once by who came from the hall
    const jobs = [jobOf(0, 20, 0, 20, 'yard'), jobOf(1, 10, 400, 10, 'hall'), jobOf(2, 30, 0, 10, 'roof')];
    const site = { crews: [crew({ technicians: 2, rigs: 2 })], travel: 15 };
    const roof = listSchedule(jobs, [0, 1, 2], site).placements.find(({ job }) => job === 2);
    expect([roof?.start, roof?.finish]).toEqual([520, 560]);
  });

  it('walks in the evening where the whole way fits into the day, else in the morning', () => {
    const finishOf = (packUp: number) => {
      // roof from 14:00, then the hall, set up from 14:30 on; the roof is pulled at 15:55, too late to be packed up today
      const jobs = [jobOf(0, 15, 100, 20, 'roof'), jobOf(1, 15, 0, packUp, 'hall')];
      return listSchedule(jobs, [0, 1], { crews: [crew({ start: 840, rigs: 2 })], travel: 15 }).finish;
    };
    // done in the hall at 15:45: on the roof at 16:00
    expect(finishOf(60)).toBe(DAY + 500);
    // at 15:46: 15 minutes in the morning
    expect(finishOf(61)).toBe(DAY + 515);
  });

  it('may be on the way elsewhere: a step beside both is done by who came free last', () => {
    // both in the hall, free from 8:10 and from 8:30 on; the first unit is packed up from 8:30 to 8:40, when its rig is wanted on the roof.
    // Who came free at 8:10 can be there by 8:30; the other, idle from 8:30, not before 8:50
    const jobs = [jobOf(0, 10, 20, 10, 'hall'), jobOf(1, 30, 400, 10, 'hall'), jobOf(2, 20, 0, 10, 'roof')];
    const site = { crews: [crew({ technicians: 2, rigs: 2 })], travel: 20 };
    const roof = listSchedule(jobs, [0, 1, 2], site).placements.find(({ job }) => job === 2);
    expect([roof?.start, roof?.finish]).toEqual([520, 550]);
  });
});

const fives = (min: number, max: number) => fc.integer({ min, max }).map((n) => 5 * n);
const attended = (minutes: number): JobStep => ({ kind: 'attended', minutes });
const waiting = (minutes: number): JobStep => ({ kind: 'waiting', minutes, checkInterval: 0, checkMinutes: 0 });
const casesIn = (...areas: readonly string[]) => {
  const unit = fc.record({
    setUp: fives(1, 20),
    pull: fc.oneof(fives(0, 20), fives(0, 180)),
    // a reading and a hold between the pull and the pack-up
    reading: fc.constantFrom(0, 0, 10, 25),
    hold: fives(0, 30),
    packUp: fives(1, 20),
    area: fc.constantFrom(...areas),
  });
  return fc.record({
    units: fc.array(unit, { minLength: 2, maxLength: 3 }),
    gear: fc.record({
      technicians: fc.integer({ min: 1, max: 2 }),
      rigs: fc.integer({ min: 1, max: 2 }),
      start: fc.constantFrom(480, 480, 700, 900, 940),
      overnight: fc.boolean(),
    }),
    travel: fc.constantFrom(0, 10, 20, 45),
  });
};

describe('a plan whose every choice is followed up ends with the soonest of all sequences, ways begun at once', () => {
  it.each([
    ['areas', ['hall', 'roof', 'yard']],
    ['areas and units without one', ['hall', 'roof', '']],
  ])('of units with %s', (_, areas) => {
    let compared = 0;
    for (const { units, gear, travel } of fc.sample(casesIn(...areas), { numRuns: 500, seed: 31 })) {
      const site = { crews: [crew(gear)], travel };
      const jobs = units.map(({ setUp, pull, reading, hold, packUp, area }, kind): Job => {
        const between = reading > 0 && units.length < 3 ? [attended(reading), waiting(hold)] : [];
        return { kind, area, steps: [attended(setUp), waiting(pull), ...between, attended(packUp)] };
      });
      if (jobs.some((job) => crewCannot(job, crew(gear), travel) !== undefined)) continue;
      compared += 1;
      const { schedule, everyChoice } = planCrews(jobs, site);
      expect([schedule.finish, everyChoice, units, gear, travel]).toEqual([
        soonestWithWays(jobs, site),
        true,
        units,
        gear,
        travel,
      ]);
    }
    expect(compared).toBeGreaterThan(300);
  });

  it.each([
    // from 15:00: by the nearest technician alone the plan ends 5 minutes later
    [
      'the unit without an area is done by who is not the nearest',
      20,
      [jobOf(0, 65, 25, 80, 'hall'), jobOf(1, 20, 660, 40), jobOf(2, 85, 35, 45, 'roof')],
    ],
    // 5 minutes later where nobody leaves a step for the morning that he has time for today
    [
      'somebody leaves a step that fits into the evening and walks to where he is needed in the morning',
      45,
      [jobOf(0, 75, 85, 10, 'roof'), jobOf(1, 15, 0, 35, 'yard'), jobOf(2, 85, 75, 35, 'hall')],
    ],
  ])('also where %s', (_, travel, jobs) => {
    const site = { crews: [crew({ technicians: 2, rigs: 3, start: 900 })], travel };
    const { schedule, everyChoice } = planCrews(jobs, site);
    expect([schedule.finish, everyChoice]).toEqual([soonestWithWays(jobs, site), true]);
  });

  it('also where a unit is not begun in the evening, so that another has the rig in the morning', () => {
    // from 15:50: the short set-up would leave its rig taken until 8:50 and then 9:00; begun at 8:00 the other is packed up at 15:30, and
    // the first is pulled from 15:40 to 8:20 and packed up by 8:30
    const jobs = [jobOf(0, 10, 1000, 10), jobOf(1, 60, 330, 60)];
    const { schedule, everyChoice } = planCrews(jobs, { crews: [crew({ start: 950 })], travel: 0 });
    expect([schedule.finish, everyChoice]).toEqual([2 * DAY + 510, true]);
  });
});
