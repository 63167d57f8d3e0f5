import { describe, expect, it } from 'vitest';
import type { Stage } from '../../../src/engine/dry/quick/rates.ts';
import { type Moment, poolStage } from '../../../src/engine/dry/stages.ts';
import { saturationPressure } from '../../../src/engine/gas/water.ts';
import { expectWithin } from '../../references/assert.ts';
import { march, OFF, PER_THROUGHPUT, RATE, WARM, type Way } from './quick-march.ts';
import { AMBIENT, AROUND, EVAPORATION, MELTING, SPEED, surfaceOf, TRIPLE, TRIPLE_PA } from './simple.ts';

/** Gear whose conductance goes with the square root of the pressure. */
const BENT = surfaceOf((x) => Math.log(SPEED) + 0.5 * (x - 6.5), { ultimate: 1 });

const watch = { places: 1, see: (): void => undefined };
const fine = (first: Partial<Moment>, more: Partial<typeof AROUND>): Moment | undefined =>
  poolStage(
    { ...AROUND, ...more },
    { time: 0, state: 'freezing', gas: 1, vapour: TRIPLE_PA, water: 0, ice: 0, temperature: TRIPLE, ...first },
    undefined,
    watch,
  );

describe('how many tries an end takes', () => {
  it('is a dozen at most for an exponential in one long step', () => {
    for (const [gas, vapour, target, most] of [
      [400, 30, 110, 7],
      [400, 3000, 110, 12],
      [1, 3000, 110, 13],
      [1, 3000, 400, 8],
      [10, 3000, 15, 15],
    ] as const) {
      const { at, track } = march('dry', gas, Math.log(vapour), 0, { target });
      expectWithin(at.time, Math.log((gas + vapour) / target) / RATE, 1e-5, `${gas}, ${vapour}, ${target} Pa`);
      expect(track.tries, `${gas}, ${vapour}, ${target} Pa`).toBeLessThanOrEqual(most);
    }
  });

  it('is eight at most for liquid that cools to the triple point', () => {
    for (const [temperature, heat, metal, gas, most] of [
      [278.15, 0, 0, 4000, 5],
      [285, 0, 40, 1, 8],
      [285, 0, 0, 1, 8],
      [280, 0.1, 200, 300, 8],
    ] as const) {
      const { ending, at, track } = march('liquid', gas, temperature, 5e-3, { heat, metal });
      expect(ending).toBe(1);
      expect(Math.abs(at.x1 - TRIPLE)).toBeLessThanOrEqual(1e-3);
      expect(track.tries, `${temperature} K, ${metal} J/K`).toBeLessThanOrEqual(most);
    }
  });

  it('comes from errors counted above what the load keeps: the last of the way is long', () => {
    for (const [gas, vapour, target, most] of [
      [600, 600, 100.001, 70],
      [50, 3000, 100.01, 16],
    ] as const) {
      const { ending, at, track } = march('dry', gas, Math.log(vapour), 0, { leak: 0.1, target });
      expect(ending).toBe(0);
      expectWithin(at.time, Math.log((gas + vapour - 100) / (target - 100)) / RATE, 4e-3, `${target} Pa`);
      expect(track.tries, `${target} Pa`).toBeLessThanOrEqual(most);
    }
    expect(march('dry', 600, Math.log(600), 0, { leak: 0.1, target: 100.001 }).track.tries).toBeGreaterThan(40);
  });

  it('is 600 and no end where no step is any good', () => {
    const { ending, track } = march('freezing', Number.NaN, 1e-3, 2e-3);
    expect(ending).toBe('none');
    expect(track.tries).toBe(600);
  });

  it('begins with a tenth of the time in which the fastest changes by its own size', () => {
    const first = (stage: Stage, x1: number, x2: number, way: Way): number => {
      const shares: number[] = [];
      const atPump = (_: number, share: number): number => {
        shares.push(share);
        return 0;
      };
      const vapour = saturationPressure(x1 > 100 ? x1 : TRIPLE);
      march(stage, 1e-3, x1, x2, { ...way, atPump });
      // a trace of gas tells the time: it falls by exp(-S t/V)
      return Math.log(1e-3 / (vapour / (shares[0] ?? Number.NaN) - vapour)) / RATE;
    };
    // much metal keeps its temperature: it only gets less. Row PL-06: 2339.32 Pa at 20 C
    const off = SPEED * 2339.32 * PER_THROUGHPUT;
    expectWithin(first('liquid', AMBIENT, 2e-3, { heat: 0, metal: 1e6 }), (0.1 * 2e-3) / off, 2e-3, 'liquid');
    const freezes = (EVAPORATION * OFF) / MELTING;
    expectWithin(first('freezing', 1e-5, 1e-3, { heat: 0 }), (0.1 * 1e-3) / freezes, 2e-3, 'freezing');
  });
});

describe('the pump that is asked for its inlet', () => {
  it('is so only where there is more vapour than it has seen', () => {
    let asked = 0;
    const atPump = (): number => {
      asked++;
      return 0;
    };
    march('freezing', 4000, 1e-3, 5e-3, { atPump }, { wettest: TRIPLE_PA });
    expect(asked).toBe(0);
    march('freezing', 4000, 1e-3, 5e-3, { atPump });
    expect(asked).toBeGreaterThan(5);
  });
});

describe('ice and water where the flow changes', () => {
  it('have all ice or all melted as fine steps have it', () => {
    for (const [gas, ice, water, heat] of [
      [600, 1e-4, 1e-3, 0],
      [600, 1e-4, 1e-3, 5],
      [3000, 1e-4, 1e-3, 0],
      [3000, 5e-4, 1e-3, 40],
      [30000, 1e-4, 1e-3, 0],
      [30000, 9e-4, 1e-3, 100],
    ] as const) {
      const { ending, at, track } = march('freezing', gas, ice, water, { heat, surface: BENT });
      const exact = fine({ gas, ice, water }, { surface: BENT, heat });
      const told = `${gas} Pa, ${heat} W/K`;
      expect(ending, told).toBe(exact?.state === 'ice' ? 0 : 1);
      expectWithin(at.time, exact?.time ?? 0, 4e-5, told);
      expect(Math.abs(ending === 0 ? at.x2 - at.x1 : at.x1), told).toBeLessThanOrEqual(1.001e-5 * water);
      expect(track.tries, told).toBeLessThanOrEqual(12);
    }
    expect(march('freezing', 600, 1e-4, 1e-3, { heat: 5, surface: BENT }).track.tries).toBeLessThanOrEqual(3);
  });
});

describe('two ends in one step', () => {
  it('are told apart at once where both are straight lines', () => {
    const heat = (1.05 * EVAPORATION * OFF) / WARM;
    const melts = (heat * WARM - EVAPORATION * OFF) / MELTING;
    for (const ratio of [0.8, 0.9, 0.99, 1.01, 1.1, 1.2]) {
      const liquid = ((ratio * 1e-3) / melts) * (OFF - melts);
      const { ending, track } = march('freezing', 1e-3, 1e-3, 1e-3 + liquid, { heat });
      expect(ending, `${ratio}`).toBe(ratio < 1 ? 0 : 1);
      // three steps, each four times as long as the one before, and one to where it ends
      expect(track.tries, `${ratio}`).toBe(4);
    }
  });

  /** Amount at which fine steps end one way or the other. */
  const between = (low: number, high: number, is: (amount: number) => boolean): number => {
    let [a, b] = [low, high];
    for (let i = 0; i < 22; i++) {
      const middle = 0.5 * (a + b);
      if (is(middle)) b = middle;
      else a = middle;
    }
    return 0.5 * (a + b);
  };
  const PARTS = [-0.3, -0.1, -0.03, -0.01, -3e-3, -1e-3, 1e-3, 2e-3, 3e-3, 5e-3, 0.01, 0.03, 0.1, 0.3];

  it('are the sooner of them where they bend: liquid gone, or at the triple point', () => {
    // with heat the fall of the temperature levels off while the water goes on at nearly the same pace
    for (const [temperature, metal, heat] of [
      [285, 40, 0],
      [276, 100, 0],
      [285, 40, 0.45],
      [285, 40, 0.5],
      [278, 40, 0.5],
    ] as const) {
      const first = { gas: 1, state: 'liquid' as const, vapour: saturationPressure(temperature), temperature };
      const more = { heat, metal };
      const edge = between(1e-5, 0.01, (water) => fine({ ...first, water }, more)?.state === 'freezing');
      for (const part of PARTS) {
        const { ending, at } = march('liquid', 1, temperature, edge * (1 + part), more);
        const told = `${temperature} K, ${metal} J/K, ${heat} W/K, ${part}`;
        expect(ending, told).toBe(part > 0 ? 1 : 0);
        if (ending === 1) expect(Math.abs(at.x1 - TRIPLE), told).toBeLessThanOrEqual(1e-3);
        else expect(Math.abs(at.x2), told).toBeLessThanOrEqual(1e-5 * edge);
      }
    }
  });

  it('are the sooner of them where they bend: all ice, or all melted', () => {
    for (const [gas, share] of [
      [50, 1.04],
      [100, 1.06],
      [200, 1.07],
    ] as const) {
      const first = { gas, ice: 1e-4 };
      const heat = (share * EVAPORATION * OFF) / WARM;
      const more = { heat, surface: BENT };
      const edge = between(1e-7, 3e-3, (liquid) => fine({ ...first, water: 1e-4 + liquid }, more)?.state === 'liquid');
      for (const part of PARTS) {
        const { ending } = march('freezing', gas, 1e-4, 1e-4 + edge * (1 + part), { heat, surface: BENT });
        expect(ending, `${gas} Pa, ${heat} W/K, ${part}`).toBe(part > 0 ? 1 : 0);
      }
    }
  });
});
