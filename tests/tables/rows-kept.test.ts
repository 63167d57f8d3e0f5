import { describe, expect, it } from 'vitest';
import { readLog } from '../../src/tables/log.ts';
import { readRates } from '../../src/tables/rates.ts';
import { readUnits } from '../../src/tables/units.ts';
import { allFaults, faultOf } from './faults.ts';

const WORK = {
  'Set-up': [1, 'setUp'],
  'Pack-up': [2, 'packUp'],
  Hold: [3, 'hold'],
  'Reading time': [4, 'readingTime'],
  'Check interval': [5, 'checkInterval'],
  'Check time': [6, 'checkTime'],
  'Break time': [7, 'breakTime'],
  Charging: [8, 'charging'],
} as const;

describe('a units table', () => {
  it('reads each time of work into its own place, in minutes', () => {
    const columns = Object.keys(WORK);
    const { units } = readUnits([
      ['Unit', 'Rig', ...columns, 'Hold readings', 'Refrigerant', 'Charge'],
      ['a', 'r', ...Object.values(WORK).map(([minutes]) => minutes), 9, 'R-32', 4],
    ]);
    for (const [minutes, key] of Object.values(WORK)) expect(units[0]?.labour[key], key).toBe(60 * minutes);
    expect(units[0]).toMatchObject({ refrigerant: 'R-32', charge: 4, labour: { holdReadings: 9 } });
  });

  it('needs no rig where none is asked for', () => {
    const rows = [
      ['Unit', 'Rig'],
      ['a', ''],
      ['b', ' r '],
    ];
    expect(readUnits(rows, undefined, { rigs: false }).units.map(({ rig }) => rig)).toEqual(['', 'r']);
    expect(readUnits([['Unit'], ['a']], undefined, { rigs: false }).units.map(({ rig }) => rig)).toEqual(['']);
    expect(faultOf(() => readUnits(rows))).toEqual({
      issue: { kind: 'missing', argument: 'Rig' },
      place: { table: 'units', row: 2, column: 'Rig' },
    });
  });

  it('keeps the first fault of a row with the row where it is asked to, and leaves the row out where not', () => {
    const rows = [
      ['Unit', 'Rig', 'Volume'],
      ['', 'r', -1],
      ['b', '', 1],
      ['c', 'r', 1],
    ];
    const { units } = readUnits(rows, undefined, { keepFaults: true });
    expect(units.map(({ name, rig, row, fault }) => [name, rig, row, fault?.place?.column])).toEqual([
      ['', 'r', 2, 'Unit'],
      ['b', '', 3, 'Rig'],
      ['c', 'r', 4, undefined],
    ]);
    let left: unknown;
    const faults = allFaults((sink) => {
      left = readUnits(rows, sink).units.map(({ name }) => name);
    });
    expect(faults.map(({ place }) => [place?.row, place?.column])).toEqual([
      [2, 'Unit'],
      [2, 'Volume'],
      [3, 'Rig'],
    ]);
    expect(left).toEqual(['c']);
  });

  it('tells faults of its header and of the whole at once, whatever is kept', () => {
    const header = faultOf(() => readUnits([['Unit'], ['a']], undefined, { keepFaults: true }));
    expect(header).toMatchObject({
      issue: { kind: 'missing-header', header: 'Rig' },
      place: { table: 'units', row: 1 },
    });
    const empty = faultOf(() => readUnits([['Unit', 'Rig']], undefined, { keepFaults: true }));
    expect(empty).toEqual({ issue: { kind: 'empty-table', table: 'units' }, place: { table: 'units' } });
    const unit = faultOf(() =>
      readUnits(
        [
          ['Unit', 'Rig', 'Volume (ft)'],
          ['a', 'r', 1],
        ],
        undefined,
        { keepFaults: true },
      ),
    );
    expect(unit?.issue.kind).toBe('unit');
  });
});

describe('a log table', () => {
  it('leaves out rows that cannot be read or do not rise in time, and tells them', () => {
    let readings: unknown;
    const faults = allFaults((sink) => {
      readings = readLog(
        [
          ['Minutes', 'Pressure', 'Temperature'],
          [0, 100, ''],
          ['', 100, ''],
          [1, '', ''],
          [2, 200, 20],
          [2, 300, ''],
          [1.5, 300, ''],
          [3, 300, ''],
        ],
        sink,
      ).readings.map((reading) => [reading.row, reading.time, Object.keys(reading).includes('temperature')]);
    });
    const late = {
      kind: 'wrong',
      argument: 'Minutes',
      found: 'not later than in the row above',
      allowed: 'rising time',
      todo: 'Sort the rows by time and remove those given twice.',
    };
    expect(faults.map(({ issue, place }) => [issue, place?.table, place?.row, place?.column])).toEqual([
      [{ kind: 'missing', argument: 'Minutes' }, 'log', 3, 'Minutes'],
      [{ kind: 'missing', argument: 'Pressure' }, 'log', 4, 'Pressure'],
      [late, 'log', 6, 'Minutes'],
      [late, 'log', 7, 'Minutes'],
    ]);
    expect(readings).toEqual([
      [2, 0, false],
      [5, 120, true],
      [8, 180, false],
    ]);
  });
});

describe('a rates table', () => {
  it('has one role at least that attends', () => {
    const header = ['Role', 'Rate', 'Attends'];
    expect(readRates([header, ['clerk', 30, 0], ['fitter', 40, 1]]).roles).toHaveLength(2);
    expect(faultOf(() => readRates([header, ['clerk', 30, 0], ['boss', 40, 0]]))).toEqual({
      issue: {
        kind: 'wrong',
        argument: 'Attends',
        found: '0 in every row',
        allowed: 'at least one role that attends',
        todo: 'Give Attends of the role that does the work.',
      },
      place: { table: 'rates' },
    });
  });

  it('without rows is told once, and a row without a name or rate keeps its place', () => {
    expect(allFaults((sink) => readRates([['Role', 'Rate']], sink)).map(({ issue }) => issue.kind)).toEqual([
      'empty-table',
    ]);
    let roles: unknown;
    allFaults((sink) => {
      roles = readRates(
        [
          ['Role', 'Rate', 'Attends'],
          ['', '', 2],
        ],
        sink,
      ).roles.map(({ name, rate }) => [name, rate]);
    });
    expect(roles).toEqual([['', 0]]);
  });
});
