import { describe, expect, it } from 'vitest';
import { work } from '../../../src/functions/rig/curves.ts';
import type { Cell, CellRange } from '../../../src/tables/cells.ts';
import { columnOf, expectFault, numberFrom, PARTS, tableFrom } from '../rig/tables.ts';

const WARM: CellRange = [['Heat', '1 W/K']];

describe('DRY.TIME', () => {
  it('is that of the last row of DRY.CURVE', () => {
    const minutes = numberFrom('DRY.TIME', 20, 5, PARTS, 'wide', WARM);
    expect(columnOf(tableFrom('DRY.CURVE', 20, 5, PARTS, 'wide', 30, WARM), 'Time').at(-1)).toBeCloseTo(minutes, 5);
    expect(numberFrom('DRY.TIME', '20 L', '5 g', PARTS, 'wide', WARM)).toBe(minutes);
    expect(minutes).toBeGreaterThan(numberFrom('EVAC.TIME', 20, PARTS, 'wide'));
  });

  it('without water is EVAC.TIME, and needs no heat', () => {
    expect(numberFrom('DRY.TIME', 20, 0, PARTS, 'fitted')).toBe(numberFrom('EVAC.TIME', 20, PARTS, 'fitted'));
  });

  it('takes the water from its argument, one for each cell of a range', () => {
    const grams: CellRange = [[2], [5], [10]];
    const times = tableFrom('DRY.TIME', 20, grams, PARTS, 'bare', WARM).map(([cell]) => Number(cell));
    expect(times[1]).toBe(numberFrom('DRY.TIME', 20, 5, PARTS, 'bare', [...WARM, ['Water', 9, 'g']]));
    expect(times[0]).toBeLessThan(times[1] ?? 0);
    expect(times[1]).toBeLessThan(times[2] ?? 0);
  });

  it('cannot be shorter than the heat that the water takes allows', () => {
    // 10 g take 24.5 kJ; 1 W/K from 20 C to water that is not colder than -40 C gives 60 W at most (steam tables)
    expect(numberFrom('DRY.TIME', 20, 10, PARTS, 'wide', WARM)).toBeGreaterThan((10 * 2450) / 60 / 60 - 1);
  });

  it('says that water without heat never dries, and asks for Heat', () => {
    expectFault('#N/A', /never dries.*Give Heat/, 'DRY.TIME', 20, 5, PARTS, 'wide');
    expectFault('#N/A', /never dries/, 'DRY.TIME', 20, 5, PARTS, 'wide', [['Heat', 0]]);
    expectFault('#VALUE!', /Heat/, 'DRY.TIME', 20, 5, PARTS, 'wide', [['Heat', -1]]);
  });

  it('is a fault for more water than the volume holds, too low a start and a target out of reach', () => {
    expectFault('#VALUE!', /Water is 30000 g.*below 19964 g/, 'DRY.TIME', 20, '30 kg', PARTS, 'wide', WARM);
    const start: CellRange = [...WARM, ['Start pressure', '10 mbar']];
    expectFault('#VALUE!', /vapour pressure of water at Ambient/, 'DRY.TIME', 20, 5, PARTS, 'wide', start);
    const deep: CellRange = [...WARM, ['Target', '10 micron']];
    expectFault('#N/A', /out of reach/, 'DRY.TIME', 20, 5, PARTS, 'wide', deep);
    for (const water of [-1, 'much', '', null])
      expectFault('#VALUE!', /Water/, 'DRY.TIME', 20, water, PARTS, 'wide', WARM);
    expectFault('#N/A', /no rig/i, 'DRY.TIME', 20, 5, PARTS, 'narrow', WARM);
  });

  it('says that ice colder than the rig can reach never dries', () => {
    // over ice at -40 C stand 12.8 Pa (IAPWS R14-08); this pump stops at 200 micron, 26.7 Pa
    const weak = PARTS.map((row) => row.map((cell, i) => (i === 6 && cell === 20 ? 200 : cell)));
    const arctic: CellRange = [...WARM, ['Ambient', '-40 C']];
    expectFault('#N/A', /ice never dries.*Warm the system/, 'DRY.TIME', 20, 5, weak, 'wide', arctic);
    expectFault('#N/A', /ice never dries/, 'DRY.CURVE', 20, 5, weak, 'wide', 10, arctic);
    expectFault('#NUM!', /-?\d+ K.*water vapour holds from 230 K/, 'DRY.TIME', 20, 5, weak, 'wide', [
      ...WARM,
      ['Ambient', '-60 C'],
    ]);
  });

  it('is sooner dry with metal that gives up its heat, and as without it for none', () => {
    const times = [0, 200, 1000].map((metal) =>
      numberFrom('DRY.TIME', 20, 5, PARTS, 'wide', [...WARM, ['Metal', metal, 'J/K']]),
    );
    expect(times[0]).toBe(numberFrom('DRY.TIME', 20, 5, PARTS, 'wide', WARM));
    expect(times[1]).toBeLessThan(times[0] ?? 0);
    expect(times[2]).toBeLessThan(times[1] ?? 0);
    // 5 g take 12.3 kJ at most (2450 J/g); 100 kJ/K of metal give that for an eighth of a kelvin
    const coldest = columnOf(
      tableFrom('DRY.CURVE', 20, 5, PARTS, 'wide', 60, [...WARM, ['Metal', '100 kJ/K']]),
      'Water temperature',
    ).filter((cell) => cell !== '');
    expect(Math.min(...coldest.map(Number))).toBeGreaterThan(19.85);
  });

  it('goes below freezing, where the water is ice', () => {
    const winter: CellRange = [...WARM, ['Ambient', '-10 C']];
    expect(numberFrom('DRY.TIME', 20, 5, PARTS, 'wide', winter)).toBeGreaterThan(
      numberFrom('DRY.TIME', 20, 5, PARTS, 'wide', WARM),
    );
  });

  it('works a rig over composition out once for all cells', () => {
    const conditions: CellRange = [...WARM, ['Ambient', 18.375, 'C']];
    const before = work.curvesBuilt;
    numberFrom('DRY.TIME', 20, 5, PARTS, 'wide', conditions);
    const built = work.curvesBuilt - before;
    expect(built).toBeLessThanOrEqual(5);
    numberFrom('DRY.TIME', 11, 7, PARTS, 'wide', conditions);
    tableFrom('DRY.CURVE', 12, 3, PARTS, 'wide', 10, conditions);
    expect(work.curvesBuilt - before).toBe(built);
  });
});

describe('DRY.CURVE', () => {
  const table = tableFrom('DRY.CURVE', 20, 5, PARTS, 'wide', 60, [['Heat', '0.5 W/K']]);

  it('tells the states in their order, with the water’s temperature while there is water', () => {
    const states = columnOf(table, 'State');
    expect([...new Set(states)]).toEqual(['liquid', 'freezing', 'ice', 'dry']);
    columnOf(table, 'Water temperature').forEach((cell, i) => {
      if (states[i] === 'dry') expect(cell).toBe('');
      if (states[i] === 'liquid') expect(cell).toBeGreaterThan(0);
      if (states[i] === 'freezing') expect(cell).toBeCloseTo(0.01, 9);
      if (states[i] === 'ice') expect(cell).toBeLessThanOrEqual(0.01);
    });
    expect(columnOf(table, 'Water left')[0]).toBeCloseTo(5, 9);
    expect(columnOf(table, 'Water left').at(-1)).toBe(0);
    expect(columnOf(table, 'System pressure').at(-1)).toBeCloseTo(500 * 0.133322387415, 6);
  });

  it('marks where the vapour at the pump is above its water limit', () => {
    expect(columnOf(table, 'Pump').every((cell) => cell === '' || typeof cell === 'number')).toBe(true);
    const limited = PARTS.map((row, i) => [...row, i === 0 ? 'Water limit (mbar)' : row[2] === 'pump' ? 2 : '']);
    const marked = tableFrom('DRY.CURVE', 20, 5, limited, 'wide', 60, [['Heat', '0.5 W/K']]);
    const notes = marked.slice(1).map((row) => row.at(-1));
    columnOf(marked, 'Vapour at pump').forEach((cell, i) => {
      expect(notes[i]).toBe(Number(cell) > 200 ? 'above its water limit' : '');
    });
    expect(notes).toContain('above its water limit');
  });

  it('marks the same by gas ballast: always with it shut, never in a pump too hot to condense', () => {
    const marks = (ballast: Cell, celsius: Cell): readonly Cell[] => {
      const rig = PARTS.map((row, i) => {
        if (i === 0) return [...row, 'Gas ballast (L/s)', 'Pump temperature (C)'];
        return row[2] === 'pump' ? [...row, ballast, celsius] : [...row, '', ''];
      });
      const found = tableFrom('DRY.CURVE', 20, 5, rig, 'wide', 60, [['Heat', '0.5 W/K']]);
      return found
        .slice(1)
        .filter((row) => row[4] !== 'dry')
        .map((row) => row.at(-1) ?? '');
    };
    expect(marks(0, '').every((mark) => mark === 'above its water limit')).toBe(true);
    expect(marks(0.1, 110).every((mark) => mark === '')).toBe(true);
    // 0.1 L/s of 2.36 L/s at 70 C: 1910 Pa (by hand), below the 2339 Pa that the vapour starts from
    expect(new Set(marks(0.1, ''))).toEqual(new Set(['', 'above its water limit']));
  });

  it('has 40 points unless told, and two at least; without water it is the dry pull-down', () => {
    expect(tableFrom('DRY.CURVE', 20, 5, PARTS, 'wide', '', WARM)).toHaveLength(41);
    expectFault('#VALUE!', /Points/, 'DRY.CURVE', 20, 5, PARTS, 'wide', 1, WARM);
    const dry = tableFrom('DRY.CURVE', 20, 0, PARTS, 'wide', 9);
    expect(columnOf(dry, 'State')).toEqual(Array.from({ length: 9 }, () => 'dry'));
    expect(columnOf(dry, 'Time').at(-1)).toBeCloseTo(numberFrom('EVAC.TIME', 20, PARTS, 'wide'), 8);
  });
});
