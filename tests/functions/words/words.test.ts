import { describe, expect, it } from 'vitest';
import type { RawArgument } from '../../../src/functions/define.ts';
import { callById, functions } from '../../../src/functions/index.ts';
import type { CellRange } from '../../../src/tables/cells.ts';

function rows(id: string, ...args: RawArgument[]): CellRange {
  const outcome = callById(id, args);
  if (!outcome.ok || !Array.isArray(outcome.value)) throw new Error(JSON.stringify(outcome));
  return outcome.value as CellRange;
}

const why = (...args: RawArgument[]) => callById('WHY', args);

describe('WHY', () => {
  it('says what the cell error hides', () => {
    const failed = callById('TUBE.FLOW', [0, 1, 1000, 100]);
    expect(failed).toMatchObject({ ok: false });
    expect(why('TUBE.FLOW', 0, 1, 1000, 100)).toEqual({ ok: true, value: failed.ok ? '' : failed.message });
  });

  it('finds no fault where there is none, the namespace given or not', () => {
    for (const name of ['CONVERT', 'narrows.convert']) {
      expect(why(name, 1, 'bar', 'Pa')).toEqual({ ok: true, value: 'no fault found' });
    }
  });

  it('keeps the place of an argument that is left out', () => {
    expect(why('TUBE.FLOW', 5, null, 1000, 100)).toMatchObject({ value: expect.stringContaining('Length is blank') });
  });

  it('reads an error that is given to it instead of passing it on', () => {
    expect(why('TUBE.FLOW', { error: '#REF!' }, 1, 1000, 100)).toMatchObject({
      value: expect.stringContaining('#REF!'),
    });
  });

  it('tells the first fault of a range', () => {
    expect(why('TUBE.BORE', [['3/8 in'], ['9/7 in']])).toMatchObject({ value: expect.stringContaining('9/7 in') });
  });

  it('lists the functions for a name that is none', () => {
    expect(why('TUBE.BOAR', 1)).toMatchObject({
      ok: false,
      code: '#N/A',
      message: expect.stringContaining('TUBE.BORE'),
    });
  });
});

describe('CHECK', () => {
  it('tells all faults of a parts table, in the order of its rows', () => {
    const table = [
      ['Rig', 'Kind', 'Bore (mm)', 'Length (m)', 'Speed (cfm)'],
      ['A', 'pump', '', '', 0],
      ['', 'hose', 'wide', 1, ''],
      ['', 'sponge', 1, 1, ''],
      ['B', 'hose', 5, -1, ''],
    ];
    const found = rows('CHECK', table, 'parts');
    expect(found[0]).toEqual(['Row', 'Column', 'What is wrong', 'What to do']);
    expect(found.slice(1).map(([row, column]) => `${row} ${column}`)).toEqual(
      expect.arrayContaining(['2 Speed (cfm)', '3 Bore (mm)', '4 Kind', '5 Length (m)', '5 Kind']),
    );
    const numbers = found.slice(1).map(([row]) => Number(row));
    expect(numbers).toEqual([...numbers].sort((a, b) => a - b));
    for (const cells of found) for (const cell of cells) expect(String(cell).length).toBeGreaterThan(0);
  });

  it.each([
    [
      'parts',
      [
        ['Rig', 'Kind', 'Speed'],
        ['A', 'pump', 5],
      ],
    ],
    [
      'runs',
      [
        ['Bore', 'Length'],
        [5, 1],
      ],
    ],
    [
      'units',
      [
        ['Unit', 'Rig'],
        ['a', 'A'],
      ],
    ],
    [
      'log',
      [
        ['Minutes', 'Pressure'],
        [0, 1],
      ],
    ],
    ['conditions', [['Gas', 'air']]],
  ])('finds no fault in a sound %s table', (kind, table) => {
    expect(rows('CHECK', table, kind)[1]).toEqual(['', '', 'no fault found', '']);
  });

  it.each(['parts', 'runs', 'units', 'log', 'ports', 'plan', 'rates', 'factors', 'crews'])(
    'tells what a %s table lacks when the range is something else',
    (kind) => {
      for (const range of ['text', 5, [['x']], [['x'], ['y']], { error: '#REF!' }]) {
        const found = rows('CHECK', range, kind).slice(1);
        expect(found.length).toBeGreaterThan(0);
        expect(found[0]?.[2]).not.toBe('no fault found');
      }
    },
  );

  it('notes a part that was renamed and kept its figures, below the faults, and is no fault itself', () => {
    const table = (count: number) => [
      ['Rig', 'Part', 'Bore (mm)', 'Length (m)', 'Count'],
      ['A', 'pump 4 cfm', '', '', ''],
      ['A', 'hose 1/2 in x 6 ft', 4.7625, 1.524, count],
    ];
    // 1/2 in = 12.7 mm and 6 ft = 1.8288 m
    const note = [
      3,
      'Bore (mm), Length (m)',
      "Note: hose 1/2 in x 6 ft: the row's own Bore 4.7625 mm and Length 1.524 m count, not the library's 12.7 mm and 1.8288 m.",
      'Leave them where you measured; otherwise clear the cells, and the library counts.',
    ];
    expect(rows('CHECK', table(1), 'parts').slice(1)).toEqual([['', '', 'no fault found', ''], note]);
    const [, fault, ...more] = rows('CHECK', table(0), 'parts');
    expect(fault?.slice(0, 2)).toEqual([3, 'Count']);
    expect(more).toEqual([note]);
    expect(rows('CHECK', table(1), 'units').slice(1)).not.toContainEqual(note);
  });

  it('stops counting where the range is plainly the wrong one', () => {
    const table = [['Unit', 'Rig', 'Volume'], ...Array.from({ length: 3000 }, () => ['a', 'A', -1])];
    const found = rows('CHECK', table, 'units');
    expect(found).toHaveLength(502);
    expect(found.at(-1)).toEqual(['', '', 'and 2500 more', 'Check that the range and the kind are right.']);
  });
});

describe('CAUTIONS', () => {
  it('puts local codes and licensed practice first, whatever the step', () => {
    for (const step of ['evacuation', 'recovery', 'charging', 'pressure test']) {
      expect(rows('CAUTIONS', step)[1]?.[2]).toMatch(/local codes.*licensed/iu);
    }
  });

  it('refuses a step that it does not know', () => {
    expect(callById('CAUTIONS', ['lunch'])).toMatchObject({
      ok: false,
      code: '#N/A',
      message: expect.stringContaining('recovery'),
    });
  });
});

describe('ABOUT', () => {
  it('gives the version and the sources of the functions', () => {
    const about = rows('ABOUT');
    expect(about[1]?.[1]).toMatch(/^version \d+\.\d+\.\d+$/u);
    expect(about[1]?.[0]).toBe('Narrows');
    expect(about[2]).toEqual(['Functions', functions.length]);
    expect(about[3]).toEqual(['Limits', expect.stringMatching(/local codes.*licensed practice come first/)]);
    const sources = functions.flatMap((one) => (one.sources ?? []).map((source) => [`Source for ${one.id}`, source]));
    expect(about.slice(4)).toEqual(sources);
    expect(about.flat().join(' ')).toContain('ASTM B280');
  });
});
