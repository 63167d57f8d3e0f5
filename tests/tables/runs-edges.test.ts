import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.ts';
import { readRuns, unitKey } from '../../src/tables/runs.ts';
import { allFaults, faultOf } from './faults.ts';

const HEADER = ['Unit', 'Size', 'Bore', 'Length', 'Component', 'Volume', 'Line', 'Charged length', 'From', 'To'];
const row = (cells: Record<string, Cell>): Cell[] => HEADER.map((column) => cells[column] ?? '');
const read = (...rows: Record<string, Cell>[]) => readRuns([HEADER, ...rows.map(row)]);

describe('a row of a runs table', () => {
  it('is a pipe, and has no more than is said', () => {
    const { runs } = read({ Unit: 'a', Bore: 10, Length: 2 });
    expect(runs).toStrictEqual([
      {
        unit: 'a',
        count: 1,
        chargedLength: 0,
        row: 2,
        label: 'bore',
        isComponent: false,
        bore: 0.01,
        length: 2,
        volume: expect.closeTo((Math.PI / 4) * 1e-4 * 2, 15),
      },
    ]);
  });

  it('is a pipe with all that is said', () => {
    const pipe = {
      Unit: 'a',
      Size: '3/8',
      Bore: 10,
      Length: 2,
      Line: 'liquid',
      'Charged length': 1,
      From: 'x',
      To: 'y',
    };
    // a bore in the row goes before that of the size
    expect(read(pipe).runs[0]).toMatchObject({
      label: '3/8',
      bore: 0.01,
      line: 'liquid',
      chargedLength: 1,
      from: 'x',
      to: 'y',
    });
  });

  it('is a component by its name or by its volume', () => {
    const { runs, units } = read({ Unit: 'a', Component: 'coil', Volume: 2 }, { Unit: 'A ', Volume: 3, From: 'x' });
    expect(runs).toStrictEqual([
      {
        unit: 'a',
        count: 1,
        chargedLength: 0,
        row: 2,
        label: 'coil',
        isComponent: true,
        bore: 0,
        length: 0,
        volume: 0.002,
      },
      {
        unit: 'A',
        count: 1,
        chargedLength: 0,
        row: 3,
        from: 'x',
        label: 'component',
        isComponent: true,
        bore: 0,
        length: 0,
        volume: 0.003,
      },
    ]);
    expect(units).toEqual(['a']);
    expect(unitKey(' Cold ROOM ')).toBe('cold room');
  });

  it.each([
    ...['liquid', 'Liquid line'].map((text) => [text, 'liquid']),
    ...['vapour', 'Vapor', 'GAS', 'suction', 'discharge', 'hot gas', 'vapour line'].map((text) => [text, 'vapour']),
    ...['gas line', 'suction-line', 'Discharge line'].map((text) => [text, 'vapour']),
    ...['none', 'No', 'other'].map((text) => [text, 'none']),
  ])('knows %s for what a line carries', (text, line) => {
    expect(read({ Unit: 'a', Bore: 10, Length: 2, Line: text }).runs[0]?.line).toBe(line);
  });

  it.each<[string, Record<string, Cell>, object, string]>([
    [
      'another line',
      { Unit: 'a', Bore: 10, Length: 2, Line: 'water' },
      { kind: 'unknown', what: 'line', value: 'water', known: ['liquid', 'vapour', 'none'] },
      'Line',
    ],
    ['no unit', { Bore: 10, Length: 2 }, { kind: 'missing', argument: 'Unit' }, 'Unit'],
    ['neither size nor bore', { Unit: 'a', Length: 2 }, { kind: 'missing', argument: 'Size or Bore' }, 'Size'],
    ['a bore of nothing', { Unit: 'a', Bore: 0, Length: 2 }, { kind: 'limit', argument: 'Bore' }, 'Bore'],
    ['a component without a volume', { Unit: 'a', Component: 'x' }, { kind: 'missing', argument: 'Volume' }, 'Volume'],
    ['a bad volume', { Unit: 'a', Component: 'x', Volume: -1 }, { kind: 'limit', argument: 'Volume' }, 'Volume'],
    ...['Size', 'Bore', 'Length'].map((column): [string, Record<string, Cell>, object, string] => [
      `${column} of a component`,
      { Unit: 'a', Component: 'coil', Volume: 2, [column]: 10 },
      {
        kind: 'wrong',
        argument: column,
        found: 'given in the row of a component',
        allowed: 'a volume there',
        todo: 'Give the pipe and the component a row each.',
      },
      column,
    ]),
  ])('with %s is told, and left out', (_, cells, issue, column) => {
    expect(faultOf(() => read(cells))).toEqual({
      issue: expect.objectContaining(issue),
      place: { table: 'runs', row: 2, column },
    });
    let left: unknown;
    const faults = allFaults((sink) => {
      left = readRuns([HEADER, row(cells), row({ Unit: 'b', Bore: 10, Length: 1 })], sink).runs.map(({ unit }) => unit);
    });
    expect(faults.map(({ place }) => place?.column)).toContain(column);
    expect(left).toEqual(['b']);
  });

  it('with a bad bore beside a size is told once', () => {
    const rows = [HEADER, row({ Unit: 'a', Bore: 0, Length: 2 })];
    expect(allFaults((sink) => readRuns(rows, sink))).toHaveLength(1);
  });
});
