import { describe, expect, it } from 'vitest';
import type { Cell, CellRange } from '../../../src/tables/cells.ts';
import { columnOf, expectFault, numberFrom, tableFrom } from './tables.ts';

/**
 * Pumps alone, so that the system is at the pump inlet: t = V Int dp/(S p) = V Int d(ln p)/S, the pump-down equation of
 * vacuum textbooks, has a closed form for each table here.
 */
const LITRES = 20;
const alone = (curve: Cell, more: Readonly<Record<string, Cell>> = {}): CellRange => [
  ['Rig', 'Part', 'Kind', 'Speed table', ...Object.keys(more)],
  ['alone', 'pump', 'pump', curve, ...Object.values(more)],
];
const pull = (from: string, to: string, ...more: Cell[][]): CellRange => [
  ['Start pressure', from],
  ['Target pressure', to],
  ...more,
];
const minutes = (parts: CellRange, from: string, to: string): number =>
  numberFrom('EVAC.TIME', LITRES, parts, 'alone', pull(from, to));

const CURVE = '1 bar 4 m3/h; 1 mbar 3.6 m3/h; 0.1 mbar 2 m3/h; 0.02 mbar 0 m3/h';

/** min/m3 for a piece in which S (m3/h) is straight over ln p: Int d(ln p)/S = ln(p2/p1) ln(s2/s1)/(s2 - s1). */
function piece(ratio: number, slow: number, fast: number): number {
  return (60 * Math.log(ratio) * Math.log(fast / slow)) / (fast - slow);
}

describe('a pull-down by a pump with a speed table', () => {
  it('of one speed is V/S ln(p0/p1)', () => {
    // 0.02 m3 / 2 m3/h x ln(1e4) = 0.01 h x 9.210340 = 5.526204 min
    expect(minutes(alone('1 bar 2 m3/h; 1 Pa 2 m3/h'), '1 bar', '10 Pa')).toBeCloseTo(5.526204, 5);
    // level below the lowest pair as well
    expect(minutes(alone('1 bar 2 m3/h; 1 mbar 2 m3/h'), '1 bar', '10 Pa')).toBeCloseTo(5.526204, 5);
  });

  it('is the sum of its pieces, straight over ln p', () => {
    // by hand: 0.02 x 60 x (6.907755 x 0.105361/0.4 + 2.302585 x 0.587787/1.6) = 3.19849 min
    const toTenth = (piece(1000, 3.6, 4) + piece(10, 2, 3.6)) * 0.02;
    expect(toTenth).toBeCloseTo(3.19849, 4);
    expect(minutes(alone(CURVE), '1 bar', '0.1 mbar') / toTenth).toBeCloseTo(1, 5);
    // S(0.04 mbar) = 2 ln(2)/ln(5) = 0.861353 m3/h: on towards the pressure at which nothing is moved
    const further = piece(2.5, (2 * Math.log(2)) / Math.log(5), 2) * 0.02;
    expect(minutes(alone(CURVE), '1 bar', '0.04 mbar') / (toTenth + further)).toBeCloseTo(1, 5);
    expectFault('#N/A', /2 Pa at the lowest/, 'EVAC.TIME', LITRES, alone(CURVE), 'alone', pull('1 bar', '0.02 mbar'));
  });

  it('with Ultimate falls in a straight line from the lowest pair to it', () => {
    const open = '1 bar 4 m3/h; 1 mbar 3.6 m3/h; 0.1 mbar 2 m3/h';
    const ended = minutes(alone(open, { 'Ultimate (mbar)': 0.02 }), '1 bar', '0.04 mbar');
    expect(ended).toBeCloseTo(minutes(alone(CURVE), '1 bar', '0.04 mbar'), 9);
    expect(minutes(alone(open), '1 bar', '0.04 mbar')).toBeLessThan(ended);
  });

  it('that is S0 (1 - pu/p) at many points meets V/S0 ln((p0 - pu)/(p1 - pu))', () => {
    const [speed, ultimate, points] = [1e-3, 2, 90];
    const step = Math.log(1e5 / ultimate) / (points - 1);
    const pairs = Array.from({ length: points }, (_, i) => {
      const pressure = ultimate * Math.exp(i * step);
      return `${pressure} Pa ${i === 0 ? 0 : speed * (1 - ultimate / pressure)} m3/s`;
    });
    const seconds = 60 * minutes(alone(pairs.join('\n')), '1 bar', '20 Pa');
    const closed = (0.02 / speed) * Math.log((1e5 - ultimate) / (20 - ultimate));
    // S is hollow downwards over ln p: between points the table misses it by h^2/8 S0 pu/p at most, and takes longer by
    // V/S0 h^2/8 Int pu/p/(1 - pu/p)^2 d(ln p) = V/S0 h^2/8 (1/(1 - pu/p1) - 1/(1 - pu/p0)) at most
    const most = (0.02 / speed) * (step ** 2 / 8) * (1 / (1 - ultimate / 20) - 1 / (1 - ultimate / 1e5));
    expect(seconds).toBeGreaterThan(closed * (1 - 1e-5));
    expect(seconds).toBeLessThan(closed + 1.02 * most + closed * 1e-5);
  });

  it('is no answer of another rig that differs by its table alone', () => {
    const both: CellRange = [
      ['Rig', 'Kind', 'Speed table'],
      ['slow', 'pump', '1 bar 2 m3/h; 1 Pa 2 m3/h'],
      ['fast', 'pump', '1 bar 4 m3/h; 1 Pa 4 m3/h'],
    ];
    const time = (rig: string) => numberFrom('EVAC.TIME', LITRES, both, rig, pull('1 bar', '10 Pa'));
    expect(time('slow') / time('fast')).toBeCloseTo(2, 9);
    // one pressure in, half-way over ln p: 0.5 x ln(1e4) at 2 m3/h, the rest at a speed that rises from 1 to 2
    const bent = alone('1 bar 2 m3/h; 1 kPa 2 m3/h; 10 Pa 1 m3/h');
    const byHand = (piece(100, 1, 2) + (60 * Math.log(100)) / 2) * 0.02;
    expect(minutes(bent, '1 bar', '10 Pa') / byHand).toBeCloseTo(1, 5);
  });
});

describe('what else a rig with a speed table gives', () => {
  it('the speed of the table at the system', () => {
    const speed = (pressure: string) => numberFrom('RIG.SPEED', alone(CURVE), 'alone', pressure);
    // 3.6 m3/h = 1 L/s; half-way over ln p between 1 mbar and 1 bar 3.8 m3/h = 1.055556 L/s; 2 m3/h = 0.555556 L/s; a
    // curve of a rig is good to 1e-3 where its pump has a kink
    expect(Math.abs(speed('1 mbar') - 1)).toBeLessThan(1e-3);
    expect(speed(`${10 ** 1.5} mbar`)).toBeCloseTo(1.055556, 5);
    expect(Math.abs(speed('0.1 mbar') / 0.555556 - 1)).toBeLessThan(1e-3);
    expect(speed('0.02 mbar')).toBe(0);
    const two = alone(CURVE, { Count: 2 });
    expect(numberFrom('RIG.SPEED', two, 'alone', `${10 ** 1.5} mbar`)).toBeCloseTo(2.111111, 5);
  });

  it('the pump row of its profile, which the drawing of the pane is made of', () => {
    const rows = tableFrom('RIG.PROFILE', alone(CURVE), 'alone', '1 mbar');
    expect(Number(columnOf(rows, 'Conductance')[0])).toBeCloseTo(1, 4);
  });

  it('the pump speed needed: the table in proportion', () => {
    const time = minutes(alone(CURVE), '1 bar', '0.1 mbar');
    const needed = (part: number) =>
      numberFrom('PUMP.NEEDED', LITRES, alone(CURVE), 'alone', time * part, pull('1 bar', '0.1 mbar'));
    // half the time needs twice the pump: 8 m3/h = 2.222222 L/s
    expect(needed(1)).toBeCloseTo(1.111111, 4);
    expect(needed(0.5)).toBeCloseTo(2.222222, 4);
  });

  it('a comparison of pump speeds: the table in proportion', () => {
    const speeds: CellRange = [['4 m3/h', '8 m3/h']];
    const rows = tableFrom('RIG.COMPARE', alone(CURVE), LITRES, speeds, pull('1 bar', '0.1 mbar'));
    const [own, twice] = columnOf(rows, 'Time to target').map(Number);
    expect(own).toBeCloseTo(minutes(alone(CURVE), '1 bar', '0.1 mbar'), 9);
    expect((own ?? 0) / (twice ?? 1)).toBeCloseTo(2, 6);
  });

  it('the row of a project', () => {
    const units: CellRange = [
      ['Unit', 'Volume', 'Rig'],
      ['one', LITRES, 'alone'],
    ];
    const rows = tableFrom('EVAC.PROJECT', units, alone(CURVE), null, pull('1 bar', '0.1 mbar'));
    expect(Number(columnOf(rows, 'Time to target')[0])).toBeCloseTo(minutes(alone(CURVE), '1 bar', '0.1 mbar'), 9);
  });

  it('a dry-out that is as long as with the closed form that the table follows', () => {
    // S0 at all pressures by table, against the same pump by Speed alone
    const conditions = pull('1 atm', '500 micron', ['Heat', '20 W/K']);
    const tabled = numberFrom('DRY.TIME', LITRES, 5, alone('10 bar 1 L/s; 1e-3 Pa 1 L/s'), 'alone', conditions);
    const rated: CellRange = [
      ['Rig', 'Kind', 'Speed (L/s)'],
      ['alone', 'pump', 1],
    ];
    const plain = numberFrom('DRY.TIME', LITRES, 5, rated, 'alone', conditions);
    expect(tabled / plain).toBeCloseTo(1, 5);
  });

  it('faults in words', () => {
    expectFault(
      '#VALUE!',
      /Speed table is "1 bar 4", in which a number has no unit/,
      'RIG.SPEED',
      alone('1 bar 4; 1 mbar 3'),
      'alone',
      100,
    );
    const rows = tableFrom('CHECK', alone('1 bar 4 m3/h'), 'parts');
    expect(rows[1]?.slice(0, 3)).toEqual([2, 'Speed table', expect.stringMatching(/^Speed table is one pair/)]);
  });
});
