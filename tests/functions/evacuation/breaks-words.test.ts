import { describe, expect, it } from 'vitest';
import type { CellRange } from '../../../src/tables/cells.ts';
import { columnOf, PARTS, tableFrom } from '../rig/tables.ts';

const HEAD = ['Pull to (micron)', 'Break to', 'Wait (min)', 'Longest pull (min)', 'Heat under gas (W/K)', 'Gas'];
const TO_TARGET = ['', '', '', '', '', ''];
const wet = (water: string, heat: string): CellRange => [
  ['Water', water],
  ['Heat', heat],
];
const breaks = (steps: CellRange, conditions: CellRange = [], parts: CellRange = PARTS) =>
  tableFrom('EVAC.BREAKS', 20, parts, 'wide', [HEAD, ...steps], conditions);
const notes = (...given: Parameters<typeof breaks>): string[] => columnOf(breaks(...given), 'Note').map(String);

describe('what EVAC.BREAKS says of each step', () => {
  it('of a dry system: the gas that was let in, and nothing else', () => {
    const table = breaks([[4000, '0.2 bar g', '', '', '', 'CO2'], TO_TARGET]);
    expect(columnOf(table, 'Step')).toEqual([1, 1, 2, '', '', '']);
    expect(columnOf(table, 'Note')).toEqual([
      '',
      expect.stringMatching(/^(CO2|carbon dioxide) let in$/),
      '',
      '',
      '',
      '',
    ]);
    expect(columnOf(table, 'Water temperature')).toEqual(Array(6).fill(''));
    expect(columnOf(table, 'Water state')).toEqual(['dry', 'dry', 'dry', 'dry', 'dry', '']);
    const minutes = columnOf(table, 'Time (').map(Number);
    expect(table.at(-1)).toEqual([
      '',
      'lost by the breaks',
      '',
      expect.closeTo((minutes[3] ?? 0) - (minutes[4] ?? 0), 9),
      ...Array(7).fill(''),
    ]);
  });

  it('of water that stays liquid: that some is left, that it warms up, how cold it was at last', () => {
    const [pull, fed, wait, last, whole] = notes(
      [[20000, '0.2 bar g', 5, '', '', ''], TO_TARGET],
      wet('20 g', '5 W/K'),
    );
    expect([pull, fed, wait, whole]).toEqual([
      'water is left: the gauge is there, the system is not dry',
      'nitrogen let in',
      'water warms up',
      '',
    ]);
    expect(last).toMatch(/^water down to [\d.]+ C$/);
  });

  it('of water that freezes: ice on the way, left or thawed', () => {
    const plan: CellRange = [[1000, '0.2 bar g', 3, 10, '', ''], [800, '0.2 bar g', 600, 10, '', ''], TO_TARGET];
    const said = notes(plan, wet('20 g', '0.5 W/K'));
    const ended = 'ended by Longest pull, its pressure not reached; ice on the way';
    expect(said.slice(0, 6)).toEqual([
      ended,
      'nitrogen let in',
      'ice is left',
      ended,
      'nitrogen let in',
      'the ice has thawed',
    ]);
    expect(said[6]).toMatch(/^ice on the way; water down to -[\d.]+ C$/);
  });

  it('of a pump that takes in more vapour than its water limit allows, and not of one that does not', () => {
    const limited = (limit: number): CellRange =>
      PARTS.map((row, i) => [...row, i === 0 ? 'Water limit (mbar)' : row[2] === 'pump' ? limit : '']);
    const [small, large] = [2, 30].map(
      (limit) => notes([[500, '', '', '', '', '']], wet('20 g', '0.2 W/K'), limited(limit))[0],
    );
    expect(small).toMatch(/; vapour at the pump above its water limit$/);
    expect(large).not.toContain('water limit');
    // in a dry system no vapour passes
    expect(notes([[500, '', '', '', '', '']], [], limited(2))[0]).toBe('');
  });

  it('of a plan that stops short: no comparison, and why', () => {
    const table = breaks([
      [4000, '0.2 bar g', '', '', '', ''],
      [500, '', '', 1, '', ''],
    ]);
    expect(columnOf(table, 'Note')[2]).toBe('ended by Longest pull, its pressure not reached');
    expect(table.at(-1)).toEqual([
      '',
      'no comparison',
      '',
      '',
      ...Array(6).fill(''),
      'the plan stops short of its last pressure',
    ]);
  });

  it('of a plan that ends under gas, in its last row alone', () => {
    const said = notes(
      [
        [4000, '0.2 bar g', '', '', '', ''],
        [1500, '0.2 bar g', 10, '', '', ''],
      ],
      wet('1 g', '20 W/K'),
    );
    expect(said.filter((one) => one.includes('the plan ends under gas'))).toHaveLength(1);
    expect(said[4]).toMatch(/the plan ends under gas$/);
  });
});
