import { describe, expect, it } from 'vitest';
import { HELP, helpingSpeed } from '../../../src/engine/evacuate/helping-speed.ts';
import { NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import { pullDownTime } from '../../../src/engine/evacuate/pulldown.ts';
import { preparedWithPumpSpeed } from '../../../src/engine/rig/change.ts';
import type { RigCurve } from '../../../src/engine/rig/curve.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { hose } from '../network/nets.ts';
import { AIR, constantPart, prepareConstant, pumpOf, rigOf } from '../rig/fakes.ts';

/**
 * One conductance C at all pressures: t = V (1/S + 1/C) ln((p0 - pu)/(p - pu)), so that doubling S saves 1/(2(1 + S/C)) of the time,
 * which is `HELP` at S = C(1/(2 HELP) - 1).
 */
const factor = 1 / (2 * HELP) - 1;
const pull = { start: 101325, target: 60, load: NO_LOAD };
const behind = (speed: number, conductance: number, ultimate = 0.01) =>
  prepareRig(rigOf(pumpOf(speed, ultimate), [constantPart('c', conductance)]), AIR, prepareConstant);

describe('the speed from which a bigger pump stops helping', () => {
  it.each([4e-6, 3e-5, 1e-3, 8.9e-3, 9.1e-3, 0.05, 2, 36, 40, 1e4])(
    'is nine conductances for a pump of %d m3/s',
    (speed) => {
      expect(helpingSpeed(behind(speed, 1e-3), pull)).toBeDefined();
      expect((helpingSpeed(behind(speed, 1e-3), pull) ?? 0) / (factor * 1e-3)).toBeCloseTo(1, 2);
    },
  );

  it('does not depend on the pump that is there', () => {
    const speeds = [1e-3, 1.1e-3, 1.37e-3, 1.9e-3].map((speed) => helpingSpeed(behind(speed, 2e-3), pull) ?? 0);
    for (const speed of speeds) expect(speed / (speeds[0] ?? 1)).toBeCloseTo(1, 2);
  });

  it('is none for a bare pump, and none where the target is out of reach of twice the pump', () => {
    const bare = prepareRig(rigOf(pumpOf(1e-3, 0.01), []), AIR, prepareConstant);
    expect(helpingSpeed(bare, pull)).toBeUndefined();
    expect(helpingSpeed(behind(1e-3, 1e-3, 70), pull)).toBeUndefined();
  });

  it('is none where doubling still helps twelve doublings on', () => {
    expect(helpingSpeed(behind(1e-6, 1e-3), pull)).toBeUndefined();
  });

  it('is far above a pump that a leak keeps from the target until it is large enough', () => {
    // steady load Q: the target is reached where Q(1/S + 1/C) < p - pu
    const load = { ...NO_LOAD, leak: 0.03 };
    const reach = 1 / ((60 - 0.01) / load.leak - 1 / 1e-3);
    const speed = helpingSpeed(behind(0.7 * reach, 1e-3), { ...pull, load }) ?? 0;
    expect(speed).toBeGreaterThan(reach);
    const time = (s: number): number => {
      const k = 1 / (1 / s + 1 / 1e-3);
      return Math.log((101325 - 0.01 - load.leak / k) / (60 - 0.01 - load.leak / k)) / k;
    };
    expect(1 - time(2 * speed) / time(speed)).toBeCloseTo(HELP, 3);
  });

  it('asks a caller that keeps curves for the same few at every target', () => {
    const rig = behind(1e-3, 1e-3);
    const kept = new Map<number, RigCurve>();
    let made = 0;
    const curveAt: NonNullable<Parameters<typeof helpingSpeed>[1]['curveAt']> = (speed, make) => {
      const known = kept.get(speed);
      if (known !== undefined) return known;
      made++;
      const curve = make();
      kept.set(speed, curve);
      return curve;
    };
    const first = helpingSpeed(rig, { ...pull, curveAt });
    expect(first).toBe(helpingSpeed(rig, pull));
    expect(made).toBeLessThan(16);
    const before = made;
    for (const target of [30, 100, 300]) helpingSpeed(rig, { ...pull, target, curveAt });
    expect(made - before).toBeLessThan(6);
  });

  it('works each pump out once: a doubling is looked for in doublings, then halved, then taken between four neighbours', () => {
    const asked = (speed: number, load = NO_LOAD): number[] => {
      const steps: number[] = [];
      const curveAt = (s: number, make: () => RigCurve): RigCurve => {
        steps.push(2 * Math.log2(s / speed));
        return make();
      };
      helpingSpeed(behind(speed, 1e-3), { ...pull, load, curveAt });
      return steps.map((step) => Number(step.toFixed(6))).sort((a, b) => a - b);
    };
    // A pump of 5 C: doubling helps it (5 < 9) and not one twice as large; at half a doubling (7.1 C) it helps, so it ends between
    // steps 1 and 2. Each needs the pump a doubling, two steps, on; the neighbours 0 to 3 theirs, too.
    expect(asked(5e-3)).toEqual([0, 1, 2, 3, 4, 5]);
    const far = asked(1e-3);
    expect(new Set(far).size).toBe(far.length);
  });

  it('is close to nine conductances, not merely near', () => {
    for (const speed of [1e-3, 1.3e-3, 5e-3, 0.02])
      expect((helpingSpeed(behind(speed, 1e-3), pull) ?? 0) / (factor * 1e-3)).toBeCloseTo(1, 3);
  });

  it('is that of a search by halves through hoses, whose conductance falls with the pressure', () => {
    const hoses = [
      { bores: [0.0047], ultimate: 2, target: 67 },
      { bores: [0.0079, 0.0035], ultimate: 0.5, target: 20 },
      { bores: [0.0127, 0.0063, 0.0047], ultimate: 5, target: 1000 },
    ];
    for (const { bores, ultimate, target } of hoses) {
      const rig = prepareRig(
        rigOf(
          pumpOf(0.003, ultimate),
          bores.map((bore, at) => hose(bore, 0.5 + at)),
        ),
        AIR,
      );
      const task = { start: 101325, target, load: NO_LOAD };
      const time = (speed: number): number =>
        pullDownTime(rigCurve(preparedWithPumpSpeed(rig, speed)), 1, task.start, task.target);
      let [low, high] = [1e-7, 1];
      while (high / low > 1.0002) {
        const middle = Math.sqrt(low * high);
        if (1 - time(2 * middle) / time(middle) >= HELP) low = middle;
        else high = middle;
      }
      expect(Math.abs((helpingSpeed(rig, task) ?? 0) / low - 1), bores.join(' ')).toBeLessThan(3e-3);
    }
  });
});
