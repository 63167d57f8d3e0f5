import { describe, expect, it } from 'vitest';
import { callById } from '../../../src/functions/index.ts';
import type { Cell, CellRange } from '../../../src/tables/cells.ts';
import { fromSI } from '../../../src/units/quantity.ts';
import { expectFault, numberFrom } from '../rig/tables.ts';

const HEADER = ['Size', 'Length (m)', 'Line', 'Charged length (m)', 'Count'];
const runs = (...rows: Cell[][]): CellRange => [HEADER, ...rows];
const LIQUID = runs(['3/8 in', 30, 'liquid', '', '']);
/** m2; ASTM B280 coil, 3/8 in outside with a wall of 0.032 in */
const AREA = (Math.PI / 4) * ((0.375 - 2 * 0.032) * 0.0254) ** 2;
/** kg/m3 of R-410A at 20 C; refrigerants.csv, Lemmon 2003 */
const LIQUID_410A = 1083.3;
const VAPOUR_410A = 56.798;

describe('CHARGE.LINES', () => {
  it('is volume times liquid density at Ambient', () => {
    const theirs = AREA * 30 * LIQUID_410A;
    expect(Math.abs(numberFrom('CHARGE.LINES', LIQUID, 'R-410A') / theirs - 1)).toBeLessThan(0.004);
  });

  it('is near what installers add for a 3/8 in liquid line of R-410A: 0.6 oz/ft', () => {
    // common practice, no source
    const perMetre = numberFrom('CHARGE.LINES', LIQUID, 'R-410A') / 30;
    expect(Math.abs(fromSI(perMetre, 'oz/ft', 'mass per length') / 0.6 - 1)).toBeLessThan(0.1);
  });

  it('adds the vapour of vapour lines, which is little', () => {
    const both = numberFrom('CHARGE.LINES', runs(['3/8 in', 30, 'liquid'], ['3/8 in', 30, 'suction']), 'R-410A');
    const liquid = numberFrom('CHARGE.LINES', LIQUID, 'R-410A');
    expect(Math.abs((both - liquid) / (AREA * 30 * VAPOUR_410A) - 1)).toBeLessThan(0.012);
  });

  it('counts only what is beyond the length that the unit is charged for', () => {
    const full = numberFrom('CHARGE.LINES', LIQUID, 'R-410A');
    const charged = (length: number) => numberFrom('CHARGE.LINES', runs(['3/8 in', 30, 'liquid', length]), 'R-410A');
    expect(charged(7.5)).toBeCloseTo(full * 0.75, 9);
    expect(charged(30)).toBe(0);
    expect(charged(40)).toBe(0);
    expect(numberFrom('CHARGE.LINES', runs(['3/8 in', 30, 'liquid', 7.5, 2]), 'R-410A')).toBeCloseTo(full * 1.5, 9);
    expect(numberFrom('CHARGE.LINES', runs(['3/8 in', 0, 'liquid']), 'R-410A')).toBe(0);
  });

  it('leaves out pipe that carries none, and components that name no line', () => {
    const table: CellRange = [
      ['Size', 'Length (m)', 'Line', 'Component', 'Volume (L)'],
      ['3/8 in', 30, 'Liquid line', '', ''],
      ['5/8 in', 30, 'none', '', ''],
      ['', '', '', 'indoor coil', 2],
    ];
    const full = numberFrom('CHARGE.LINES', LIQUID, 'R-410A');
    expect(numberFrom('CHARGE.LINES', table, 'R-410A')).toBeCloseTo(full, 9);
    const receiver: CellRange = [...table, ['', '', 'liquid', 'receiver', 1]];
    expect(numberFrom('CHARGE.LINES', receiver, 'R-410A') - full).toBeCloseTo(1.0833, 2);
  });

  it('falls with the temperature and grows with the length', () => {
    const at = (ambient: string) => numberFrom('CHARGE.LINES', LIQUID, 'R-32', [['Ambient', ambient]]);
    expect(at('40 C')).toBeLessThan(at('20 C'));
    expect(at('20 C')).toBeLessThan(at('-10 C'));
    expect(at('20 C')).toBeLessThan(
      numberFrom('CHARGE.LINES', runs(['3/8 in', 31, 'liquid']), 'R-32', [['Ambient', '20 C']]),
    );
  });

  it('refuses bad input, with the row', () => {
    expectFault(
      '#VALUE!',
      /Line/u,
      'CHARGE.LINES',
      [
        ['Size', 'Length'],
        ['3/8 in', 10],
      ],
      'R-32',
    );
    expectFault('#VALUE!', /row 3.*Line/iu, 'CHARGE.LINES', runs(['3/8 in', 10, 'liquid'], ['3/8 in', 10, '']), 'R-32');
    expectFault('#N/A', /liquid, vapour, none/u, 'CHARGE.LINES', runs(['3/8 in', 10, 'brine']), 'R-32');
    expectFault('#VALUE!', /charged length/iu, 'CHARGE.LINES', runs(['3/8 in', 10, 'liquid', -1]), 'R-32');
    expectFault('#N/A', /R-32/u, 'CHARGE.LINES', LIQUID, 'brine');
    expectFault('#NUM!', /R-744/u, 'CHARGE.LINES', LIQUID, 'R-744', [['Ambient', 35]]);
    expect(callById('CHECK', [runs(['3/8 in', 10, 'brine']), 'runs'])).toMatchObject({ ok: true });
    expect(JSON.stringify(callById('CHECK', [runs(['3/8 in', 10, 'brine']), 'runs']))).toMatch(/brine/u);
  });
});
