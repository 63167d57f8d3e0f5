import { describe, expect, it } from 'vitest';
import type { CellRange } from '../../../src/tables/cells.ts';
import { columnOf, expectFault, numberFrom, tableFrom } from '../rig/tables.ts';

const MACHINES: CellRange = [
  ['Rig', 'Part', 'Kind', 'Bore (mm)', 'Length (m)', 'Speed (m3/h)', 'Ultimate (kPa)', 'Efficiency', 'Liquid rate'],
  ['fitted', 'machine', 'machine', '', '', 3, 20, 0.8, ''],
  ['', 'hose', 'hose', 4.8, 1.5],
  ['', 'core', 'core', 1.6, 0.006],
  ['removed', 'machine', 'machine', '', '', 3, 20, 0.8, ''],
  ['', 'hose', 'hose', 4.8, 1.5],
  ['metered', 'machine', 'machine', '', '', 3, 20, 0.8, '1 kg/min'],
  ['', 'hose', 'hose', 4.8, 1.5],
  ['pumped', 'pump', 'pump', '', '', 3, 0.01],
  ['', 'hose', 'hose', 4.8, 1.5],
];
const WARM: CellRange = [['Heat', '20 W/K']];

describe('RECOVER.TIME', () => {
  it('is that of the last row of RECOVER.CURVE', () => {
    const minutes = numberFrom('RECOVER.TIME', 'R-410A', 5, 20, MACHINES, 'fitted', WARM);
    const curve = tableFrom('RECOVER.CURVE', 'R-410A', 5, 20, MACHINES, 'fitted', 15, WARM);
    expect(columnOf(curve, 'Time').at(-1)).toBeCloseTo(minutes, 6);
    expect(numberFrom('RECOVER.TIME', 'r410a', '5 kg', '20 L', MACHINES, 'fitted', WARM)).toBe(minutes);
  });

  it('is shorter with the core removed, and with the liquid taken first', () => {
    const fitted = numberFrom('RECOVER.TIME', 'R-410A', 5, 20, MACHINES, 'fitted', WARM);
    expect(numberFrom('RECOVER.TIME', 'R-410A', 5, 20, MACHINES, 'removed', WARM)).toBeLessThan(fitted);
    for (const how of ['liquid', 'push-pull', 'Push pull']) {
      const conditions: CellRange = [...WARM, ['Recover as', how]];
      expect(numberFrom('RECOVER.TIME', 'R-410A', 5, 20, MACHINES, 'fitted', conditions)).toBeLessThan(fitted);
    }
  });

  it('needs no heat where the liquid is taken as liquid, and no more than the liquid rate of the machine allows', () => {
    const conditions: CellRange = [['Recover as', 'liquid']];
    // 20 kg in 30 L: more than 18 kg of liquid at 1 kg/min
    expect(numberFrom('RECOVER.TIME', 'R-410A', 20, 30, MACHINES, 'metered', conditions)).toBeGreaterThan(18);
  });

  it('takes longer to a deeper level, and longer for a larger charge of a range', () => {
    const at = (level: string): number =>
      numberFrom('RECOVER.TIME', 'R-410A', 5, 20, MACHINES, 'fitted', [...WARM, ['Recover to', level]]);
    expect(at('10 inHg vac')).toBeGreaterThan(at('0 psi g'));
    const times = tableFrom('RECOVER.TIME', 'R-410A', [[2], [5], [8]], 20, MACHINES, 'fitted', WARM);
    const [a = 0, b = 0, c = 0] = times.map(([cell]) => Number(cell));
    expect(a).toBeLessThan(b);
    expect(b).toBeLessThan(c);
  });

  it('is a fault in words for what cannot be', () => {
    const time = ['RECOVER.TIME'] as const;
    expectFault('#N/A', /no refrigerant.*R-410A/i, ...time, 'R-9', 5, 20, MACHINES, 'fitted', WARM);
    expectFault(
      '#VALUE!',
      /Charge is 50 kg.*at most.*full of liquid/,
      ...time,
      'R-410A',
      50,
      20,
      MACHINES,
      'fitted',
      WARM,
    );
    const deep: CellRange = [...WARM, ['Recover to', '10 kPa']];
    expectFault('#N/A', /out of reach.*20000 Pa.*machine/, ...time, 'R-410A', 5, 20, MACHINES, 'fitted', deep);
    const hot: CellRange = [...WARM, ['Ambient', '35 C']];
    expectFault('#VALUE!', /Ambient is 35 C.*below.*critical/, ...time, 'R-744', 1, 20, MACHINES, 'fitted', hot);
    expectFault('#VALUE!', /begins with a pump.*machine/, ...time, 'R-410A', 5, 20, MACHINES, 'pumped', WARM);
    expectFault('#N/A', /Heat.*Give Heat/, ...time, 'R-410A', 5, 20, MACHINES, 'fitted');
    expectFault('#N/A', /vapour, liquid, push-pull/, ...time, 'R-410A', 5, 20, MACHINES, 'fitted', [
      ['Recover as', 'steam'],
    ]);
    expectFault('#N/A', /dry ice/, ...time, 'R-744', 12, 20, MACHINES, 'removed', [['Heat', '1 W/K']]);
  });
});

describe('RECOVER.CURVE', () => {
  it('goes from the whole charge at saturation to the level, liquid first, with a frost warning', () => {
    const curve = tableFrom('RECOVER.CURVE', 'R-410A', 5, 20, MACHINES, 'fitted', 30, WARM);
    expect(curve).toHaveLength(31);
    const mass = columnOf(curve, 'Mass left').map(Number);
    expect(mass[0]).toBe(5);
    expect(mass.every((kg, i) => i === 0 || kg <= (mass[i - 1] ?? 0))).toBe(true);
    const pressure = columnOf(curve, 'System pressure').map(Number);
    // R-410A at 20 C boils at 1.44 MPa (published tables)
    expect(pressure[0]).toBeGreaterThan(1430);
    expect(pressure[0]).toBeLessThan(1450);
    expect(pressure.at(-1)).toBeCloseTo(101.325, 6);
    const states = columnOf(curve, 'State');
    expect(states[0]).toBe('liquid');
    expect(states).toContain('liquid, frost');
    expect(states.at(-1)).toBe('vapour');
    const temperatures = columnOf(curve, 'Liquid temperature');
    states.forEach((state, i) => {
      if (state === 'liquid, frost') expect(Number(temperatures[i])).toBeLessThan(0);
      if (state === 'vapour') expect(temperatures[i]).toBe('');
    });
  });

  it('counts the cylinders to their fill limit, and leaves the column blank without one', () => {
    const conditions: CellRange = [...WARM, ['Cylinder', '12 L']];
    const counted = columnOf(
      tableFrom('RECOVER.CURVE', 'R-410A', 5, 20, MACHINES, 'fitted', 5, conditions),
      'Cylinders',
    );
    const left = columnOf(tableFrom('RECOVER.CURVE', 'R-410A', 5, 20, MACHINES, 'fitted', 5, conditions), 'Mass left');
    const fill = numberFrom('CYLINDER.FILL', 'R-410A', '12 L', 20);
    expect(Number(counted.at(-1))).toBeCloseTo((5 - Number(left.at(-1))) / fill, 6);
    const bare = tableFrom('RECOVER.CURVE', 'R-410A', 5, 20, MACHINES, 'fitted', 5, WARM);
    expect(columnOf(bare, 'Cylinders')).toEqual(['', '', '', '', '']);
  });

  it('fills cylinders as the warmer of their own temperature and Ambient allows, and they take part in push-pull', () => {
    const counted = (...rows: CellRange): number => {
      const conditions: CellRange = [...WARM, ['Cylinder', '12 L'], ...rows];
      const curve = tableFrom('RECOVER.CURVE', 'R-410A', 5, 20, MACHINES, 'fitted', 5, conditions);
      return Number(columnOf(curve, 'Cylinders').at(-1)) / (5 - Number(columnOf(curve, 'Mass left').at(-1)));
    };
    const fill = (temperature: number): number => numberFrom('CYLINDER.FILL', 'R-410A', '12 L', temperature);
    expect(fill(45)).toBeLessThan(fill(20));
    expect(counted(['Cylinder temperature', '45 C'])).toBeCloseTo(1 / fill(45), 9);
    expect(counted(['Cylinder temperature', '5 C'])).toBeCloseTo(1 / fill(20), 9);
    const minutes = (temperature: string): number =>
      numberFrom('RECOVER.TIME', 'R-410A', 15, 20, MACHINES, 'fitted', [
        ...WARM,
        ['Recover as', 'push-pull'],
        ['Cylinder temperature', temperature],
      ]);
    expect(minutes('5 C')).not.toBeCloseTo(minutes('20 C'), 2);
  });

  it('has a row even where there is nothing to do', () => {
    const curve = tableFrom('RECOVER.CURVE', 'R-410A', 0.01, 20, MACHINES, 'fitted', 2, WARM);
    expect(columnOf(curve, 'Time')).toEqual([0, 0]);
    expect(columnOf(curve, 'State')).toEqual(['vapour', 'vapour']);
  });
});
