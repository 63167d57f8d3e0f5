import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.ts';
import { conditionNames } from '../../src/tables/condition-list.ts';
import { readConditions } from '../../src/tables/conditions.ts';
import { allFaults, faultOf } from './faults.ts';

const read = (...rows: Cell[][]) => readConditions(rows);

describe('conditions', () => {
  it('are air at 20 C from one standard atmosphere to 500 micron where nothing is said', () => {
    const standard = readConditions(undefined);
    expect(standard).toMatchObject({
      gas: { name: 'air', temperature: 293.15 },
      startPressure: 101325,
      ambientPressure: 101325,
      ambientTemperature: 293.15,
      water: 0,
      heat: 0,
      metal: 0,
      leak: 0,
      outgassing: 0,
      outgassingExponent: 0,
      reportUnits: 'metric',
    });
    expect(standard.target).toBeCloseTo(66.6611937075, 9);
    expect(standard.volume).toBeUndefined();
    expect(standard.gaugeResolution).toBeUndefined();
    expect(read(['Target pressure', ''])).toEqual(standard);
  });

  it('read name, value and unit, whatever the case and order', () => {
    const found = read(
      ['Name', 'Value', 'Unit'],
      ['target', 300, 'micron'],
      ['GAS', 'Nitrogen', ''],
      ['Temperature', 86, 'F'],
      ['Leak', 1e-3, 'mbar L/s'],
      ['Start pressure', '0 bar g', ''],
      ['Volume (L)', 20, ''],
      ['Report units', 'inch', ''],
    );
    expect(found).toMatchObject({
      gas: { name: 'nitrogen' },
      leak: 1e-4,
      startPressure: 101325,
      volume: 0.02,
      reportUnits: 'inch',
    });
    expect(found.temperature).toBeCloseTo(303.15, 9);
    expect(found.gas.temperature).toBe(found.temperature);
    expect(found.target).toBeCloseTo(39.9967, 4);
  });

  it('know the work on a unit by common practice where nothing is said', () => {
    expect(readConditions(undefined).labour).toEqual({
      setUp: 1200,
      packUp: 900,
      hold: 1800,
      holdReadings: 2,
      readingTime: 120,
      checkInterval: 3600,
      checkTime: 300,
      breaks: 0,
      breakTime: 600,
      charging: 0,
      access: 1,
      travel: 600,
      technicians: 1,
      percentiles: [0.1, 0.5, 0.8, 0.9],
    });
  });

  it('read the work on a unit, and percentiles however they are written', () => {
    const { labour } = read(['Set-up time', 0.5, 'h'], ['Nitrogen breaks', 2], ['Percentiles', 'P5; P50 97.5 %']);
    expect(labour).toMatchObject({ setUp: 1800, breaks: 2, percentiles: [0.05, 0.5, 0.975] });
    expect(faultOf(() => read(['Breaks', 1.5]))?.issue).toMatchObject({ kind: 'wrong', allowed: 'a whole number' });
    expect(faultOf(() => read(['Set-up', -1]))?.issue).toMatchObject({ kind: 'limit', rule: 'at least' });
    expect(faultOf(() => read(['Percentiles', ' , ']))?.issue).toMatchObject({ kind: 'missing' });
    expect(faultOf(() => read(['Percentiles', true]))?.issue).toMatchObject({ kind: 'not-text' });
    expect(faultOf(() => read(['Percentiles', 10508090]))?.issue).toMatchObject({ kind: 'limit', rule: 'below' });
  });

  it('take a bare number in the default unit of the name', () => {
    expect(read(['Water', 50]).water).toBeCloseTo(0.05, 15);
    expect(read(['Metal', 4000]).metal).toBe(4000);
  });

  it('take the metal in kJ/K, Wh/K and Btu/F, and a gauge’s resolution as a pressure', () => {
    expect(read(['Metal', '3.85 kJ/K']).metal).toBeCloseTo(3850, 9);
    expect(read(['Metal', 1, 'Wh/K']).metal).toBeCloseTo(3600, 9);
    // 1 Btu = 1055.056 J, 1 F = 5/9 K (NIST SP 811): 1899.10 J/K
    expect(read(['Metal', 1, 'Btu/F']).metal).toBeCloseTo(1899.1, 1);
    expect(read(['Gauge resolution', '10 micron']).gaugeResolution).toBeCloseTo(1.33322, 5);
  });

  const wrong: readonly (readonly [Cell[], string, string])[] = [
    [['Pressure of work', 5], 'unknown', 'Name'],
    [['constructor', 5], 'unknown', 'Name'],
    [['Gas', 'phlogiston'], 'unknown', 'Value'],
    [['Gas', 5], 'not-text', 'Value'],
    [['Report units', 'cubits'], 'unknown', 'Value'],
    [['Target pressure', 0], 'limit', 'Value'],
    [['Target pressure', -5], 'limit', 'Value'],
    [['Target pressure', Number.NaN], 'not-a-number', 'Value'],
    [['Target pressure', 'low'], 'not-a-number', 'Value'],
    [['Target pressure', 5, 'ft'], 'unit', 'Unit'],
    [['Target pressure', { error: '#REF!' }], 'cell-error', 'Value'],
    [[{ error: '#REF!' }, 5], 'cell-error', 'Name'],
    [['Temperature', -300], 'limit', 'Value'],
    [['Temperature', 5000], 'model-range', 'Value'],
    [['Leak', -1], 'limit', 'Value'],
    [['Metal', -1], 'limit', 'Value'],
    [['Metal', '5 W/K'], 'unit', 'Value'],
    [['Gauge resolution', 0], 'limit', 'Value'],
    [['Outgassing exponent', 7], 'limit', 'Value'],
  ];
  it.each(wrong)('refuse %j as %s in its column %s', (row, kind, column) => {
    const fault = faultOf(() => read(['Water', 1], row));
    expect(fault?.issue.kind).toBe(kind);
    expect(fault?.place).toEqual({ table: 'conditions', row: 2, column });
  });

  it('list the known names', () => {
    const fault = faultOf(() => read(['Pressure of work', 5]));
    expect(fault?.issue).toMatchObject({ known: conditionNames });
  });

  it('refuse a name twice, by a synonym as well', () => {
    expect(faultOf(() => read(['Target', 5], ['Target pressure', 6]))?.issue.kind).toBe('wrong');
  });

  it('tell all faults when asked', () => {
    const faults = allFaults((sink) =>
      readConditions(
        [
          ['Gaz', 'air'],
          ['Water', -1],
          ['Gas', 'x'],
        ],
        sink,
      ),
    );
    expect(faults.map(({ issue, place }) => [place?.row, issue.kind])).toEqual([
      [1, 'unknown'],
      [2, 'limit'],
      [3, 'unknown'],
    ]);
  });

  it('refuse a million rows at once', () => {
    expect(faultOf(() => readConditions(Array.from({ length: 1_048_576 }, () => [])))?.issue.kind).toBe(
      'too-many-rows',
    );
  });
});
