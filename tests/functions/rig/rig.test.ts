import { describe, expect, it } from 'vitest';
import { curveOf, work } from '../../../src/functions/rig/curves.ts';
import { readConditions } from '../../../src/tables/conditions.ts';
import { readParts } from '../../../src/tables/rigs.ts';
import { columnOf, expectFault, numberFrom, PARTS, tableFrom } from './tables.ts';

describe('RIG.SPEED and RIG.METER', () => {
  it('the core takes flow from the hose, the wide hose gives most of the pump', () => {
    for (const id of ['RIG.METER', 'RIG.SPEED']) {
      const more = id === 'RIG.SPEED' ? ['500 micron'] : [];
      const [fitted, bare, wide] = ['fitted', 'bare', 'wide'].map((rig) => numberFrom(id, PARTS, rig, ...more));
      expect(fitted).toBeLessThan(bare ?? 0);
      expect(bare).toBeLessThan(wide ?? 0);
      // 5 cfm is 2.3597 L/s
      expect(wide).toBeLessThan(2.36);
    }
  });

  it('the speed at ambient pressure is the meter reading', () => {
    expect(numberFrom('RIG.SPEED', PARTS, 'bare', 101325)).toBeCloseTo(numberFrom('RIG.METER', PARTS, 'bare'), 9);
  });

  it('nothing is left of the pump at its ultimate pressure', () => {
    expect(numberFrom('RIG.SPEED', PARTS, 'bare', '20 micron')).toBe(0);
  });

  it('a pressure that cannot be is a fault in words', () => {
    expectFault('#VALUE!', /Pressure/, 'RIG.SPEED', PARTS, 'bare', 0);
    expectFault('#VALUE!', /Pressure/, 'RIG.SPEED', PARTS, 'bare', 'deep');
    expectFault('#NUM!', /Pressure/, 'RIG.SPEED', PARTS, 'bare', '50 bar');
    expectFault('#N/A', /no rig "narrow"/, 'RIG.SPEED', PARTS, 'narrow', 100);
  });
});

describe('RIG.PROFILE', () => {
  it('has a row for the pump and one for each part, and shares that add up to 100 %', () => {
    const table = tableFrom('RIG.PROFILE', PARTS, 'fitted', '500 micron');
    expect(columnOf(table, 'Part')).toEqual(['pump', 'small hose', 'core']);
    const shares = columnOf(table, 'Share of loss').filter((cell) => typeof cell === 'number');
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(100, 6);
    expect(columnOf(table, 'System side').at(-1)).toBeCloseTo(500 * 0.133322387415, 6);
  });

  it('shows pressures in micron where inch units are wanted', () => {
    const table = tableFrom('RIG.PROFILE', PARTS, 'fitted', '500 micron', [['Report units', 'inch']]);
    expect(table[0]).toContain('System side (micron)');
    expect(columnOf(table, 'System side').at(-1)).toBeCloseTo(500, 5);
  });
});

describe('RIG.GAUGE', () => {
  it('names a pressure at the system that the profile puts behind the same gauge reading', () => {
    const hidden = numberFrom('RIG.GAUGE', PARTS, 'fitted', 10);
    const profile = tableFrom('RIG.PROFILE', PARTS, 'fitted', hidden);
    expect(columnOf(profile, 'System side').at(0)).toBeCloseTo(10, 6);
    expect(hidden).toBeGreaterThan(10);
  });

  it('cannot be answered for a reading below the ultimate pressure', () => {
    expectFault('#N/A', /ultimate pressure of the pump/, 'RIG.GAUGE', PARTS, 'fitted', '15 micron');
  });
});

describe('RIG.COMPARE', () => {
  it('has one row for each rig and speed, and agrees with the single functions', () => {
    const speeds = [['4 cfm'], ['10 cfm']];
    const table = tableFrom('RIG.COMPARE', PARTS, 20, speeds);
    expect(columnOf(table, 'Rig')).toEqual(['fitted', 'fitted', 'bare', 'bare', 'wide', 'wide']);
    const own = tableFrom('RIG.COMPARE', PARTS, 20);
    expect(columnOf(own, 'Meter reading')[1]).toBeCloseTo(numberFrom('RIG.METER', PARTS, 'bare'), 9);
    expect(columnOf(own, 'Time to target')[1]).toBeCloseTo(numberFrom('EVAC.TIME', 20, PARTS, 'bare'), 9);
    expect(columnOf(own, 'Speed at target')[1]).toBeCloseTo(numberFrom('RIG.SPEED', PARTS, 'bare', '500 micron'), 9);
  });

  it('says what is reached where the target is out of reach', () => {
    const table = tableFrom('RIG.COMPARE', PARTS, 20, '', [['Target pressure', '10 micron']]);
    expect(columnOf(table, 'Time to target')).toMatchObject([{ error: '#N/A' }, { error: '#N/A' }, { error: '#N/A' }]);
    expect(String(columnOf(table, 'Worst part')[0])).toMatch(/out of reach: 2\.66645 Pa/);
  });
});

describe('RIG.SWAPS', () => {
  it('ranks the changes by what they save, after the rig as it is', () => {
    const table = tableFrom('RIG.SWAPS', PARTS, 'fitted', 20);
    const saved = columnOf(table, 'Time saved').map(Number);
    expect(columnOf(table, 'Change')[0]).toBe('as it is');
    expect([...saved.slice(1)].sort((a, b) => b - a)).toEqual(saved.slice(1));
    expect(columnOf(table, 'Change').slice(1).sort()).toEqual([
      'pump of twice the speed',
      'small hose: 3/8 in hose bore',
      'small hose: half the length',
      'take out core',
    ]);
  });

  it('removing the core shortens the pull more than doubling the pump', () => {
    const table = tableFrom('RIG.SWAPS', PARTS, 'fitted', 20);
    const saved = new Map(
      columnOf(table, 'Change').map((change, i) => [change, Number(columnOf(table, 'Time saved')[i])]),
    );
    expect(saved.get('take out core')).toBeGreaterThan(saved.get('pump of twice the speed') ?? 0);
  });

  it('taking the core out gives the time of the same rig without it', () => {
    const table = tableFrom('RIG.SWAPS', PARTS, 'fitted', 20);
    const at = columnOf(table, 'Change').indexOf('take out core');
    expect(columnOf(table, 'Time to target')[at]).toBeCloseTo(numberFrom('EVAC.TIME', 20, PARTS, 'bare'), 9);
  });
});

describe('RIG.FIT', () => {
  it('finds the bore of the core from the reading that the rig gives with it', () => {
    const reading = numberFrom('RIG.METER', PARTS, 'fitted');
    expect(numberFrom('RIG.FIT', PARTS, 'fitted', 'core', reading)).toBeCloseTo(1.2, 3);
    expect(numberFrom('RIG.FIT', PARTS, 'fitted', 'core', [[reading]])).toBeCloseTo(1.2, 3);
    expect(numberFrom('RIG.FIT', PARTS, 'fitted', 'core', `${reading} L/s`)).toBeCloseTo(1.2, 3);
  });

  it('finds it from the pull-down that the rig gives with it', () => {
    const curve = tableFrom('EVAC.CURVE', 30, PARTS, 'fitted', 8);
    const log = [['Minutes', 'Pressure (Pa)'], ...curve.slice(1).map((row) => row.slice(0, 2))];
    expect(numberFrom('RIG.FIT', PARTS, 'fitted', 'core', log, [['Volume', 30, 'L']])).toBeCloseTo(1.2, 2);
    expect(numberFrom('RIG.FIT', PARTS, 'fitted', 'core', curve, [['Volume', 30, 'L']])).toBeCloseTo(1.2, 2);
    expectFault('#VALUE!', /Volume/, 'RIG.FIT', PARTS, 'fitted', 'core', log);
  });

  it('says which readings can be had where this one cannot', () => {
    expectFault('#N/A', /between .* L\/s .* and .* L\/s/, 'RIG.FIT', PARTS, 'fitted', 'core', '9 cfm');
    expectFault('#N/A', /no part "valve"/, 'RIG.FIT', PARTS, 'fitted', 'valve', '1 cfm');
  });
});

describe('the curve of a rig', () => {
  it('is built once for any number of calls with the same content', () => {
    const conditions = readConditions([['Temperature', 23.5, 'C']]);
    const before = work.curvesBuilt;
    for (let i = 0; i < 5; i++) curveOf(readParts(PARTS).rig('fitted'), { ...conditions.gas });
    expect(work.curvesBuilt - before).toBe(1);
    curveOf(readParts(PARTS).rig('fitted'), readConditions([['Temperature', 24.5, 'C']]).gas);
    expect(work.curvesBuilt - before).toBe(2);
  });
});
