import { describe, expect, it } from 'vitest';
import { type DryOut, dryOut, type WetSystem } from '../../../src/engine/dry/dry-out.ts';
import { type QuickResult, type QuickStart, quickDryOut } from '../../../src/engine/dry/quick/quick.ts';
import { type RigSurface, rigSurface, vapourAtPump } from '../../../src/engine/dry/rig-surface.ts';
import type { Moment } from '../../../src/engine/dry/stages.ts';
import { NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import { saturationPressure } from '../../../src/engine/gas/water.ts';
import type { Pump } from '../../../src/engine/rig/rig.ts';
import { issueOf } from '../../issue-of.ts';
import { expectWithin } from '../../references/assert.ts';
import { AIR, hose, pumpOf, rigOf } from '../rig/fakes.ts';
import { AMBIENT, RV, SPEED, SURFACE, surfaceOf, TRIPLE, VAPOUR, VOLUME } from './simple.ts';

const SATURATION = saturationPressure(AMBIENT);
const START: QuickStart = {
  ...{ volume: VOLUME, water: 5e-3, heat: 5, metal: 0, load: NO_LOAD, state: 'liquid' },
  ...{ gas: 101325 - SATURATION, vapour: SATURATION, target: 66.66, lowest: 0 },
};
/** ln K rises by `bend` with ln(p - pu): gear that draws well while there is air. */
const bent = (bend: number): RigSurface => surfaceOf((x) => Math.log(SPEED) + bend * (x - 6), { ultimate: 1 });

describe('water that freezes on the way', () => {
  const both = (surface: RigSurface, of: WetSystem): { quick: QuickResult; fine: DryOut; states: string } => {
    const states: Moment['state'][] = [];
    const fine = dryOut(surface, of, ({ state }) => {
      if (states.at(-1) !== state) states.push(state);
    });
    // by itself: nothing is left to fine steps
    const quick = quickDryOut(surface, { ...START, ...of });
    if (quick === undefined) throw new Error('no end by the quick way');
    return { quick, fine, states: states.join(' ') };
  };

  it('freezes, thaws and freezes again as it does by fine steps', () => {
    for (const [bend, volume, heat, water, way] of [
      [0.3, 0.05, 1, 0.01, 'liquid freezing liquid dry'],
      [0.8, 0.05, 3, 0.01, 'liquid freezing liquid dry'],
      [0.8, 0.2, 3, 0.01, 'liquid freezing liquid dry'],
      [0.8, 0.05, 1, 0.002, 'liquid freezing ice freezing liquid dry'],
      [0.8, 0.2, 1, 0.01, 'liquid freezing ice freezing liquid dry'],
      [0.5, 0.2, 0.7, 0.002, 'liquid freezing ice dry'],
      [0.8, 0.2, 0.7, 0.01, 'liquid freezing ice dry'],
    ] as const) {
      const told = `${bend}, ${volume} m3, ${heat} W/K, ${water} kg`;
      const { quick, fine, states } = both(bent(bend), { volume, heat, water, start: 101325, target: 66.66 });
      expect(states, told).toBe(way);
      expect(quick.froze, told).toBe(true);
      expectWithin(quick.dry, fine.dry, 1e-4, told);
      expectWithin(quick.toTarget, fine.toTarget, 1e-4, told);
      expectWithin(quick.pressureWhenDry, fine.pressureWhenDry, 5e-4, told);
      expect(Math.abs(quick.coldest - fine.coldest), told).toBeLessThan(6e-3);
      expect(quick.coldest, told).toBeLessThanOrEqual(TRIPLE);
    }
  });
});

describe('the vapour at the pump', () => {
  it('is at its most in the first moment, where a hose takes the less of the pressure the more there is', () => {
    const surface = rigSurface(rigOf(pumpOf(SPEED, 2), [hose(6e-3, 1.5)]), AIR, VAPOUR);
    for (const gas of [101325 - SATURATION, 3000]) {
      const begin = gas + SATURATION;
      const quick = quickDryOut(surface, { ...START, gas, heat: 0.2 });
      expectWithin(quick?.vapourAtPump ?? 0, vapourAtPump(surface, begin, SATURATION / begin), 1e-9, `${gas} Pa`);
    }
  });
});

describe('the last pull of the quick way', () => {
  it('is nothing where the target is met when it is dry, with a load and without', () => {
    for (const load of [NO_LOAD, { leak: 0.01, outgassing: 0, exponent: 0 }])
      for (const target of [3000, 1e5]) {
        const quick = quickDryOut(SURFACE, { ...START, load, target });
        expect(quick?.toTarget).toBe(0);
        expect(quick?.pressureWhenDry).toBeLessThan(target);
      }
  });

  it('is V Int dp/Q down to a fraction of a pascal above the ultimate', () => {
    const bend = 0.4;
    const surface = surfaceOf((x) => Math.log(SPEED) + bend * x, { ultimate: 1, foot: -12, steps: 520 });
    for (const above of [1e-4, 0.02, 0.9]) {
      const quick = quickDryOut(surface, { ...START, water: 1e-4, target: 1 + above });
      // K = S (p - pu)^bend: V/S Int e^(-bend x) dx
      const part = (excess: number): number => excess ** -bend;
      const exact = ((VOLUME / SPEED) * (part(above) - part((quick?.pressureWhenDry ?? 0) - 1))) / bend;
      expectWithin(quick?.toTarget ?? 0, exact, 2e-6, `${above} Pa`);
    }
  });
});

describe('a year of pumping', () => {
  it('is the longest by both ways, though the last step of the quick one may be longer', () => {
    const slow = surfaceOf(() => Math.log(1e-9), { ultimate: 0 });
    const year = 366 * 86400;
    // with all the heat that it takes it lasts m R_v T/(S p_s). Row PL-06: 2339.32 Pa at 20 C
    const lasting = (time: number): number => (time * 1e-9 * 2339.32) / (RV * AMBIENT);
    for (const share of [0.99, 1.01, 1.1, 1.5, 3]) {
      const of = { volume: 1, water: lasting(share * year), heat: 1e6, start: 2342, target: 2341 };
      const ways = [false, true].map((quick) => issueOf(() => dryOut(slow, { ...of, quick }))?.kind);
      const expected = share < 1 ? undefined : 'no-solution';
      expect(ways, `${share}`).toEqual([expected, expected]);
    }
  });
});

describe('what is kept of the units on one surface', () => {
  /** A surface that counts how often the pump was asked for its inlet, which is done in the march with water alone. */
  const counting = (): { asked: () => number; by: (change: Partial<QuickStart>) => QuickResult | undefined } => {
    let count = 0;
    const pump: Pump = {
      ...pumpOf(SPEED),
      get speed() {
        count++;
        return SPEED;
      },
    };
    const surface = { ...SURFACE, rig: { ...SURFACE.rig, pump } };
    return {
      asked: () => {
        const since = count;
        count = 0;
        return since;
      },
      by: (change) => quickDryOut(surface, { ...START, ...change }),
    };
  };

  it('is the way until each is dry, which another target does not march again', () => {
    const { asked, by } = counting();
    const other = { heat: 4 };
    const first = by({});
    expect(asked()).toBeGreaterThan(0);
    by(other);
    expect(asked()).toBeGreaterThan(0);
    expect(by({})).toEqual(first);
    expect(by({ target: 100 })?.toTarget).toBeLessThan(first?.toTarget ?? 0);
    by(other);
    expect(asked()).toBe(0);
  });

  it('is a thousand and twenty-four of them, and then none', () => {
    const { asked, by } = counting();
    by({});
    for (let i = 1; i < 1024; i++) by({ water: 1e-4 * (1 + i / 1024), heat: 1e4 });
    asked();
    by({});
    expect(asked()).toBe(0);
    by({ heat: 6 });
    expect(asked()).toBeGreaterThan(0);
    by({});
    expect(asked()).toBeGreaterThan(0);
  });
});
