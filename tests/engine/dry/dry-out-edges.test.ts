import { describe, expect, it } from 'vitest';
import { type DryOut, dryOut, type WetSystem } from '../../../src/engine/dry/dry-out.ts';
import { quickDryOut } from '../../../src/engine/dry/quick/quick.ts';
import { type RigSurface, rigSurface } from '../../../src/engine/dry/rig-surface.ts';
import type { Moment } from '../../../src/engine/dry/stages.ts';
import { NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import { issueOf } from '../../issue-of.ts';
import { expectWithin } from '../../references/assert.ts';
import { pumpOf, rigOf } from '../rig/fakes.ts';
import { AMBIENT, EVAPORATION, RV, SPEED, SURFACE, TRIPLE, VOLUME } from './simple.ts';

const WET: WetSystem = { volume: VOLUME, water: 5e-3, heat: 5, start: 101325, target: 66.66 };
const by = (surface: RigSurface, change: Partial<WetSystem> = {}): DryOut => dryOut(surface, { ...WET, ...change });
const bare = (celsius: number, ultimate = 0, more = {}): RigSurface => {
  const T = celsius + 273.15;
  return rigSurface(rigOf({ ...pumpOf(SPEED, ultimate), ...more }), gasState('air', T), gasState('water vapour', T));
};
/** Row PL-06 of the reference file: 2339.32 Pa at 20 C (IAPWS-95). */
const SATURATION = 2339.32;

describe('one rig for systems of different loads', () => {
  it('is asked anew how low it gets for each of them', () => {
    const surface = bare(20);
    const leak = (flow: number) => ({ load: { leak: flow, outgassing: 0, exponent: 0 }, heat: 1e7, quick: true });
    expect(by(surface, leak(0)).toTarget).toBeGreaterThan(0);
    // Q/S: 0.1 Pa m3/s at 1e-3 m3/s is 100 Pa, above the target of 66.66 Pa
    expect(issueOf(() => by(surface, leak(0.1)))).toMatchObject({
      kind: 'out-of-reach',
      lowestPa: expect.closeTo(100, 0),
    });
    expect(by(surface, leak(0)).toTarget).toBeGreaterThan(0);
    expect(by(surface, leak(0.05)).toTarget).toBeGreaterThan(0);
  });
});

describe('a dry-out by a pump of one speed', () => {
  for (const quick of [false, true]) {
    const name = quick ? 'the quick way' : 'fine steps';

    it(`lasts m R_v T/(S p_s) with all the heat that it takes, then V/S ln(p/p_t): ${name}`, () => {
      const { dry, toTarget, pressureWhenDry, coldest, froze, vapourAtPump } = by(SURFACE, { heat: 1e7, quick });
      expectWithin(dry, (5e-3 * RV * AMBIENT) / (SPEED * SATURATION), quick ? 1e-3 : 1e-4, 'dry');
      // air falls by exp(-S t/V) all along, so that nothing is left of it
      expectWithin(pressureWhenDry, SATURATION, 1e-3, 'pressure');
      expectWithin(toTarget, (VOLUME / SPEED) * Math.log(SATURATION / 66.66), 1e-3, 'to target');
      expect(Math.abs(coldest - AMBIENT)).toBeLessThan(0.01);
      expect(froze).toBe(false);
      expectWithin(vapourAtPump, SATURATION, 1e-3, 'at the pump');
    });

    it(`with a leak is at Q/S and the vapour that goes, once it is dry: ${name}`, () => {
      const load = { leak: 0.05, outgassing: 0, exponent: 0 };
      const { toTarget, pressureWhenDry } = by(SURFACE, { heat: 1e7, quick, load });
      expectWithin(pressureWhenDry, SATURATION + 50, 2e-3, 'vapour and 50 Pa of air');
      expectWithin(toTarget, (VOLUME / SPEED) * Math.log(SATURATION / 16.66), 1e-3, 'to 16.66 Pa above the level');
      const steady = by(SURFACE, { heat: 1e7, quick, load: { leak: 0, outgassing: 0.05, exponent: 0 } });
      expectWithin(steady.toTarget, toTarget, 1e-6, 'steady outgassing');
    });

    it(`has nothing to do to a target above the pressure when dry: ${name}`, () => {
      const { toTarget, dry } = by(SURFACE, { heat: 1e7, target: 2400, quick });
      expect(toTarget).toBe(0);
      expectWithin(dry, (5e-3 * RV * AMBIENT) / (SPEED * SATURATION), 1e-3, 'dry');
    });

    it(`is ice from the start below freezing, which has frozen: ${name}`, () => {
      const { froze, coldest, dry } = by(bare(-10), { water: 1e-3, heat: 1e7, quick });
      expect(froze).toBe(true);
      expect(Math.abs(coldest - 263.15)).toBeLessThan(0.01);
      expectWithin(dry, (1e-3 * RV * 263.15) / (SPEED * 259.87), 2e-3, 'row PI-08: 259.87 Pa');
    });

    it(`has not frozen above the triple point, and has where it comes to it: ${name}`, () => {
      // heat and evaporation balance there at S p_t L/(R_v T (T - T_t)), some 0.56 W/K
      const balance = (SPEED * 611.657 * EVAPORATION) / (RV * AMBIENT * (AMBIENT - TRIPLE));
      const above = by(SURFACE, { water: 0.05, heat: 1.02 * balance, quick });
      const below = by(SURFACE, { water: 0.05, heat: 0.98 * balance, quick });
      expect([above.froze, below.froze]).toEqual([false, true]);
      expect(above.coldest).toBeGreaterThan(TRIPLE);
      expect(above.coldest).toBeLessThan(TRIPLE + 0.5);
      expect(below.coldest).toBeLessThanOrEqual(TRIPLE);
    });
  }

  it('shows every moment from the start on, whether quick or not', () => {
    for (const quick of [false, true]) {
      const seen: Moment[] = [];
      const { dry, toTarget } = dryOut(SURFACE, { ...WET, quick }, (moment) => seen.push(moment));
      expect(seen[0]).toMatchObject({ time: 0, state: 'liquid', water: 5e-3, ice: 0, temperature: AMBIENT });
      expectWithin((seen[0]?.gas ?? 0) + (seen[0]?.vapour ?? 0), 101325, 1e-12, 'start');
      expectWithin(seen.at(-1)?.time ?? 0, dry + toTarget, 1e-9, 'end');
    }
  });

  it('keeps its balances where asked, quick or not', () => {
    expect(by(SURFACE).misses).toBeUndefined();
    expect(by(SURFACE, { quick: true }).misses).toBeUndefined();
    for (const quick of [false, true]) {
      const { misses } = by(SURFACE, { balances: true, quick, metal: 200, heat: 1 });
      expect(Math.abs(misses?.mass ?? 1)).toBeLessThan(1e-6);
      expect(Math.abs(misses?.energy ?? 1)).toBeLessThan(1e-4);
    }
  });

  it('flags vapour above what the pump takes', () => {
    for (const quick of [false, true]) {
      const limited = (waterLimit: number): boolean | undefined =>
        by(bare(20, 0, { waterLimit }), { heat: 1e7, quick }).overWaterLimit;
      expect([limited(0.99 * SATURATION), limited(1.01 * SATURATION)]).toEqual([true, false]);
      expect(by(SURFACE, { quick }).overWaterLimit).toBeUndefined();
    }
  });

  it('comes to its end the quick way in few steps, and leaves one that lasts for years to the other', () => {
    const begun = { volume: VOLUME, water: 1e-3, metal: 0, state: 'liquid' as const, gas: 1e5, vapour: SATURATION };
    const start = { ...begun, load: NO_LOAD, target: 66.66, lowest: 0 };
    const result = quickDryOut(SURFACE, { ...start, heat: 5 });
    expect(result?.tries).toBeGreaterThan(5);
    expect(result?.tries).toBeLessThan(100);
    expect(quickDryOut(SURFACE, { ...start, heat: 1e-7 })).toBeUndefined();
  });
});

describe('a dry-out that cannot be', () => {
  const fault = (change: Partial<WetSystem>, surface = SURFACE) => issueOf(() => by(surface, change));

  it('is a fault in full', () => {
    expect(fault({ start: 1e6 + 1 })).toEqual({
      kind: 'limit',
      argument: 'Start pressure',
      value: 1e6 + 1,
      rule: 'at most',
      limit: 1e6,
      unit: 'Pa',
    });
    expect(fault({ start: 1e6 })).toBeUndefined();
    for (const water of [0, -1, Number.NaN])
      expect(fault({ water })).toEqual({
        kind: 'limit',
        argument: 'Water',
        value: water,
        rule: 'above',
        limit: 0,
        unit: 'kg',
      });
    expect(fault({ volume: 0 })).toMatchObject({ kind: 'limit', argument: 'Volume' });
    expect(fault({ target: 101325 })).toMatchObject({ kind: 'order' });
    expect(fault({ target: 0 })).toBeDefined();
  });

  it('is too little heat for a year', () => {
    const never = {
      kind: 'no-solution',
      reason: 'the water is not gone within a year of pumping',
      todo: 'Give more Heat, take a wider rig, or drain the water first.',
    };
    expect(fault({ heat: 1e-6 })).toEqual(never);
    expect(fault({ heat: 1e-6, quick: true })).toEqual(never);
  });

  it('is ice that the pump does not get below: its vapour stands at the ultimate pressure or lower', () => {
    // rows PI-04 and PI-05 of the reference file: 38.005 Pa at -30 C, 63.274 Pa at -25 C (IAPWS R14-08)
    expect(fault({ target: 100 }, bare(-30, 60))).toEqual({
      kind: 'no-solution',
      reason: 'the ice never dries: at Ambient its vapour has 38.01 Pa, and the rig does not pull lower than 60 Pa',
      todo: 'Warm the system, or take a pump with a lower ultimate pressure.',
    });
    expect(fault({ target: 100, heat: 50, water: 1e-4 }, bare(-25, 60))).toBeUndefined();
  });

  it('is not ice below the pressure that a leak keeps: what leaks in carries its vapour off', () => {
    const surface = bare(-10);
    // 300 Pa by the leak, 259.87 Pa of vapour (row PI-08): the pump still takes S p_s of it
    const load = { leak: 0.3, outgassing: 0, exponent: 0 };
    for (const quick of [false, true])
      for (const of of [NO_LOAD, load]) {
        const { dry } = by(surface, { water: 1e-3, heat: 1e7, target: 350, load: of, quick });
        expectWithin(dry, (1e-3 * RV * 263.15) / (SPEED * 259.87), 2e-3, 'dry');
      }
  });

  it('is a target that outgassing keeps it from, and the lowest pressure counts the load that lasts', () => {
    const leak = { leak: 0.1, outgassing: 0, exponent: 0 };
    const issue = fault({ load: leak, target: 99 });
    expect(issue).toMatchObject({ kind: 'out-of-reach', targetPa: 99 });
    expectWithin(issue?.kind === 'out-of-reach' ? issue.lowestPa : 0, 100, 1e-4, 'Q/S');
    // the lowest of one load is not kept for another
    expect(fault({ target: 50 })).toBeUndefined();
    expect(fault({ load: leak, target: 99 })?.kind).toBe('out-of-reach');
    expect(fault({ load: leak, target: 101 })).toBeUndefined();
    // outgassing that falls so slowly that a year does not do
    const slow = { leak: 0, outgassing: 0.5, exponent: 0.1 };
    expect(fault({ load: slow, target: 90 })).toEqual({
      kind: 'out-of-reach',
      targetPa: 90,
      lowestPa: 0,
      because: 'outgassing keeps the pressure above the target for more than a year',
    });
  });
});
