import { describe, expect, it } from 'vitest';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import type { Machine, Rig } from '../../../src/engine/rig/rig.ts';
import { recover } from '../../../src/engine/transfer/recovery.ts';
import { recoveryCurve } from '../../../src/engine/transfer/recovery-curve.ts';
import { type RecoveryTask, recoveryGear } from '../../../src/engine/transfer/recovery-gear.ts';
import type { RecoveryMoment } from '../../../src/engine/transfer/recovery-stages.ts';
import { core, hose } from '../rig/fakes.ts';

const machine: Machine = { name: 'machine', displacement: 3 / 3600, ultimate: 2e4, efficiency: 0.8, approach: 0 };
const pump = { name: 'machine', speed: 1, ultimate: 0 };
const rig: Rig = { name: 'rig', pump, machine, parts: [hose(0.0048, 1.5), core(0.0016, 0.006)] };
const gear = recoveryGear(refrigerantByName('R-134a'), rig, 293.15);
const TASK: RecoveryTask = { charge: 2, volume: 0.01, heat: 30, mode: 'vapour', level: 101_325 };

const way: RecoveryMoment[] = [];
const whole = recover(gear, TASK, (moment) => way.push(moment));
const first = way[0] as RecoveryMoment;
const last = way.at(-1) as RecoveryMoment;

/** The way at a time, straight between its moments. */
function at(time: number): { pressure: number; mass: number; liquid: number; temperature: number } {
  const i = Math.max(
    0,
    way.findIndex((moment, k) => k > 0 && moment.time >= time),
  );
  const [a, b] = [way[i - 1] ?? first, way[i] ?? last];
  const share = b.time > a.time ? (time - a.time) / (b.time - a.time) : 0;
  const mean = (of: (moment: RecoveryMoment) => number): number => of(a) + share * (of(b) - of(a));
  return {
    pressure: mean((m) => m.pressure),
    mass: mean((m) => m.mass),
    liquid: mean((m) => m.liquid),
    temperature: mean((m) => m.temperature),
  };
}

describe('the curve of a recovery', () => {
  it('begins with the whole charge and ends at the level, in as many points as are asked for', () => {
    for (const points of [2, 3, 10, 50]) {
      const curve = recoveryCurve(gear, TASK, points);
      expect(curve).toHaveLength(points);
      expect(curve[0]).toEqual(first);
      expect(curve.at(-1)).toEqual(last);
    }
    expect(first).toMatchObject({ time: 0, mass: 2 });
    expect(last.time).toBe(whole.time);
    expect(last.pressure).toBeCloseTo(101_325, 6);
  });

  it('lies on the way of the recovery, each later than the one before', () => {
    const curve = recoveryCurve(gear, TASK, 40);
    curve.forEach((point, k) => {
      const here = at(point.time);
      expect(point.pressure / here.pressure).toBeCloseTo(1, 9);
      expect(point.mass / here.mass).toBeCloseTo(1, 9);
      expect(point.liquid).toBeCloseTo(here.liquid, 9);
      expect(point.temperature).toBeCloseTo(here.temperature, 9);
      if (k > 0) expect(point.time).toBeGreaterThan(curve[k - 1]?.time ?? 0);
    });
    expect(new Set(curve.map(({ state }) => state))).toEqual(new Set(['liquid', 'vapour']));
  });

  it('steps evenly in the sum of the parts done of pressure, mass and time', () => {
    // measured along the way in a hundred pieces between two points, by hand
    const points = 12;
    const curve = recoveryCurve(gear, TASK, points);
    const steps = way.slice(1).map((b, i) => [way[i] ?? first, b] as const);
    const sum = (of: (a: RecoveryMoment, b: RecoveryMoment) => number): number =>
      steps.reduce((total, [a, b]) => total + of(a, b), 0);
    const logs = sum((a, b) => Math.abs(Math.log(b.pressure / a.pressure)));
    const masses = sum((a, b) => Math.abs(b.mass - a.mass));
    /** the three parts done at a time; within a step of the way they grow evenly */
    const done = (time: number): number =>
      sum((a, b) => {
        const share = b.time > a.time ? Math.min(1, Math.max(0, (time - a.time) / (b.time - a.time))) : 1;
        const parts = [
          Math.abs(Math.log(b.pressure / a.pressure)) / logs,
          Math.abs(b.mass - a.mass) / masses,
          (b.time - a.time) / last.time,
        ];
        return share * parts.reduce((x, y) => x + y, 0);
      });
    curve.slice(1, -1).forEach((point, k) => {
      expect(done(point.time)).toBeCloseTo((3 * (k + 1)) / (points - 1), 2);
    });
  });

  it('has the flow and the suction pressure of the machine beside it', () => {
    for (const point of recoveryCurve(gear, TASK, 20)) {
      expect(point.suction).toBeGreaterThanOrEqual(2e4);
      expect(point.suction).toBeLessThan(point.pressure);
      expect(point.flow).toBeGreaterThan(0);
    }
    // vapour at 1 atm: the flow that machine and rig have there
    expect(last.flow).toBeCloseTo(gear.curve.flow(101_325), 12);
    expect(last.suction).toBeCloseTo(gear.curve.suction.pressure(last.flow), 6);
  });

  it('of a recovery that is over at once stands still', () => {
    const curve = recoveryCurve(gear, { ...TASK, charge: 0.01 }, 4);
    expect(curve).toHaveLength(4);
    for (const point of curve) expect(point).toMatchObject({ time: 0, state: 'vapour', mass: expect.closeTo(0.01, 8) });
  });
});
