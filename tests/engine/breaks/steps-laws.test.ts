import { describe, expect, it } from 'vitest';
import { type Contents, totalPressure } from '../../../src/engine/breaks/contents.ts';
import { LONGEST, letIn, pull, stand } from '../../../src/engine/breaks/steps.ts';
import { issueOf } from '../../issue-of.ts';
import { expectWithin } from '../../references/assert.ts';
import {
  AMBIENT,
  AROUND,
  DRY,
  EVAPORATION,
  FEED,
  FEED_SPEED,
  FREEZING,
  MELTING,
  PUMP,
  RV,
  SPEED,
  SUPPLY,
  TRIPLE,
  TRIPLE_PA,
  VOLUME,
} from './simple.ts';

const UNSEEN = { coldest: undefined, froze: false, vapourAtPump: 0 };
const HEAT = 0.5 * (AMBIENT - TRIPLE);
const FILL_TIME = VOLUME / FEED_SPEED;
/** At rest at Ambient, so that no heat flows. Row PL-06 of the reference file: 2339.32 Pa at 20 C (IAPWS-95). */
const REST: Contents = { ...FREEZING, state: 'liquid', ice: 0, temperature: AMBIENT, vapour: 2339.32 };

describe('a pull', () => {
  it('of a dry system sees the vapour at the pump at its start, and no water', () => {
    const done = pull(AROUND, PUMP, DRY, { target: 110, toDry: true });
    expect(done).toMatchObject({ reached: true, seen: { coldest: undefined, froze: false } });
    expect(done.seen.vapourAtPump).toBeCloseTo(400, 9);
    expect(totalPressure(done.end)).toBeCloseTo(110, 9);
    const bone = pull(AROUND, PUMP, { ...DRY, vapour: 0 }, { target: 110, toDry: true });
    expect(bone.seen).toEqual(UNSEEN);
  });

  it('is not reached where its cap is over first, and goes no further', () => {
    const done = pull(AROUND, PUMP, DRY, { target: 110, longest: 30, toDry: false });
    expect(done.reached).toBe(false);
    expect(done.end.time).toBe(130);
    expectWithin(totalPressure(done.end), 4400 * Math.exp((-30 * SPEED) / VOLUME), 1e-6, 'exponential');
    const wet = pull(AROUND, PUMP, FREEZING, { target: 700, longest: 20, toDry: false });
    expect(wet).toMatchObject({ reached: false, end: { time: 120, state: 'freezing' } });
  });

  it('with water left ends at its pressure, unless all is to be dry', () => {
    const there = pull(AROUND, PUMP, FREEZING, { target: 1000, toDry: false });
    expect(there).toMatchObject({ reached: true, end: { state: 'freezing' } });
    expectWithin(totalPressure(there.end), 1000, 1e-6, 'pressure');
    expect(there.seen.coldest).toBeCloseTo(TRIPLE, 12);
    expect(there.seen.froze).toBe(true);
    // at the first moment most of it is gas; at the last most is vapour, all of it at the pump
    expectWithin(there.seen.vapourAtPump, TRIPLE_PA, 1e-6, 'vapour at the pump');
    const dry = pull({ ...AROUND, heat: 20 }, PUMP, { ...FREEZING, water: 1e-3 }, { target: 1000, toDry: true });
    expect(dry).toMatchObject({ reached: true, end: { state: 'dry', water: 0, ice: 0 } });
    expect(totalPressure(dry.end)).toBeLessThanOrEqual(1000);
    expect(dry.seen).toMatchObject({ coldest: expect.closeTo(TRIPLE, 9), froze: true });
    expect(dry.seen.vapourAtPump).toBeGreaterThanOrEqual(TRIPLE_PA);
  });

  it('of liquid at rest has seen no ice, and the coldest on the way', () => {
    const done = pull({ ...AROUND, heat: 100 }, PUMP, REST, { target: 3000, toDry: false });
    expect(done.seen.froze).toBe(false);
    expect(done.seen.coldest).toBeLessThan(AMBIENT);
    expectWithin(done.seen.coldest ?? 0, done.end.temperature, 1e-6, 'coldest at the end');
    expect(done.end.temperature).toBeGreaterThan(AMBIENT - 1);
  });

  it('goes no lower than the pump, or than where the load balances it', () => {
    const at = (target: number, leak = 0, outgassing = 0) =>
      issueOf(() =>
        pull({ ...AROUND, load: { leak, outgassing, exponent: 0 } }, PUMP, DRY, { target, toDry: true, longest: 10 }),
      );
    const because = 'it is the ultimate pressure of the pump';
    expect(at(0)).toEqual({ kind: 'out-of-reach', targetPa: 0, lowestPa: 0, because });
    expect(at(1)).toBeUndefined();
    // 0.2 Pa m3/s by a pump of 1e-3 m3/s: 200 Pa
    for (const load of [
      [0.2, 0],
      [0, 0.2],
    ] as const) {
      const issue = at(199.9, ...load);
      expect(issue).toMatchObject({
        kind: 'out-of-reach',
        targetPa: 199.9,
        because: 'leak and outgassing balance what the rig carries off there',
      });
      expectWithin(issue?.kind === 'out-of-reach' ? issue.lowestPa : 0, 200, 1e-4, 'lowest');
      expect(at(200.1, ...load)).toBeUndefined();
    }
  });

  it('of more than a year is a fault, unless it was capped', () => {
    expect(LONGEST).toBe(366 * 24 * 3600);
    const todo = 'Give more Heat, a longer Wait, a wider rig or a Longest pull, or drain the water first.';
    const vast = { ...AROUND, volume: 1e6 };
    expect(issueOf(() => pull(vast, PUMP, DRY, { target: 110, toDry: true }))).toEqual({
      kind: 'no-solution',
      reason: 'the pull is not at its pressure within a year',
      todo,
    });
    expect(pull(vast, PUMP, DRY, { target: 110, toDry: true, longest: LONGEST - 1 }).reached).toBe(false);
    const cold = { ...AROUND, heat: 1e-6 };
    expect(issueOf(() => pull(cold, PUMP, FREEZING, { target: 110, toDry: true }))).toEqual({
      kind: 'no-solution',
      reason: 'the water is not gone within a year',
      todo,
    });
  });
});

describe('a break', () => {
  it('lets gas in by the exponential of the difference, or at once where nothing is in its way', () => {
    const done = letIn(AROUND, FEED, DRY, 1.2e5);
    const t = FILL_TIME * Math.log((SUPPLY - 4400) / (SUPPLY - 1.2e5));
    expect(done).toMatchObject({ reached: true, seen: UNSEEN });
    expectWithin(done.end.time - 100, t, 1e-9, 'time of the fill');
    expect(done.end).toEqual({ ...DRY, time: done.end.time, fed: 1.2e5 - 3400 });
    const bare = letIn(AROUND, undefined, DRY, 1.2e5);
    expect(bare).toEqual({ reached: true, seen: UNSEEN, end: { ...DRY, fed: 1.2e5 - 3400 } });
  });

  it('leaves water at rest as it is', () => {
    const before = totalPressure(REST);
    const { end, reached, seen } = letIn(AROUND, FEED, REST, 1.2e5);
    const t = FILL_TIME * Math.log((SUPPLY - before) / (SUPPLY - 1.2e5));
    expect(reached).toBe(true);
    expectWithin(end.time - 100, t, 1e-5, 'time of the fill');
    expectWithin(totalPressure(end), 1.2e5, 1e-7, 'pressure');
    expectWithin(end.fed, 1.2e5 - before + 1000, 1e-5, 'fed');
    expectWithin(end.water, 5e-3, 1e-6, 'water');
    // nothing goes by the pump
    expect(seen).toEqual({ coldest: expect.closeTo(AMBIENT, 6), froze: false, vapourAtPump: 0 });
  });

  it('goes on after the last of the water is gone', () => {
    // 10 mg of water that warms at once fills the volume with less vapour than saturation
    const drop: Contents = { ...FREEZING, water: 1e-5, ice: 0, state: 'liquid' };
    const { end, reached } = letIn({ ...AROUND, heat: 50 }, FEED, drop, 1.2e5);
    expect(end).toMatchObject({ state: 'dry', water: 0, first: 3000 });
    expect(reached).toBe(true);
    const vapour = TRIPLE_PA + (1e-5 * RV * AMBIENT) / VOLUME;
    expectWithin(end.vapour, vapour, 1e-3, 'vapour of the drop');
    expectWithin(totalPressure(end), 1.2e5, 1e-9, 'pressure');
    const t = FILL_TIME * Math.log((SUPPLY - totalPressure(drop)) / (SUPPLY - 1.2e5));
    // vapour takes a little of the way, so the feed is done sooner by what that is worth
    expect(end.time - 100).toBeLessThan(t);
    expectWithin(end.time - 100, t - (FILL_TIME * (vapour - TRIPLE_PA)) / (SUPPLY - 4000), 0.01, 'time');
  });

  it('is not there after a year where the volume is too vast for its feed', () => {
    // K t/V is 2e-4 * 31.6e6/1e8 = 6e-5 of the way
    const vast = { ...AROUND, volume: 1e8, heat: 0 };
    const { end, reached } = letIn(vast, FEED, { ...REST, water: 1e6 }, 1.2e5);
    expect(reached).toBe(false);
    expect(end.time).toBe(100 + LONGEST);
    expectWithin(end.fed - REST.fed, (SUPPLY - totalPressure(REST)) * 6.3245e-5, 1e-3, 'fed in a year');
  });

  it('is a fault where the pressure is there already', () => {
    for (const to of [4400, 4000])
      expect(issueOf(() => letIn(AROUND, FEED, DRY, to))).toEqual({
        kind: 'order',
        upper: 'Break to',
        upperValue: to,
        lower: 'the pressure at the end of the pull',
        lowerValue: 4400,
        unit: 'Pa',
      });
    expect(issueOf(() => letIn(AROUND, FEED, DRY, 4401))).toBeUndefined();
  });
});

describe('a wait', () => {
  it('changes nothing but the time in a dry system or without heat', () => {
    expect(stand(AROUND, DRY, 60)).toEqual({ reached: true, seen: UNSEEN, end: { ...DRY, time: 160 } });
    const cold = stand({ ...AROUND, heat: 0 }, FREEZING, 60);
    expect(cold).toEqual({ reached: true, seen: UNSEEN, end: { ...FREEZING, time: 160 } });
  });

  it('melts ice first and warms the water after, all of it by the heat that came in', () => {
    const melting = (1e-3 * MELTING) / HEAT;
    const half = stand(AROUND, FREEZING, 0.5 * melting);
    expectWithin(half.end.ice, 0.5e-3, 1e-5, 'half melted');
    expect(half).toMatchObject({ reached: true, seen: { froze: true, vapourAtPump: 0 } });
    const done = stand(AROUND, FREEZING, melting + 20);
    expect(done.end).toMatchObject({ state: 'liquid', ice: 0, first: 3000, fed: 1000 });
    expect(done.end.time).toBeCloseTo(100 + melting + 20, 9);
    expect(done.seen.coldest).toBeCloseTo(TRIPLE, 9);
    // m c T' + L V/(R_v T) p_s' = UA (T_0 - T), in the mean: 4.2 kJ/(kg K), and the vapour's share by its pressures
    const warmed = done.end.temperature - TRIPLE;
    const vapour = (EVAPORATION * VOLUME * (done.end.vapour - TRIPLE_PA)) / (RV * AMBIENT);
    const joules = 0.5 * 20 * (AMBIENT - TRIPLE - 0.5 * warmed);
    expectWithin(5e-3 * 4200 * warmed + vapour, joules, 0.02, 'heat');
  });

  it('lasts as long as told though the water is gone before', () => {
    const drop: Contents = { ...FREEZING, state: 'liquid', ice: 0, water: 1e-5 };
    const { end } = stand({ ...AROUND, heat: 50 }, drop, 5000);
    expect(end).toMatchObject({ state: 'dry', time: 5100, water: 0 });
  });
});
