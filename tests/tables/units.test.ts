import { describe, expect, it } from 'vitest';
import { readLog } from '../../src/tables/log.ts';
import { readUnits } from '../../src/tables/units.ts';
import { allFaults, faultOf } from './faults.ts';

describe('a units table', () => {
  it('reads what stands there and leaves the rest open', () => {
    const { units } = readUnits([
      ['Unit', 'Count', 'Volume (L)', 'Rig', 'Target (micron)', 'Water (g)', 'Ambient (F)', 'Heat'],
      ['wall split', 12, 3, 'small', 500, 10, 68, 5],
      ['cold room', '', '', 'wide', '', '', '', ''],
    ]);
    const [split, room] = units;
    expect(split).toMatchObject({
      name: 'wall split',
      count: 12,
      volume: 0.003,
      rig: 'small',
      water: 0.01,
      heat: 5,
      row: 2,
    });
    expect(split?.target).toBeCloseTo(66.6611937075, 9);
    expect(split?.ambient).toBeCloseTo(293.15, 9);
    expect(room).toMatchObject({ name: 'cold room', count: 1, volume: undefined, target: undefined, row: 3 });
  });

  it('reads the work on a unit, its place, kind and other rig', () => {
    const { units } = readUnits([
      ['Unit', 'Rig', 'Set-up (min)', 'Hold (h)', 'Breaks', 'Access', 'Floor', 'Kind', 'Other rig'],
      ['a', 'small', 30, 1, 2, 1.5, 'roof', 'split', 'wide'],
      ['b', 'small', '', '', '', '', '', '', ''],
    ]);
    const [first, second] = units.map(({ labour }) => labour);
    expect(first).toMatchObject({ setUp: 1800, hold: 3600, breaks: 2, access: 1.5, area: 'roof', kind: 'split' });
    expect(first?.otherRig).toBe('wide');
    expect(new Set(Object.values(second ?? {}))).toEqual(new Set([undefined]));
  });

  it('needs a unit and a rig in every row', () => {
    const faults = allFaults((sink) =>
      readUnits(
        [
          ['Unit', 'Rig', 'Count'],
          ['', 'small', 1],
          ['a', '', 1],
          ['b', 'c', 1.5],
        ],
        sink,
      ),
    );
    expect(faults.map(({ issue, place }) => [place?.row, place?.column, issue.kind])).toEqual([
      [2, 'Unit', 'missing'],
      [3, 'Rig', 'missing'],
      [4, 'Count', 'wrong'],
    ]);
  });

  it('keeps the fault of a row with the row where that is asked for, but not one of the header', () => {
    const { units } = readUnits(
      [
        ['Unit', 'Rig', 'Volume', 'Port'],
        ['a', 'small', -1, ''],
        ['', 'small', 4, ''],
        ['c', 'small', 4, 'Roof'],
      ],
      undefined,
      { keepFaults: true },
    );
    expect(units.map(({ fault }) => fault?.place?.column)).toEqual(['Volume', 'Unit', undefined]);
    expect(units[2]).toMatchObject({ name: 'c', volume: 0.004, port: 'Roof' });
    expect(
      faultOf(() =>
        readUnits(
          [
            ['Unit', 'Rig', 'Volume (ft)'],
            ['a', 'b', 1],
          ],
          undefined,
          { keepFaults: true },
        ),
      ),
    ).toMatchObject({ issue: { kind: 'unit' } });
  });

  it('asks for the columns that it needs', () => {
    const faults = allFaults((sink) => readUnits([['Count'], [1]], sink)).map(({ issue }) => issue);
    expect(
      faults.filter(({ kind }) => kind === 'missing-header').map((issue) => 'header' in issue && issue.header),
    ).toEqual(expect.arrayContaining(['Unit', 'Rig']));
  });
});

describe('a log', () => {
  it('reads minutes and pressures, with a temperature where there is one', () => {
    const { readings } = readLog([
      ['Time (h)', 'Pressure (micron)', 'Temperature'],
      [0, 500, 20],
      ['30 min', 600, ''],
    ]);
    expect(readings.map(({ time }) => time)).toEqual([0, 1800]);
    expect(readings[0]?.temperature).toBeCloseTo(293.15, 9);
    expect(readings[1]).not.toHaveProperty('temperature');
  });

  it('refuses time that stands still or runs back', () => {
    expect(
      faultOf(() =>
        readLog([
          ['Minutes', 'Pressure'],
          [0, 10],
          [5, 20],
          [5, 30],
        ]),
      ),
    ).toMatchObject({
      issue: { kind: 'wrong', argument: 'Minutes' },
      place: { row: 4 },
    });
  });
});
