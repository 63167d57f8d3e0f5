import { describe, expect, it } from 'vitest';
import type { RawArgument } from '../../../src/functions/define.ts';
import type { Cell, CellRange } from '../../../src/tables/cells.ts';
import { columnOf, expectFault, numberFrom, tableFrom } from '../rig/tables.ts';

const HEADER = ['Minutes', 'Pressure (micron)'];
/** Invented logs on a gauge with steps of one micron. */
const logOf = (law: (minutes: number) => number, points = 16, step = 2): CellRange => [
  HEADER,
  ...Array.from({ length: points }, (_, i) => [step * i, Math.round(law(step * i))]),
];
const LEAK = logOf((t) => 300 + 20 * t);
const MOIST = logOf((t) => 300 + 1200 * (1 - Math.exp(-t / 6)));
const GASSY = logOf((t) => 300 + 250 * Math.log1p(t / 2));
const TIGHT = logOf((t) => 280 + (t % 3 === 0 ? 1 : 0));

const only = (log: CellRange, column: string, ...more: RawArgument[]): Cell =>
  columnOf(tableFrom('HOLD.READ', log, 20, ...more), column)[0];

describe('HOLD.READ', () => {
  it('tells the four causes apart, in one row', () => {
    expect([LEAK, MOIST, GASSY, TIGHT].map((log) => only(log, 'Verdict'))).toEqual([
      'leak',
      'moisture',
      'outgassing',
      'tight',
    ]);
    expect(tableFrom('HOLD.READ', LEAK, 20)).toHaveLength(2);
  });

  it('gives rate and rise with their units, metric or inch', () => {
    const metric = tableFrom('HOLD.READ', LEAK, 20);
    expect(metric[0]).toContain('Rate (Pa m3/s)');
    // 20 micron a minute = 2.66645 Pa a minute; in 0.02 m3 that is 8.888e-4 Pa m3/s, by hand
    expect(Number(columnOf(metric, 'Rise in a minute')[0])).toBeCloseTo(2.66645, 2);
    expect(Number(columnOf(metric, 'Rate')[0])).toBeCloseTo(8.888e-4, 5);
    const inch = tableFrom('HOLD.READ', LEAK, 20, [['Report units', 'inch']]);
    expect(Number(columnOf(inch, 'Rise in a minute (micron)')[0])).toBeCloseTo(20, 1);
  });

  it('says how sure it is in words and as a share', () => {
    expect(['sure', 'fairly sure']).toContain(only(LEAK, 'How sure'));
    expect(Number(only(LEAK, 'Probability'))).toBeGreaterThan(95);
    expect(Number(only(LEAK, 'Probability'))).toBeLessThanOrEqual(100);
  });

  it("can't tell yet from three readings, a short log or a gentle bend, and says what would settle it", () => {
    for (const log of [logOf((t) => 300 + 20 * t, 3), logOf((t) => 300 + 20 * t, 12, 0.2)]) {
      expect(only(log, 'Verdict')).toBe("can't tell yet");
      expect(only(log, 'How sure')).toBe('not sure');
      expect(only(log, 'What to do')).toMatch(/go on for \d+ minutes? at least/u);
    }
    const bend = logOf((t) => 300 + 60 * Math.log1p(t / 12) + (t % 4 === 0 ? 4 : -4), 8, 2);
    expect(only(bend, 'Verdict')).toBe("can't tell yet");
    expect(only(bend, 'What to do')).toMatch(/more of readings|will not settle it/u);
  });

  it('warns of a tight system that stands above what practice asks for', () => {
    expect(only(TIGHT, 'What to do')).toMatch(/Within the 500 micron that practice asks for/u);
    const high = logOf(() => 900);
    expect(only(high, 'Verdict')).toBe('tight');
    expect(only(high, 'What to do')).toMatch(/pull deeper/u);
  });

  it('takes out the drift that a Temperature column shows', () => {
    const log: CellRange = [
      [...HEADER, 'Temperature (C)'],
      ...Array.from({ length: 16 }, (_, i) => [2 * i, Math.round((3000 * (293.15 + i)) / 293.15), 20 + i]),
    ];
    expect(only(log, 'Verdict')).toBe('tight');
    expect(
      only(
        log.map((row) => row.slice(0, 2)),
        'Verdict',
      ),
    ).not.toBe('tight');
  });

  it('takes a Gauge resolution of the conditions, and says what it hides', () => {
    const coarse = [['Gauge resolution', '100 micron']];
    const short = logOf(() => 300, 8, 3);
    expect(only(short, 'Verdict')).toBe('tight');
    expect(only(short, 'Verdict', coarse)).toBe("can't tell yet");
    expect(only(short, 'What to do', coarse)).toMatch(/gauge's resolution hides.*100 micron.*Go on for 39 minutes/u);
    // 100 micron an hour hide for an hour; 21 minutes are there
    expect(only(LEAK, 'Verdict', [['Gauge resolution', '1 micron']])).toBe('leak');
    expectFault('#VALUE!', /Gauge resolution/, 'HOLD.READ', LEAK, 20, [['Gauge resolution', 0]]);
  });

  it('is a fault in words for logs and volumes that cannot be', () => {
    const fault = (words: RegExp, log: CellRange, volume: Cell = 20): void =>
      expectFault('#VALUE!', words, 'HOLD.READ', log, volume);
    fault(/Log is 2 readings: allowed is three readings or more/, [HEADER, [0, 300], [5, 320]]);
    fault(/row 4.*not later than in the row above.*Sort the rows/, [HEADER, [0, 300], [10, 320], [5, 310], [15, 330]]);
    fault(/not later than in the row above/, [HEADER, [0, 300], [5, 310], [5, 310], [9, 320]]);
    fault(/Pressure/, [HEADER, [0, 300], [5, -3], [10, 330]]);
    fault(/Pressure.*blank/, [HEADER, [0, 300], [5, ''], [10, 330]]);
    fault(/log table has no rows/, [HEADER]);
    fault(/no column "Pressure"/, [['Minutes'], [0], [1], [2]]);
    for (const volume of [0, -3, '', 'big']) fault(/Volume/, LEAK, volume);
  });
});

describe('HOLD.RISE', () => {
  it('lifts 20 L by 0.9 Pa in ten minutes at 0.03 Pa L/s', () => {
    // row RI-01 of the pump-down reference file
    const end = numberFrom('HOLD.RISE', 20, 10, 40, [['Leak', '0.03 Pa L/s']]);
    expect(end - 40).toBeCloseTo(0.9, 9);
  });

  it('stays where it is without a load, and undoes LEAK.RATE', () => {
    expect(numberFrom('HOLD.RISE', 20, 600, '300 micron')).toBeCloseTo(39.9967, 4);
    const rate = numberFrom('LEAK.RATE', 35, '200 micron', 60);
    const end = numberFrom('HOLD.RISE', 35, 60, '300 micron', [['Leak', rate, 'Pa m3/s']]);
    expect(end).toBeCloseTo(500 * 0.133322387415, 9);
  });

  it('takes a rise as a difference: none that counts from the atmosphere', () => {
    // 1 psi = 6894.757 Pa (NIST SP 811), times 0.02 m3 over 3600 s
    expect(numberFrom('LEAK.RATE', 20, '1 psi', 60)).toBeCloseTo((6894.757 * 0.02) / 3600, 6);
    for (const rise of ['1 psi g', '0 psi g', '2 inHg vac', '0.1 bar g'])
      expectFault('#VALUE!', /Rise is ".*": allowed is a difference of pressures/, 'LEAK.RATE', 20, rise, 60);
  });

  it('with water to spare ends at the saturation pressure at Ambient', () => {
    // 2339.32 Pa at 20 C, row PL-06 of the water reference file
    expect(numberFrom('HOLD.RISE', 20, 60, 40, [['Water', 5]])).toBeCloseTo(2339.32, 0);
  });

  it('is a fault for more water than room, a leak up to the pressure around, and times and volumes that cannot be', () => {
    expectFault('#VALUE!', /Water is more than the volume holds/, 'HOLD.RISE', 1, 10, 40, [['Water', '2 kg']]);
    expectFault('#NUM!', /steady leak holds/, 'HOLD.RISE', 20, 600, 40, [['Leak', 5]]);
    expectFault('#VALUE!', /Volume/, 'HOLD.RISE', 0, 10, 40);
    expectFault('#VALUE!', /Minutes/, 'HOLD.RISE', 20, -1, 40);
    expectFault('#VALUE!', /Start/, 'HOLD.RISE', 20, 1, -40);
  });
});

describe('LEAK.RATE', () => {
  it('is volume times rise over time, whatever the units', () => {
    expect(numberFrom('LEAK.RATE', 20, 0.9, 10)).toBeCloseTo(3e-5, 12);
    expect(numberFrom('LEAK.RATE', '0.02 m3', '0.009 mbar', '600 s')).toBeCloseTo(3e-5, 12);
    const column = tableFrom('LEAK.RATE', 20, [[0.9], [1.8]], 10);
    expect(Number(column[1]?.[0]) / Number(column[0]?.[0])).toBeCloseTo(2, 9);
  });

  it('gives the grams a year of a refrigerant in a second column', () => {
    const [header, row] = tableFrom('LEAK.RATE', 20, 0.9, 10, 'r134a');
    expect(header).toEqual(['Leak rate (Pa m3/s)', 'R-134a (g/year)']);
    expect(row?.[0]).toBeCloseTo(3e-5, 12);
    // 7.57e-7 Pa m3/s is one gram a year of R-134a, row of the units reference file
    expect(Number(row?.[1]) / (3e-5 / 7.57e-7)).toBeCloseTo(1, 3);
  });

  it('counts grams a year by the ideal gas law at 20 C, by hand', () => {
    // 20 L, 200 micron in an hour: 0.02 x 26.66448/3600 = 1.481360e-4 Pa m3/s
    // R-134a, 0.102032 kg/mol: 1.481360e-4 x 0.102032/(8.314463 x 293.15) = 6.20120e-9 kg/s; x 31557600 s = 195.695 g
    const [, row] = tableFrom('LEAK.RATE', 20, '200 micron', 60, 'R-134a');
    expect(row?.[0]).toBeCloseTo(1.48136e-4, 8);
    expect(Number(row?.[1]) / 195.695).toBeCloseTo(1, 4);
    // water vapour, 0.01801527 kg/mol, the same throughput: 195.695 x 0.01801527/0.102032 = 34.553 g
    expect(Number(tableFrom('LEAK.RATE', 20, '200 micron', 60, 'water vapour')[1]?.[1]) / 34.553).toBeCloseTo(1, 3);
    expect(numberFrom('LEAK.RATE', 20, 0, 60)).toBe(0);
  });

  it('is a fault for an unknown refrigerant, no time, a rise below nothing, and a range with a refrigerant', () => {
    expectFault('#N/A', /no gas "R-0"/, 'LEAK.RATE', 20, 1, 10, 'R-0');
    expectFault('#VALUE!', /Minutes/, 'LEAK.RATE', 20, 1, 0);
    expectFault('#VALUE!', /Rise/, 'LEAK.RATE', 20, -1, 10);
    const cells = tableFrom('LEAK.RATE', 20, [[1], [2]], 10, 'R-134a');
    expect(cells[0]?.[0]).toMatchObject({ error: '#VALUE!', message: expect.stringContaining('single cell') });
  });
});
