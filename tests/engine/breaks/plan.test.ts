import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { totalPressure } from '../../../src/engine/breaks/contents.ts';
import { type BrokenSystem, type Gear, type PlanStep, runPlan } from '../../../src/engine/breaks/plan.ts';
import { dryOut } from '../../../src/engine/dry/dry-out.ts';
import { rigSurface } from '../../../src/engine/dry/rig-surface.ts';
import { pullDownTime } from '../../../src/engine/evacuate/pulldown.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import type { Rig } from '../../../src/engine/rig/rig.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { Fault, type Issue } from '../../../src/faults/issue.ts';
import { expectWithin } from '../../references/assert.ts';
import { AIR, pumpOf, rigOf } from '../rig/fakes.ts';
import { bruteForcePlan } from './brute-force.ts';
import { ATMOSPHERE, atTemperature, filled, planCases, WET } from './cases.ts';
import { gearFor, NITROGEN, SMALL, WIDE, ZERO } from './gear.ts';

const MICRON = ATMOSPHERE / 760e3;
const DRY: BrokenSystem = { volume: 0.02, water: 0, heat: 0, start: ATMOSPHERE };
const gears = new Map<string, Gear>();
function gear(rig: Rig, celsius = 20): Gear {
  const key = `${rig === WIDE} ${celsius}`;
  const known = gears.get(key) ?? gearFor(rig, celsius);
  gears.set(key, known);
  return known;
}

const total = (of: Gear, system: BrokenSystem, steps: readonly PlanStep[]): number =>
  runPlan(of, system, steps).events.reduce((sum, { seconds }) => sum + seconds, 0);

describe('air left in a dry system', () => {
  it('is by hand: pulls to 4000 and 1500 micron, broken to 1.2 bar, a last pull to 500 micron', () => {
    const { events } = runPlan(gear(SMALL), DRY, [
      filled(4000 * MICRON),
      filled(1500 * MICRON),
      { pullTo: 500 * MICRON },
    ]);
    const shares = events.map(({ end }) => end.first / ATMOSPHERE);
    const first = (4000 * MICRON) / ATMOSPHERE;
    const second = (first * 1500 * MICRON) / 1.2e5;
    const third = (second * 500 * MICRON) / 1.2e5;
    [first, first, second, second, third].forEach((hand, i) => {
      expectWithin(shares[i] ?? 0, hand, 1e-9, 'dilution by hand');
    });
  });

  it('is pulled in the time of EVAC.TIME, and fills through a bare pump at once', () => {
    const curve = rigCurve(prepareRig(WIDE, AIR));
    const [only] = runPlan(gear(WIDE), DRY, [{ pullTo: 66 }]).events;
    expectWithin(only?.seconds ?? 0, pullDownTime(curve, DRY.volume, ATMOSPHERE, 66), 1e-9, 'one pull');
    const bare = gearFor(rigOf(pumpOf(1e-3)));
    expect(runPlan(bare, DRY, [filled(100)]).events[1]?.seconds).toBe(0);
  });

  it('is more with a leak, in time and in air', () => {
    const steps = [filled(500), { pullTo: 100 }];
    const tight = runPlan(gear(WIDE), DRY, steps).events.at(-1);
    const leaky = runPlan(
      gear(WIDE),
      { ...DRY, load: { leak: 0.02, outgassing: 0, exponent: 0 }, balances: true },
      steps,
    );
    expect(leaky.events.at(-1)?.end.first).toBeGreaterThan(tight?.end.first ?? 0);
    expect(leaky.events.at(-1)?.seconds).toBeGreaterThan(tight?.seconds ?? 0);
    expect(Math.abs(leaky.misses?.gas ?? 1)).toBeLessThan(1e-6);
  });
});

describe('a plan with water', () => {
  for (const [name, rig, celsius, change, steps] of planCases) {
    it(`goes within 1 % as by small explicit steps without curves: ${name}`, () => {
      const T = celsius + ZERO;
      const system = { ...WET, ...change };
      const ours = runPlan(
        gear(rig, celsius),
        system,
        steps.map((step) => atTemperature(step, T)),
      );
      const theirs = bruteForcePlan(
        rig,
        gasState('air', T),
        gasState('water vapour', T),
        system,
        steps.map((step) => atTemperature(step, T)),
      );
      expect(ours.events.map(({ what }) => what)).toEqual(theirs.map(({ what }) => what));
      theirs.forEach((brute, i) => {
        const { seconds, end } = ours.events[i] ?? { seconds: 0, end: ours.start };
        expectWithin(seconds, brute.seconds, 0.01, `${name}, ${brute.what} ${i}`);
        expect(Math.abs(end.water - brute.water)).toBeLessThan(0.01 * system.water + 1e-12);
        expectWithin(totalPressure(end), brute.pressure, 0.01, `${name}, pressure ${i}`);
        if (brute.water > 0) expect(Math.abs(end.temperature - brute.temperature)).toBeLessThan(0.3);
        if (brute.air > 1e-3) expectWithin(end.first, brute.air, 0.02, `${name}, air ${i}`);
      });
    });

    it(`closes the balances of gas and water to 1e-6 and of energy to 1e-4: ${name}`, () => {
      for (const metal of [0, 400]) {
        const system = { ...WET, ...change, metal, balances: true };
        const { misses } = runPlan(
          gear(rig, celsius),
          system,
          steps.map((step) => atTemperature(step, celsius + ZERO)),
        );
        expect(Math.abs(misses?.gas ?? 1)).toBeLessThan(1e-6);
        expect(Math.abs(misses?.water ?? 1)).toBeLessThan(1e-6);
        expect(Math.abs(misses?.energy ?? 1)).toBeLessThan(1e-4);
      }
    });
  }

  it('of one pull is the dry-out to the same pressure', () => {
    for (const rig of [SMALL, WIDE]) {
      const surface = rigSurface(rig, AIR, gasState('water vapour', 20 + ZERO));
      const { dry, toTarget } = dryOut(surface, { ...WET, target: 66.66 });
      expectWithin(total(gear(rig), WET, [{ pullTo: 66.66 }]), dry + toTarget, 1e-4, 'one deep pull');
    }
  });

  it('warms the pool in a wait as the closed form says where hardly anything evaporates', () => {
    // m c dT/dt = UA (T0 - T): much water, so that the vapour's latent heat is small beside it
    const system = { ...WET, volume: 2e-3, water: 0.4, heat: 2 };
    const { events } = runPlan(gear(WIDE), system, [filled(1500, 1.2e5, 600, { longestPull: 1200 })]);
    const [, broken, waited] = events;
    const kept = Math.exp((-2 * 600) / (0.4 * 4190));
    const before = 293.15 - (broken?.end.temperature ?? 0);
    expect(before).toBeGreaterThan(1);
    expectWithin(293.15 - (waited?.end.temperature ?? 0), before * kept, 0.02, 'warming of a pool');
  });
});

describe('whether a break with standing time shortens a dry-out that freezes', () => {
  // physics, not a number of ours: all heat comes by UA (T - T_pool), and water that warms up in a wait draws less of it
  const frozen = { ...WET, water: 20e-3 };
  const plan = (heat?: number): readonly PlanStep[] => [
    {
      pullTo: 60,
      longestPull: 1200,
      fill: { to: 1.2e5, gas: NITROGEN, supply: 2e5, wait: 1800, ...(heat === undefined ? {} : { heat }) },
    },
    { pullTo: 66.66 },
  ];

  it('it does not with the same heat under gas as under vacuum', () => {
    const one = total(gear(WIDE), frozen, [{ pullTo: 66.66 }]);
    const [first] = runPlan(gear(WIDE), frozen, plan()).events;
    expect(first?.end.state).toBe('ice');
    expect(total(gear(WIDE), frozen, plan())).toBeGreaterThan(one);
  });

  it('it comes closer with more heat under gas, and pays where little reaches the water under vacuum', () => {
    const slow = { ...frozen, heat: 0.02 };
    const one = total(gear(WIDE), slow, [{ pullTo: 66.66 }]);
    const same = total(gear(WIDE), slow, plan());
    const more = total(gear(WIDE), slow, plan(2));
    expect(more).toBeLessThan(same);
    expect(more).toBeLessThan(one);
  });
});

describe('laws', () => {
  const pressure = fc.double({ min: 30, max: 3000, noNaN: true });
  const high = fc.double({ min: 5e4, max: 2.5e5, noNaN: true });

  it('a wider rig is never later at the end', () => {
    fc.assert(
      fc.property(pressure, high, (low, to) => {
        const steps = [filled(low, to), { pullTo: 40 }];
        expect(total(gear(WIDE), DRY, steps)).toBeLessThanOrEqual(total(gear(SMALL), DRY, steps));
      }),
      { numRuns: 40 },
    );
    const wet = [filled(1500, 1.2e5, 60, { longestPull: 600 }), { pullTo: 66 }];
    expect(total(gear(WIDE), WET, wet)).toBeLessThan(total(gear(SMALL), WET, wet));
  });

  it('a higher break never leaves more air, and a deeper pull neither', () => {
    fc.assert(
      fc.property(pressure, pressure, high, high, (low1, low2, to1, to2) => {
        const left = (low: number, to: number): number =>
          runPlan(gear(WIDE), DRY, [filled(low, to), { pullTo: 20 }]).events.at(-1)?.end.first ?? 0;
        expect(left(low1, Math.max(to1, to2))).toBeLessThanOrEqual(left(low1, Math.min(to1, to2)) * (1 + 1e-12));
        expect(left(Math.min(low1, low2), to1)).toBeLessThanOrEqual(left(Math.max(low1, low2), to1) * (1 + 1e-12));
      }),
      { numRuns: 60 },
    );
  });

  it('more water is never sooner dry, and a colder day neither', () => {
    const steps = [filled(1000, 1.2e5, 300, { longestPull: 900 }), { pullTo: 66 }];
    const times = [2e-3, 5e-3, 10e-3].map((water) => total(gear(WIDE), { ...WET, water }, steps));
    expect(times[0]).toBeLessThan(times[1] ?? 0);
    expect(times[1]).toBeLessThan(times[2] ?? 0);
    const cold = steps.map((step) => atTemperature(step, 5 + ZERO));
    expect(total(gear(WIDE, 5), WET, cold)).toBeGreaterThan(times[1] ?? 0);
  });
});

describe('bad input', () => {
  const issueOf = (system: Partial<BrokenSystem>, steps: readonly PlanStep[]): Issue | undefined => {
    try {
      runPlan(gear(WIDE), { ...DRY, ...system }, steps);
    } catch (error) {
      if (error instanceof Fault) return error.issue;
      throw error;
    }
    return undefined;
  };

  it('is a fault that says what is wrong', () => {
    expect(issueOf({}, [])).toMatchObject({ kind: 'empty-table', table: 'plan' });
    expect(issueOf({}, [{ pullTo: 2 }])).toMatchObject({ kind: 'out-of-reach' });
    expect(issueOf({}, [{ pullTo: 2e5 }])).toMatchObject({ kind: 'order', upper: 'Start pressure' });
    expect(issueOf({}, [filled(500, 400)])).toMatchObject({ kind: 'order', upper: 'Break to' });
    expect(issueOf({}, [filled(500, 4e5)])).toMatchObject({ kind: 'order', upper: 'Supply' });
    expect(issueOf({ volume: 0 }, [{ pullTo: 100 }])).toMatchObject({ kind: 'limit', argument: 'Volume' });
    expect(issueOf({ water: -1 }, [{ pullTo: 100 }])).toMatchObject({ kind: 'limit', argument: 'Water' });
    expect(issueOf({ water: 30 }, [{ pullTo: 100 }])).toMatchObject({ kind: 'limit', argument: 'Water', unit: 'g' });
    expect(issueOf({ water: 1e-3 }, [{ pullTo: 100 }])).toMatchObject({ kind: 'no-solution' });
    expect(issueOf({ water: 1e-3, heat: 1, start: 1000 }, [{ pullTo: 100 }])).toMatchObject({ kind: 'order' });
    expect(issueOf({ water: 5, heat: 1e-4 }, [{ pullTo: 100 }])).toMatchObject({
      kind: 'no-solution',
      reason: expect.stringContaining('within a year'),
    });
    expect(issueOf({}, [filled(60, 200, 0, { longestPull: 1 })])).toMatchObject({
      kind: 'order',
      upper: 'Break to',
      lower: 'the pressure at the end of the pull',
    });
  });
});
