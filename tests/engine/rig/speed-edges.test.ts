import { describe, expect, it } from 'vitest';
import { CURVE_TOP, type RigCurve } from '../../../src/engine/rig/curve.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import {
  effectiveSpeed,
  excessConductance,
  pressureAtTheta,
  pumpInletAt,
  thetaAt,
  thetaWithin,
  throughputAt,
  throughputSlope,
} from '../../../src/engine/rig/speed.ts';
import { issueOf } from '../../issue-of.ts';
import { AIR, pumpOf, rigOf } from './fakes.ts';

const ULTIMATE = 2;

interface Law {
  readonly value: (x: number) => number;
  readonly slope: (x: number) => number;
}

/** A curve by hand: ln K and its slope at the nodes as a law gives them, Theta summed up as a curve's are. */
function curveOf(nodes: readonly number[], law: Law, ultimate = ULTIMATE): RigCurve {
  const x = Float64Array.from(nodes);
  const theta = new Float64Array(x.length);
  const curve: RigCurve = {
    rig: prepareRig(rigOf(pumpOf(4e-3, ultimate)), AIR),
    ultimate,
    x,
    lnK: x.map(law.value),
    slope: x.map(law.slope),
    theta,
    marches: 0,
  };
  for (let i = 1; i < x.length; i++) theta[i] = (theta[i - 1] ?? 0) + thetaWithin(curve, i - 1, x[i] ?? 0);
  return curve;
}

/** The same curve, counting how often ln K is looked at: five times for an integral, once for a step. */
function counted(curve: RigCurve): { curve: RigCurve; reads: () => number } {
  let reads = 0;
  const watched: RigCurve = {
    ...curve,
    get lnK() {
      reads += 1;
      return curve.lnK;
    },
  };
  reads = 0;
  return { curve: watched, reads: () => reads };
}

const straight = (a: number, b: number): Law => ({ value: (x) => a + b * x, slope: () => b });

/** A cubic, which an interpolation by values and slopes meets exactly. */
const CUBIC: Law = {
  value: (x) => -6 + 0.2 * x - 0.03 * x ** 2 + 0.01 * x ** 3,
  slope: (x) => 0.2 - 0.06 * x + 0.03 * x ** 2,
};

const NODES = [-3, -2, -0.5, 1, 2];
const pressureAt = (x: number): number => ULTIMATE + Math.exp(x);

/** Simpson's rule in many panels (mathematics). */
function simpson(f: (x: number) => number, from: number, to: number): number {
  const panels = 2000;
  const h = (to - from) / panels;
  let sum = f(from) + f(to);
  for (let i = 1; i < panels; i++) sum += (i % 2 === 1 ? 4 : 2) * f(from + i * h);
  return (sum * h) / 3;
}

describe('a curve by hand', () => {
  const curve = curveOf(NODES, CUBIC);

  it('gives the conductance of its law between the nodes, and that of the end nodes beyond them', () => {
    for (const x of [-2.9, -2, -1.1, 0.3, 1.9])
      expect(excessConductance(curve, x) / Math.exp(CUBIC.value(x))).toBeCloseTo(1, 13);
    for (const x of [-3, -3.5, -20]) expect(excessConductance(curve, x)).toBe(Math.exp(CUBIC.value(-3)));
    for (const x of [2, 2.5, 9]) expect(excessConductance(curve, x)).toBeCloseTo(Math.exp(CUBIC.value(2)), 15);
  });

  it('gives throughput as conductance times excess, and speed as throughput over pressure', () => {
    for (const x of [-2.5, -1, 0.6, 1.7]) {
      const flow = Math.exp(CUBIC.value(x) + x);
      expect(throughputAt(curve, pressureAt(x)) / flow).toBeCloseTo(1, 12);
      expect((effectiveSpeed(curve, pressureAt(x)) * pressureAt(x)) / flow).toBeCloseTo(1, 12);
    }
  });

  it('gives the slope of ln Q, one below the nodes and never less than a floor', () => {
    for (const x of [-2.7, -1.2, 0.2, 1.6]) expect(throughputSlope(curve, x)).toBeCloseTo(1 + CUBIC.slope(x), 12);
    for (const x of [-3.01, -5, -30]) expect(throughputSlope(curve, x)).toBe(1);
    expect(throughputSlope(curveOf(NODES, straight(-6, -3)), 0)).toBeGreaterThan(0);
  });

  it('adds up Theta as many small panels do', () => {
    const rate = (x: number): number => Math.exp(-CUBIC.value(x));
    for (const x of [-2.4, -1.5, 0.9, 1.5])
      expect(thetaAt(curve, pressureAt(x)) / simpson(rate, -3, x)).toBeCloseTo(1, 9);
  });

  it('goes on below its first node at that conductance', () => {
    const k = Math.exp(CUBIC.value(-3));
    for (const x of [-3.5, -5]) {
      expect(thetaAt(curve, pressureAt(x)) / ((x + 3) / k)).toBeCloseTo(1, 9);
      expect((pressureAtTheta(curve, (x + 3) / k) - ULTIMATE) / Math.exp(x)).toBeCloseTo(1, 9);
    }
    expect(pressureAtTheta(curve, 0)).toBeCloseTo(pressureAt(-3), 12);
  });

  it('is the closed form where K is a power of the excess', () => {
    // K = A e^b: Theta = (e0^-b - e^-b)/(A b)
    const power = curveOf(NODES, straight(-5, 0.3));
    for (const x of [-2.5, -1, 0.4, 1.3]) {
      const closed = (Math.exp(0.9) - Math.exp(-0.3 * x)) / (0.3 * Math.exp(-5));
      expect(thetaAt(power, pressureAt(x)) / closed).toBeCloseTo(1, 10);
      expect((pressureAtTheta(power, closed) - ULTIMATE) / Math.exp(x)).toBeCloseTo(1, 9);
    }
  });

  it('names the pump inlet pressure as the ultimate and the throughput over the speed', () => {
    const flow = Math.exp(CUBIC.value(0.5) + 0.5);
    expect(pumpInletAt(curve, pressureAt(0.5))).toBeCloseTo(ULTIMATE + flow / 4e-3, 10);
    expect(pumpInletAt(curve, ULTIMATE)).toBe(ULTIMATE);
    expect(pumpInletAt(curve, 0.5)).toBe(ULTIMATE);
  });
});

describe('the ends of a curve', () => {
  it('moves nothing at and below the ultimate pressure, and nothing at no pressure', () => {
    const curve = curveOf(NODES, CUBIC);
    for (const p of [0, 1, ULTIMATE]) {
      expect(throughputAt(curve, p)).toBe(0);
      expect(effectiveSpeed(curve, p)).toBe(0);
    }
    expect(effectiveSpeed(curveOf(NODES, CUBIC, 0), 0)).toBe(0);
  });

  it('still answers at its top, and above it says what it holds for', () => {
    const curve = curveOf(NODES, CUBIC);
    expect(throughputAt(curve, CURVE_TOP)).toBeCloseTo(Math.exp(CUBIC.value(2)) * (CURVE_TOP - ULTIMATE), 6);
    for (const work of [() => throughputAt(curve, 1.5e6), () => thetaAt(curve, 1.5e6)])
      expect(issueOf(work)).toEqual({
        kind: 'model-range',
        model: 'the rig',
        argument: 'Pressure',
        value: 1.5e6,
        min: ULTIMATE,
        max: CURVE_TOP,
        unit: 'Pa',
      });
  });
});

describe('the search for the pressure of a pull-down integral', () => {
  it('needs a single look where K is constant', () => {
    const { curve, reads } = counted(curveOf([1, 3, 7], straight(Math.log(0.25), 0)));
    // Theta = (x - 1)/K
    expect(Math.log(pressureAtTheta(curve, 4 * 3.5) - ULTIMATE)).toBeCloseTo(4.5, 12);
    expect(reads()).toBe(6);
  });

  it('takes a few steps where K bends gently', () => {
    for (const b of [0.5, -0.5]) {
      const plain = curveOf([1, 2, 3.5], straight(-3, b));
      for (const x of [1.2, 1.8, 2.4, 3.3]) {
        const { curve, reads } = counted(plain);
        const theta = thetaAt(plain, pressureAt(x));
        expect(Math.log(pressureAtTheta(curve, theta) - ULTIMATE)).toBeCloseTo(x, 11);
        expect(reads(), `at ${x}`).toBeLessThanOrEqual(6 * 5);
      }
    }
  });

  it('keeps inside its interval where K is steep either way, and still does not take long', () => {
    for (const b of [4, -4]) {
      const plain = curveOf([1, 3], straight(-3, b));
      for (const part of [0.02, 0.1, 0.5, 0.9, 0.98]) {
        const { curve, reads } = counted(plain);
        const theta = part * (plain.theta[1] ?? 0);
        const pressure = pressureAtTheta(curve, theta);
        expect(pressure).toBeGreaterThan(pressureAt(1));
        expect(pressure).toBeLessThan(pressureAt(3));
        expect(thetaAt(plain, pressure) / theta).toBeCloseTo(1, 10);
        expect(reads(), `part ${part}, slope ${b}`).toBeLessThanOrEqual(6 * 12);
      }
    }
  });
});
