import { describe, expect, it } from 'vitest';
import { checkPump, pumpExcess, pumpSpeed, pumpThroughputAt, ultimatePressure } from '../../../src/engine/rig/pump.ts';
import type { Pump } from '../../../src/engine/rig/rig.ts';
import { issueOf } from '../../issue-of.ts';
import { pumpOf } from './fakes.ts';

type Table = readonly (readonly [number, number])[];

const withTable = (speedTable: Table, ultimate = 0): Pump => ({ ...pumpOf(4e-3, ultimate), speedTable });

/** A table that counts how often it is gone through. */
function countedTable(points: Table): { table: Table; passes: () => number } {
  let passes = 0;
  const table = Object.assign([...points], {
    *[Symbol.iterator](): ArrayIterator<readonly [number, number]> {
      passes += 1;
      for (let i = 0; i < points.length; i++) yield points[i] ?? [0, 0];
    },
  });
  return { table, passes: () => passes };
}

describe('the speed of a pump', () => {
  it('with an empty table is that of a pump without one', () => {
    const empty = withTable([], 3);
    expect(ultimatePressure(empty)).toBe(3);
    expect(pumpThroughputAt(empty, 3, 10)).toBeCloseTo(0.04, 15);
    for (const flow of [0.04, 0.013, 7]) expect(pumpExcess(empty, flow)).toBe(flow / 4e-3);
    expect(pumpSpeed(empty, 6)).toBeCloseTo(2e-3, 15);
    expect(issueOf(() => checkPump({ ...empty, speed: 0 }))).toMatchObject({ kind: 'limit', argument: 'Speed' });
    expect(issueOf(() => checkPump(empty))).toBeUndefined();
  });

  it('at no pressure is nothing, also of a pump that states no ultimate pressure', () => {
    expect(pumpSpeed(pumpOf(4e-3), 0)).toBe(0);
    expect(pumpSpeed(withTable([[10, 4e-3]]), 0)).toBe(0);
  });

  it('runs straight over ln p between points, as by hand', () => {
    const pump = withTable([
      [1, 0],
      [10, 3e-3],
      [1000, 4e-3],
    ]);
    // half-way in ln p from 10 to 1000 is 100
    expect(pumpSpeed(pump, 100)).toBeCloseTo(3.5e-3, 15);
    expect(pumpSpeed(pump, Math.sqrt(10))).toBeCloseTo(1.5e-3, 15);
    expect(pumpSpeed(pump, 10)).toBeCloseTo(3e-3, 15);
    expect(pumpSpeed(pump, 1000)).toBeCloseTo(4e-3, 15);
    expect(pumpSpeed(pump, 5000)).toBeCloseTo(4e-3, 15);
  });

  it('runs straight over p where the first point stands at no pressure', () => {
    const pump = withTable([
      [0, 1e-3],
      [100, 3e-3],
      [1e4, 4e-3],
    ]);
    expect(pumpSpeed(pump, 25)).toBeCloseTo(1.5e-3, 15);
    expect(pumpSpeed(pump, 75)).toBeCloseTo(2.5e-3, 15);
    expect(pumpThroughputAt(pump, 0, 75)).toBeCloseTo(75 * 2.5e-3, 13);
    expect(pumpSpeed(pump, 1000)).toBeCloseTo(3.5e-3, 15);
  });

  it('of a table that blanks at several points ends at the last of them, whatever the pump states', () => {
    const blanked: Table = [
      [1, 0],
      [5, 0],
      [50, 2e-3],
    ];
    expect(ultimatePressure(withTable(blanked, 20))).toBe(5);
    expect(ultimatePressure(withTable(blanked, 1))).toBe(5);
  });
});

describe('the inlet pressure of a throughput', () => {
  it('is the ultimate where nothing flows', () => {
    const table: Table = [
      [1, 0],
      [64, 4e-3],
    ];
    for (const pump of [pumpOf(4e-3, 2), withTable(table), withTable([[10, 4e-3]], 3)]) {
      expect(pumpExcess(pump, 0)).toBe(0);
      expect(pumpExcess(pump, -1)).toBe(0);
    }
  });

  it('is found at once where the table is level, for its greatest speed bounds it from below', () => {
    // powers of two, so that no digit is rounded
    const { table, passes } = countedTable([
      [1, 0],
      [64, 2 ** -8],
      [65536, 2 ** -8],
    ]);
    const pump = withTable(table);
    expect(pumpExcess(pump, 4)).toBe(1023);
    expect(passes()).toBeLessThanOrEqual(3);
  });

  it('costs one halving for each binary digit elsewhere', () => {
    const points: Table = [
      [1, 0],
      [50, 3e-3],
      [1e4, 4e-3],
    ];
    for (const excess of [0.03, 0.7, 20, 3000]) {
      const { table, passes } = countedTable(points);
      const pump = withTable(table);
      const throughput = pumpThroughputAt(withTable(points), 1, excess);
      expect(pumpExcess(pump, throughput) / excess).toBeCloseTo(1, 11);
      // 1e-14 is 47 halvings, and finding the upper end is a doubling from 1e-6
      expect(passes(), `excess ${excess}`).toBeLessThanOrEqual(47 + 36);
    }
  });

  it('has the digits of a fading table close to its ultimate pressure', () => {
    const pump = withTable(
      [
        [10, 3e-3],
        [1000, 4e-3],
      ],
      2,
    );
    // below the first point the speed is level: Q = 3e-3 e
    for (const excess of [1e-3, 0.5, 6]) expect(pumpExcess(pump, 3e-3 * excess) / excess).toBeCloseTo(1, 9);
  });
});

describe('a pump that cannot drive a rig', () => {
  const limit = { kind: 'limit', limit: 0 };

  it('is refused for its speed', () => {
    for (const value of [0, -1e-3, Number.POSITIVE_INFINITY])
      expect(issueOf(() => checkPump(pumpOf(value)))).toEqual({
        ...limit,
        argument: 'Speed',
        value,
        rule: 'above',
        unit: 'm3/s',
      });
  });

  it('is refused for its ultimate pressure', () => {
    for (const value of [-1, Number.POSITIVE_INFINITY])
      expect(issueOf(() => checkPump(pumpOf(1e-3, value)))).toEqual({
        ...limit,
        argument: 'Ultimate',
        value,
        rule: 'at least',
        unit: 'Pa',
      });
  });

  it('is refused for a table whose throughput falls, with the point where it does', () => {
    const table: Table = [
      [8, 0.004],
      [16, 0.001],
    ];
    const issue = issueOf(() => checkPump(withTable(table)));
    expect(issue).toMatchObject({ kind: 'wrong', argument: 'Speed', found: 'a speed of 0.001 m3/s at 16 Pa' });
    expect(issue).toMatchObject({
      allowed: expect.stringContaining('never falls'),
      todo: expect.stringContaining('speed table'),
    });
  });

  it('is another one: a throughput that rises or stands still is taken', () => {
    const rising: Table = [
      [1, 0],
      [8, 0.004],
      [16, 0.003],
    ];
    // 8 x 0.5 = 16 x 0.25
    const level: Table = [
      [8, 0.5],
      [16, 0.25],
    ];
    for (const table of [rising, level]) expect(issueOf(() => checkPump(withTable(table)))).toBeUndefined();
    expect(issueOf(() => checkPump(pumpOf(1e-3)))).toBeUndefined();
  });
});
