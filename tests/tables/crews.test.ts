import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.ts';
import { readCrews } from '../../src/tables/crews.ts';
import { allFaults, faultOf } from './faults.ts';

const HEADER = ['Crew', 'Technicians', 'Rigs', 'Pumps', 'Start day', 'Day start', 'Day end', 'Overnight'];
const read = (...rows: Cell[][]) => readCrews([HEADER, ...rows]).crews;
const one = (changed: Record<string, Cell>): Cell[] =>
  HEADER.map((column) => changed[column] ?? { Crew: 'north', Technicians: 2, Rigs: 3 }[column] ?? '');

describe('a crews table', () => {
  it('takes 08:00 to 16:00 from the first day, nights too, a pump for each rig where nothing is said', () => {
    expect(read(one({}))).toEqual([
      { name: 'north', technicians: 2, rigs: 3, startDay: 1, dayStart: 480, dayEnd: 960, overnight: true, row: 2 },
    ]);
    const short = readCrews([
      ['Team', 'People', 'Sets'],
      ['south', 1, 1],
    ]);
    expect(short.crews).toEqual([
      { name: 'south', technicians: 1, rigs: 1, startDay: 1, dayStart: 480, dayEnd: 960, overnight: true, row: 2 },
    ]);
  });

  it('reads what is said', () => {
    const row = ['east', 500, 4, 2, 10_000, '6:30', 0.75, 'No'];
    expect(read([], row)).toEqual([
      {
        name: 'east',
        technicians: 500,
        rigs: 2,
        startDay: 10_000,
        dayStart: 390,
        dayEnd: 1080,
        overnight: false,
        row: 3,
      },
    ]);
    // more pumps than rigs add nothing
    expect(read(one({ Pumps: 9 }))[0]?.rigs).toBe(3);
  });

  it.each([
    ...['yes', 'Y', 'TRUE', '1', 'allowed', true, 1].map((text): [Cell, boolean] => [text, true]),
    ...['no', 'N', 'False', '0', false, 0].map((text): [Cell, boolean] => [text, false]),
  ])('reads %s as an answer to Overnight', (text, overnight) => {
    expect(read(one({ Overnight: text }))[0]?.overnight).toBe(overnight);
  });

  it.each<[string, Record<string, Cell>, object, string]>([
    [
      'a clock that cannot be read',
      { 'Day start': '25:00' },
      {
        kind: 'wrong',
        argument: 'Day start',
        found: '"25:00"',
        allowed: 'a clock time of one day',
        todo: 'Write it as 07:30, or as hours.',
      },
      'Day start',
    ],
    ['an end that cannot be read', { 'Day end': 'late' }, { argument: 'Day end', found: '"late"' }, 'Day end'],
    [
      'a shift over midnight',
      { 'Day start': '22:00', 'Day end': '06:00' },
      {
        kind: 'wrong',
        argument: 'Day end',
        found: '06:00, with a day that begins at 22:00',
        allowed: 'a clock after Day start, of the same day',
        todo: 'Give a later end; a shift over midnight is to be planned as a day of its own.',
      },
      'Day end',
    ],
    [
      'a day without length',
      { 'Day start': 9, 'Day end': 9 },
      { found: '09:00, with a day that begins at 09:00' },
      'Day end',
    ],
    [
      'no answer',
      { Overnight: 'maybe' },
      {
        kind: 'wrong',
        argument: 'Overnight',
        found: '"maybe"',
        allowed: 'yes or no',
        todo: 'Write one of them.',
      },
      'Overnight',
    ],
    [
      'nobody',
      { Technicians: 0 },
      { kind: 'limit', argument: 'Technicians', rule: 'at least', limit: 1 },
      'Technicians',
    ],
    ['a crowd', { Technicians: 501 }, { kind: 'limit', rule: 'at most', limit: 500 }, 'Technicians'],
    ['half a man', { Technicians: 1.5 }, { kind: 'wrong', allowed: 'a whole number' }, 'Technicians'],
    ['no rig', { Rigs: 0 }, { kind: 'limit', argument: 'Rigs', rule: 'at least', limit: 1 }, 'Rigs'],
    ['too many rigs', { Rigs: 501 }, { kind: 'limit', rule: 'at most', limit: 500 }, 'Rigs'],
    ['half a rig', { Rigs: 1.5 }, { kind: 'wrong' }, 'Rigs'],
    ['no pump', { Pumps: 0 }, { kind: 'limit', argument: 'Pumps', limit: 1 }, 'Pumps'],
    ['half a pump', { Pumps: 1.5 }, { kind: 'wrong' }, 'Pumps'],
    ['day 0', { 'Start day': 0 }, { kind: 'limit', argument: 'Start day', rule: 'at least', limit: 1 }, 'Start day'],
    ['a day too far', { 'Start day': 10_001 }, { kind: 'limit', rule: 'at most', limit: 10_000 }, 'Start day'],
    ['a crew without a name', { Crew: ' ' }, { kind: 'missing', argument: 'Crew' }, 'Crew'],
  ])('refuses %s, with its place', (_, changed, issue, column) => {
    const found = faultOf(() => read(one(changed)));
    expect(found?.issue).toMatchObject(issue);
    expect(found?.place).toEqual({ table: 'crews', row: 2, column });
  });

  it('refuses a crew twice, whatever the case and spaces of its name', () => {
    const found = faultOf(() => read(one({}), [], one({ Crew: 'NORTH ' })));
    expect(found).toEqual({
      issue: {
        kind: 'wrong',
        argument: 'Crew',
        found: '"NORTH" once more (Crews, row 2 of the range)',
        allowed: 'each crew once',
        todo: 'Give each crew a name of its own, or add its people to the other row.',
      },
      place: { table: 'crews', row: 4, column: 'Crew' },
    });
  });

  it('goes on after a fault: a cell that cannot be read is as usual, a crew without people or rigs is left out', () => {
    const rows = [
      HEADER,
      one({ 'Day start': 'dawn', Overnight: '?' }),
      one({ Crew: 'north' }),
      one({ Crew: 'west', Technicians: 0 }),
      one({ Crew: 'east', Rigs: 0 }),
      one({ Crew: '' }),
      one({ Crew: 'south' }),
    ];
    let crews: ReturnType<typeof readCrews>['crews'] = [];
    const faults = allFaults((sink) => {
      crews = readCrews(rows, sink).crews;
    });
    expect(faults.map(({ place }) => [place?.row, place?.column])).toEqual([
      [2, 'Day start'],
      [2, 'Overnight'],
      [3, 'Crew'],
      [4, 'Technicians'],
      [5, 'Rigs'],
      [6, 'Crew'],
    ]);
    expect(crews.map(({ name, row, dayStart, overnight }) => [name, row, dayStart, overnight])).toEqual([
      ['north', 2, 480, true],
      ['south', 7, 480, true],
    ]);
  });
});
