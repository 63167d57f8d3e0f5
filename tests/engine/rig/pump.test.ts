import { describe, expect, it } from 'vitest';
import {
  checkPump,
  fallingAt,
  pumpExcess,
  pumpSpeed,
  pumpThroughputAt,
  ultimatePressure,
} from '../../../src/engine/rig/pump.ts';
import { Fault } from '../../../src/faults/issue.ts';
import { pumpOf } from './fakes.ts';

describe('a pump', () => {
  it('moves half its rated speed at twice its ultimate pressure, and nothing at it', () => {
    const pump = pumpOf(2e-3, 5);
    expect(pumpSpeed(pump, 10)).toBeCloseTo(1e-3, 12);
    expect(pumpSpeed(pump, 5)).toBe(0);
    expect(pumpSpeed(pump, 1)).toBe(0);
  });

  it('with a speed table runs a straight line over the logarithm of pressure between its points', () => {
    const pump = {
      ...pumpOf(4e-3),
      speedTable: [
        [1, 0],
        [100, 4e-3],
        [1e5, 4e-3],
      ] as const,
    };
    expect(ultimatePressure(pump)).toBe(1);
    expect(pumpSpeed(pump, 10)).toBeCloseTo(2e-3, 12);
    expect(pumpSpeed(pump, 1000)).toBeCloseTo(4e-3, 12);
    expect(pumpSpeed(pump, 1e6)).toBeCloseTo(4e-3, 12);
  });

  it('with a table that ends above zero speed fades towards its stated ultimate pressure', () => {
    const table = [
      [10, 3e-3],
      [1000, 4e-3],
    ] as const;
    const pump = { ...pumpOf(4e-3, 2), speedTable: table };
    expect(ultimatePressure(pump)).toBe(2);
    expect(pumpSpeed(pump, 10)).toBeCloseTo(3e-3 * (1 - 2 / 10), 12);
    expect(pumpSpeed(pump, 2)).toBe(0);
  });

  it('gives back the inlet pressure that a throughput stands for', () => {
    const table = [
      [1, 0],
      [50, 3e-3],
      [1e4, 4e-3],
    ] as const;
    for (const pump of [pumpOf(4e-3, 2), { ...pumpOf(4e-3), speedTable: table }]) {
      const ultimate = ultimatePressure(pump);
      for (const excess of [1e-3, 1, 30, 1e3, 1e5])
        expect(pumpExcess(pump, pumpThroughputAt(pump, ultimate, excess)) / excess).toBeCloseTo(1, 8);
    }
  });

  it('is refused without a speed, and where its table would give one system pressure two flows', () => {
    expect(() => checkPump(pumpOf(0))).toThrow(Fault);
    expect(() => checkPump(pumpOf(Number.NaN))).toThrow(Fault);
    expect(() => checkPump(pumpOf(1e-3, -1))).toThrow(Fault);
    const table = [
      [10, 3e-3],
      [100, 1e-4],
    ] as const;
    expect(() => checkPump({ ...pumpOf(3e-3), speedTable: table })).toThrow(Fault);
  });

  it('has a table whose throughput falls at a point, or between two, where it does', () => {
    // throughputs by hand: 10, 40, 20
    const atPoint = [
      [1, 10],
      [2, 20],
      [4, 5],
    ] as const;
    expect(fallingAt(atPoint)).toBe(2);
    // 8 at both ends, but half-way over ln p (p = 2 sqrt 2) 3 x 2.83 = 8.49
    expect(
      fallingAt([
        [2, 4],
        [4, 2],
      ]),
    ).toBe(1);
    // at the end of the piece d(S p)/dp = S + dS/d(ln p) is 1 - 1/ln e = 0, then just below it
    expect(
      fallingAt([
        [1, 2],
        [Math.E, 1 + 1e-9],
      ]),
    ).toBeUndefined();
    expect(
      fallingAt([
        [1, 2],
        [Math.E, 1 - 1e-9],
      ]),
    ).toBe(1);
    expect(
      fallingAt([
        [1, 0],
        [2, 1],
        [3, 1],
      ]),
    ).toBeUndefined();
  });
});
