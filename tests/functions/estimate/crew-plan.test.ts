import { describe, expect, it } from 'vitest';
import { clockText, dayOf, readClock } from '../../../src/tables/clock.ts';
import { columnOf, expectFault, numberFrom, PARTS, tableFrom } from '../rig/tables.ts';
import { PLAIN } from './plain.ts';

const UNITS = [
  ['Unit', 'Count', 'Volume (L)', 'Rig', 'Area'],
  ['split', 2, 6, 'wide', 'hall'],
  ['cold room', 1, 35, 'fitted', 'roof'],
];
const CREWS = [
  ['Crew', 'Technicians', 'Rigs', 'Day start', 'Day end', 'Overnight'],
  ['north', 1, 1, '08:00', '16:00', 'yes'],
];
const crews = (...row: readonly (string | number | boolean)[]) => [CREWS[0] ?? [], row];

describe('CREW.PLAN', () => {
  it('with one set of gear puts one unit after another: set-up, pull and pack-up, and no more', () => {
    const table = tableFrom('CREW.PLAN', UNITS, PARTS, CREWS, null, PLAIN);
    const split = numberFrom('EVAC.TIME', 6, PARTS, 'wide') + 30;
    const room = numberFrom('EVAC.TIME', 35, PARTS, 'fitted') + 30;
    const lasts = columnOf(table, 'Lasts (h)').slice(0, 3).map(Number);
    expect([...lasts].sort((a, b) => a - b)).toEqual(
      [split / 60, split / 60, room / 60].sort((a, b) => a - b).map((hours) => expect.closeTo(hours, 6)),
    );
    const begins = columnOf(table, 'Begins (h)').slice(0, 3).map(Number);
    expect(begins[0]).toBe(8);
    expect(begins[1]).toBeCloseTo(8 + (lasts[0] ?? 0), 6);
    expect(begins[2]).toBeCloseTo(8 + (lasts[0] ?? 0) + (lasts[1] ?? 0), 6);
    const end = table.findIndex(([label]) => label === 'Finish of all');
    expect(table[end]?.[9]).toBeCloseTo((2 * split + room) / 60, 6);
    // with one rig without a gap the plan meets the bound of rig time
    const bound = table.find(([label]) => label === 'Bound: rig time');
    expect(String(bound?.[11])).toMatch(/no plan is sooner/u);
  });

  it('numbers the units of a row as they are begun', () => {
    const names = columnOf(tableFrom('CREW.PLAN', UNITS, PARTS, CREWS, null, PLAIN), 'Unit').slice(0, 3);
    expect(names.filter((name) => String(name).startsWith('split'))).toEqual(['split (1 of 2)', 'split (2 of 2)']);
    expect(names).toContain('cold room');
  });

  it('counts a way between areas once for each change, and none with one area', () => {
    const travel = (units: typeof UNITS): number => {
      const conditions = [...PLAIN.slice(0, -1), ['Travel between areas', 12, 'min']];
      const table = tableFrom('CREW.PLAN', units, PARTS, CREWS, null, conditions);
      return Number(table.find(([label]) => label === 'Travel')?.[9]);
    };
    expect(travel(UNITS)).toBeCloseTo(12 / 60, 9);
    expect(travel(UNITS.map((row, i) => (i === 0 ? row : [...row.slice(0, 4), 'hall'])))).toBe(0);
    expect(travel(UNITS.map((row, i) => (i === 2 ? [...row.slice(0, 4), ''] : row)))).toBe(0);
  });

  it('lets a long pull run over night, and tells the day and the clock of its end', () => {
    // the volume that the rig takes 20 h for: 08:00 + 20 min + 20 h is 04:20, so that it is packed up from 08:00 to 08:10
    const volume = (20 * 60) / numberFrom('EVAC.TIME', 1, PARTS, 'wide');
    const units = [
      ['Unit', 'Volume (L)', 'Rig'],
      ['plant', volume, 'wide'],
    ];
    const [, row] = tableFrom('CREW.PLAN', units, PARTS, CREWS, null, PLAIN);
    expect(row?.slice(4, 8)).toEqual([1, '08:00', 2, '08:10']);
    expect(row?.[9]).toBeCloseTo(24 + 10 / 60, 6);
    expect(row?.[10]).toBe('yes');
  });

  it('begins a crew on its first day', () => {
    const late = [
      ['Crew', 'Technicians', 'Rigs', 'Start day'],
      ['late', 1, 1, 3],
    ];
    expect(columnOf(tableFrom('CREW.PLAN', UNITS, PARTS, late, null, PLAIN), 'Day')[0]).toBe(3);
  });

  it('lets the fewer of rigs and pumps count', () => {
    const gear = (rigs: number, pumps: number) =>
      tableFrom(
        'CREW.PLAN',
        UNITS,
        PARTS,
        [
          ['Crew', 'Technicians', 'Rigs', 'Pumps'],
          ['n', 1, rigs, pumps],
        ],
        null,
        PLAIN,
      );
    expect(gear(3, 1)).toEqual(gear(1, 1));
    expect(gear(1, 3)).toEqual(gear(1, 1));
  });

  it('leaves out what cannot be planned, says why in its row, and goes on', () => {
    const units = [...UNITS, ['no rig', 1, 5, 'nobody', 'hall'], ['no size', 1, '', 'wide', 'hall']];
    const table = tableFrom('CREW.PLAN', units, PARTS, CREWS, null, PLAIN);
    expect(table.find(([, name]) => name === 'no rig')?.[11]).toMatch(/nobody.*fitted/u);
    expect(table.find(([, name]) => name === 'no size')?.[11]).toMatch(/Volume is blank/u);
    expect(table.find(([label]) => label === 'Finish of all')?.[11]).toMatch(
      /3 units in 1 working day.*without 2 rows/u,
    );
  });

  it('refuses crews without people, gear or hours, in words with the place', () => {
    const from = (...row: readonly (string | number | boolean)[]) =>
      ['CREW.PLAN', UNITS, PARTS, crews(...row), null, PLAIN] as const;
    expectFault(
      '#VALUE!',
      /crews.*row 2.*Technicians.*at least 1|Technicians.*at least 1/u,
      ...from('n', 0, 1, '', '', ''),
    );
    expectFault('#VALUE!', /Rigs.*at least 1/u, ...from('n', 1, 0, '', '', ''));
    expectFault('#VALUE!', /Day end.*06:00/u, ...from('n', 1, 1, '08:00', '06:00', ''));
    expectFault('#VALUE!', /Day start.*"soon"/u, ...from('n', 1, 1, 'soon', '', ''));
    expectFault('#VALUE!', /Overnight.*perhaps/u, ...from('n', 1, 1, '', '', 'perhaps'));
    expectFault('#VALUE!', /./u, 'CREW.PLAN', UNITS, PARTS, [CREWS[0] ?? []], null, PLAIN);
  });

  it('refuses a day shorter than the longest step, and a pull that no day holds without a night', () => {
    expectFault(
      '#N/A',
      /step of 20 min.*longer than any crew’s day \(15 min\)/u,
      'CREW.PLAN',
      UNITS,
      PARTS,
      crews('n', 1, 1, '08:00', '08:15', 'yes'),
      null,
      PLAIN,
    );
    const units = [
      ['Unit', 'Volume (L)', 'Rig'],
      ['plant', 9000, 'wide'],
    ];
    expectFault(
      '#N/A',
      /"plant".*Overnight/u,
      'CREW.PLAN',
      units,
      PARTS,
      crews('n', 1, 1, '08:00', '16:00', 'no'),
      null,
      PLAIN,
    );
  });

  it('refuses a table without rigs and more units than anybody plans', () => {
    expectFault(
      '#VALUE!',
      /Rig/u,
      'CREW.PLAN',
      [
        ['Unit', 'Volume'],
        ['a', 1],
      ],
      PARTS,
      CREWS,
    );
    const many = [
      ['Unit', 'Count', 'Volume', 'Rig'],
      ['a', 20_001, 1, 'wide'],
    ];
    expectFault('#VALUE!', /20,?001.*20,?000/u, 'CREW.PLAN', many, PARTS, CREWS);
  });

  it('takes the minutes of a unit from LABOUR.TABLE: attended and waiting together fill the time on the rig', () => {
    const units = [
      ['Unit', 'Volume (L)', 'Rig', 'Access'],
      ['one', 100, 'wide', 1.5],
    ];
    const crew = [
      ['Crew', 'Technicians', 'Rigs', 'Day start', 'Day end'],
      ['n', 1, 1, 0, 24],
    ];
    const conditions = [
      ['Hold', 45, 'min'],
      ['Charging', 25, 'min'],
    ];
    const labour = tableFrom(
      'LABOUR.TABLE',
      units,
      PARTS,
      [
        ['Role', 'Rate'],
        ['fitter', 40],
      ],
      null,
      conditions,
    );
    const hours = Number(columnOf(labour, 'Attended each')[0]) + Number(columnOf(labour, 'Waiting each')[0]);
    const plan = tableFrom('CREW.PLAN', units, PARTS, crew, null, conditions);
    expect(Number(columnOf(plan, 'Lasts')[0])).toBeCloseTo(hours, 6);
  });
});

describe('CHECK of crews', () => {
  it('lists every fault of the table', () => {
    const table = [
      ['Crew', 'Technicians', 'Rigs', 'Day start', 'Day end', 'Overnight'],
      ['a', 0, 1, '08:00', '16:00', 'yes'],
      ['b', 1, 1.5, '16:00', '08:00', 'maybe'],
      ['A', 1, 1, '08:00', '16:00', 'no'],
    ];
    const faults = tableFrom('CHECK', table, 'crews').slice(1);
    expect(faults.map(([row, column]) => [row, column])).toEqual([
      [2, 'Technicians'],
      [3, 'Rigs'],
      [3, 'Day end'],
      [3, 'Overnight'],
      [4, 'Crew'],
    ]);
  });
});

describe('a clock', () => {
  it.each([
    ['08:00', 480],
    ['7:30', 450],
    ['4:30 pm', 990],
    ['12:15 am', 15],
    ['8', 480],
    ['16.5', 990],
    ['0.3333333333333333', 480],
    ['24', 1440],
    ['0', 0],
  ])('of %s is %d min after midnight', (text, minutes) => {
    expect(readClock(text)).toBeCloseTo(minutes, 6);
  });
  it.each(['', 'soon', '25:00', '8:75', '13 pm', '-2', '24.5', '1e3'])('is not read from "%s"', (text) => {
    expect(readClock(text)).toBeUndefined();
  });
  it('shows minutes as a day and a time', () => {
    expect([dayOf(0), dayOf(1439), dayOf(1439.6), dayOf(1440)]).toEqual([1, 1, 2, 2]);
    expect([clockText(485), clockText(1440 + 5.4), clockText(1439.6)]).toEqual(['08:05', '00:05', '00:00']);
  });
});
