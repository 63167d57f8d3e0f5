import { describe, expect, it } from 'vitest';
import { checkWater } from '../../../src/engine/dry/check-water.ts';
import { POOLS, poolEnthalpy, stateAtRest, vapourEnthalpy } from '../../../src/engine/dry/pool.ts';
import { flowPatches, throughputOn } from '../../../src/engine/dry/quick/flow-patches.ts';
import { atPumpOf } from '../../../src/engine/dry/quick/wet-inlet.ts';
import { COMPOSITIONS, mixtureThroughput, rigSurface, vapourAtPump } from '../../../src/engine/dry/rig-surface.ts';
import { issueOf } from '../../issue-of.ts';
import { expectWithin } from '../../references/assert.ts';
import { AIR, hose, pumpOf, rigOf } from '../rig/fakes.ts';
import { EVAPORATION, MELTING, SPEED, SURFACE, surfaceOf, TRIPLE, TRIPLE_PA, VAPOUR } from './simple.ts';

/** A polynomial of the fourth degree over composition and the second over ln(p - pu): both interpolations are exact in it. */
const law = (x: number, y: number): number =>
  -6 + 0.3 * y - 0.5 * y ** 2 + 0.2 * y ** 3 + 0.4 * y ** 4 + x * (0.1 + 0.05 * y) - 0.004 * x * x * (1 - 0.3 * y * y);
const bent = surfaceOf(law);
/** The first and last nodes, and pressures between them as ln(p - pu). */
const INSIDE = [-2.93, -1.01, 0, 0.333, 4.2, 9.07, 11.93];

describe('the throughput of a mixture', () => {
  it('is that of the polynomials at every pressure and composition, and its slopes those of their differentials', () => {
    const patches = flowPatches(bent);
    const out = { value: 0.5, byPressure: 0.5, byFraction: 0.5 };
    for (const x of INSIDE)
      for (const y of [0, 0.05, 0.31, 0.5, 0.77, 1]) {
        const excess = Math.exp(x);
        const exact = excess * Math.exp(law(x, y));
        expect(mixtureThroughput(bent, 5 + excess, y) / exact).toBeCloseTo(1, 9);
        throughputOn(patches, 5 + excess, y, false, out);
        expect(out.value / exact).toBeCloseTo(1, 9);
        throughputOn(patches, 5 + excess, y, true, out);
        const small = 1e-6;
        const byX = (law(x + small, y) - law(x - small, y)) / (2 * small);
        const byY = (law(x, y + small) - law(x, y - small)) / (2 * small);
        expect(out.value / exact).toBeCloseTo(1, 9);
        expect(out.byPressure / ((exact / excess) * (1 + byX))).toBeCloseTo(1, 6);
        expect(out.byFraction / exact).toBeCloseTo(byY, 6);
      }
  });

  it('is none at the ultimate pressure and below, and K stays below the first node', () => {
    const patches = flowPatches(bent);
    const out = { value: 0.5, byPressure: 0.5, byFraction: 0.5 };
    for (const p of [5, 4, 0, Number.NaN]) {
      expect(mixtureThroughput(bent, p, 0.5)).toBe(0);
      throughputOn(patches, p, 0.5, true, out);
      expect(out).toEqual({ value: 0, byPressure: 0, byFraction: 0 });
    }
    for (const excess of [1e-9, 1e-3, Math.exp(-3.03), Math.exp(-3.01), Math.exp(-3)]) {
      const K = Math.exp(law(-3, 0.4));
      expect(mixtureThroughput(bent, 5 + excess, 0.4) / (excess * K)).toBeCloseTo(1, 5);
      throughputOn(patches, 5 + excess, 0.4, true, out);
      expect(out.value / (excess * K)).toBeCloseTo(1, 5);
      if (excess < 0.01) expect(out.byPressure / K).toBeCloseTo(1, 9);
    }
  });

  it('goes smoothly through the first step and the last, where a neighbour is missing', () => {
    // with the missing neighbour level, the cubic still meets both ends
    for (const step of [0, 1, 299, 300]) {
      const x = -3 + step * 0.05;
      const exact = Math.exp(x) * Math.exp(law(x, 0.3));
      expect(mixtureThroughput(bent, 5 + Math.exp(x) * (1 + 1e-12), 0.3) / exact).toBeCloseTo(1, 9);
    }
    for (const x of [-2.98, 11.98]) {
      const at = mixtureThroughput(bent, 5 + Math.exp(x), 0.3);
      expectWithin(at, Math.exp(x + law(x, 0.3)), 2e-3, 'within an end step');
    }
  });

  it('takes a fraction outside of 0 to 1 as the pure gas', () => {
    expect(mixtureThroughput(bent, 1000, -0.1)).toBe(mixtureThroughput(bent, 1000, 0));
    expect(mixtureThroughput(bent, 1000, 1.1)).toBe(mixtureThroughput(bent, 1000, 1));
  });

  it('is S p by a bare pump whatever is in it', () => {
    // Chebyshev-Lobatto points by hand
    const half = Math.SQRT1_2 / 2;
    [0, 0.5 - half, 0.5, 0.5 + half, 1].forEach((y, k) => {
      expect(COMPOSITIONS[k]).toBeCloseTo(y, 12);
    });
    const surface = rigSurface(rigOf(pumpOf(SPEED)), AIR, VAPOUR);
    for (const p of [1e-2, 1, 100, 1e4, 9e5])
      for (const y of [0, 0.3, 1]) expectWithin(mixtureThroughput(surface, p, y), SPEED * p, 1e-9, `${p} Pa`);
  });
});

describe('the vapour at the pump', () => {
  it('is what the pump draws, S (p - p_u), of the mixture', () => {
    const surface = rigSurface(rigOf(pumpOf(2e-3, 3), [hose(6e-3, 1.5)]), AIR, VAPOUR);
    for (const [p, y] of [
      [1000, 0.4],
      [20, 0.9],
      [2000, 1],
    ] as const) {
      const q = mixtureThroughput(surface, p, y);
      expectWithin(vapourAtPump(surface, p, y), y * (3 + q / 2e-3), 1e-9, `${p} Pa`);
      expectWithin(atPumpOf(surface)(q, y), y * (3 + q / 2e-3), 1e-9, `quick, ${p} Pa`);
    }
    expect(vapourAtPump(surface, 3, 0.5)).toBeCloseTo(1.5, 9);
  });

  it('follows the table of a pump that has one: Q = S(p) p, straight between its rows', () => {
    const table = [
      [10, 1e-3],
      [1000, 2e-3],
    ] as const;
    const pump = { ...pumpOf(2e-3, 0), speedTable: table };
    const at = atPumpOf({ ...SURFACE, rig: rigOf(pump), ultimate: 0 });
    for (const p of [10, 1000, 5000]) {
      const speed = p <= 10 ? 1e-3 : 2e-3;
      expectWithin(at(speed * p, 0.5), 0.5 * p, 2e-3, `${p} Pa`);
    }
    expect(at(0, 0.5)).toBe(0);
    const above = atPumpOf({ ...SURFACE, rig: rigOf(pump), ultimate: 7 });
    expect(above(0, 0.5)).toBe(3.5);
    expect(above(Number.NaN, 1)).toBe(7);
    const empty = atPumpOf({ ...SURFACE, rig: rigOf({ ...pump, speedTable: [] }), ultimate: 7 });
    expect(empty(2, 0.5)).toBeCloseTo(0.5 * (7 + 1000), 9);
  });
});

describe('a pool', () => {
  it('is ice below the triple point and liquid from there on', () => {
    expect([TRIPLE - 1e-9, TRIPLE, TRIPLE + 1e-9].map(stateAtRest)).toEqual(['ice', 'liquid', 'liquid']);
  });

  it('stands still while it freezes: pressure and temperature of the triple point', () => {
    expect(POOLS.freezing.saturation(280)).toEqual({ pressure: TRIPLE_PA, slope: 0 });
    expect(POOLS.freezing.latent(TRIPLE)).toBeCloseTo(EVAPORATION, 3);
    expectWithin(POOLS.freezing.heat(TRIPLE), 4220, 2e-3, 'liquid at 0 C, steam tables');
  });

  it('has an enthalpy from liquid at the triple point, and its vapour that and the latent heat', () => {
    expect(poolEnthalpy('liquid', 2, 0, TRIPLE)).toBeCloseTo(0, 6);
    // 84.0 kJ/kg at 20 C (steam tables); ice is short of what melting takes
    expectWithin(poolEnthalpy('liquid', 2, 0, 293.16), 2 * 84.0e3, 2e-3, 'liquid');
    expect(poolEnthalpy('freezing', 2, 0.5, TRIPLE)).toBeCloseTo(-0.5 * MELTING, 6);
    expectWithin(poolEnthalpy('ice', 2, 2, TRIPLE), -2 * MELTING, 1e-6, 'ice');
    expectWithin(vapourEnthalpy('liquid', 293.16), 2537.5e3, 5e-4, 'vapour at 20 C, steam tables');
    expect(vapourEnthalpy('freezing', TRIPLE)).toBeCloseTo(EVAPORATION, 3);
    expectWithin(vapourEnthalpy('ice', TRIPLE), EVAPORATION, 1e-6, 'vapour over ice at the triple point');
  });
});

describe('water that a system cannot hold or dry', () => {
  it('is a fault in full', () => {
    const fault = (water: number, heat = 1, start = 1e5, ambient = 293.15, vapour = 2339) =>
      issueOf(() => checkWater(0.02, water, heat, start, ambient, vapour));
    const full = (value: number, limit: number) => ({
      kind: 'limit',
      argument: 'Water',
      value: expect.closeTo(value, 6),
      rule: 'below',
      limit: expect.closeTo(limit, 6),
      unit: 'g',
      todo: 'The volume does not hold more: drain it first, or check both units.',
    });
    // 998.2 kg/m3 of liquid, 916.7 of ice. Source: IAPWS-95, R10-06(2009)
    expect(fault(19.963)).toBeUndefined();
    expect(fault(19.965)).toEqual(full(19965, 19964));
    expect(fault(18.333, 1, 1e5, 263.15, 260)).toBeUndefined();
    expect(fault(18.335, 1, 1e5, 263.15, 260)).toEqual(full(18335, 18334));
    expect(fault(0.02 * 998.2)?.kind).toBe('limit');
    for (const heat of [0, -1, Number.NaN])
      expect(fault(1e-3, heat)).toEqual({
        kind: 'no-solution',
        reason:
          'Heat of the conditions is 0 or not given: without heat from outside the water cools, freezes and never dries',
        todo: 'Give Heat, the heat conductance from the surroundings to the water, such as "1 W/K".',
      });
    for (const start of [2339, 2000])
      expect(fault(1e-3, 1, start)).toEqual({
        kind: 'order',
        upper: 'Start pressure',
        upperValue: start,
        lower: 'the vapour pressure of water at Ambient',
        lowerValue: 2339,
        unit: 'Pa',
      });
    expect(fault(1e-3, 1, 2339.1)).toBeUndefined();
  });
});
