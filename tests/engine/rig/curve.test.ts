import { describe, expect, it } from 'vitest';
import type { PreparedPassage } from '../../../src/engine/flow/passage.ts';
import { preparePassage } from '../../../src/engine/flow/prepare.ts';
import { systemPressureAt } from '../../../src/engine/rig/march.ts';
import { operateAt, systemPressureBehindGauge } from '../../../src/engine/rig/operate.ts';
import { type PreparedRig, prepareRig } from '../../../src/engine/rig/prepare.ts';
import { pumpThroughputAt } from '../../../src/engine/rig/pump.ts';
import type { Rig } from '../../../src/engine/rig/rig.ts';
import { effectiveSpeed, meterReading, pressureAtTheta, pumpInletAt, thetaAt } from '../../../src/engine/rig/speed.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { Fault } from '../../../src/faults/issue.ts';
import { AIR, constantPart, core, hose, port, prepareConstant, pumpOf, rigOf } from './fakes.ts';

const SERVICE = pumpOf(1.9e-3, 2.7);
const valve = {
  name: 'valve',
  kind: 'valve',
  count: 1,
  passage: { kind: 'valve', kv: 0.3, pressureDropRatio: 0.7 },
} as const;

const EIGHT_PARTS = rigOf(SERVICE, [
  port(4.7e-3),
  hose(4.8e-3, 1.5),
  port(5e-3),
  hose(6e-3, 0.1),
  hose(4.8e-3, 0.9),
  port(4e-3),
  core(1.5e-3, 10e-3),
  port(4.7e-3),
]);

const RIGS: readonly (readonly [string, Rig])[] = [
  ['eight parts', EIGHT_PARTS],
  ['a small hose', rigOf(SERVICE, [hose(4.8e-3, 1.5)])],
  ['a wide hose on a large pump', rigOf(pumpOf(10e-3), [hose(19e-3, 1.5)])],
  ['a pinhole', rigOf(SERVICE, [port(1e-3)])],
  ['a valve and a hose on a poor pump', rigOf(pumpOf(1e-3, 500), [valve, hose(7.9e-3, 3)])],
  ['an endless pump', rigOf(pumpOf(1e3, 2.7), [hose(7.9e-3, 1.5), core(1.5e-3, 10e-3)])],
  ['unlike hoses in parallel', rigOf(SERVICE, [hose(4.8e-3, 1.5, { branch: 'm' }), hose(7.9e-3, 3, { branch: 'm' })])],
];

/** ln of the pump excess that gives a system excess, by plain halving of marches. */
function halve(rig: PreparedRig, systemExcess: number): number {
  let low = -70;
  let high = 40;
  for (let i = 0; i < 90; i++) {
    const middle = 0.5 * (low + high);
    const excess = Math.exp(middle);
    if (systemPressureAt(rig, excess) - rig.ultimate < systemExcess) low = middle;
    else high = middle;
  }
  return low;
}

describe('the curve of a rig', () => {
  for (const [name, rig] of RIGS) {
    it(`gives the speed of a march within 1e-3 from 1e-3 Pa to well above ambient pressure: ${name}`, () => {
      const prepared = prepareRig(rig, AIR);
      const curve = rigCurve(prepared);
      const from = halve(prepared, 1e-3);
      const to = halve(prepared, 5e5);
      for (let i = 0; i <= 400; i++) {
        const excess = Math.exp(from + ((to - from) * i) / 400);
        const throughput = pumpThroughputAt(prepared.pump, prepared.ultimate, excess);
        const system = systemPressureAt(prepared, excess);
        // close above the ultimate a double holds the system pressure, not its excess: look where the excess has digits
        if (system - prepared.ultimate < 1e-6 * prepared.ultimate) continue;
        const ratio = effectiveSpeed(curve, system) / (throughput / system);
        expect(Math.abs(ratio - 1), `at ${system} Pa`).toBeLessThan(5e-4);
      }
    });
  }

  it('keeps to a budget of marches', () => {
    for (const [name, rig] of RIGS) {
      const curve = rigCurve(prepareRig(rig, AIR));
      expect(curve.marches, name).toBeLessThan(220);
    }
    let solves = 0;
    const counting = (...given: Parameters<typeof preparePassage>): PreparedPassage => {
      const passage = preparePassage(...given);
      return {
        ...passage,
        upstreamPressure: (throughput, downstream) => {
          solves += 1;
          return passage.upstreamPressure(throughput, downstream);
        },
      };
    };
    const curve = rigCurve(prepareRig(EIGHT_PARTS, AIR, (passage, gas) => counting(passage, gas)));
    expect(solves).toBe(8 * curve.marches);
  });

  it('is the textbook 1/S = 1/C + 1/S0 where conductance and speed are constant', () => {
    const curve = rigCurve(prepareRig(rigOf(pumpOf(3e-3), [constantPart('c', 1e-3)]), AIR, prepareConstant));
    for (const p of [1e-3, 1, 1e5]) expect(effectiveSpeed(curve, p)).toBeCloseTo(0.75e-3, 9);
    expect(meterReading(curve, 101325)).toBeCloseTo(0.75e-3, 9);
  });

  it('goes to zero at the ultimate pressure and stays there below', () => {
    const curve = rigCurve(prepareRig(EIGHT_PARTS, AIR));
    expect(effectiveSpeed(curve, 2.7)).toBe(0);
    expect(effectiveSpeed(curve, 1)).toBe(0);
    expect(effectiveSpeed(curve, 2.7001)).toBeGreaterThan(0);
  });

  it('refuses a pressure above its top', () => {
    const curve = rigCurve(prepareRig(EIGHT_PARTS, AIR));
    expect(() => effectiveSpeed(curve, 2e6)).toThrow(Fault);
    expect(() => effectiveSpeed(curve, Number.NaN)).toThrow(Fault);
  });

  it('finds the pressure that a pull-down integral belongs to', () => {
    const curve = rigCurve(prepareRig(EIGHT_PARTS, AIR));
    for (const p of [2.7001, 2.8, 5, 66.66, 1e3, 101325, 5e5])
      expect(pressureAtTheta(curve, thetaAt(curve, p)) / p).toBeCloseTo(1, 9);
  });

  it('works at the same point as a march from the inlet pressure that it names', () => {
    const prepared = prepareRig(EIGHT_PARTS, AIR);
    const curve = rigCurve(prepared);
    for (const p of [3, 20, 66.66, 1e3, 1e4, 1e5]) {
      expect(operateAt(curve, p).system / p).toBeCloseTo(1, 9);
      expect(systemPressureBehindGauge(prepared, pumpInletAt(curve, p)) / p).toBeCloseTo(1, 2);
    }
  });
});

describe('a gauge at the pump', () => {
  it('never reads more than the system has, and cannot read the ultimate pressure or less', () => {
    const prepared = prepareRig(EIGHT_PARTS, AIR);
    for (const reading of [2.8, 10, 100, 1e4])
      expect(systemPressureBehindGauge(prepared, reading)).toBeGreaterThan(reading);
    expect(() => systemPressureBehindGauge(prepared, 2.7)).toThrow(Fault);
  });
});
