import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pullDownTime } from '../../../src/engine/evacuate/pulldown.ts';
import { ENDLESS_PUMP, pumpNeeded } from '../../../src/engine/evacuate/pump-needed.ts';
import { withPumpSpeed } from '../../../src/engine/rig/change.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { Fault } from '../../../src/faults/issue.ts';
import { AIR, hose, pumpOf, rigOf } from '../rig/fakes.ts';

const RIG = rigOf(pumpOf(2e-3, 2.7), [hose(7.9e-3, 1.5)]);
const PULL = { volume: 0.05, start: 101325, target: 66.66 };

function timeWith(speed: number): number {
  const curve = rigCurve(prepareRig(withPumpSpeed(RIG, speed), AIR));
  return pullDownTime(curve, PULL.volume, PULL.start, PULL.target);
}

describe('the pump that is needed', () => {
  it('reaches the target just in time', () => {
    const fastest = timeWith(ENDLESS_PUMP);
    fc.assert(
      fc.property(fc.double({ min: 1.05, max: 100, noNaN: true }), (factor) => {
        const time = fastest * factor;
        const speed = pumpNeeded(prepareRig(RIG, AIR), { ...PULL, time });
        expect(timeWith(speed) / time).toBeCloseTo(1, 3);
      }),
      { numRuns: 12 },
    );
  });

  it('does not exist where the rig alone is too slow, and the fault says how long that takes', () => {
    const fastest = timeWith(ENDLESS_PUMP);
    const call = (): number => pumpNeeded(prepareRig(RIG, AIR), { ...PULL, time: fastest * 0.99 });
    expect(call).toThrow(Fault);
    try {
      call();
    } catch (error) {
      if (!(error instanceof Fault) || error.issue.kind !== 'no-solution') throw error;
      expect(error.issue.reason).toContain(`this rig alone takes ${Number((fastest / 60).toPrecision(3))} min`);
    }
  });

  it('does not exist for a target at the ultimate pressure or no time', () => {
    const rig = prepareRig(RIG, AIR);
    expect(() => pumpNeeded(rig, { ...PULL, target: 2.7, time: 600 })).toThrow(Fault);
    expect(() => pumpNeeded(rig, { ...PULL, time: 0 })).toThrow(Fault);
  });

  it('is found under a leak that small pumps cannot carry', () => {
    const load = { leak: 1e-3, outgassing: 0, exponent: 0 };
    const speed = pumpNeeded(prepareRig(RIG, AIR), { ...PULL, time: 3600, load });
    const curve = rigCurve(prepareRig(withPumpSpeed(RIG, speed), AIR));
    expect(pullDownTime(curve, PULL.volume, PULL.start, PULL.target, load) / 3600).toBeCloseTo(1, 3);
  });
});
