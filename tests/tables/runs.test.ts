import { describe, expect, it } from 'vitest';
import { readRuns } from '../../src/tables/runs.ts';
import { allFaults, faultOf } from './faults.ts';

/** ASTM B280: 3/8 in coil is 0.375 in outside with a wall of 0.032 in. */
const BORE_3_8 = (0.375 - 2 * 0.032) * 0.0254;
const area = (bore: number) => (Math.PI / 4) * bore * bore;

describe('a runs table', () => {
  it('gives each run its bore by tube size and its volume by length and count', () => {
    const { runs } = readRuns([
      ['Unit', 'Size', 'Length (ft)', 'Count'],
      ['cold room', '3/8 in', 100, 2],
    ]);
    expect(runs[0]?.bore).toBeCloseTo(BORE_3_8, 12);
    expect(runs[0]?.volume).toBeCloseTo(area(BORE_3_8) * 100 * 0.3048 * 2, 15);
  });

  it('refuses a pipe and a component in one row, of which one would be left out', () => {
    const fault = faultOf(() =>
      readRuns([
        ['Unit', 'Size', 'Length', 'Volume (L)'],
        ['cold room', '3/8 in', 10, 2],
      ]),
    );
    expect(fault?.issue).toMatchObject({ kind: 'wrong', argument: 'Size', found: 'given in the row of a component' });
    expect(fault?.place).toMatchObject({ row: 2, column: 'Size' });
  });

  it('takes a bore in place of a size, and components by their volume', () => {
    const table = readRuns([
      ['Unit', 'Size', 'Bore (mm)', 'Length', 'Component', 'Volume (L)', 'Count'],
      ['cold room', '', 10, 5, '', '', ''],
      ['', '', '', '', 'coil', 2, 3],
    ]);
    expect(table.volumeOf('COLD ROOM ')).toBeCloseTo(area(0.01) * 5 + 0.006, 15);
    expect(table.units).toEqual(['cold room']);
    expect(table.volumeOf('office')).toBeUndefined();
  });

  it('needs no Unit column: then all rows are one system', () => {
    expect(
      readRuns([
        ['Bore (mm)', 'Length'],
        [10, 1],
      ]).volumeOf(''),
    ).toBeCloseTo(area(0.01), 15);
  });

  it('takes the wall of the standard that is named', () => {
    const bores = ['ASTM B280 coil', 'EN 12735-1'].map((standard) => {
      const { runs } = readRuns([
        ['Size', 'Standard', 'Length'],
        ['3/8 in', standard, 1],
      ]);
      return runs[0]?.bore;
    });
    // EN 12735-1: 9.53 mm outside with a wall of 0.8 mm
    expect(bores[1]).toBeCloseTo(0.00953 - 0.0016, 12);
    expect(bores[0]).toBeCloseTo(BORE_3_8, 12);
  });

  it('keeps nodes of a network and the rows of the range', () => {
    const { runs } = readRuns([['Bore', 'Length', 'From', 'To'], [], [10, 1, 'pump room', 'roof']]);
    expect(runs[0]).toMatchObject({ from: 'pump room', to: 'roof', row: 3 });
  });

  it('tells every fault with its place', () => {
    const faults = allFaults((sink) =>
      readRuns(
        [
          ['Unit', 'Size', 'Length', 'Component', 'Volume'],
          ['a', '3/7 in', 1],
          ['a', '3/8 in', ''],
          ['a', '', 1],
          ['a', '', '', 'coil', ''],
          ['a', '3/8 in', -1],
        ],
        sink,
      ),
    );
    expect(faults.map(({ issue, place }) => [place?.row, issue.kind])).toEqual([
      [2, 'unknown'],
      [3, 'missing'],
      [4, 'missing'],
      [5, 'missing'],
      [6, 'limit'],
    ]);
  });

  it('asks for a length column where there is none', () => {
    expect(faultOf(() => readRuns([['Size'], ['3/8 in']]))?.issue).toMatchObject({
      kind: 'missing-header',
      header: 'Length',
    });
  });
});
