import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  jobSteps,
  labourMinutes,
  minutesOfSteps,
  riskWork,
  type UnitLabour,
} from '../../../src/engine/estimate/labour.ts';
import { costOf, hourCost, workingDays } from '../../../src/engine/estimate/money.ts';

const PLAIN: UnitLabour = {
  setUp: 20,
  packUp: 15,
  hold: 30,
  holdReadings: 3,
  readingTime: 2,
  checkInterval: 60,
  checkTime: 5,
  breaks: 0,
  breakTime: 10,
  charging: 12,
  access: 1,
};

describe('the work on one unit', () => {
  it('is set-up, pull, first reading, hold, and the rest', () => {
    expect(jobSteps(PLAIN, 130)).toEqual([
      { kind: 'attended', minutes: 20 },
      { kind: 'waiting', minutes: 130, checkInterval: 60, checkMinutes: 5 },
      { kind: 'attended', minutes: 2 },
      { kind: 'waiting', minutes: 30, checkInterval: 0, checkMinutes: 0 },
      { kind: 'attended', minutes: 2 * 2 + 12 + 15 },
    ]);
  });

  it('adds up by hand: 20 + 3 x 2 + 12 + 15 and two looks of 5, against 130 + 30 less the looks', () => {
    expect(labourMinutes(PLAIN, 130)).toEqual({ attended: 53 + 10, waiting: 160 - 10 });
  });

  it('takes access on all attended minutes, the looks too', () => {
    const { attended, waiting } = labourMinutes({ ...PLAIN, access: 1.5 }, 130);
    expect(attended).toBeCloseTo(1.5 * 63, 12);
    expect(waiting).toBeCloseTo(160 - 1.5 * 10, 12);
  });

  it('shares the pull between the breaks, each part with its own looks', () => {
    const twice = { ...PLAIN, breaks: 2 };
    expect(jobSteps(twice, 210).filter(({ kind }) => kind === 'waiting')).toHaveLength(4);
    // three parts of 70 min, one look each; two breaks of 10
    expect(labourMinutes(twice, 210)).toEqual({ attended: 53 + 20 + 15, waiting: 240 - 15 });
  });

  it('has no hold where there is none: the readings come after the pull', () => {
    expect(jobSteps({ ...PLAIN, hold: 0 }, 10).at(-1)).toEqual({ kind: 'attended', minutes: 6 + 12 + 15 });
    expect(jobSteps({ ...PLAIN, hold: 0 }, 10)).toHaveLength(3);
  });

  it('has no looks, nor minutes for them, without an interval', () => {
    expect(jobSteps({ ...PLAIN, checkInterval: 0 }, 130)[1]).toEqual({
      kind: 'waiting',
      minutes: 130,
      checkInterval: 0,
      checkMinutes: 0,
    });
  });

  it('never waits less than nothing', () => {
    expect(labourMinutes({ ...PLAIN, hold: 0, checkInterval: 1, checkTime: 5 }, 10).waiting).toBe(0);
  });

  const labour = fc.record({
    setUp: fc.integer({ min: 0, max: 90 }),
    packUp: fc.integer({ min: 0, max: 90 }),
    hold: fc.integer({ min: 0, max: 600 }),
    holdReadings: fc.integer({ min: 0, max: 9 }),
    readingTime: fc.integer({ min: 0, max: 9 }),
    checkInterval: fc.integer({ min: 0, max: 200 }),
    checkTime: fc.integer({ min: 0, max: 9 }),
    breaks: fc.integer({ min: 0, max: 5 }),
    breakTime: fc.integer({ min: 0, max: 30 }),
    charging: fc.integer({ min: 0, max: 60 }),
    access: fc.double({ min: 0.5, max: 3, noNaN: true }),
  });

  it('is attended and waiting in turn, attended first and last', () => {
    fc.assert(
      fc.property(labour, fc.double({ min: 0, max: 5000, noNaN: true }), (one, pull) => {
        const kinds = jobSteps(one, pull).map(({ kind }) => kind);
        kinds.forEach((kind, i) => {
          expect(kind).toBe(i % 2 === 0 ? 'attended' : 'waiting');
        });
        expect(kinds.at(-1)).toBe('attended');
      }),
    );
  });

  it('comes to the same for the sampling as for the table', () => {
    fc.assert(
      fc.property(labour, fc.double({ min: 0.01, max: 5000, noNaN: true }), (one, pull) => {
        const { steady, hold, checkInterval, checkMinutes } = riskWork(one);
        const checks = checkInterval > 0 ? Math.floor(pull / checkInterval) * checkMinutes : 0;
        const { attended, waiting } = minutesOfSteps(jobSteps(one, pull));
        expect(steady + checks).toBeCloseTo(attended, 8);
        expect(Math.max(0, pull + hold - checks)).toBeCloseTo(waiting, 8);
      }),
    );
  });
});

describe('money', () => {
  const fitter = { rate: 40, attends: 1, waits: 0.5, dayHours: 8, travel: 16 };
  const helper = { rate: 25, attends: 2, waits: 0, dayHours: 6, travel: 0 };

  it('is people times hours times rate, with the way of each paid day', () => {
    // fitter: 40 + 16/8 = 42 an hour; helpers: 2 x 25
    expect(hourCost([fitter, helper])).toEqual({ attended: 42 + 50, waiting: 21 });
    expect(costOf({ attended: 3, waiting: 10 }, hourCost([fitter, helper]))).toBe(3 * 92 + 210);
  });

  it('counts days by the shortest day of those who attend', () => {
    expect(workingDays(48, 2, [fitter, helper])).toBe(4);
    expect(workingDays(48, 2, [fitter, { ...helper, attends: 0 }])).toBe(3);
  });
});
