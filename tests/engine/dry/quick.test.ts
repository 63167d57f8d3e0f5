import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DryOut, dryOut, type WetSystem } from '../../../src/engine/dry/dry-out.ts';
import { stateAtRest } from '../../../src/engine/dry/pool.ts';
import { flowPatches, throughputOn } from '../../../src/engine/dry/quick/flow-patches.ts';
import { quickDryOut } from '../../../src/engine/dry/quick/quick.ts';
import { noSlopes, ratesAt } from '../../../src/engine/dry/quick/rates.ts';
import { ICE_CELLS, LIQUID_CELLS, waterOn } from '../../../src/engine/dry/quick/water-cells.ts';
import { mixtureThroughput, type RigSurface, rigSurface } from '../../../src/engine/dry/rig-surface.ts';
import { NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import { lowestPressure } from '../../../src/engine/evacuate/pulldown.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import {
  latentEvaporation,
  liquidHeat,
  overIce,
  overLiquid,
  saturationPressure,
} from '../../../src/engine/gas/water.ts';
import type { Rig } from '../../../src/engine/rig/rig.ts';
import { Fault } from '../../../src/faults/issue.ts';
import { core, hose, port, pumpOf, rigOf } from '../rig/fakes.ts';

const ZERO = 273.15;
const TABLED = {
  ...pumpOf(3e-3, 5),
  speedTable: [
    [10, 1e-3],
    [100, 2.5e-3],
    [1000, 3e-3],
  ],
  waterLimit: 1500,
} as const;
const RIGS: readonly Rig[] = [
  rigOf(pumpOf(2.36e-3, 2.7), [hose(4.8e-3, 1.5), core(1.6e-3, 6e-3)]),
  rigOf(pumpOf(2.36e-3, 2.7), [hose(12.7e-3, 1.5)]),
  rigOf(pumpOf(4.7e-3, 2), [port(4.7e-3), hose(7.9e-3, 3), port(3e-3)]),
  rigOf(pumpOf(8e-3, 0), [hose(20e-3, 1)]),
  rigOf(TABLED, [hose(9e-3, 2)]),
];
const DAYS = [-25, -8, 3, 20, 35];
const SURFACES: readonly RigSurface[] = RIGS.flatMap((rig) =>
  DAYS.map((celsius) => {
    const T = celsius + ZERO;
    return rigSurface(rig, gasState('air', T), gasState('water vapour', T));
  }),
);

const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
/** Even over the logarithm. */
const over = (min: number, max: number): fc.Arbitrary<number> => between(Math.log(min), Math.log(max)).map(Math.exp);
const sometimes = (value: fc.Arbitrary<number>): fc.Arbitrary<number> =>
  fc.oneof({ weight: 2, arbitrary: fc.constant(0) }, { weight: 1, arbitrary: value });

const surface = fc.constantFrom(...SURFACES);
const system: fc.Arbitrary<WetSystem> = fc.record({
  volume: over(1e-3, 0.3),
  water: over(1e-6, 0.3),
  heat: over(0.05, 20),
  metal: sometimes(over(10, 5000)),
  start: fc.oneof(fc.constant(101325), over(6e3, 1e6)),
  target: over(15, 600),
  load: fc.record({
    leak: sometimes(over(1e-6, 3e-3)),
    outgassing: sometimes(over(1e-6, 1e-3)),
    exponent: fc.constantFrom(0, 0.5, 1),
  }),
});

/** The result, or undefined for a system that cannot be dried. */
function tried(on: RigSurface, of: WetSystem): DryOut | undefined {
  try {
    return dryOut(on, of);
  } catch (error) {
    if (error instanceof Fault) return undefined;
    throw error;
  }
}

const TRIPLE = 273.16;
const seed = 20240229;

describe('the quick way through a dry-out', () => {
  it('is within 1e-3 of fine steps in both times and 0.05 K in the lowest temperature, on systems of every kind', () => {
    let compared = 0;
    let frozen = 0;
    fc.assert(
      fc.property(surface, system, (on, of) => {
        const fine = tried(on, of);
        const quick = tried(on, { ...of, quick: true });
        expect(quick === undefined).toBe(fine === undefined);
        if (fine === undefined || quick === undefined) return;
        compared++;
        if (fine.froze) frozen++;
        expect(Math.abs(quick.dry / fine.dry - 1)).toBeLessThan(1e-3);
        expect(Math.abs((quick.dry + quick.toTarget) / (fine.dry + fine.toTarget) - 1)).toBeLessThan(1e-3);
        expect(Math.abs(quick.coldest - fine.coldest)).toBeLessThan(0.05);
        if (Math.abs(fine.coldest - TRIPLE) > 0.05) expect(quick.froze).toBe(fine.froze);
        // what is only looked at, not bounded by the steps: the flag wants some per cent
        expect(Math.abs(quick.vapourAtPump / fine.vapourAtPump - 1)).toBeLessThan(0.03);
        expect(Math.abs(quick.pressureWhenDry / fine.pressureWhenDry - 1)).toBeLessThan(5e-3);
        expect(Object.keys(quick)).toEqual(Object.keys(fine));
      }),
      { numRuns: 400, seed },
    );
    expect(compared).toBeGreaterThan(250);
    expect(frozen).toBeGreaterThan(50);
  }, 120_000);

  it('comes to an end by itself, in fewer than 50 steps on the average and never in more than 200', () => {
    let units = 0;
    let all = 0;
    fc.assert(
      fc.property(surface, system, (on, of) => {
        if (tried(on, { ...of, quick: true }) === undefined) return;
        const { volume, water, heat, metal = 0, start, target, load = NO_LOAD } = of;
        const vapour = saturationPressure(on.temperature);
        const state = stateAtRest(on.temperature);
        const lowest = lowestPressure(on.dry, load);
        const begun = { volume, water, heat, metal, load, state, gas: start - vapour, vapour, target, lowest };
        const result = quickDryOut(on, begun);
        expect(result?.tries).toBeLessThan(200);
        units++;
        all += result?.tries ?? 0;
      }),
      { numRuns: 1000, seed },
    );
    expect(all / units).toBeLessThan(50);
  });

  const SLACK = 1 + 2e-3;
  const runs = { numRuns: 200, seed };
  const quick = (on: RigSurface, of: WetSystem): DryOut => dryOut(on, { ...of, quick: true });
  const WET: WetSystem = { volume: 0.02, water: 5e-3, heat: 0.5, start: 101325, target: 66.66 };

  it('more water is never sooner dry', () => {
    fc.assert(
      fc.property(surface, over(1e-5, 0.05), between(1, 4), over(0.1, 10), (on, water, more, heat) => {
        expect(quick(on, { ...WET, water: water * more, heat }).dry * SLACK).toBeGreaterThanOrEqual(
          quick(on, { ...WET, water, heat }).dry,
        );
      }),
      runs,
    );
  });

  it('a warmer day is never later, where boiling off the water takes most of the time', () => {
    fc.assert(
      fc.property(
        fc.nat(RIGS.length - 1),
        fc.nat(DAYS.length - 2),
        over(0.01, 0.1),
        over(0.1, 10),
        (rig, day, water, heat) => {
          const [cold, warm] = SURFACES.slice(rig * DAYS.length + day);
          if (cold === undefined || warm === undefined) throw new Error('no such day');
          const of = { ...WET, volume: 5e-3, water, heat };
          expect(quick(warm, of).dry).toBeLessThanOrEqual(quick(cold, of).dry * SLACK);
        },
      ),
      runs,
    );
  });

  it('a wider hose is never later', () => {
    const T = 20 + ZERO;
    const hoses = [4e-3, 6e-3, 9e-3, 14e-3].map((bore) =>
      rigSurface(rigOf(pumpOf(2.36e-3, 2.7), [hose(bore, 1.5)]), gasState('air', T), gasState('water vapour', T)),
    );
    fc.assert(
      fc.property(fc.nat(hoses.length - 2), over(1e-5, 0.05), over(0.1, 10), (i, water, heat) => {
        const [narrow, wide] = hoses.slice(i);
        if (narrow === undefined || wide === undefined) throw new Error('no such hose');
        const of = { ...WET, water, heat };
        const total = ({ dry, toTarget }: DryOut): number => dry + toTarget;
        expect(total(quick(wide, of))).toBeLessThanOrEqual(total(quick(narrow, of)) * SLACK);
      }),
      runs,
    );
  });
});

describe('what the quick way is made of', () => {
  const flow = { value: 0.5, byPressure: 0.5, byFraction: 0.5 };

  it('has the throughput of the surface, with its slopes', () => {
    for (const on of SURFACES) {
      const patches = flowPatches(on);
      for (let p = on.ultimate + 1e-3; p < 9e5; p *= 1.7)
        for (const y of [0, 0.1, 0.5, 0.97, 1]) {
          throughputOn(patches, p, y, true, flow);
          expect(flow.value / mixtureThroughput(on, p, y)).toBeCloseTo(1, 9);
          const { byPressure, byFraction, value } = flow;
          const small = 1e-6;
          const wider = mixtureThroughput(on, p * (1 + small), y) - mixtureThroughput(on, p * (1 - small), y);
          expect(Math.abs(wider / (2 * small * p) - byPressure)).toBeLessThan((1e-3 * value) / (p - on.ultimate));
          if (y === 0 || y === 1) continue;
          const wetter = mixtureThroughput(on, p, y + small) - mixtureThroughput(on, p, y - small);
          expect(Math.abs(wetter / (2 * small) - byFraction)).toBeLessThan(1e-4 * value);
        }
      throughputOn(patches, on.ultimate, 0.5, true, flow);
      expect(flow.value).toBe(0);
    }
  });

  it('has the water of the formulas, to 1e-7', () => {
    const at = { pressure: 0.5, slope: 0.5, bend: 0.5, heat: 0.5, heatSlope: 0.5, latent: 0.5, latentSlope: 0.5 };
    for (let T = 150.1; T < 273; T += 1.37) {
      waterOn(ICE_CELLS, T, at);
      const { pressure, slope } = overIce(T);
      expect(Math.abs(at.pressure / pressure - 1)).toBeLessThan(1e-7);
      expect(Math.abs(at.slope / slope - 1)).toBeLessThan(1e-6);
    }
    for (let T = 270.1; T < 340; T += 1.37) {
      waterOn(LIQUID_CELLS, T, at);
      const { pressure, slope } = overLiquid(T);
      expect(Math.abs(at.pressure / pressure - 1)).toBeLessThan(1e-7);
      expect(Math.abs(at.slope / slope - 1)).toBeLessThan(1e-6);
      expect(Math.abs(at.heat / liquidHeat(T) - 1)).toBeLessThan(1e-6);
      expect(Math.abs(at.latent / latentEvaporation(T) - 1)).toBeLessThan(1e-6);
    }
  });

  it('has slopes that are those of its rates', () => {
    const on = SURFACES[3];
    if (on === undefined) throw new Error('no surface');
    const perThroughput = 1 / (461.5 * on.temperature);
    const load = { leak: 1e-4, outgassing: 1e-4, exponent: 1 };
    const shared = { patches: flowPatches(on), ambient: on.temperature, volume: 0.02, heat: 1, metal: 50, load };
    const course = { ...shared, perThroughput, perPascal: 0.02 * perThroughput };
    const a = noSlopes();
    const b = noSlopes();
    for (const [stage, x1] of [
      ['liquid', 280.3],
      ['freezing', 1e-3],
      ['ice', 262.2],
      ['dry', 5],
    ] as const) {
      const state = { time: 500, x0: 6.5, x1, x2: 4e-3 };
      ratesAt(course, stage, state, true, a);
      const steps = { time: 1e-2, x0: 1e-6, x1: stage === 'freezing' ? 1e-8 : 1e-5, x2: 1e-8 } as const;
      const slopes = {
        time: [a.later, 0, 0],
        x0: [a.j00, a.j10, a.j20],
        x1: [stage === 'freezing' ? 0 : a.j01, a.j11, a.j21],
        x2: [0, a.j12, a.j22],
      } as const;
      for (const key of ['time', 'x0', 'x1', 'x2'] as const) {
        const small = steps[key];
        ratesAt(course, stage, { ...state, [key]: state[key] + small }, false, b);
        const up = [b.r0, b.r1, b.r2];
        ratesAt(course, stage, { ...state, [key]: state[key] - small }, false, b);
        const change = [b.r0, b.r1, b.r2].map((down, i) => ((up[i] ?? 0) - down) / (2 * small));
        slopes[key].forEach((slope, i) => {
          const size = Math.abs(slope) + 1e-9 * Math.abs(up[i] ?? 0);
          expect(Math.abs((change[i] ?? 0) - slope), `${stage} ${key} ${i}`).toBeLessThan(1e-4 * size + 1e-12);
        });
      }
    }
  });
});
