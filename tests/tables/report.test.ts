import { describe, expect, it } from 'vitest';
import { byContent } from '../../src/tables/cache.ts';
import type { CellRange } from '../../src/tables/cells.ts';
import { toRange } from '../../src/tables/report.ts';
import type { SpillTable } from '../../src/tables/spill.ts';

const table: SpillTable = {
  columns: [
    { name: 'Part' },
    { name: 'Pressure', quantity: 'pressure', metricUnit: 'Pa', inchUnit: 'micron' },
    { name: 'Speed', quantity: 'volume flow', metricUnit: 'L/s', inchUnit: 'cfm' },
    { name: 'Pool', quantity: 'temperature', metricUnit: 'C', inchUnit: 'F' },
    { name: 'Count' },
  ],
  rows: [
    ['hose', 66.6611937075, 0.0004719474432, 293.15, 3],
    ['core', null, '', { error: '#N/A' }, undefined],
  ],
};

describe('a spilled table', () => {
  it('carries metric units in its headers', () => {
    const [header, first] = toRange(table, 'metric');
    expect(header).toEqual(['Part', 'Pressure (Pa)', 'Speed (L/s)', 'Pool (C)', 'Count']);
    expect(first?.slice(0, 3)).toEqual(['hose', 66.6611937075, 0.4719474432]);
    expect(first?.[3]).toBeCloseTo(20, 10);
  });

  it('carries inch units where they are asked for, without the noise of a factor', () => {
    const [header, first] = toRange(table, 'inch');
    expect(header).toEqual(['Part', 'Pressure (micron)', 'Speed (cfm)', 'Pool (F)', 'Count']);
    expect(first).toEqual(['hose', 500, 1, 68, 3]);
  });

  it('leaves text, blanks and errors as they are', () => {
    expect(toRange(table, 'inch')[2]).toEqual(['core', '', '', { error: '#N/A' }, '']);
  });
});

describe('what is read by content', () => {
  it('is read once for the same cells, and again for others', () => {
    let count = 0;
    const read = byContent((range: CellRange) => {
      count += 1;
      return { range };
    });
    const first = read([
      ['Rig', 1],
      [null, true],
    ]);
    expect(
      read([
        ['Rig', 1],
        ['', true],
      ]),
    ).toBe(first);
    expect(count).toBe(1);
    // text that looks like a number, or a cell that holds a separator, is other content
    const others: CellRange[] = [
      [
        ['Rig', '1'],
        [null, true],
      ],
      [['Rig', 1, null], [true]],
      [['Rig\t1'], [null, true]],
      [
        ['Rig', 1],
        [null, 'true'],
      ],
    ];
    for (const other of others) expect(read(other)).not.toBe(first);
    expect(count).toBe(5);
  });

  it('does not keep a fault', () => {
    let count = 0;
    const read = byContent(() => {
      count += 1;
      throw new Error('fault');
    });
    for (const _ of [1, 2]) expect(() => read([[1]])).toThrow('fault');
    expect(count).toBe(2);
  });
});
