import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loadAt, NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import {
  lowestPressure,
  pressureAfter,
  pullDownCurve,
  pullDownTime,
  secondsTo,
} from '../../../src/engine/evacuate/pulldown.ts';
import { plannedSeconds, targetPlan } from '../../../src/engine/evacuate/target-plan.ts';
import type { RigCurve } from '../../../src/engine/rig/curve.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import type { Rig, RigPart } from '../../../src/engine/rig/rig.ts';
import { throughputAt } from '../../../src/engine/rig/speed.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { Fault, type Issue } from '../../../src/faults/issue.ts';
import { AIR, core, hose, port, pumpOf, rigOf } from '../rig/fakes.ts';
import { directFlow, directTime } from './direct.ts';

const AMBIENT = 101325;
const MICRON_500 = 66.66;
const SERVICE = pumpOf(1.9e-3, 2.7);
const SMALL = rigOf(SERVICE, [hose(4.8e-3, 1.5), core(1.6e-3, 6e-3)]);

function curveOf(rig: Rig): RigCurve {
  return rigCurve(prepareRig(rig, AIR));
}

function issueOf(work: () => unknown): Issue {
  try {
    work();
  } catch (error) {
    if (error instanceof Fault) return error.issue;
    throw error;
  }
  throw new Error('no fault was raised');
}

describe('a pull-down on the shared curve', () => {
  const rigs: readonly (readonly [string, Rig])[] = [
    ['small hose on a core', SMALL],
    ['wide hose', rigOf(SERVICE, [hose(12.7e-3, 1.5)])],
    ['ports and a long hose', rigOf(pumpOf(4.7e-3, 2), [port(4.7e-3), hose(7.9e-3, 3), port(3e-3)])],
    ['two hoses side by side', rigOf(SERVICE, [hose(4.8e-3, 1.5, { count: 2 })])],
  ];
  for (const [name, rig] of rigs) {
    it(`takes within 0.2 % as long as a small-step integration without the curve: ${name}`, () => {
      const direct = directTime(directFlow(rig, AIR), 0.02, AMBIENT, MICRON_500, () => 0);
      expect(pullDownTime(curveOf(rig), 0.02, AMBIENT, MICRON_500) / direct).toBeCloseTo(1, 3);
    });
  }

  it('takes within 0.2 % as long as a small-step integration under a leak and steady outgassing', () => {
    const load = { leak: 2e-4, outgassing: 1e-4, exponent: 0 };
    const direct = directTime(directFlow(SMALL, AIR), 0.02, AMBIENT, MICRON_500, (t) => loadAt(load, t));
    expect(pullDownTime(curveOf(SMALL), 0.02, AMBIENT, MICRON_500, load) / direct).toBeCloseTo(1, 3);
  });

  it('takes within 0.2 % as long as a small-step integration under outgassing that fades', () => {
    for (const load of [
      { leak: 0, outgassing: 5e-4, exponent: 1 },
      { leak: 1e-4, outgassing: 8e-4, exponent: 0.5 },
    ]) {
      const curve = curveOf(SMALL);
      const direct = directTime(
        (p) => throughputAt(curve, p),
        0.02,
        AMBIENT,
        MICRON_500,
        (t) => loadAt(load, t),
        1e-4,
      );
      expect(pullDownTime(curve, 0.02, AMBIENT, MICRON_500, load) / direct).toBeCloseTo(1, 3);
    }
  });

  it('meets the steady load as the exponent goes to nothing', () => {
    const curve = curveOf(SMALL);
    const steady = pullDownTime(curve, 0.02, AMBIENT, MICRON_500, { leak: 0, outgassing: 5e-4, exponent: 0 });
    const fading = pullDownTime(curve, 0.02, AMBIENT, MICRON_500, { leak: 0, outgassing: 5e-4, exponent: 1e-6 });
    expect(fading / steady).toBeCloseTo(1, 4);
  });

  it('is additive over split pressures', () => {
    const curve = curveOf(SMALL);
    fc.assert(
      fc.property(fc.double({ min: 70, max: 1e5, noNaN: true }), fc.boolean(), (middle, loaded) => {
        const load = loaded ? { leak: 3e-4, outgassing: 0, exponent: 0 } : NO_LOAD;
        const whole = pullDownTime(curve, 0.02, AMBIENT, MICRON_500, load);
        const parts =
          pullDownTime(curve, 0.02, AMBIENT, middle, load) + pullDownTime(curve, 0.02, middle, MICRON_500, load);
        expect(parts / whole).toBeCloseTo(1, 6);
      }),
    );
  });

  it('gives the pressure after a time and the time to a pressure as each other’s inverse', () => {
    const curve = curveOf(SMALL);
    for (const p of [5e4, 1e3, 100, 10, 3]) {
      const time = pullDownTime(curve, 0.02, AMBIENT, p);
      expect(pressureAfter(curve, 0.02, AMBIENT, time) / p).toBeCloseTo(1, 8);
    }
  });

  it('draws a curve that falls from the start to the target as time goes on', () => {
    for (const load of [
      NO_LOAD,
      { leak: 2e-4, outgassing: 0, exponent: 0 },
      { leak: 0, outgassing: 2e-4, exponent: 1 },
    ]) {
      const points = pullDownCurve(curveOf(SMALL), 0.02, AMBIENT, MICRON_500, 12, load);
      expect(points).toHaveLength(12);
      expect(points[0]).toEqual({ time: 0, pressure: AMBIENT });
      expect(points.at(-1)?.pressure).toBe(MICRON_500);
      expect(points.at(-1)?.time).toBeCloseTo(pullDownTime(curveOf(SMALL), 0.02, AMBIENT, MICRON_500, load), 3);
      points.slice(1).forEach((point, i) => {
        expect(point.time).toBeGreaterThan(points[i]?.time ?? Number.NaN);
        expect(point.pressure).toBeLessThan(points[i]?.pressure ?? Number.NaN);
      });
    }
  });
});

describe('laws of a pull-down', () => {
  /** The interpolation of two curves may differ by this much where the truth does not. */
  const SLACK = 1 + 1e-4;
  const bore = fc.double({ min: 3e-3, max: 20e-3, noNaN: true });
  const length = fc.double({ min: 0.1, max: 10, noNaN: true });
  const speed = fc.double({ min: 2e-4, max: 2e-2, noNaN: true });
  const target = fc.double({ min: 5, max: 5e4, noNaN: true });
  const timeOf = (rig: Rig, p1: number, volume = 0.02): number => secondsTo(curveOf(rig), volume, AMBIENT, p1);
  const runs = { numRuns: 40 };

  it('a longer hose never shortens the time', () => {
    fc.assert(
      fc.property(bore, length, fc.double({ min: 1, max: 5, noNaN: true }), speed, target, (d, l, longer, s, p) => {
        const pump = pumpOf(s, 2.7);
        expect(timeOf(rigOf(pump, [hose(d, l)]), p)).toBeLessThanOrEqual(
          timeOf(rigOf(pump, [hose(d, l * longer)]), p) * SLACK,
        );
      }),
      runs,
    );
  });

  it('a wider bore is never later', () => {
    fc.assert(
      fc.property(bore, length, fc.double({ min: 1, max: 3, noNaN: true }), speed, target, (d, l, wider, s, p) => {
        const pump = pumpOf(s, 2.7);
        expect(timeOf(rigOf(pump, [hose(d * wider, l)]), p)).toBeLessThanOrEqual(
          timeOf(rigOf(pump, [hose(d, l)]), p) * SLACK,
        );
      }),
      runs,
    );
  });

  it('a bigger pump is never later', () => {
    fc.assert(
      fc.property(bore, length, speed, fc.double({ min: 1, max: 10, noNaN: true }), target, (d, l, s, bigger, p) => {
        expect(timeOf(rigOf(pumpOf(s * bigger, 2.7), [hose(d, l)]), p)).toBeLessThanOrEqual(
          timeOf(rigOf(pumpOf(s, 2.7), [hose(d, l)]), p) * SLACK,
        );
      }),
      runs,
    );
  });

  it('adding a part is never sooner', () => {
    const part: fc.Arbitrary<RigPart> = fc.oneof(
      fc.tuple(bore, length).map(([d, l]) => hose(d, l)),
      fc.double({ min: 1e-3, max: 8e-3, noNaN: true }).map((d) => port(d)),
      fc.double({ min: 1e-3, max: 4e-3, noNaN: true }).map((d) => core(d, 6e-3)),
    );
    fc.assert(
      fc.property(fc.array(part, { maxLength: 4 }), part, fc.nat(), target, (parts, more, place, p) => {
        const at = place % (parts.length + 1);
        const longer = [...parts.slice(0, at), more, ...parts.slice(at)];
        expect(timeOf(rigOf(SERVICE, longer), p)).toBeGreaterThanOrEqual(timeOf(rigOf(SERVICE, parts), p) / SLACK);
      }),
      runs,
    );
  });

  it('time is in proportion to the volume without a load and under a steady one', () => {
    const curve = curveOf(SMALL);
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1, noNaN: true }), fc.boolean(), (volume, leaks) => {
        const load = leaks ? { leak: 1e-4, outgassing: 0, exponent: 0 } : NO_LOAD;
        const one = pullDownTime(curve, 1, AMBIENT, MICRON_500, load);
        expect(pullDownTime(curve, volume, AMBIENT, MICRON_500, load) / (volume * one)).toBeCloseTo(1, 10);
        expect(plannedSeconds(targetPlan(curve, AMBIENT, MICRON_500, load), volume) / (volume * one)).toBeCloseTo(
          1,
          10,
        );
      }),
    );
  });

  it('a larger volume or a larger load is never sooner', () => {
    const curve = curveOf(SMALL);
    const load = fc.double({ min: 0, max: 1e-3, noNaN: true });
    fc.assert(
      fc.property(load, load, fc.double({ min: 0, max: 2, noNaN: true }), (a, b, exponent) => {
        const [less, more] = [Math.min(a, b), Math.max(a, b)];
        const seconds = (outgassing: number, volume: number): number =>
          secondsTo(curve, volume, AMBIENT, MICRON_500, { leak: 0, outgassing, exponent });
        expect(seconds(less, 0.02)).toBeLessThanOrEqual(seconds(more, 0.02) * SLACK);
        expect(seconds(less, 0.02)).toBeLessThanOrEqual(seconds(less, 0.05) * SLACK);
      }),
      { numRuns: 30 },
    );
  });
});

describe('a pull-down that cannot be', () => {
  const curve = curveOf(SMALL);

  it('has a target at or below the ultimate pressure: a fault with the lowest pressure, never a number', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 2.7, noNaN: true }), (target) => {
        const issue = issueOf(() => pullDownTime(curve, 0.02, AMBIENT, target));
        expect(issue).toMatchObject({ kind: 'out-of-reach', targetPa: target, lowestPa: 2.7 });
      }),
    );
  });

  it('has a load that balances the rig above the target: the balance is named', () => {
    const load = { leak: 5e-3, outgassing: 0, exponent: 0 };
    const lowest = lowestPressure(curve, load);
    expect(throughputAt(curve, lowest)).toBeCloseTo(5e-3, 9);
    expect(lowest).toBeGreaterThan(MICRON_500);
    expect(issueOf(() => pullDownTime(curve, 0.02, AMBIENT, MICRON_500, load))).toMatchObject({
      kind: 'out-of-reach',
      lowestPa: lowest,
    });
    expect(pullDownTime(curve, 0.02, AMBIENT, lowest * 1.0001, load)).toBeLessThan(Number.POSITIVE_INFINITY);
  });

  it('has outgassing that keeps the pressure up for more than a year', () => {
    const load = { leak: 0, outgassing: 10, exponent: 0.05 };
    expect(issueOf(() => pullDownTime(curve, 0.02, AMBIENT, MICRON_500, load)).kind).toBe('out-of-reach');
  });

  it('has a target at or above the start, no volume, or no target', () => {
    expect(issueOf(() => pullDownTime(curve, 0.02, 100, 100)).kind).toBe('order');
    expect(issueOf(() => pullDownTime(curve, 0.02, 100, 200)).kind).toBe('order');
    expect(issueOf(() => pullDownTime(curve, 0, AMBIENT, 100)).kind).toBe('limit');
    expect(issueOf(() => pullDownTime(curve, Number.NaN, AMBIENT, 100)).kind).toBe('limit');
    expect(issueOf(() => pullDownTime(curve, 0.02, AMBIENT, 0)).kind).toBe('limit');
  });
});
