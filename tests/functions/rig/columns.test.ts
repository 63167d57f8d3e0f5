import { describe, expect, it } from 'vitest';
import type { CellRange } from '../../../src/tables/cells.ts';
import { columnOf, expectFault, numberFrom, PARTS, tableFrom } from './tables.ts';

/** 500 micron; 0 °C mercury of 13595.1 kg/m3 */
const TARGET = 500e-6 * 13595.1 * 9.80665;
/** Largest of the numbers of a column, and its row. */
function largest(cells: readonly unknown[]): { readonly row: number; readonly value: number } {
  const numbers = cells.map((cell) => (typeof cell === 'number' ? cell : Number.NEGATIVE_INFINITY));
  const value = Math.max(...numbers);
  return { row: numbers.indexOf(value), value };
}

describe('the columns of RIG.PROFILE', () => {
  const table = tableFrom('RIG.PROFILE', PARTS, 'fitted', '500 micron');
  const numbers = (name: string): number[] => columnOf(table, name).map(Number);

  it('agree with one flow through all parts and into the pump', () => {
    // L/s times Pa: the throughput of each part is the conductance times its pressure difference
    const flow = numberFrom('RIG.SPEED', PARTS, 'fitted', '500 micron') * TARGET;
    const [pumpSide, systemSide, conductance] = ['Pump side', 'System side', 'Conductance'].map(numbers);
    expect(columnOf(table, 'Kind')).toEqual(['pump', 'hose', 'core']);
    expect(columnOf(table, 'Pump side')[0]).toBe('');
    expect(((conductance?.[0] ?? 0) * (systemSide?.[0] ?? 0)) / flow).toBeCloseTo(1, 6);
    for (const part of [1, 2]) {
      const drop = (systemSide?.[part] ?? 0) - (pumpSide?.[part] ?? 0);
      expect(drop).toBeGreaterThan(0);
      expect(((conductance?.[part] ?? 0) * drop) / flow).toBeCloseTo(1, 6);
      // each begins where the one before it ends
      expect(pumpSide?.[part]).toBe(systemSide?.[part - 1]);
      const whole = TARGET - (systemSide?.[0] ?? 0);
      expect(numbers('Share of loss')[part]).toBeCloseTo((100 * drop) / whole, 6);
    }
    expect(columnOf(table, 'Share of loss')[0]).toBe('');
  });

  it('have the velocity by continuity, and the Knudsen number of kinetic theory at the mean pressure', () => {
    const flow = (numberFrom('RIG.SPEED', PARTS, 'fitted', '500 micron') / 1000) * TARGET;
    // free path of hard spheres: (eta/p) sqrt(pi R T/(2 M)); air at 20 °C: 18.2e-6 Pa s, 287 J/(kg K); from memory
    const freePath = 18.2e-6 * Math.sqrt((Math.PI * 287 * 293.15) / 2);
    for (const [row, bore] of [
      [1, 4.8e-3],
      [2, 1.2e-3],
    ] as const) {
      const [from = 0, to = 0] = [numbers('Pump side')[row], numbers('System side')[row]];
      // at most the speed of sound in air at 20 °C, 343 m/s
      const continuity = Math.min(343.2, flow / (from * (Math.PI / 4) * bore ** 2));
      expect((numbers('Velocity')[row] ?? 0) / continuity).toBeCloseTo(1, 2);
      const kn = freePath / (0.5 * (from + to)) / bore;
      expect((numbers('Knudsen')[row] ?? 0) / kn).toBeCloseTo(1, 1);
      const regime = String(columnOf(table, 'Regime')[row]);
      // bounds of texts on kinetic theory: 0.01 and 0.1 and 10, from memory
      expect(regime).toBe(kn < 0.01 ? 'viscous' : kn < 0.1 ? 'slip' : kn < 10 ? 'transitional' : 'molecular');
    }
  });

  it('show no flow at the ultimate pressure', () => {
    const still = tableFrom('RIG.PROFILE', PARTS, 'fitted', '20 micron');
    expect(columnOf(still, 'Share of loss')).toEqual(['', 0, 0]);
    expect(columnOf(still, 'Velocity')).toEqual(['', 0, 0]);
    expect(columnOf(still, 'Conductance').slice(1)).toEqual(['', '']);
  });
});

describe('the columns of RIG.COMPARE', () => {
  const table = tableFrom('RIG.COMPARE', PARTS, 20);

  it('have the share of the pump and the worst part of RIG.PROFILE with its share', () => {
    const speeds = columnOf(table, 'Pump speed').map(Number);
    const meters = columnOf(table, 'Meter reading').map(Number);
    for (const [row, rig] of ['fitted', 'bare', 'wide'].entries()) {
      // 5 cfm: 0.3048 m a foot
      expect(speeds[row]).toBeCloseTo(((5 * 0.3048 ** 3) / 60) * 1000, 9);
      expect(columnOf(table, 'Share of the pump')[row]).toBeCloseTo((100 * (meters[row] ?? 0)) / (speeds[row] ?? 1), 9);
      const profile = tableFrom('RIG.PROFILE', PARTS, rig, '500 micron');
      const worst = largest(columnOf(profile, 'Share of loss'));
      expect(columnOf(table, 'Worst part')[row]).toBe(columnOf(profile, 'Part')[worst.row]);
      expect(columnOf(table, 'Its share of loss')[row]).toBeCloseTo(worst.value, 6);
      expect(columnOf(table, 'Lowest pressure')[row]).toBeCloseTo(TARGET / 25, 6);
    }
  });

  it('are those of the pump that is tried', () => {
    const tried = tableFrom('RIG.COMPARE', PARTS, 20, [['5 cfm'], ['8 cfm']]);
    const faster = PARTS.map((row) => row.map((cell) => (cell === 5 ? 8 : cell)));
    const own = tableFrom('RIG.COMPARE', faster, 20);
    for (const row of [0, 1, 2]) {
      expect(tried[1 + 2 * row]).toEqual(table[1 + row]);
      for (const [column, cell] of (tried[2 + 2 * row] ?? []).entries()) {
        const other = own[1 + row]?.[column];
        if (typeof cell === 'number') expect(cell).toBeCloseTo(Number(other), 9);
        else expect(cell).toBe(other);
      }
    }
  });

  it('name the pump itself where it stands alone', () => {
    const bare: CellRange = [
      ['Rig', 'Part', 'Kind', 'Speed (L/s)', 'Ultimate (Pa)'],
      ['bare', 'my pump', 'pump', 2, 3],
    ];
    const alone = tableFrom('RIG.COMPARE', bare, 20);
    expect(columnOf(alone, 'Worst part')).toEqual(['my pump']);
    expect(columnOf(alone, 'Its share of loss')).toEqual(['']);
    // (V/S) ln((p0 - pu)/(p - pu)): 20 L at 2 L/s
    const minutes = ((20 / 2) * Math.log((101325 - 3) / (TARGET - 3))) / 60;
    expect(Number(columnOf(alone, 'Time to target')[0]) / minutes).toBeCloseTo(1, 4);
    expect(columnOf(alone, 'Share of the pump')[0]).toBeCloseTo(100 * (1 - 3 / 101325), 2);
  });

  it('leave the share blank where the target is out of reach', () => {
    const table = tableFrom('RIG.COMPARE', PARTS, 20, '', [['Target pressure', '10 micron']]);
    expect(columnOf(table, 'Its share of loss')).toEqual(['', '', '']);
  });
});

describe('the columns of RIG.SWAPS', () => {
  it('add up: time and saving to the time before, the share to the saving', () => {
    const table = tableFrom('RIG.SWAPS', PARTS, 'fitted', 20);
    const [times = [], saved = [], shares = []] = ['Time to target', 'Time saved', 'Saved'].map((name) =>
      (name === 'Saved' ? table.slice(1).map((row) => row[3]) : columnOf(table, name)).map(Number),
    );
    const before = numberFrom('EVAC.TIME', 20, PARTS, 'fitted');
    expect(times[0]).toBeCloseTo(before, 9);
    expect([saved[0], shares[0]]).toEqual([0, 0]);
    for (let row = 1; row < times.length; row++) {
      expect((times[row] ?? 0) + (saved[row] ?? 0)).toBeCloseTo(before, 9);
      expect(shares[row]).toBeCloseTo((100 * (saved[row] ?? 0)) / before, 9);
    }
  });
});

describe('RIG.FIT', () => {
  it('takes one cell as a reading and anything else as a log', () => {
    expectFault('#VALUE!', /log|Minutes/i, 'RIG.FIT', PARTS, 'fitted', 'core', [[0.4, 0.5]]);
    expectFault('#VALUE!', /log|Minutes/i, 'RIG.FIT', PARTS, 'fitted', 'core', [[0.4], [0.5]]);
    expect(numberFrom('RIG.FIT', PARTS, 'fitted', 'core', [['0.4 cfm']])).toBe(
      numberFrom('RIG.FIT', PARTS, 'fitted', 'core', '0.4 cfm'),
    );
  });
});
