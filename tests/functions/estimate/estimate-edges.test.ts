import { describe, expect, it } from 'vitest';
import { callById } from '../../../src/functions/index.ts';
import type { Cell, CellRange } from '../../../src/tables/cells.ts';
import { columnOf, expectFault, numberFrom, PARTS, tableFrom } from '../rig/tables.ts';
import { PLAIN } from './plain.ts';

const UNITS: CellRange = [
  ['Unit', 'Count', 'Volume (L)', 'Rig', 'Area'],
  ['split', 2, 6, 'wide', 'hall'],
  ['cold room', 1, 35, 'fitted', 'roof'],
];
const CREW = ['Crew', 'Technicians', 'Rigs', 'Day start', 'Day end', 'Overnight'];
const plan = (units: CellRange, crews: CellRange, conditions: CellRange = PLAIN) =>
  tableFrom('CREW.PLAN', units, PARTS, [CREW, ...crews], null, conditions);
type Table = ReturnType<typeof plan>;
const rowOf = (table: Table, label: string): readonly Cell[] => table.find(([first]) => first === label) ?? [];
const note = (table: Table, label: string): string => String(rowOf(table, label).at(-1));
const lasts = (table: Table, label: string): number => Number(rowOf(table, label)[9]);
const minutes = (volume: number, rig: string): number => numberFrom('EVAC.TIME', volume, PARTS, rig);

describe('how good a plan of crews is, in words', () => {
  it('is what it takes longer than a bound, in per cent of the time from the first start to the bound', () => {
    const table = plan(UNITS, [['north', 1, 1, '06:00', '20:00', 'yes']]);
    const whole = 2 * (minutes(6, 'wide') + 30) + minutes(35, 'fitted') + 30;
    // three times set-up and pack-up, without a gap
    const percent = (100 * (whole - 90)) / 90;
    expect(note(table, 'Bound: attended work')).toBe(`the plan takes ${percent.toFixed(1)} % longer`);
    expect(note(table, 'Bound: rig time')).toBe('the plan ends then: no plan is sooner');
    expect(note(table, 'Finish of all')).toBe('3 units in 1 working day; every choice was followed up');
    expect(note(table, 'First come')).toBe('in the order of the units table: the plan ends at the same time');
  });

  it('is how much sooner it ends than in the order of the table', () => {
    const units: CellRange = [
      ['Unit', 'Count', 'Volume (L)', 'Rig'],
      ['small', 4, 60, 'wide'],
      ['large', 1, (5 * 60) / minutes(1, 'wide'), 'wide'],
    ];
    const table = plan(units, [['north', 2, 2, '06:00', '20:00', 'yes']]);
    const saved = lasts(table, 'First come') - lasts(table, 'Finish of all');
    expect(saved).toBeGreaterThan(0.5);
    expect(note(table, 'First come')).toBe(
      `in the order of the units table: the plan ends ${saved.toFixed(1)} h sooner`,
    );
    const one = plan([units[0] ?? [], ['only', 1, 6, 'wide']], [['north', 1, 1, '06:00', '20:00', 'yes']]);
    expect(note(one, 'Finish of all')).toMatch(/^1 unit in 1 working day; /);
  });

  it('counts the working days', () => {
    const table = plan([UNITS[0] ?? [], ['split', 40, 6, 'wide', '']], [['north', 1, 1, '08:00', '16:00', 'yes']]);
    expect(note(table, 'Finish of all')).toMatch(/^40 units in 3 working days; /);
  });
});

describe('a unit that fits into no day', () => {
  const long = (600 * 1) / minutes(1, 'wide');
  const crews: CellRange = [
    ['north', 1, 1, '08:00', '16:00', 'no'],
    ['south', 1, 1, '08:00', '12:00', 'no'],
  ];

  it('is left out with its minutes, the way to it and the longest day', () => {
    const units: CellRange = [...UNITS, ['plant', 1, long, 'wide', 'cellar']];
    const table = plan(units, crews, [...PLAIN.slice(0, -1), ['Travel between areas', 12, 'min']]);
    const row = table.find((cells) => cells[1] === 'plant') ?? [];
    expect(String(row.at(-1))).toContain(
      '"plant" takes 630 min from set-up to pack-up, with 12 min on the way, more than a day of 480 min',
    );
    expect(note(table, 'Finish of all')).toMatch(/without 1 row that could not be planned$/);
  });

  it('has no way where there is one area alone', () => {
    const units: CellRange = [UNITS[0] ?? [], ['plant', 1, long, 'wide', 'hall']];
    const travel = [...PLAIN.slice(0, -1), ['Travel between areas', 12, 'min']];
    const words = /"plant" takes 630 min from set-up to pack-up, more than a day of 480 min/;
    expectFault('#N/A', words, 'CREW.PLAN', units, PARTS, [CREW, ...crews], null, travel);
  });
});

describe('looks at pumps', () => {
  it('are counted before a plan is made of them: units times minutes over the interval', () => {
    const conditions = PLAIN.map((row) => (row[0] === 'Check interval' ? ['Check interval', 0.0001, 'min'] : row));
    const units: CellRange = [UNITS[0] ?? [], ['split', 3, 60, 'fitted', '']];
    const crews: CellRange = [CREW, ['north', 1, 1, '06:00', '20:00', 'yes']];
    const outcome = callById('CREW.PLAN', [units, PARTS, crews, null, conditions]);
    const message = outcome.ok ? '' : outcome.message;
    const [, count] =
      /^Units, row 2 of the range: The number of checks is (\d+) checks: it must be at most 1000000/.exec(message) ??
      [];
    expect(Number(count) / ((3 * minutes(60, 'fitted')) / 0.0001)).toBeCloseTo(1, 3);
  });
});

describe('hours of people and of the other rig in LABOUR.TABLE', () => {
  const rates: CellRange = [
    ['Role', 'Rate', 'Attends', 'Waits'],
    ['fitter', 40, 1, 0.5],
    ['helper', 25, 2, 0.25],
  ];
  const units: CellRange = [
    ['Unit', 'Count', 'Volume (L)', 'Rig', 'Other rig'],
    ['split', 12, 6, 'fitted', 'wide'],
    ['room', 2, 80, 'bare', 'wide'],
  ];
  const table = () => tableFrom('LABOUR.TABLE', units, PARTS, rates);

  it('are the people of each role times the hours of all', () => {
    const found = table();
    const at = (row: string, header: string): number =>
      Number(columnOf(found, header)[columnOf(found, 'Unit').indexOf(row)]);
    expect(at('Role: fitter', 'Attended (')).toBeCloseTo(at('Total', 'Attended ('), 9);
    expect(at('Role: helper', 'Attended (')).toBeCloseTo(2 * at('Total', 'Attended ('), 9);
    expect(at('Role: fitter', 'Waiting (')).toBeCloseTo(0.5 * at('Total', 'Waiting ('), 9);
    expect(at('Role: helper', 'Waiting (')).toBeCloseTo(0.25 * at('Total', 'Waiting ('), 9);
  });

  it('save what the own rig takes more than the other, attended, waiting and money', () => {
    const found = table();
    const numbers = (header: string): number[] => columnOf(found, header).slice(0, 3).map(Number);
    const differences = (a: string, b: string): number[] => numbers(a).map((own, i) => own - (numbers(b)[i] ?? 0));
    for (const [saves, own, other] of [
      ['Saves attended', 'Attended (', 'Other attended'],
      ['Saves waiting', 'Waiting (', 'Other waiting'],
    ] as const)
      differences(own, other).forEach((hours, i) => {
        expect(numbers(saves)[i], `${saves} ${i}`).toBeCloseTo(hours, 9);
      });
    expect(numbers('Saves waiting')[0]).toBeGreaterThan(0);
  });
});

describe('rows of units that are alike', () => {
  const head = ['Unit', 'Count', 'Volume (L)', 'Rig'];
  const apart: CellRange = [head, ['a', 2, 6, 'fitted'], ['b', 3, 6, 'FITTED'], ['c', 1, 20, 'bare']];
  const together: CellRange = [head, ['a', 5, 6, 'fitted'], ['c', 1, 20, 'bare']];

  it.each(['GEAR.PARETO', 'GEAR.SWAPS'])('count together in %s', (id) => {
    expect(tableFrom(id, apart, PARTS)).toEqual(tableFrom(id, together, PARTS));
  });

  it('have hours by hand: units times minutes', () => {
    const table = tableFrom('GEAR.PARETO', apart, PARTS);
    const at = columnOf(table, 'Rig').indexOf('wide');
    const hours = (5 * minutes(6, 'wide') + minutes(20, 'wide')) / 60;
    expect(Number(columnOf(table, 'Pump time')[at]) / hours).toBeCloseTo(1, 9);
  });

  it('have in GEAR.SWAPS the part of all pump hours that a change saves', () => {
    const table = tableFrom('GEAR.SWAPS', apart, PARTS);
    const total = Number(columnOf(table, 'Pump time before')[0]);
    columnOf(table, 'Saved of all').forEach((share, i) => {
      const saved = table[i + 1]?.[5];
      expect(Number(share)).toBeCloseTo((100 * Number(saved)) / total, 9);
    });
  });

  it('are told of in one line where they are left out', () => {
    const last = (...more: Cell[][]): unknown =>
      tableFrom('GEAR.PARETO', [...together, ...more], PARTS)
        .at(-1)
        ?.at(-1);
    expect(last(['x', 1, '', 'bare'])).toMatch(
      /^1 row of the units is left out; Units, row 4 of the range: Volume is blank/,
    );
    expect(last(['x', 1, '', 'bare'], ['y', 1, '', 'bare'])).toMatch(
      /^2 rows of the units are left out; Units, row 4 of the range: /,
    );
  });
});

describe('the order of GEAR.PARETO', () => {
  it('is by cost, then by pump time, and what has no cost comes last', () => {
    const parts: CellRange = [
      ['Rig', 'Part', 'Kind', 'Speed (cfm)', 'Ultimate (micron)', 'Cost'],
      ['dear', 'pump', 'pump', 9, 20, 900],
      ['unknown', 'pump', 'pump', 9, 20, ''],
      ['slow', 'pump', 'pump', 2, 20, 300],
      ['quick', 'pump', 'pump', 5, 20, 300],
      ['cheap', 'pump', 'pump', 1, 20, 100],
    ];
    const table = tableFrom(
      'GEAR.PARETO',
      [
        ['Unit', 'Volume (L)'],
        ['a', 6],
      ],
      parts,
    );
    expect(columnOf(table, 'Rig')).toEqual(['cheap', 'quick', 'slow', 'dear', 'unknown']);
    expect(columnOf(table, 'Verdict')).toEqual([
      'the cheapest',
      '',
      'quick is no dearer and no slower',
      'the quickest',
      'no Cost in the parts table',
    ]);
  });
});
