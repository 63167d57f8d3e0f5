import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dryOutCurve } from '../../../src/engine/dry/curve.ts';
import { dryOut, type WetSystem } from '../../../src/engine/dry/dry-out.ts';
import { COMPOSITIONS, mixtureThroughput, type RigSurface, rigSurface } from '../../../src/engine/dry/rig-surface.ts';
import { pullDownTime } from '../../../src/engine/evacuate/pulldown.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import { mixedGas, wilkeViscosity } from '../../../src/engine/gas/mixture.ts';
import { overIce, saturationPressure } from '../../../src/engine/gas/water.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import type { Rig } from '../../../src/engine/rig/rig.ts';
import { throughputAt } from '../../../src/engine/rig/speed.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { Fault, type Issue } from '../../../src/faults/issue.ts';
import { core, hose, pumpOf, rigOf } from '../rig/fakes.ts';

const ZERO = 273.15;
const SERVICE = pumpOf(2.36e-3, 2.7);
const SMALL = rigOf(SERVICE, [hose(4.8e-3, 1.5), core(1.6e-3, 6e-3)]);
const WIDE = rigOf(SERVICE, [hose(12.7e-3, 1.5)]);
const AIR = gasState('air', 293.15);
const VAPOUR = gasState('water vapour', 293.15);
const WET: WetSystem = { volume: 0.02, water: 5e-3, heat: 0.5, start: 101325, target: 66.66 };

function surfaceAt(rig: Rig, celsius = 20): RigSurface {
  return rigSurface(rig, gasState('air', celsius + ZERO), gasState('water vapour', celsius + ZERO));
}

const small = surfaceAt(SMALL);
const wide = surfaceAt(WIDE);
const total = (surface: RigSurface, change: Partial<WetSystem>): number => {
  const { dry, toTarget } = dryOut(surface, { ...WET, ...change });
  return dry + toTarget;
};
const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const factor = between(1, 4);
/** What the tolerance of the steps leaves of a law. */
const SLACK = 1 + 1e-4;
const runs = { numRuns: 20 };

describe('laws of a dry-out', () => {
  const surface = fc.constantFrom(small, wide);

  it('more water is never sooner dry', () => {
    fc.assert(
      fc.property(surface, between(1e-5, 0.02), factor, between(0.1, 5), (on, water, more, heat) => {
        expect(dryOut(on, { ...WET, water: water * more, heat }).dry * SLACK).toBeGreaterThanOrEqual(
          dryOut(on, { ...WET, water, heat }).dry,
        );
      }),
      runs,
    );
  });

  it('more water is never sooner at target either, once there is enough to sweep the air out', () => {
    // a puddle of less than the volume holds as vapour is not: steam flows faster than the air that it takes along
    fc.assert(
      fc.property(surface, between(2e-3, 0.02), factor, between(0.1, 5), (on, water, more, heat) => {
        expect(total(on, { water: water * more, heat }) * SLACK).toBeGreaterThanOrEqual(total(on, { water, heat }));
      }),
      runs,
    );
  });

  it('more heat is never later', () => {
    fc.assert(
      fc.property(surface, between(2e-4, 0.02), factor, between(0.1, 5), (on, water, more, heat) => {
        expect(dryOut(on, { ...WET, water, heat: heat * more }).dry).toBeLessThanOrEqual(
          dryOut(on, { ...WET, water, heat }).dry * SLACK,
        );
      }),
      runs,
    );
  });

  it('a warmer day is never later, where boiling off the water takes most of the time', () => {
    fc.assert(
      fc.property(between(-15, 30), between(1, 10), between(0.01, 0.05), (celsius, warmer, water) => {
        const system = { volume: 5e-3, water };
        expect(total(surfaceAt(WIDE, celsius + warmer), system)).toBeLessThanOrEqual(
          total(surfaceAt(WIDE, celsius), system) * SLACK,
        );
      }),
      { numRuns: 12 },
    );
  });

  it('a wider hose, a shorter one and a bigger pump are never later', () => {
    fc.assert(
      fc.property(between(3e-3, 1e-2), between(1, 2), between(0.2, 5), between(5e-4, 5e-3), (bore, more, l, s) => {
        const pump = pumpOf(s, 2.7);
        const time = (rig: Rig): number => total(surfaceAt(rig), {});
        const slow = time(rigOf(pump, [hose(bore, l * more)])) * (1 + 1e-3);
        expect(time(rigOf(pump, [hose(bore * more, l * more)]))).toBeLessThanOrEqual(slow);
        expect(time(rigOf(pump, [hose(bore, l)]))).toBeLessThanOrEqual(slow);
        expect(time(rigOf(pumpOf(s * more, 2.7), [hose(bore, l * more)]))).toBeLessThanOrEqual(slow);
      }),
      { numRuns: 8 },
    );
  });

  it('with a trace of water takes about as long as the dry pull-down', () => {
    // the saturated start makes the gas a little lighter and thinner, no more
    for (const on of [small, wide])
      expect(total(on, { water: 1e-6 }) / pullDownTime(on.dry, 0.02, 101325, 66.66)).toBeCloseTo(1, 1);
  });

  it('takes in proportion as long when all is in proportion', () => {
    const one = dryOut(wide, WET);
    const five = dryOut(wide, { ...WET, volume: 5 * WET.volume, water: 5 * WET.water, heat: 5 * WET.heat });
    // five times the system behind the same rig is one system behind a fifth of the rig
    expect(five.dry).toBeGreaterThan(one.dry);
    const bare = (scale: number): number =>
      dryOut(surfaceAt(rigOf(pumpOf(2e-3 * scale, 2.7))), {
        ...WET,
        volume: 0.02 * scale,
        water: 5e-3 * scale,
        heat: 0.5 * scale,
      }).dry;
    expect(bare(5) / bare(1)).toBeCloseTo(1, 4);
  });

  it('cold metal delays the freezing', () => {
    expect(dryOut(wide, { ...WET, metal: 500 }).coldest).toBeGreaterThanOrEqual(dryOut(wide, WET).coldest - 1e-3);
  });

  it('a leak is never sooner', () => {
    const load = { leak: 2e-4, outgassing: 0, exponent: 0 };
    expect(total(wide, { load })).toBeGreaterThan(total(wide, {}));
  });
});

describe('what is told of a dry-out', () => {
  it('a target above the vapour pressure is reached wet; the time is that until dry', () => {
    const { toTarget, pressureWhenDry } = dryOut(wide, { ...WET, target: 3000 });
    expect(toTarget).toBe(0);
    expect(pressureWhenDry).toBeLessThan(3000);
  });

  it('water with little heat behind a wide rig freezes, with much heat it does not', () => {
    expect(dryOut(wide, { ...WET, heat: 0.3 })).toMatchObject({ froze: true });
    expect(dryOut(wide, { ...WET, heat: 20 })).toMatchObject({ froze: false });
    expect(dryOut(wide, { ...WET, heat: 0.3 }).coldest).toBeLessThan(ZERO);
  });

  it('below freezing it is ice from the start and never warmer than Ambient', () => {
    const result = dryOut(surfaceAt(WIDE, -10), { ...WET, water: 1e-3 });
    expect(result.froze).toBe(true);
    expect(result.coldest).toBeLessThan(ZERO - 10);
    expect(result.pressureWhenDry).toBeLessThan(overIce(ZERO - 10).pressure);
  });

  it('the pump’s water limit is flagged where the vapour at its inlet is above it', () => {
    const limited = (waterLimit: number): boolean | undefined =>
      dryOut(surfaceAt(rigOf({ ...SERVICE, waterLimit }, WIDE.parts)), WET).overWaterLimit;
    const { vapourAtPump, overWaterLimit } = dryOut(wide, WET);
    expect(overWaterLimit).toBeUndefined();
    expect(vapourAtPump).toBeLessThanOrEqual(saturationPressure(293.15));
    expect(limited(vapourAtPump * 0.9)).toBe(true);
    expect(limited(vapourAtPump * 1.1)).toBe(false);
  });

  it('as a curve: from the start to dry and at target, time on, water never more, states in their order', () => {
    for (const count of [2, 3, 40, 2000]) {
      const { result, points } = dryOutCurve(wide, WET, count);
      expect(points).toHaveLength(count);
      expect(points[0]).toMatchObject({ time: 0, state: 'liquid', water: 5e-3 });
      expect(points[0]?.pressure).toBeCloseTo(101325, 6);
      expect(points.at(-1)?.state).toBe('dry');
      expect(points.at(-1)?.pressure).toBeCloseTo(66.66, 6);
      expect(points.at(-1)?.time).toBeCloseTo(result.dry + result.toTarget, 6);
      points.slice(1).forEach((point, i) => {
        expect(point.time).toBeGreaterThan(points[i]?.time ?? Number.NaN);
        expect(point.water).toBeLessThanOrEqual((points[i]?.water ?? 0) + 1e-9);
      });
    }
    const order = dryOutCurve(wide, WET, 500).points.map(({ state }) => state);
    expect([...new Set(order)]).toEqual(['liquid', 'freezing', 'ice', 'dry']);
  });
});

describe('the surface of a rig over composition', () => {
  it('is within 0.2 % of the curve of any mixture', () => {
    for (const [rig, surface] of [
      [SMALL, small],
      [WIDE, wide],
    ] as const)
      for (const y of [0.023, 0.2, 0.4, 0.6, 0.9, 0.99]) {
        const curve = rigCurve(prepareRig(rig, mixedGas(AIR, VAPOUR, y)));
        for (let p = 3; p < 1e5; p *= 1.37)
          expect(Math.abs(mixtureThroughput(surface, p, y) / throughputAt(curve, p) - 1)).toBeLessThan(2e-3);
      }
  });

  it('has the pure gases at its ends', () => {
    expect([COMPOSITIONS[0], COMPOSITIONS.at(-1)]).toEqual([0, 1]);
    expect(mixedGas(AIR, VAPOUR, 0)).toBe(AIR);
    expect(mixedGas(AIR, VAPOUR, 1)).toBe(VAPOUR);
    const near = mixedGas(AIR, VAPOUR, 1e-12);
    expect(near.molarMass / AIR.molarMass).toBeCloseTo(1, 9);
    expect(near.heatCapacityRatio / AIR.heatCapacityRatio).toBeCloseTo(1, 9);
    expect(wilkeViscosity(AIR, VAPOUR, 0)).toBeCloseTo(AIR.viscosity, 15);
    expect(wilkeViscosity(AIR, VAPOUR, 1)).toBeCloseTo(VAPOUR.viscosity, 15);
    expect(wilkeViscosity(AIR, AIR, 0.3) / AIR.viscosity).toBeCloseTo(1, 12);
  });
});

describe('a dry-out that cannot be', () => {
  function issueOf(surface: RigSurface, change: Partial<WetSystem>): Issue {
    try {
      dryOut(surface, { ...WET, ...change });
    } catch (error) {
      if (error instanceof Fault) return error.issue;
      throw error;
    }
    throw new Error('no fault was raised');
  }

  it('has no heat: it says that it never dries', () => {
    expect(issueOf(wide, { heat: 0 })).toMatchObject({ kind: 'no-solution', reason: expect.stringMatching(/never/) });
    expect(issueOf(wide, { heat: Number.NaN }).kind).toBe('no-solution');
  });
  it('has more water than the volume holds', () => {
    expect(issueOf(wide, { water: 20 })).toMatchObject({ kind: 'limit', argument: 'Water', value: 20000 });
  });
  it('has too little heat for a year', () => {
    expect(issueOf(wide, { water: 10, heat: 1e-4 })).toMatchObject({ kind: 'no-solution' });
  });
  it('starts below the vapour pressure of the water, or has a target above the start or out of reach', () => {
    expect(issueOf(wide, { start: 1000 })).toMatchObject({ kind: 'order', upper: 'Start pressure' });
    expect(issueOf(wide, { target: 2e5 }).kind).toBe('order');
    expect(issueOf(wide, { target: 1 }).kind).toBe('out-of-reach');
    expect(issueOf(wide, { start: 2e6 }).kind).toBe('limit');
  });
  it('is so cold that the pump does not get below the vapour of the ice', () => {
    const cold = surfaceAt(rigOf(pumpOf(2e-3, 60), [hose(12.7e-3, 1)]), -30);
    expect(issueOf(cold, { target: 100 })).toMatchObject({ kind: 'no-solution' });
  });
  it('has no water, no volume or no sign', () => {
    for (const water of [0, -1, Number.NaN]) expect(issueOf(wide, { water }).kind).toBe('limit');
    expect(issueOf(wide, { volume: 0 }).kind).toBe('limit');
  });
});
