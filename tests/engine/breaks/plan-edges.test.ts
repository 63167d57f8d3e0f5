import { describe, expect, it } from 'vitest';
import { type BrokenSystem, type Gear, type PlanStep, runPlan } from '../../../src/engine/breaks/plan.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import type { GasState } from '../../../src/engine/gas/state.ts';
import { Fault } from '../../../src/faults/issue.ts';
import { issueOf, orderIssue } from '../../issue-of.ts';
import { expectWithin } from '../../references/assert.ts';
import { AIR } from '../rig/fakes.ts';
import { AMBIENT, FEED, PUMP, SUPPLY, VOLUME } from './simple.ts';

const NITROGEN = gasState('nitrogen', AMBIENT);
const ARGON = gasState('argon', AMBIENT);
const SYSTEM: BrokenSystem = { volume: VOLUME, water: 0, heat: 0, start: 1e5 };
const WET: BrokenSystem = { ...SYSTEM, water: 2e-3, heat: 5 };

/** A pump of one speed and a feed in proportion to the difference, with a note of what is asked of them. */
function noted(gas = AIR): {
  gear: Gear;
  pumped: (readonly [GasState, boolean])[];
  fed: (readonly [string, number])[];
} {
  const pumped: (readonly [GasState, boolean])[] = [];
  const fed: (readonly [string, number])[] = [];
  const gear: Gear = {
    gas,
    outflow: (of, withVapour) => {
      pumped.push([of, withVapour]);
      return PUMP;
    },
    feed: (of, supply) => {
      fed.push([of.name, supply]);
      return FEED;
    },
  };
  return { gear, pumped, fed };
}
const filled = (pullTo: number, to = 1e5, gas = NITROGEN, wait = 0): PlanStep => ({
  pullTo,
  fill: { to, gas, supply: SUPPLY, wait },
});
const run = (steps: readonly PlanStep[], system = SYSTEM) => runPlan(noted().gear, system, steps);
/** kg/mol. Source: IUPAC atomic weights; air as usual, 28.96 g/mol. */
const M_N2 = 28.0134e-3;
const M_AR = 39.948e-3;
const M_AIR = 28.96e-3;

describe('the gas that a plan pumps', () => {
  it('is the first gas at first, then the mixture by what is left of it, then what was fed alone', () => {
    const { gear, pumped, fed } = noted();
    runPlan(gear, SYSTEM, [filled(2e4, 1e5, ARGON), filled(200, 1e5, ARGON), { pullTo: 100 }]);
    expect(pumped[0]?.[0]).toBe(AIR);
    // a fifth of the air is left
    expectWithin(pumped[1]?.[0].molarMass ?? 0, 0.2 * M_AIR + 0.8 * M_AR, 1e-4, 'a fifth of air');
    // 0.2 * 0.002 of it: 4e-4 of air is not a trace yet
    expectWithin(pumped[2]?.[0].molarMass ?? 0, 4e-4 * M_AIR + 0.9996 * M_AR, 2e-5, 'little air');
    expect(pumped[2]?.[0]).not.toBe(ARGON);
    expect(pumped.map(([, wet]) => wet)).toEqual([false, false, false]);
    expect(fed).toEqual([
      ['argon', SUPPLY],
      ['argon', SUPPLY],
    ]);
    // a share of less than 1e-4 changes nothing
    const deep = noted();
    runPlan(deep.gear, SYSTEM, [filled(9, 1e5, ARGON), { pullTo: 100 }]);
    expect(deep.pumped[1]?.[0]).toBe(ARGON);
    const bound = noted();
    runPlan(bound.gear, SYSTEM, [filled(11, 1e5, ARGON), { pullTo: 100 }]);
    expect(bound.pumped[1]?.[0]).not.toBe(ARGON);
  });

  it('is the first gas where breaks let in the same', () => {
    const { gear, pumped } = noted(NITROGEN);
    runPlan(gear, SYSTEM, [filled(2e4), { pullTo: 100 }]);
    expect(pumped.map(([gas]) => gas)).toEqual([NITROGEN, NITROGEN]);
  });

  it('is the mixture of all that was fed where breaks let in more than one gas', () => {
    const { gear, pumped } = noted();
    runPlan(gear, SYSTEM, [filled(1e3, 1e5, NITROGEN), filled(4e4, 1e5, ARGON), { pullTo: 100 }]);
    // 1 % of air in nitrogen; 0.4 % of air, 39.6 % of nitrogen and 60 % of argon
    expectWithin(pumped[1]?.[0].molarMass ?? 0, 0.01 * M_AIR + 0.99 * M_N2, 1e-4, 'nitrogen');
    const mass = 0.004 * M_AIR + 0.396 * M_N2 + 0.6 * M_AR;
    expectWithin(pumped[2]?.[0].molarMass ?? 0, mass, 1e-4, 'all three');
    // of a gas that is all but gone nothing is left in the mixture
    const deep = noted();
    runPlan(deep.gear, SYSTEM, [filled(5, 1e5, NITROGEN), filled(5, 1e5, ARGON), { pullTo: 100 }]);
    expect(deep.pumped[2]?.[0]).toBe(ARGON);
  });

  it('has vapour in it while there is some', () => {
    const { gear, pumped } = noted();
    const { events } = runPlan(gear, WET, [filled(3000, 1e5, NITROGEN), { pullTo: 100 }]);
    expect(events.map(({ step, what }) => [step, what])).toEqual([
      [0, 'pull'],
      [0, 'break'],
      [1, 'pull'],
    ]);
    expect(pumped.map(([, wet]) => wet)).toEqual([true, true]);
    expect(events.at(-1)?.end.state).toBe('dry');
  });
});

describe('the course of a plan', () => {
  it('starts with saturated vapour over what water is at Ambient', () => {
    // rows PL-06 and PI-08 of the reference file (IAPWS): 2339.32 Pa at 20 C, 259.87 Pa over ice at -10 C
    const warm = run([filled(5e4)], WET).start;
    expect(warm).toMatchObject({ time: 0, state: 'liquid', fed: 0, water: 2e-3, ice: 0, temperature: AMBIENT });
    expectWithin(warm.vapour, 2339.32, 5e-4, 'vapour');
    expect(warm.first + warm.vapour).toBeCloseTo(1e5, 9);
    const cold = runPlan(noted(gasState('air', 263.15)).gear, WET, [filled(5e4)]).start;
    expect(cold).toMatchObject({ state: 'ice', water: 2e-3, ice: 2e-3, temperature: 263.15 });
    expectWithin(cold.vapour, 259.87, 5e-4, 'vapour over ice');
    expect(run([{ pullTo: 100 }]).start).toMatchObject({ state: 'dry', vapour: 0, first: 1e5, water: 0 });
  });

  it('goes on until all is dry only in a last pull without a break', () => {
    const left = run([filled(3000), { pullTo: 3000 }], WET).events;
    expect(left[0]?.end.water).toBeGreaterThan(1e-3);
    expect(left.at(-1)?.end).toMatchObject({ state: 'dry', water: 0 });
    const broken = run([filled(3000), filled(3000)], { ...WET, water: 5e-3 }).events;
    expect(broken.at(-1)?.end.water).toBeGreaterThan(1e-3);
    // a pull in the middle that no break follows ends at its pressure as well
    const middle = run([{ pullTo: 3000 }, { pullTo: 2500 }], WET).events;
    expect(middle[0]?.end.water).toBeGreaterThan(1e-3);
    expect(middle[1]?.end.water).toBe(0);
  });

  it('waits where it is told to, with the heat of the break', () => {
    const fill = { to: 1e5, gas: NITROGEN, supply: SUPPLY, wait: 300, heat: 0 };
    const { events } = run([{ pullTo: 3000, fill }, { pullTo: 100 }], WET);
    expect(events.map(({ what }) => what)).toEqual(['pull', 'break', 'wait', 'pull']);
    expect(events[2]?.seconds).toBeCloseTo(300, 9);
    // without heat nothing warms up
    expect(events[2]?.end.temperature).toBe(events[1]?.end.temperature);
    const same = run([{ pullTo: 3000, fill: { ...fill, heat: 5 } }], WET);
    const own = run([filled(3000, 1e5, NITROGEN, 300)], WET);
    expect(own.events).toEqual(same.events);
    expect(own.events[2]?.end.temperature).toBeGreaterThan(own.events[1]?.end.temperature ?? 0);
    expect(run([filled(3000)], WET).events.map(({ what }) => what)).toEqual(['pull', 'break']);
  });

  it('caps a pull, and the next one starts from where it stood', () => {
    const { events } = run([{ ...filled(100), longestPull: 20 }, { pullTo: 9e4 }, { pullTo: 500 }]);
    expect(events[0]).toMatchObject({ reached: false, seconds: 20 });
    expectWithin(events[0]?.end.first ?? 0, 1e5 * Math.exp(-1), 1e-6, 'V/S is 20 s');
    expect(events[2]?.reached).toBe(true);
  });

  it('keeps balances where asked: of gas, of water and of heat, all closed', () => {
    expect(run([{ pullTo: 100 }], WET).misses).toBeUndefined();
    expect(run([{ pullTo: 100 }], { ...WET, balances: false }).misses).toBeUndefined();
    const load = { leak: 0.01, outgassing: 0, exponent: 0 };
    for (const system of [WET, { ...WET, load }, SYSTEM, { ...SYSTEM, load }])
      for (const steps of [[{ pullTo: 100 }], [filled(3000), filled(2500)], [filled(3000, 1e5, NITROGEN, 60)]]) {
        const { misses } = run(steps, { ...system, metal: 50, balances: true });
        expect(Math.abs(misses?.gas ?? 1)).toBeLessThan(1e-6);
        expect(Math.abs(misses?.water ?? 1)).toBeLessThan(1e-6);
        expect(Math.abs(misses?.energy ?? 1)).toBeLessThan(1e-5);
      }
    expect(run([{ pullTo: 100 }], { ...SYSTEM, balances: true }).misses).toMatchObject({ water: 0, energy: 0 });
  });
});

describe('a plan that cannot be', () => {
  const fault = (steps: readonly PlanStep[], system: Partial<BrokenSystem> = {}) =>
    issueOf(() => run(steps, { ...SYSTEM, ...system }));
  const limit = (argument: string, value: number, rule: string, bound: number, unit: string) => ({
    kind: 'limit',
    argument,
    value,
    rule,
    limit: bound,
    unit,
  });
  const LAST = [{ pullTo: 100 }];

  it('says which value of the system is wrong', () => {
    expect(fault([])).toEqual({ kind: 'empty-table', table: 'plan' });
    for (const value of [0, -1, Number.NaN])
      expect(fault(LAST, { volume: value })).toEqual(limit('Volume', value, 'above', 0, 'm3'));
    for (const value of [0, -1, Number.NaN])
      expect(fault(LAST, { start: value })).toEqual(limit('Start pressure', value, 'above', 0, 'Pa'));
    expect(fault(LAST, { start: 1e6 + 1 })).toEqual(limit('Start pressure', 1e6 + 1, 'at most', 1e6, 'Pa'));
    expect(fault(LAST, { start: 1e6 })).toBeUndefined();
    for (const value of [-1e-9, Number.NaN])
      expect(fault(LAST, { water: value })).toEqual(limit('Water', value, 'at least', 0, 'kg'));
    expect(fault(LAST, { water: 1e-3, heat: 0 })).toMatchObject({ kind: 'no-solution' });
    // at the vapour's own pressure there is no room for gas
    expect(fault(LAST, { water: 1e-3, heat: 1, start: 2339 })).toMatchObject({
      kind: 'order',
      lower: 'the vapour pressure of water at Ambient',
    });
  });

  it('says which value of a step is wrong', () => {
    for (const value of [0, -1, Number.NaN])
      expect(fault([{ pullTo: value }])).toEqual(limit('Pull to', value, 'above', 0, 'Pa'));
    for (const value of [0, -1, Number.NaN])
      expect(fault([{ pullTo: 100, longestPull: value }])).toEqual(limit('Longest pull', value, 'above', 0, 's'));
    for (const value of [1e5, 1.1e5])
      expect(fault([{ pullTo: value }])).toEqual(orderIssue('Start pressure', 1e5, 'Pull to', value));
    // later pulls may be there already
    expect(fault([{ pullTo: 100 }, { pullTo: 2e5 }])).toBeUndefined();
    const fill = { to: 1e5, gas: NITROGEN, supply: SUPPLY, wait: 0 };
    const broken = (more: Partial<typeof fill>) => fault([{ pullTo: 100, fill: { ...fill, ...more } }]);
    expect(broken({ to: 1e6 + 1, supply: 2e6 })).toEqual(limit('Break to', 1e6 + 1, 'at most', 1e6, 'Pa'));
    expect(broken({ to: Number.NaN })).toEqual(limit('Break to', Number.NaN, 'at most', 1e6, 'Pa'));
    for (const supply of [1e5, 9e4]) expect(broken({ supply })).toEqual(orderIssue('Supply', supply, 'Break to', 1e5));
    for (const wait of [-1, Number.NaN]) expect(broken({ wait })).toEqual(limit('Wait', wait, 'at least', 0, 's'));
    expect(broken({})).toBeUndefined();
  });

  it('says where: at the pull or at the break', () => {
    const place = (row: number) => ({ table: 'plan', row }) as const;
    const where = (step: PlanStep): unknown => {
      try {
        run([step]);
      } catch (error) {
        if (error instanceof Fault) return error.place;
      }
      return 'no fault';
    };
    const places = { pullPlace: place(1), breakPlace: place(2) };
    expect(where({ ...filled(0), ...places })).toEqual(place(1));
    expect(where({ ...filled(100, 50), ...places })).toEqual(place(2));
    expect(where(filled(0))).toBeUndefined();
  });
});
