import { describe, expect, it } from 'vitest';
import { type DryOut, dryOut, type WetSystem } from '../../../src/engine/dry/dry-out.ts';
import { type QuickStart, quickDryOut } from '../../../src/engine/dry/quick/quick.ts';
import { type RigSurface, rigSurface, STEP, vapourAtPump } from '../../../src/engine/dry/rig-surface.ts';
import { dryStage, type Moment } from '../../../src/engine/dry/stages.ts';
import { NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import { mixedGas } from '../../../src/engine/gas/mixture.ts';
import { saturationPressure } from '../../../src/engine/gas/water.ts';
import type { RigCurve } from '../../../src/engine/rig/curve.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import { excessConductance } from '../../../src/engine/rig/speed.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { issueOf } from '../../issue-of.ts';
import { expectWithin } from '../../references/assert.ts';
import { AIR, hose, pumpOf, rigOf } from '../rig/fakes.ts';
import { AMBIENT, AROUND, DRY, SPEED, SURFACE, surfaceOf, VAPOUR, VOLUME } from './simple.ts';

const WET: WetSystem = { volume: VOLUME, water: 5e-3, heat: 5, start: 101325, target: 66.66 };
const SATURATION = saturationPressure(AMBIENT);
const START: QuickStart = {
  ...{ volume: VOLUME, water: 5e-3, heat: 5, metal: 0, load: NO_LOAD, state: 'liquid' },
  ...{ gas: 101325 - SATURATION, vapour: SATURATION, target: 66.66, lowest: 0 },
};
/** ln K rises by `bend` with ln(p - pu): draws well at high pressure. */
const bent = (bend: number): RigSurface => surfaceOf((x) => Math.log(SPEED) + bend * (x - 6), { ultimate: 1 });

describe('the two ways through a dry-out', () => {
  it('are the quick one where asked, and fine steps else, or where moments or balances are wanted', () => {
    const quick = quickDryOut(SURFACE, START);
    const parts = ({ dry, toTarget, coldest }: DryOut) => ({ dry, toTarget, coldest });
    const asked = dryOut(SURFACE, { ...WET, quick: true });
    expect(quick).toMatchObject(parts(asked));
    const fine = parts(dryOut(SURFACE, WET));
    expect(fine.dry).not.toBe(asked.dry);
    expectWithin(fine.dry, asked.dry, 1e-3, 'fine and quick');
    expect(parts(dryOut(SURFACE, { ...WET, quick: false }))).toEqual(fine);
    expect(parts(dryOut(SURFACE, { ...WET, quick: true, balances: true })).dry).not.toBe(asked.dry);
  });

  it('tell the coldest of the water and the most vapour at the pump of all moments', () => {
    // with 1.5 m of hose the inlet stands far below the system; cold comes first and warmth after
    const hosed = rigSurface(rigOf(pumpOf(SPEED, 2), [hose(6e-3, 1.5)]), AIR, VAPOUR);
    for (const [surface, system] of [
      [hosed, { ...WET, heat: 2, target: 200 }],
      [bent(0.3), { ...WET, heat: 3, water: 0.02, target: 200 }],
    ] as const) {
      const seen: Moment[] = [];
      const { coldest, vapourAtPump: most } = dryOut(surface, system, (moment) => seen.push(moment));
      const wet = seen.filter(({ state }) => state !== 'dry');
      expect(coldest).toBe(Math.min(...wet.map(({ temperature }) => temperature)));
      const at = seen.map(({ gas, vapour }) => vapourAtPump(surface, gas + vapour, vapour / (gas + vapour)));
      expect(most).toBe(Math.max(...at));
      const quick = dryOut(surface, { ...system, quick: true });
      expect(Math.abs(quick.coldest - coldest)).toBeLessThan(0.01);
      if (surface !== hosed) expect(coldest).toBeLessThan((wet.at(-1)?.temperature ?? 0) - 0.1);
    }
  });

  it('begin with ice below freezing, all of it ice', () => {
    const T = 263.15;
    const surface = rigSurface(rigOf(pumpOf(SPEED)), gasState('air', T), gasState('water vapour', T));
    const seen: Moment[] = [];
    dryOut(surface, { ...WET, water: 1e-3 }, (moment) => seen.push(moment));
    expect(seen[0]).toMatchObject({ state: 'ice', water: 1e-3, ice: 1e-3, temperature: T });
  });

  it('flag vapour above the limit, not at it', () => {
    const { vapourAtPump: wet } = dryOut(SURFACE, WET);
    const limited = (waterLimit: number): boolean | undefined =>
      dryOut({ ...SURFACE, rig: rigOf({ ...pumpOf(SPEED), waterLimit }) }, WET).overWaterLimit;
    expect([limited(wet), limited(wet * (1 - 1e-12))]).toEqual([false, true]);
  });

  it('refuse ice whose vapour stands just at the ultimate pressure', () => {
    const T = 243.15;
    const surface = rigSurface(rigOf(pumpOf(SPEED)), gasState('air', T), gasState('water vapour', T));
    const at = { ...surface, ultimate: saturationPressure(T) };
    const issue = issueOf(() => dryOut(at, { ...WET, target: 100 }));
    expect(issue).toMatchObject({ kind: 'no-solution', reason: expect.stringContaining('the ice never dries') });
  });

  it('miss the same part of the water in their balance, however much it is', () => {
    const missOf = (size: number): number => {
      const surface = surfaceOf((x) => Math.log(size * SPEED) + 0.1 * (x - 6), { ultimate: 1 });
      const { misses } = dryOut(surface, {
        ...{ volume: size * VOLUME, water: size * 5e-3, heat: size * 2, metal: size * 30 },
        ...{ start: 101325, target: 66.66, balances: true },
      });
      return misses?.mass ?? 0;
    };
    expect(Math.abs(missOf(1))).toBeGreaterThan(1e-12);
    // the steps differ in their last digits
    expectWithin(missOf(1000), missOf(1), 0.5, 'parts of all water');
  });

  it('ask once how low a rig gets, and make its tables once', () => {
    let asked = 0;
    let made = 0;
    const surface: RigSurface = {
      ...SURFACE,
      get dry() {
        asked++;
        return SURFACE.dry;
      },
      get lnK() {
        made++;
        return SURFACE.lnK;
      },
    };
    for (const heat of [3, 4, 5]) dryOut(surface, { ...WET, heat, quick: true });
    expect([asked, made]).toEqual([1, 1]);
  });
});

describe('the last pull', () => {
  it('is V Int dp/Q where the conductance is a power of the pressure, by both ways', () => {
    for (const bend of [0.5, 1.5, -0.4]) {
      const surface = bent(bend);
      // Int dx/K over x = ln(p - pu), K = S exp(bend (x - 6))
      const seconds = (from: number, to: number): number => {
        const part = (p: number): number => Math.exp(-bend * (Math.log(p - 1) - 6));
        return ((VOLUME / SPEED) * (part(to) - part(from))) / bend;
      };
      for (const target of [110, 20]) {
        const end = dryStage({ ...AROUND, surface }, DRY, target, { places: 1, see: () => undefined });
        expectWithin((end?.time ?? 0) - 100, seconds(4400, target), 2e-6, `fine, ${bend}, ${target} Pa`);
        const quick = quickDryOut(surface, { ...START, water: 1e-4, target });
        expectWithin(quick?.toTarget ?? 0, seconds(quick?.pressureWhenDry ?? 0, target), 2e-6, `quick, ${bend}`);
      }
    }
  });

  it('is that integral by fine steps down to a fraction of a pascal, and where the conductance falls steeply', () => {
    for (const [bend, target] of [
      [0.4, 1 + 1e-4],
      [3, 20],
    ] as const) {
      // K = S (p - pu)^bend
      const surface = surfaceOf((x) => Math.log(SPEED) + bend * x, { ultimate: 1, foot: -12, steps: 520 });
      const end = dryStage({ ...AROUND, surface }, DRY, target, { places: 1, see: () => undefined });
      const exact = ((VOLUME / SPEED) * ((target - 1) ** -bend - 4399 ** -bend)) / bend;
      expectWithin((end?.time ?? 0) - 100, exact, 1e-7, `${bend}, ${target} Pa`);
    }
  });

  it('has no end by the quick way where outgassing keeps it off for more than a year', () => {
    const load = { leak: 0, outgassing: 0.5, exponent: 0.1 };
    expect(quickDryOut(SURFACE, { ...START, heat: 1e7, load, target: 90 })).toBeUndefined();
    expect(quickDryOut(SURFACE, { ...START, heat: 1e7, load, target: 900 })).toBeDefined();
  });
});

describe('the surface of a rig', () => {
  it('stands at even steps from the first node to 10 bar, each row the curve of its mixture', () => {
    for (const ultimate of [2, 2e5]) {
      const curves: RigCurve[] = [];
      const rig = rigOf(pumpOf(2e-3, ultimate), [hose(6e-3, 1.5)]);
      const surface = rigSurface(rig, AIR, VAPOUR, (of, gas) => {
        const curve = rigCurve(prepareRig(of, gas));
        curves.push(curve);
        return curve;
      });
      expect(curves).toHaveLength(5);
      expect(surface.foot).toBe(curves[0]?.x[0]);
      const top = Math.log(1e6 - ultimate);
      expect(surface.foot + surface.steps * STEP).toBeGreaterThanOrEqual(top);
      expect(surface.foot + (surface.steps - 1) * STEP).toBeLessThan(top);
      expect(surface.lnK).toHaveLength(5 * (surface.steps + 1));
      [0, 1, 2, 3, 4].forEach((k) => {
        const gas = mixedGas(AIR, VAPOUR, 0.5 * (1 - Math.cos((k * Math.PI) / 4)));
        const curve = rigCurve(prepareRig(rig, gas));
        for (const i of [0, 1, 7, surface.steps - 1, surface.steps])
          expect(surface.lnK[5 * i + k]).toBeCloseTo(Math.log(excessConductance(curve, surface.foot + 0.05 * i)), 9);
      });
    }
  });
});
