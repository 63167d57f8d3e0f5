import { describe, expect, it } from 'vitest';
import { projectPlans } from '../../../src/functions/evacuation/project-plans.ts';
import { work } from '../../../src/functions/rig/curves.ts';
import type { Cell, CellRange } from '../../../src/tables/cells.ts';
import { readConditions } from '../../../src/tables/conditions.ts';
import { readParts } from '../../../src/tables/rigs.ts';
import { columnOf, expectFault, numberFrom, PARTS, tableFrom } from '../rig/tables.ts';

const NOT_AVAILABLE = { error: '#N/A' };

describe('EVAC.TIME', () => {
  it('is in proportion to the volume', () => {
    const one = numberFrom('EVAC.TIME', 10, PARTS, 'fitted');
    expect(numberFrom('EVAC.TIME', '20 L', PARTS, 'fitted') / one).toBeCloseTo(2, 9);
  });

  it('meets the closed form behind a bare pump', () => {
    const bare: CellRange = [
      ['Rig', 'Part', 'Kind', 'Speed (L/s)', 'Ultimate (Pa)'],
      ['pump alone', 'pump', 'pump', 1, 2],
    ];
    // t = V/S ln((p0 - pu)/(p - pu)), the pump-down closed form
    const seconds = 20 * Math.log((101325 - 2) / (66.66 - 2));
    expect(numberFrom('EVAC.TIME', 20, bare, 'pump alone', [['Target', 66.66, 'Pa']])).toBeCloseTo(seconds / 60, 8);
  });

  it('grows with a leak, and a leak that is too large makes the target a fault with the lowest pressure', () => {
    const time = (leak: string): number => numberFrom('EVAC.TIME', 20, PARTS, 'fitted', [['Leak', leak]]);
    expect(time('0.0005 Pa m3/s')).toBeGreaterThan(time('0 Pa m3/s'));
    expectFault('#N/A', /out of reach: this rig gets to .* Pa at the lowest/, 'EVAC.TIME', 20, PARTS, 'fitted', [
      ['Leak', '1 Pa m3/s'],
    ]);
  });

  it('is a fault for a target at the ultimate pressure, above the start, and for no volume', () => {
    expectFault('#N/A', /2\.66645 Pa at the lowest/, 'EVAC.TIME', 20, PARTS, 'fitted', [['Target', '20 micron']]);
    expectFault('#VALUE!', /Start pressure must be above/, 'EVAC.TIME', 20, PARTS, 'fitted', [['Start pressure', 50]]);
    for (const volume of [0, -1, 'much', '', null])
      expectFault('#VALUE!', /Volume/, 'EVAC.TIME', volume, PARTS, 'fitted');
  });
});

describe('EVAC.CURVE', () => {
  it('starts at the start pressure, ends at the target in the time of EVAC.TIME, the pump always below the system', () => {
    const table = tableFrom('EVAC.CURVE', 20, PARTS, 'fitted', 9);
    expect(table).toHaveLength(10);
    const pressures = columnOf(table, 'System pressure').map(Number);
    expect(pressures[0]).toBe(101325);
    expect(pressures.at(-1)).toBeCloseTo(500 * 0.133322387415, 9);
    expect(columnOf(table, 'Time').at(-1)).toBeCloseTo(numberFrom('EVAC.TIME', 20, PARTS, 'fitted'), 8);
    columnOf(table, 'Pump pressure').forEach((cell, i) => {
      expect(Number(cell)).toBeLessThan(pressures[i] ?? 0);
    });
  });

  it('has 25 points unless told, and needs two at least', () => {
    expect(tableFrom('EVAC.CURVE', 20, PARTS, 'fitted')).toHaveLength(26);
    expectFault('#VALUE!', /Points/, 'EVAC.CURVE', 20, PARTS, 'fitted', 1);
  });
});

describe('EVAC.PROJECT', () => {
  const units: CellRange = [
    ['Unit', 'Count', 'Volume (L)', 'Rig', 'Target (micron)', 'Water (g)'],
    ['wall split', 12, 6, 'fitted', '', ''],
    ['cold room', 2, '', 'wide', 300, ''],
    ['wet unit', 1, 6, 'fitted', '', 5],
    ['no such rig', 1, 6, 'narrow', '', ''],
    ['too deep', 1, 6, 'wide', 15, ''],
    ['no volume', 1, '', 'wide', '', ''],
  ];
  const runs: CellRange = [
    ['Unit', 'Bore (mm)', 'Length (m)'],
    ['Cold room', 20, 30],
  ];
  const table = tableFrom('EVAC.PROJECT', units, PARTS, runs);
  const minutes = columnOf(table, 'Time to target');
  const verdicts = columnOf(table, 'Verdict').map(String);

  it('has one row a unit, with the minutes of the single function', () => {
    expect(columnOf(table, 'Unit')).toEqual(units.slice(1).map((row) => row[0]));
    expect(minutes[0]).toBeCloseTo(numberFrom('EVAC.TIME', 6, PARTS, 'fitted'), 9);
    const volume = (Math.PI / 4) * 0.02 ** 2 * 30 * 1000;
    expect(columnOf(table, 'Volume')[1]).toBeCloseTo(volume, 9);
    expect(minutes[1]).toBeCloseTo(numberFrom('EVAC.TIME', volume, PARTS, 'wide', [['Target', '300 micron']]), 9);
  });

  it('names the part with the largest share of the loss', () => {
    const profile = tableFrom('RIG.PROFILE', PARTS, 'fitted', '500 micron');
    const shares = columnOf(profile, 'Share of loss').map(Number);
    const worst = columnOf(profile, 'Part')[shares.indexOf(Math.max(...shares.slice(1)))];
    expect(columnOf(table, 'Limiting part')[0]).toBe(worst);
  });

  it('keeps the dry time of a wet unit without heat, and gives no total for it', () => {
    expect(minutes[2]).toBeCloseTo(Number(minutes[0]), 9);
    expect(columnOf(table, 'Total')[0]).toBe(minutes[0]);
    expect(columnOf(table, 'Total')[2]).toMatchObject(NOT_AVAILABLE);
    expect(verdicts[2]).toMatch(/never dries.*Give Heat/);
  });

  it('gives #N/A and the reason where a row cannot be worked out, never a missing number', () => {
    expect(minutes.slice(3)).toMatchObject([NOT_AVAILABLE, NOT_AVAILABLE, NOT_AVAILABLE]);
    expect(verdicts[3]).toMatch(/no rig "narrow"/);
    expect(verdicts[4]).toMatch(/out of reach/);
    expect(verdicts[5]).toMatch(/runs have no unit "no volume"/);
  });

  it('takes the water of the conditions for rows that state none', () => {
    const warm: CellRange = [['Heat', '2 W/K']];
    const wet = tableFrom('EVAC.PROJECT', units, PARTS, runs, [...warm, ['Water', 3, 'g']]);
    for (const [row, grams] of [
      [0, 3],
      [2, 5],
    ] as const) {
      const alone = numberFrom('DRY.TIME', 6, grams, PARTS, 'fitted', warm);
      expect(Math.abs(Number(columnOf(wet, 'Total')[row]) / alone - 1)).toBeLessThan(2e-3);
    }
  });

  it('follows fading outgassing unit by unit', () => {
    const conditions: CellRange = [
      ['Outgassing', '0.0003 Pa m3/s'],
      ['Outgassing exponent', 1],
    ];
    const slow = tableFrom('EVAC.PROJECT', units.slice(0, 2), PARTS, runs, conditions);
    expect(columnOf(slow, 'Time to target')[0]).toBeCloseTo(numberFrom('EVAC.TIME', 6, PARTS, 'fitted', conditions), 9);
  });

  it('works the rigs out once, however many units there are', () => {
    const many: Cell[][] = [['Unit', 'Volume (L)', 'Rig']];
    for (let i = 0; i < 5000; i++) many.push([`unit ${i}`, 1 + (i % 50), ['fitted', 'bare', 'wide'][i % 3]]);
    const conditions: CellRange = [['Temperature', 17.25, 'C']];
    const before = work.curvesBuilt;
    expect(tableFrom('EVAC.PROJECT', many, PARTS, '', conditions)).toHaveLength(5001);
    expect(work.curvesBuilt - before).toBe(3);
    tableFrom('EVAC.PROJECT', many, PARTS, '', conditions);
    expect(work.curvesBuilt - before).toBe(3);
  });

  it('makes one plan for each rig and target', () => {
    const plans = projectPlans(readConditions(undefined));
    const rig = readParts(PARTS).rig('wide');
    for (let i = 0; i < 10; i++) {
      plans.planFor(rig, 66);
      plans.planFor(rig, 40);
      plans.planFor(rig, 1);
    }
    expect(plans.made()).toBe(3);
  });
});

describe('PUMP.NEEDED', () => {
  it('is the speed with which the rig is just in time', () => {
    const speed = numberFrom('PUMP.NEEDED', 20, PARTS, 'wide', 10);
    const table = tableFrom(
      'RIG.COMPARE',
      PARTS.filter((row) => row[0] === 'Rig' || row[0] === 'wide'),
      20,
      speed,
    );
    expect(columnOf(table, 'Time to target')[0]).toBeCloseTo(10, 3);
  });

  it('says how long the rig alone takes where no pump can do it', () => {
    expectFault('#N/A', /no pump can: this rig alone takes [\d.]+ min/i, 'PUMP.NEEDED', 20, PARTS, 'fitted', 5);
  });
});

describe('PUMP.PICK', () => {
  const units: CellRange = [
    ['Unit', 'Count', 'Volume (L)', 'Rig'],
    ['small', 3, 4, 'fitted'],
    ['large', 1, 60, 'fitted'],
    ['huge', 1, 9000, 'fitted'],
    ['unknown', 1, '', 'fitted'],
  ];

  it('takes the cheaper gear where pumps are equal, and the wide hose only where it must', () => {
    const table = tableFrom('PUMP.PICK', units, PARTS, 20);
    expect(columnOf(table, 'Rig')).toEqual(['fitted', 'wide', 'none', '']);
    const times = columnOf(table, 'Time to target');
    expect(times[0]).toBeCloseTo(numberFrom('EVAC.TIME', 4, PARTS, 'fitted'), 9);
    expect(times[1]).toBeCloseTo(numberFrom('EVAC.TIME', 60, PARTS, 'wide'), 9);
    expect(times.slice(2)).toMatchObject([NOT_AVAILABLE, NOT_AVAILABLE]);
  });

  it('states the fastest time where none meets it', () => {
    const fastest = numberFrom('EVAC.TIME', 9000, PARTS, 'wide');
    const verdict = String(columnOf(tableFrom('PUMP.PICK', units, PARTS, 20), 'Verdict')[2]);
    expect(verdict).toBe(`none: fastest takes ${Number(fastest.toPrecision(3))} min (wide)`);
  });

  it('counts the time until a wet unit is dry', () => {
    const wet: CellRange = [
      ['Unit', 'Volume (L)', 'Water (g)', 'Heat (W/K)'],
      ['damp', 4, 2, 5],
      ['no heat', 4, 2, ''],
    ];
    const table = tableFrom('PUMP.PICK', wet, PARTS, 600);
    const alone = numberFrom('DRY.TIME', 4, 2, PARTS, 'fitted', [['Heat', '5 W/K']]);
    expect(columnOf(table, 'Rig')).toEqual(['fitted', 'none']);
    expect(Math.abs(Number(columnOf(table, 'Time')[0]) / alone - 1)).toBeLessThan(2e-3);
    expect(String(columnOf(table, 'Verdict')[1])).toMatch(/never dries/);
    const short = tableFrom('PUMP.PICK', wet.slice(0, 2), PARTS, numberFrom('EVAC.TIME', 4, PARTS, 'fitted'));
    expect(columnOf(short, 'Rig')).not.toContain('fitted');
  });

  it('takes a slower pump before a faster one', () => {
    const parts: CellRange = [
      ['Rig', 'Part', 'Kind', 'Bore (mm)', 'Length (m)', 'Speed (cfm)', 'Ultimate (micron)'],
      ['fast', 'pump', 'pump', '', '', 10, 20],
      ['fast', 'hose', 'hose', 12.7, 1.5, '', ''],
      ['slow', 'pump', 'pump', '', '', 3, 20],
      ['slow', 'hose', 'hose', 12.7, 1.5, '', ''],
    ];
    expect(columnOf(tableFrom('PUMP.PICK', units, parts, 60), 'Rig').slice(0, 2)).toEqual(['slow', 'slow']);
  });
});
