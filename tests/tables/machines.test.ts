import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.ts';
import { readParts } from '../../src/tables/rigs.ts';
import { faultOf } from './faults.ts';

const HEADER = [
  'Rig',
  'Part',
  'Kind',
  'Displacement (m3/h)',
  'Ultimate (kPa)',
  'Clearance',
  'Efficiency',
  'Liquid rate (kg/min)',
  'Approach (K)',
  'Count',
  'Bore',
  'Length',
];
const parts = (...rows: Cell[][]) => readParts([HEADER, ...rows]);

describe('a recovery machine in a parts table', () => {
  it('stands in the place of the pump', () => {
    const rig = parts(
      ['A', 'box', 'machine', 3.6, 20, 0.04, 0.9, 6, 10],
      ['', 'hose', 'hose', '', '', '', '', '', '', '', 5, 1],
    ).rig('A');
    expect(rig.machine).toEqual({
      name: 'box',
      displacement: 0.001,
      ultimate: 20_000,
      clearance: 0.04,
      efficiency: 0.9,
      liquidRate: 0.1,
      approach: 10,
    });
    expect(rig.pump).toEqual({ name: 'box', speed: 0.001, ultimate: 20_000 });
    expect(rig.parts).toHaveLength(1);
  });

  it('needs its displacement alone; the rest has defaults that take nothing away', () => {
    expect(parts(['A', '', 'Recovery machine', 3.6]).rig('A').machine).toEqual({
      name: 'machine',
      displacement: 0.001,
      ultimate: 0,
      efficiency: 1,
      approach: 0,
    });
    expect(faultOf(() => parts(['A', '', 'machine']))?.issue).toEqual({ kind: 'missing', argument: 'Speed' });
  });

  it('counts equal machines side by side as one', () => {
    const { machine } = parts(['A', '', 'machine', 3.6, '', '', '', 6, '', 2]).rig('A');
    expect(machine?.displacement).toBeCloseTo(0.002, 12);
    expect(machine?.liquidRate).toBeCloseTo(0.2, 12);
  });

  it('is alone: a second machine or a pump behind it is a fault', () => {
    const two = [
      ['A', '', 'machine', 3],
      ['A', '', 'pump', 3],
    ];
    expect(faultOf(() => parts(...two))?.issue).toEqual({ kind: 'no-pump', rig: 'A' });
    expect(faultOf(() => parts(['A', '', 'machine', 3, '', 2]))?.issue.kind).toBe('limit');
    expect(faultOf(() => parts(['A', '', 'machine', 3, '', '', 0]))?.issue.kind).toBe('limit');
  });
});
