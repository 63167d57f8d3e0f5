import { describe, expect, it } from 'vitest';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import type { Machine, Rig, RigPart } from '../../../src/engine/rig/rig.ts';
import { recover } from '../../../src/engine/transfer/recovery.ts';
import { recoveryCurve } from '../../../src/engine/transfer/recovery-curve.ts';
import { type RecoveryTask, recoveryGear } from '../../../src/engine/transfer/recovery-gear.ts';
import { issueOf } from '../../issue-of.ts';
import { core, hose } from '../rig/fakes.ts';

const R134A = refrigerantByName('R-134a');
const AMBIENT = 293.15;
const NARROW = [hose(0.0048, 1.5), core(0.0016, 0.006)];
const MACHINE: Machine = { name: 'machine', displacement: 3 / 3600, ultimate: 2e4, efficiency: 0.8, approach: 0 };
function gearOf(machine: Partial<Machine> = {}, parts: readonly RigPart[] = NARROW) {
  const pump = { name: 'machine', speed: 1, ultimate: 0 };
  const rig: Rig = { name: 'rig', pump, machine: { ...MACHINE, ...machine }, parts };
  return recoveryGear(R134A, rig, AMBIENT);
}
const TASK: RecoveryTask = { charge: 2, volume: 0.01, heat: 30, mode: 'vapour', level: 101_325 };

describe('a machine with its rig', () => {
  it('condenses warmer than its surroundings by its approach', () => {
    // saturation of R-134a at 20, 30 and 40 C: 5.717, 7.702 and 10.166 bar (tables of the refrigerant, from memory)
    for (const [approach, bar] of [
      [0, 5.717],
      [10, 7.702],
      [20, 10.166],
    ] as const)
      expect(gearOf({ approach }).discharge / 1e5 / bar).toBeCloseTo(1, 3);
  });

  it('that draws no lower than the vapour of the cylinder pushes no liquid out', () => {
    const gear = gearOf({ ultimate: 5.8e5 });
    const task = { ...TASK, level: 6e5, mode: 'push-pull' as const };
    const reason = 'the liquid R-134a is not gone within a year';
    for (const heat of [0, 30])
      expect(issueOf(() => recover(gear, { ...task, heat }))).toMatchObject({ kind: 'no-solution', reason });
  });
});

describe('the curve of a recovery at its bounds', () => {
  it('ends in its last moment to the last digit, however many its points', () => {
    // a push ends at once in the pressure of the vapour, a large step
    for (const [displacement, level, mode] of [
      [3 / 3600, 101_325, 'vapour'],
      [3 / 3600, 6e5, 'push-pull'],
      [5 / 3600, 6e5, 'push-pull'],
    ] as const) {
      const gear = gearOf({ displacement });
      let last: unknown;
      recover(gear, { ...TASK, level, mode }, (moment) => {
        last = moment;
      });
      for (let points = 2; points < 40; points++)
        expect(recoveryCurve(gear, { ...TASK, level, mode }, points).at(-1)).toEqual(last);
    }
  });

  it('of one point is where it begins', () => {
    const [first, ...others] = recoveryCurve(gearOf(), TASK, 1);
    expect(first).toMatchObject({ time: 0, mass: 2, state: 'liquid' });
    expect(others).toEqual([]);
  });

  it('of a push at one pressure is even in time and mass', () => {
    // through a wide hose a pressure hardly above that of the liquid is enough; the level is above it too
    const gear = gearOf({ displacement: 1e-5 }, [hose(0.02, 1)]);
    const level = 1.01 * gear.vapour.dewPressure;
    const curve = recoveryCurve(gear, { ...TASK, mode: 'push-pull', level, cylinderTemperature: AMBIENT - 5 }, 5);
    const [first, last] = [curve[0], curve[4]];
    expect(new Set(curve.map(({ pressure }) => pressure)).size).toBe(1);
    expect(last?.time).toBeGreaterThan(0);
    curve.forEach(({ time, mass }, k) => {
      expect(time).toBeCloseTo((k / 4) * (last?.time ?? 0), 6);
      expect(mass).toBeCloseTo((first?.mass ?? 0) + (k / 4) * ((last?.mass ?? 0) - (first?.mass ?? 0)), 6);
    });
  });
});
