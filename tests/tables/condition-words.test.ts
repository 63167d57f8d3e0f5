import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.ts';
import { conditionNames } from '../../src/tables/condition-list.ts';
import { readConditions } from '../../src/tables/conditions.ts';
import { MOST_ROWS } from '../../src/tables/table.ts';
import { allFaults, faultOf } from './faults.ts';

const read = (...rows: Cell[][]) => readConditions(rows);
const issueOf = (...row: Cell[]) => faultOf(() => read(['Water', 1], row))?.issue;

describe('conditions that are one of a few words', () => {
  it.each([
    ['metric', 'metric'],
    ['SI', 'metric'],
    ['Inch', 'inch'],
    ['inches', 'inch'],
    [' imperial ', 'inch'],
  ])('know %s as report units', (text, units) => {
    expect(read(['Report units', text]).reportUnits).toBe(units);
  });

  it.each([
    ['liquid', 'liquid'],
    ['Vapour', 'vapour'],
    ['vapor', 'vapour'],
    ['gas', 'vapour'],
  ])('know %s as what leaves a cylinder, or a system', (text, as) => {
    expect(read(['Charge as', text]).chargeAs).toBe(as);
    expect(read(['Recover as', text]).recoverAs).toBe(as);
  });

  it('know push-pull however it is written', () => {
    for (const text of ['push-pull', 'Push pull', 'PUSHPULL'])
      expect(read(['Recovery mode', text]).recoverAs).toBe('push-pull');
    expect(issueOf('Charge as', 'push-pull')?.kind).toBe('unknown');
  });

  it.each([
    ['Report units', 'set of report units', ['metric', 'inch']],
    ['Charge as', 'way to charge', ['liquid', 'vapour']],
    ['Recover as', 'way to recover', ['vapour', 'liquid', 'push-pull']],
  ])('refuse another word as %s, with those that they know', (name, what, known) => {
    expect(faultOf(() => read(['Water', 1], [name, 'cubits']))).toEqual({
      issue: { kind: 'unknown', what, value: 'cubits', known },
      place: { table: 'conditions', row: 2, column: 'Value' },
    });
  });

  it('are metric, liquid and vapour where nothing is said, or what is said is refused', () => {
    const usual = { reportUnits: 'metric', chargeAs: 'liquid', recoverAs: 'vapour', gas: { name: 'air' } };
    expect(readConditions(undefined)).toMatchObject(usual);
    let found: unknown;
    const rows = [
      ['Report units', 'x'],
      ['Charge as', 'x'],
      ['Recover as', 'x'],
      ['Gas', 'x'],
      ['Percentiles', 'x'],
      ['Target', 'x'],
    ];
    const faults = allFaults((sink) => {
      found = readConditions(rows, sink);
    });
    expect(faults.map(({ place }) => place?.row).sort()).toEqual([1, 2, 3, 4, 5, 6]);
    expect(found).toMatchObject({ ...usual, labour: { percentiles: [] } });
  });
});

describe('percentiles', () => {
  it.each<[Cell, readonly number[]]>([
    ['10, 50, 90', [0.1, 0.5, 0.9]],
    ['P90', [0.9]],
    ['p5;p50', [0.05, 0.5]],
    ['10 %, 50 %;90%', [0.1, 0.5, 0.9]],
    ['10  %, 50', [0.1, 0.5]],
    [' 50 ', [0.5]],
    [50, [0.5]],
    [Array.from({ length: 20 }, (_, i) => i + 1).join(' '), Array.from({ length: 20 }, (_, i) => (i + 1) / 100)],
    // twenty signs
    ['50.00000000000000000', [0.5]],
  ])('are read from %j', (cell, shares) => {
    expect(read(['Percentiles', cell]).labour.percentiles).toEqual(shares);
  });

  it.each<[Cell, object]>([
    [' , ; ', { kind: 'missing', argument: 'Percentiles' }],
    [
      Array.from({ length: 21 }, (_, i) => i + 1).join(' '),
      {
        kind: 'wrong',
        argument: 'Percentiles',
        found: '21 of them',
        allowed: 'at most 20',
        todo: 'Leave some out.',
      },
    ],
    [
      '10 half',
      {
        kind: 'not-a-number',
        argument: 'Percentiles',
        value: 'half',
        expected: 'numbers such as "10, 50, 90"',
      },
    ],
    ['5p0', { kind: 'not-a-number', value: '5p0' }],
    ['50.000000000000000000', { kind: 'not-a-number', value: '50.000000000000000000' }],
    ['0', { kind: 'limit', argument: 'Percentiles', value: 0, rule: 'above', limit: 0 }],
    ['100', { kind: 'limit', argument: 'Percentiles', value: 100, rule: 'below', limit: 100 }],
  ])('are refused in %j', (cell, issue) => {
    const found = faultOf(() => read(['Water', 1], ['Percentiles', cell]));
    expect(found?.issue).toMatchObject(issue);
    expect(found?.place).toEqual({ table: 'conditions', row: 2, column: 'Value' });
  });
});

describe('conditions by name', () => {
  it('are each read into their own place', () => {
    const found = read(
      ['Heat', 2],
      ['Outgassing', 3],
      ['Outgassing exponent', 0.5],
      ['Cylinder charge', 4],
      ['Cylinder temperature', 40],
      ['Cylinder heat', 5],
      ['Bath', 50],
      ['Recover to', 7],
      ['Water capacity', 6],
      ['Charging', 8],
      ['Ambient pressure', 9e4],
      ['Ambient', 30],
    );
    expect(found).toMatchObject({
      heat: 2,
      outgassing: 3,
      outgassingExponent: 0.5,
      cylinderCharge: 4,
      cylinderHeat: 5,
      recoverTo: 7,
      ambientPressure: 9e4,
    });
    expect(found.cylinderTemperature).toBeCloseTo(40 + 273.15, 9);
    expect(found.bathTemperature).toBeCloseTo(50 + 273.15, 9);
    expect(found.ambientTemperature).toBeCloseTo(30 + 273.15, 9);
    expect(found.cylinder).toBeCloseTo(0.006, 15);
    expect(found.labour.charging).toBe(480);
  });

  it('that have no usual value are not there where nothing is said', () => {
    const found = readConditions(undefined);
    for (const name of ['gaugeResolution', 'volume', 'cylinderTemperature', 'bathTemperature', 'cylinder'])
      expect(Object.keys(found)).not.toContain(name);
    expect(found).toMatchObject({ cylinderCharge: 10, cylinderHeat: 0, recoverTo: 101325 });
    expect(found.labour.charging).toBe(0);
  });

  it('take the unit of the third column, else that of the name, else their own', () => {
    expect(read(['Volume (m3)', 2, ' L ']).volume).toBeCloseTo(0.002, 15);
    expect(read(['Volume (m3)', 2, ' ']).volume).toBeCloseTo(2, 15);
    expect(read(['Volume (m3)', 2, 5]).volume).toBeCloseTo(2, 15);
    expect(read(['Volume', 2]).volume).toBeCloseTo(0.002, 15);
  });

  it('know a first row of headers by any of its names, and only a first one', () => {
    for (const header of ['Name', 'Condition', ' conditions '])
      expect(read([header, 'Value', 'Unit'], ['Volume', 2]).volume).toBeCloseTo(0.002, 15);
    expect(issueOf('Name', 'Value')).toEqual({
      kind: 'unknown',
      what: 'condition',
      value: 'Name',
      known: conditionNames,
    });
    // a first row that is no header is a condition
    expect(read(['Volume', 2], ['Heat', 3])).toMatchObject({ volume: 0.002, heat: 3 });
  });

  it('pass over rows without a name', () => {
    expect(read(['', 5], [null, 'x'], ['  ', 5], [], ['Heat', 3]).heat).toBe(3);
  });
});

describe('faults of conditions say all that is to be said', () => {
  it.each<[string, Cell[], string, object]>([
    [
      'a name twice',
      [' water ', 5],
      'Name',
      { kind: 'wrong', argument: 'water', found: 'given twice', allowed: 'one row', todo: 'Remove one of the rows.' },
    ],
    [
      'an error for a name',
      [{ error: '#REF!' }, 5],
      'Name',
      { kind: 'cell-error', argument: 'the name', code: '#REF!' },
    ],
    [
      'an error for a value',
      ['Heat', { error: '#REF!' }],
      'Value',
      { kind: 'cell-error', argument: 'Heat', code: '#REF!' },
    ],
    ['a number for a word', ['Gas', 5], 'Value', { kind: 'not-text', argument: 'Gas', value: 5, expected: 'a name' }],
    [
      'half a break',
      ['Breaks', 1.5],
      'Value',
      { kind: 'wrong', argument: 'Breaks', found: '1.5', allowed: 'a whole number', todo: 'Round it.' },
    ],
    ['too many breaks', ['Breaks', 101], 'Value', { kind: 'limit', argument: 'Breaks', rule: 'at most', limit: 100 }],
    ['a wrong unit', ['Heat', '5 W/K', 'ft'], 'Unit', { kind: 'unit', argument: 'Heat', unit: 'ft' }],
  ])('%s', (_, row, column, issue) => {
    const found = faultOf(() => read(['Water', 1], row));
    expect(found?.issue).toMatchObject(issue);
    expect(found?.place).toEqual({ table: 'conditions', row: 2, column });
  });

  it('a gas that does not go with a temperature: at the gas, else at the temperature, else at the table', () => {
    expect(faultOf(() => read(['Temperature', 5000], ['Gas', 'air']))?.place?.row).toBe(2);
    expect(faultOf(() => read(['Temperature', 5000]))?.place?.row).toBe(1);
  });

  it('too many rows: how many there may be', () => {
    const rows = (count: number): Cell[][] => Array.from({ length: count }, () => []);
    expect(faultOf(() => readConditions(rows(MOST_ROWS)))).toBeUndefined();
    expect(faultOf(() => readConditions(rows(MOST_ROWS + 1)))).toEqual({
      issue: { kind: 'too-many-rows', table: 'conditions', rows: MOST_ROWS + 1, limit: MOST_ROWS },
      place: { table: 'conditions' },
    });
  });
});
