import { describe, expect, it } from 'vitest';
import { lineWork } from '../../../src/functions/evacuation/project-line.ts';
import type { Cell, CellRange } from '../../../src/tables/cells.ts';
import { columnOf, numberFrom, PARTS, tableFrom } from '../rig/tables.ts';

const RUNS_HEADER = ['Unit', 'Bore (mm)', 'Length (m)', 'Count', 'From', 'To', 'Component', 'Volume (L)'] as const;
const HEADER = ['Unit', 'Volume (L)', 'Rig', 'Port', 'Water (g)', 'Heat (W/K)'] as const;
const NOT_AVAILABLE = { error: '#N/A' };

const line = (unit: string, bore = 13.8, length = 20): Cell[][] => [
  [unit, bore, length, '', 'plant', 'riser', '', ''],
  [unit, 10.9, 15, '', 'riser', 'east', '', ''],
  [unit, 10.9, 30, '', 'riser', 'west', '', ''],
  [unit, '', '', '', 'west', '', 'coil', 2],
];
const runs = (...rows: Cell[][]): CellRange => [RUNS_HEADER, ...rows];

function project(rows: readonly Cell[][], pipes: CellRange, conditions: CellRange = []) {
  const table = tableFrom('EVAC.PROJECT', [HEADER, ...rows], PARTS, pipes, conditions);
  return (header: string): readonly Cell[] => columnOf(table, header);
}

describe('EVAC.PROJECT with long lines', () => {
  const PIPES = runs(...line('hall'));
  const network = tableFrom(
    'EVAC.NETWORK',
    PIPES,
    [
      ['Node', 'Rig'],
      ['plant', 'wide'],
    ],
    PARTS,
  );
  const whole = Number(columnOf(network, 'Time').at(-1));

  it('has the far end of EVAC.NETWORK, which decides', () => {
    const column = project([['hall', '', 'wide', 'Plant', '', '']], PIPES);
    expect(column('Far end')[0]).toBeCloseTo(whole, 9);
    expect(column('Far end node')).toEqual(['west']);
    expect(column('Total')[0]).toBeCloseTo(whole, 9);
    expect(column('Verdict')[0]).toMatch(/^the line decides: "west" is at target after/);
    const volume = numberFrom('RUN.VOLUME', PIPES, 'hall');
    expect(column('Time to target')[0]).toBeCloseTo(numberFrom('EVAC.TIME', volume, PARTS, 'wide'), 9);
  });

  it('takes the unit as one volume where no Port is given', () => {
    const column = project([['hall', '', 'wide', '', '', '']], PIPES);
    expect(column('Far end')).toEqual(['']);
    expect(column('Total')).toEqual(column('Time to target'));
  });

  it('puts what a given volume holds beside the runs at the port', () => {
    const held = numberFrom('RUN.VOLUME', PIPES, 'hall');
    const column = project([['hall', held + 40, 'wide', 'plant', '', '']], PIPES);
    const larger = runs(...line('hall'), ['hall', '', '', '', 'plant', '', 'outdoor unit', 40]);
    const same = tableFrom(
      'EVAC.NETWORK',
      larger,
      [
        ['Node', 'Rig'],
        ['plant', 'wide'],
      ],
      PARTS,
    );
    expect(Number(column('Far end')[0]) / Number(columnOf(same, 'Time').at(-1))).toBeCloseTo(1, 6);
  });

  it('agrees with one volume within half a per cent when the line is short and wide', () => {
    const short = runs(['a', 50, 0.3, '', 'x', 'y', '', ''], ['a', '', '', '', 'y', '', 'receiver', 30]);
    const column = project([['a', '', 'bare', 'x', '', '']], short);
    expect(Math.abs(Number(column('Total')[0]) / Number(column('Time to target')[0]) - 1)).toBeLessThan(5e-3);
    expect(column('Verdict')).toEqual(['reaches target']);
  });

  it('dries later behind the line than at the port, later still with more water, never later by a wider pipe', () => {
    const pipes = runs(...line('narrow', 11), ...line('usual', 13.8), ...line('wide', 20));
    const wet = (unit: string, port: string, grams: number): Cell[] => [unit, '', 'wide', port, grams, 3];
    const column = project(
      [
        wet('usual', '', 5),
        wet('usual', 'plant', 5),
        wet('usual', 'plant', 8),
        wet('narrow', 'plant', 5),
        wet('wide', 'plant', 5),
      ],
      pipes,
    );
    const [near, far, wetter, narrow, wide] = column('Dry-out').map(Number);
    expect(far).toBeGreaterThan(near ?? 0);
    expect(wetter).toBeGreaterThan(far ?? 0);
    expect(far).toBeLessThan(narrow ?? 0);
    expect(wide).toBeLessThan(far ?? 0);
    column('Total').forEach((total, i) => {
      expect(Number(total)).toBeGreaterThanOrEqual(Number(column('Far end')[i]));
    });
  });

  it('takes the water through the pipes of the way as parts of the rig', () => {
    const straight = runs(
      ['a', 13.8, 20, '', 'plant', 'mid', '', ''],
      ['a', 10.9, 15, '', 'mid', 'end', '', ''],
      ['a', '', '', '', 'end', '', 'coil', 3],
    );
    const rig: CellRange = [
      [...(PARTS[0] ?? []), 'Loss'],
      ...PARTS.slice(6).map((row) => [...row, '']),
      ['wide', 'first', 'tube', 13.8, 20, '', '', '', 0],
      ['wide', 'second', 'tube', 10.9, 15, '', '', '', 0],
    ];
    const volume = numberFrom('RUN.VOLUME', straight, 'a');
    const alone = numberFrom('DRY.TIME', volume, 5, rig, 'wide', [['Heat', 3]]);
    const column = project([['a', '', 'wide', 'plant', 5, 3]], straight);
    expect(Math.abs(Number(column('Total')[0]) / alone - 1)).toBeLessThan(2e-3);
  });

  it('counts pipes side by side between the same nodes together', () => {
    const one = ['a', 10.9, 30, 2, 'plant', 'coil', '', ''];
    const single = ['a', 10.9, 30, '', 'plant', 'coil', '', ''];
    const times = [runs(one), runs(single, single)].map(
      (pipes) => project([['a', '', 'wide', 'plant', 5, 3]], pipes)('Total')[0],
    );
    expect(Number(times[1]) / Number(times[0])).toBeCloseTo(1, 4);
  });

  it('tells in the row what is wrong with its line, and goes on', () => {
    const pipes = runs(
      ...line('hall'),
      ['loose', 10, 5, '', '', '', '', ''],
      ['apart', 10, 5, '', 'a', 'b', '', ''],
      ['apart', 10, 5, '', 'c', 'd', '', ''],
      ['loop', 10, 5, '', 'a', 'a', '', ''],
    );
    const column = project(
      [
        ['hall', '', 'wide', 'cellar', '', ''],
        ['loose', '', 'wide', 'plant', '', ''],
        ['apart', '', 'wide', 'a', '', ''],
        ['loop', '', 'wide', 'a', '', ''],
        ['none', 5, 'wide', 'plant', '', ''],
        ['hall', 1, 'wide', 'plant', '', ''],
        ['hall', '', 'wide', 'plant', '', ''],
      ],
      pipes,
    );
    const words = column('Verdict').map(String);
    [
      /no node of the runs "cellar".*plant, riser, east, west/,
      /Runs, row 6 of the range, column From: From is blank/,
      /way to a port from "c", "d" is missing/,
      /where the pipe also begins/,
      /unit without runs/,
      /at least 9\.19.* L/,
    ].forEach((expected, i) => {
      expect(words[i]).toMatch(expected);
      expect(column('Total')[i]).toMatchObject(NOT_AVAILABLE);
      expect(column('Time to target')[i]).toBeGreaterThan(0);
    });
    expect(column('Total')[6]).toBeCloseTo(whole, 9);
  });

  it('works the same runs on the same rig out once, whatever the names', () => {
    const names = Array.from({ length: 40 }, (_, i) => `hall ${i}`);
    const pipes = runs(...names.flatMap((name) => line(name, 13.8, 21.5)));
    const units = names.map((name): Cell[] => [name, '', 'wide', 'plant', '', '']);
    const before = lineWork.networks;
    const column = project(units, pipes);
    expect(lineWork.networks - before).toBe(1);
    expect(new Set(column('Far end')).size).toBe(1);
    project(units, pipes);
    expect(lineWork.networks - before).toBe(1);
    project(units, pipes, [['Target', 400, 'micron']]);
    expect(lineWork.networks - before).toBe(2);
  });

  it('shares the march of a network between start pressures, and is later from a higher one', () => {
    const units = [['stair', '', 'wide', 'plant', '', '']];
    // a pipe so wide that it hardly lags
    const pipes = runs(...line('stair', 30, 22.5).map((row) => row.map((cell) => (cell === 10.9 ? 30 : cell))));
    const before = lineWork.networks;
    const ends = [90, 100, 110, 130].map((kPa) =>
      Number(project(units, pipes, [['Start pressure', kPa, 'kPa']])('Far end')[0]),
    );
    expect(lineWork.networks - before).toBe(1);
    ends.slice(1).forEach((end, i) => {
      expect(end).toBeGreaterThan(ends[i] ?? Number.NaN);
    });
    // beyond the next power of two, 131 072 Pa
    project(units, pipes, [['Start pressure', 140, 'kPa']]);
    expect(lineWork.networks - before).toBe(2);
  });
});
