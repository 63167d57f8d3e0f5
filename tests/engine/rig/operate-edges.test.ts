import { describe, expect, it } from 'vitest';
import type { PreparedPassage } from '../../../src/engine/flow/passage.ts';
import { preparePassage } from '../../../src/engine/flow/prepare.ts';
import { CURVE_TOP } from '../../../src/engine/rig/curve.ts';
import { operateAt, systemPressureBehindGauge } from '../../../src/engine/rig/operate.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { issueOf } from '../../issue-of.ts';
import { AIR, constantPart, core, hose, port, prepareConstant, pumpOf, rigOf } from './fakes.ts';

let solves = 0;

function counting(prepare: typeof preparePassage): typeof preparePassage {
  return (passage, gas): PreparedPassage => {
    const made = prepare(passage, gas);
    return {
      ...made,
      upstreamPressure: (throughput, downstream) => {
        solves += 1;
        return made.upstreamPressure(throughput, downstream);
      },
    };
  };
}

describe('the working point', () => {
  it('is found with one march where the curve has it exactly', () => {
    const rig = rigOf(pumpOf(3e-3, 2), [constantPart('c', 1e-3)]);
    const curve = rigCurve(prepareRig(rig, AIR, counting(prepareConstant)));
    for (const pressure of [3, 50, 2e4]) {
      solves = 0;
      const point = operateAt(curve, pressure);
      // 1/S = 1/C + 1/S0 for the excess over the ultimate
      expect(point.throughput / (0.75e-3 * (pressure - 2))).toBeCloseTo(1, 9);
      expect(point.pumpInlet).toBeCloseTo(2 + 0.25 * (pressure - 2), 6);
      expect(solves, `at ${pressure} Pa`).toBe(1);
    }
  });

  it('is found with a few marches in real parts, to ten digits of the excess', () => {
    const rig = rigOf(pumpOf(1.9e-3, 2.7), [hose(4.8e-3, 1.5), port(4e-3), core(1.6e-3, 6e-3)]);
    const curve = rigCurve(prepareRig(rig, AIR, counting(preparePassage)));
    for (const pressure of [3, 20, 66.66, 1e3, 1e4, 101325]) {
      solves = 0;
      const point = operateAt(curve, pressure);
      expect(Math.abs(Math.log((point.system - 2.7) / (pressure - 2.7)))).toBeLessThan(1e-10);
      expect(solves, `at ${pressure} Pa`).toBeLessThanOrEqual(3 * 4);
    }
  });

  it('at and below the ultimate pressure is that of a rig at rest', () => {
    const curve = rigCurve(prepareRig(rigOf(pumpOf(3e-3, 2), [constantPart('c', 1e-3)]), AIR, prepareConstant));
    for (const pressure of [0, 1, 2]) {
      const point = operateAt(curve, pressure);
      expect(point).toMatchObject({ throughput: 0, pumpInlet: 2, system: 2 });
      expect(point.parts.map((part) => [part.downstream, part.upstream, part.throughput])).toEqual([[2, 2, 0]]);
    }
  });
});

describe('a gauge at the pump', () => {
  it('stands for the system pressure that the conductance in between gives', () => {
    const rig = prepareRig(rigOf(pumpOf(3e-3, 2), [constantPart('c', 1e-3)]), AIR, prepareConstant);
    // Q = 3e-3 (10 - 2) = 0.024; 0.024/1e-3 = 24
    expect(systemPressureBehindGauge(rig, 10)).toBeCloseTo(34, 10);
  });

  it('cannot read the ultimate pressure, and is told both pressures in short', () => {
    const rig = prepareRig(rigOf(pumpOf(3e-3, 2.66645), [constantPart('c', 1e-3)]), AIR, prepareConstant);
    for (const [reading, text] of [
      [2.66645, '2.666 Pa'],
      [1.23456, '1.235 Pa'],
    ] as const) {
      const issue = issueOf(() => systemPressureBehindGauge(rig, reading));
      if (issue?.kind !== 'no-solution') throw new Error('a fault without an answer is wanted');
      expect(issue.reason).toContain(`the reading is ${text},`);
      expect(issue.reason).toMatch(/ultimate pressure of the pump, 2\.666 Pa$/);
      expect(issue.todo).toContain('Check the reading');
    }
    expect(issueOf(() => systemPressureBehindGauge(rig, 2.67))).toBeUndefined();
  });

  it('may stand for a system at the top of the curve and no more', () => {
    const rig = prepareRig(rigOf(pumpOf(1), [constantPart('c', 1)]), AIR, prepareConstant);
    expect(systemPressureBehindGauge(rig, CURVE_TOP / 2)).toBe(CURVE_TOP);
    expect(issueOf(() => systemPressureBehindGauge(rig, 6e5))).toEqual({
      kind: 'model-range',
      model: 'the rig',
      argument: 'Pressure at the system',
      value: 1.2e6,
      min: 0,
      max: CURVE_TOP,
      unit: 'Pa',
    });
  });
});
