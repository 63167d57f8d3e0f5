import { describe, expect, it } from 'vitest';
import { work } from '../../../src/functions/rig/curves.ts';
import type { CellRange } from '../../../src/tables/cells.ts';
import { columnOf, expectFault, numberFrom, PARTS, tableFrom } from '../rig/tables.ts';

const PLAN: CellRange = [
  ['Pull to (micron)', 'Break to', 'Supply'],
  [4000, '0.2 bar g', '2 bar g'],
  [1500, '0.2 bar g', '2 bar g'],
  [500, '', ''],
];
const WET: CellRange = [
  ['Water', '5 g'],
  ['Heat', '0.5 W/K'],
];
const breaks = (plan: CellRange, conditions?: CellRange, rig = 'wide') =>
  tableFrom('EVAC.BREAKS', 20, PARTS, rig, plan, conditions ?? null);

describe('EVAC.BREAKS', () => {
  it('has a row for each pull and break, the whole plan, one deep pull and what the breaks cost', () => {
    const table = breaks(PLAN);
    const what = columnOf(table, 'What');
    expect(what).toEqual([
      'pull',
      'break',
      'pull',
      'break',
      'pull',
      'whole plan',
      'one deep pull',
      'lost by the breaks',
    ]);
    const minutes = columnOf(table, 'Time (').map(Number);
    const sum = minutes.slice(0, 5).reduce((a, b) => a + b, 0);
    expect(minutes[5]).toBeCloseTo(sum, 9);
    expect(columnOf(table, 'Time so far')[4]).toBeCloseTo(sum, 9);
    expect(minutes[6]).toBeCloseTo(numberFrom('EVAC.TIME', 20, PARTS, 'wide'), 6);
    expect(minutes[7]).toBeCloseTo(sum - (minutes[6] ?? 0), 9);
  });

  it('shows the air left as dilution by hand gives it, in percent and milligrams', () => {
    const table = breaks(PLAN);
    const broken = 101325 + 2e4;
    const pa = (micron: number) => (micron * 101325) / 760e3;
    const hand = (((pa(4000) / 101325) * pa(1500)) / broken) * (pa(500) / broken) * 100;
    const left = Number(columnOf(table, 'Air left')[4]);
    expect(left / hand).toBeCloseTo(1, 6);
    // 20 L of air at 20 C and 1 atm: 24.08 g by the ideal gas law with 28.9655 g/mol
    expect(Number(columnOf(table, 'Air mass left')[4]) / (24083 * (hand / 100))).toBeCloseTo(1, 3);
  });

  it('with water and one pull takes the minutes of DRY.TIME, and ends dry', () => {
    const table = breaks(
      [
        ['Pull to', 'Break to', 'Gas'],
        ['', '', 'N2'],
      ],
      WET,
    );
    expect(columnOf(table, 'Time (')[0]).toBeCloseTo(numberFrom('DRY.TIME', 20, 5, PARTS, 'wide', WET), 2);
    expect(columnOf(table, 'Water state')[0]).toBe('dry');
    expect(columnOf(table, 'Note')[0]).toMatch(/ice on the way; water down to -/u);
  });

  it('says what water is left where a pull ends wet, and that the plan ends under gas', () => {
    const plan: CellRange = [
      ['Pull to (micron)', 'Break to', 'Wait', 'Longest pull'],
      [1000, '0.2 bar g', 20, 3],
      ['15 mbar', '0.2 bar g', 0, ''],
    ];
    const table = breaks(plan, WET);
    expect(columnOf(table, 'What').slice(0, 5)).toEqual(['pull', 'break', 'wait', 'pull', 'break']);
    const notes = columnOf(table, 'Note');
    expect(notes[0]).toMatch(/Longest pull, its pressure not reached/u);
    expect(notes[3]).toMatch(/water is left/u);
    expect(notes[4]).toMatch(/ends under gas/u);
    expect(columnOf(table, 'What').at(-1)).toBe('no comparison');
    expect(notes.at(-1)).toMatch(/leaves water/u);
    const water = columnOf(table, 'Water left').map(Number);
    for (let i = 1; i < 5; i++) expect(water[i]).toBeLessThanOrEqual(water[i - 1] ?? 0);
  });

  it('works at the curves once for all cells that share a rig', () => {
    breaks(PLAN, WET);
    const before = work.curvesBuilt;
    breaks(PLAN, [
      ['Water', '7 g'],
      ['Heat', '0.9 W/K'],
    ]);
    // the mixture of the first break stays the same in both: air is swept out before the first break
    expect(work.curvesBuilt - before).toBeLessThanOrEqual(5);
  });

  it('writes in inch units where asked to', () => {
    const [header] = breaks(PLAN, [['Report units', 'inch']]);
    expect(header).toContain('Pressure (micron)');
    expect(header).toContain('Water temperature (F)');
  });

  it('tells faults with the row of the plan', () => {
    const head = ['Pull to (micron)', 'Break to', 'Supply'];
    const fault = (code: string, words: RegExp, plan: CellRange, conditions?: CellRange, rig = 'wide') =>
      expectFault(code, words, 'EVAC.BREAKS', 20, PARTS, rig, plan, conditions ?? null);
    fault('#N/A', /Plan, row 3 of the range, column Pull to: .*out of reach/u, [
      head,
      [1000, '1 bar', ''],
      [10, '', ''],
    ]);
    fault('#VALUE!', /Plan, row 2 of the range, column Supply: Supply .* must be above Break to/u, [
      head,
      [1000, '2 bar', '1 bar'],
    ]);
    fault('#VALUE!', /Plan, row 2 of the range, column Break to: Break to .* above/u, [head, [1000, '1 mbar', '']]);
    fault('#VALUE!', /plan table has no rows/u, [head]);
    fault('#N/A', /no rig/iu, PLAN, undefined, 'narrow');
    fault('#N/A', /never dries.*Give Heat/u, PLAN, [['Water', '5 g']]);
    fault('#VALUE!', /Water is 30000 g/u, PLAN, [
      ['Water', '30 kg'],
      ['Heat', 1],
    ]);
    fault('#VALUE!', /Heat/u, PLAN, [
      ['Water', '5 g'],
      ['Heat', -1],
    ]);
    fault('#VALUE!', /vapour pressure of water at Ambient/u, PLAN, [...WET, ['Start pressure', '10 mbar']]);
    fault('#VALUE!', /Plan, row 2 of the range, column Pull to: Start pressure/u, [head, ['2 bar', '3 bar', '']]);
  });

  it('has its table checked', () => {
    expect(tableFrom('CHECK', PLAN, 'plan')[1]).toEqual(['', '', 'no fault found', '']);
    const faults = tableFrom('CHECK', [PLAN[0] ?? [], [500, '1 mbar', '0.1 mbar'], [500, '', '']], 'plan').slice(1);
    expect(faults).toHaveLength(1);
  });
});
