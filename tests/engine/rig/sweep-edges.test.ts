import { describe, expect, it } from 'vitest';
import { CURVE_TOP, type RigCurve } from '../../../src/engine/rig/curve.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import type { Pump, RigPart } from '../../../src/engine/rig/rig.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { issueOf } from '../../issue-of.ts';
import { AIR, constantPart, hose, prepareConstant, pumpOf, rigOf } from './fakes.ts';

const curveOf = (pump: Pump, parts: readonly RigPart[] = []): RigCurve =>
  rigCurve(prepareRig(rigOf(pump, parts), AIR, prepareConstant));

const FOOT = Math.log(1e-4);
const last = (values: Float64Array): number => values[values.length - 1] ?? Number.NaN;
const gaps = (values: Float64Array): number[] => [...values].slice(1).map((value, i) => value - (values[i] ?? 0));

describe('the nodes of a curve', () => {
  it('are a march a step and one half-way where nothing bends', () => {
    // ln(1e6/1e-4) = 23.03 is 25.6 steps of 0.9: 27 nodes, and 26 half-way
    const bare = curveOf(pumpOf(3e-3));
    expect(bare.marches).toBe(27 + 26);
    expect(bare.x).toHaveLength(27 + 26);
    expect(bare.x[0]).toBeCloseTo(FOOT, 12);
    for (const gap of gaps(bare.x)) expect(gap).toBeCloseTo(0.45, 10);
    for (const lnK of bare.lnK) expect(lnK).toBeCloseTo(Math.log(3e-3), 12);
    for (const slope of bare.slope) expect(slope).toBeCloseTo(0, 10);
  });

  it('start at their foot at the system, for one march more where a part stands before the pump', () => {
    const rig = curveOf(pumpOf(3e-3), [constantPart('c', 1e-3)]);
    expect(rig.x[0]).toBeCloseTo(FOOT, 12);
    expect(rig.marches).toBe(1 + 27 + 26);
    // half the excess at the pump is near enough: ln(3e-3/6e-3 + 1) = 0.41
    const near = curveOf(pumpOf(3e-3), [constantPart('c', 6e-3)]);
    expect((near.x[0] ?? 0) - FOOT).toBeCloseTo(Math.log(1.5), 12);
    expect(near.marches).toBe(near.x.length);
    const far = curveOf(pumpOf(10), [constantPart('c', 1e-4)]);
    expect(far.x[0]).toBeCloseTo(FOOT, 9);
  });

  it('start at a ten thousandth of an ultimate pressure above 1 Pa', () => {
    expect(curveOf(pumpOf(3e-3, 50)).x[0]).toBeCloseTo(Math.log(50e-4), 9);
    expect(curveOf(pumpOf(3e-3, 0.5)).x[0]).toBeCloseTo(FOOT, 9);
  });

  it('reach over the top by less than a step', () => {
    for (const curve of [curveOf(pumpOf(3e-3, 7)), curveOf(pumpOf(1), [constantPart('c', 1e-3)])]) {
      expect(last(curve.x)).toBeGreaterThanOrEqual(Math.log(CURVE_TOP));
      expect(last(curve.x) - Math.log(CURVE_TOP)).toBeLessThan(0.9);
    }
  });

  it('rise, and lie close only where the rig bends', () => {
    const curve = rigCurve(prepareRig(rigOf(pumpOf(1.9e-3), [hose(4.8e-3, 1.5)]), AIR));
    const all = gaps(curve.x);
    for (const gap of all) expect(gap).toBeGreaterThan(0);
    expect(curve.marches).toBeGreaterThanOrEqual(curve.x.length);
    expect(curve.marches).toBeLessThanOrEqual(curve.x.length + 1);
  });
});

describe('a pump table with a kink', () => {
  const kinked: Pump = {
    ...pumpOf(4e-3),
    speedTable: [
      [1, 1e-3],
      [50, 4e-3],
      [1e5, 4e-3],
    ],
  };

  it('is halved down on seven times and then left', () => {
    // a bare pump: the excess at the system is that at the inlet, and a step of 0.9 halved seven times is left
    const curve = curveOf(kinked);
    expect(Math.min(...gaps(curve.x))).toBeCloseTo(0.9 / 2 ** 7, 9);
    expect(Math.max(...gaps(curve.x))).toBeCloseTo(0.45, 9);
  });

  it('has the speeds of the table at the nodes', () => {
    const curve = curveOf(kinked);
    curve.x.forEach((x, i) => {
      const p = Math.exp(x);
      const speed = p <= 1 ? 1e-3 : p >= 50 ? 4e-3 : 1e-3 + (3e-3 * x) / Math.log(50);
      expect(Math.exp(curve.lnK[i] ?? 0) / speed).toBeCloseTo(1, 10);
    });
  });
});

describe('the slopes of a curve', () => {
  const curve = rigCurve(prepareRig(rigOf(pumpOf(1.9e-3, 2.7), [hose(4.8e-3, 1.5)]), AIR));
  const rise = (i: number): number =>
    ((curve.lnK[i + 1] ?? 0) - (curve.lnK[i] ?? 0)) / ((curve.x[i + 1] ?? 0) - (curve.x[i] ?? 0));

  it('are level at the foot and straight at the top', () => {
    expect(curve.slope[0]).toBe(0);
    expect(rise(curve.x.length - 2)).not.toBe(0);
    expect(last(curve.slope)).toBeCloseTo(rise(curve.x.length - 2), 14);
  });

  it('are those of the parabola through three nodes in between', () => {
    for (let i = 1; i < curve.x.length - 1; i++) {
      const [x0, x1, x2] = [curve.x[i - 1] ?? 0, curve.x[i] ?? 0, curve.x[i + 1] ?? 0];
      const [y0, y1, y2] = [curve.lnK[i - 1] ?? 0, curve.lnK[i] ?? 0, curve.lnK[i + 1] ?? 0];
      // Lagrange's parabola, derived at its middle point (mathematics)
      const slope =
        (y0 * (x1 - x2)) / ((x0 - x1) * (x0 - x2)) +
        (y1 * (2 * x1 - x0 - x2)) / ((x1 - x0) * (x1 - x2)) +
        (y2 * (x1 - x0)) / ((x2 - x0) * (x2 - x1));
      expect(curve.slope[i]).toBeCloseTo(slope, 9);
    }
  });
});

describe('Theta of a curve', () => {
  it('is the logarithm of the excess over the speed where both are constant', () => {
    const curve = curveOf(pumpOf(3e-3, 2), [constantPart('c', 1e-3)]);
    expect(curve.theta[0]).toBe(0);
    curve.theta.forEach((theta, i) => {
      expect(theta).toBeCloseTo(((curve.x[i] ?? 0) - (curve.x[0] ?? 0)) / 0.75e-3, 5);
    });
  });
});

describe('a rig that nothing gets through', () => {
  it('names the part', () => {
    const parts = [constantPart('open', 1), constantPart('shut', 0)];
    expect(issueOf(() => curveOf(pumpOf(1), parts))).toMatchObject({
      kind: 'wrong',
      argument: 'part "shut" of rig "rig"',
    });
  });

  it('is refused as well for a pump whose table has no speed anywhere', () => {
    const speedTable = [
      [1, 0],
      [100, 0],
    ] as const;
    expect(issueOf(() => curveOf({ ...pumpOf(1), speedTable }, [constantPart('open', 1)]))).toMatchObject({
      kind: 'limit',
      argument: 'Speed',
    });
  });
});
