import { describe, expect, it } from 'vitest';
import type { Cell, CellRange } from '../../../src/tables/cells.ts';
import { columnOf, expectFault, numberFrom, PARTS, tableFrom } from '../rig/tables.ts';

const HEADER = ['Bore (mm)', 'Length (m)', 'Count', 'From', 'To', 'Component', 'Volume (L)'] as const;
const pipe = (bore: number, length: number, from: string, to: string, count: Cell = ''): Cell[] => [
  bore,
  length,
  count,
  from,
  to,
  '',
  '',
];
const component = (name: string, volume: number, from: string, to = ''): Cell[] => ['', '', '', from, to, name, volume];
const runs = (...rows: Cell[][]): CellRange => [HEADER, ...rows];
const ports = (...rows: Cell[][]): CellRange => [['Node', 'Rig'], ...rows];

const MAIN = runs(
  pipe(13.8, 20, 'plant', 'riser'),
  pipe(10.9, 15, 'riser', 'east'),
  pipe(10.9, 30, 'riser', 'west'),
  component('east coil', 2, 'east'),
  component('west coil', 2, 'west'),
);
const ONE = ports(['plant', 'wide']);

const timeAt = (table: readonly (readonly Cell[])[], node: string): number =>
  Number(columnOf(table, 'Time')[columnOf(table, 'Node').indexOf(node)]);
const gaugeAt = (table: readonly (readonly Cell[])[], node: string): number =>
  Number(columnOf(table, 'Pressure')[columnOf(table, 'Node').indexOf(node)]);

const network = (runsTable: CellRange, portsTable: CellRange = ONE, conditions: CellRange = []) =>
  tableFrom('EVAC.NETWORK', runsTable, portsTable, PARTS, conditions);
const expectNetworkFault = (
  code: string,
  words: RegExp,
  runsTable: CellRange,
  portsTable: CellRange = ONE,
  conditions: CellRange = [],
): void => expectFault(code, words, 'EVAC.NETWORK', runsTable, portsTable, PARTS, conditions);

describe('EVAC.NETWORK', () => {
  it('has a row for each node in the order of the runs, and one for the whole', () => {
    const table = network(MAIN);
    expect(columnOf(table, 'Node')).toEqual(['plant', 'riser', 'east', 'west', 'whole network']);
    expect(table[1]?.[4]).toBe('port, rig wide');
    expect(table.at(-1)?.[4]).toBe('last: west');
    const volumes = columnOf(table, 'Volume').map(Number);
    expect(volumes.slice(0, -1).reduce((sum, one) => sum + one, 0)).toBeCloseTo(volumes.at(-1) ?? 0, 9);
    expect(volumes.at(-1)).toBeCloseTo(numberFrom('RUN.VOLUME', MAIN), 9);
  });

  it('tells that the far ends lag behind the gauge, the longer branch more', () => {
    const table = network(MAIN);
    expect(gaugeAt(table, 'plant')).toBeCloseTo(500 * 0.133322387415, 2);
    expect(gaugeAt(table, 'east')).toBeGreaterThan(gaugeAt(table, 'riser'));
    expect(gaugeAt(table, 'west')).toBeGreaterThan(gaugeAt(table, 'east'));
    expect(timeAt(table, 'west')).toBeGreaterThan(timeAt(table, 'east'));
    expect(timeAt(table, 'whole network')).toBe(timeAt(table, 'west'));
  });

  it('agrees with EVAC.TIME within half a per cent when lines are short and wide', () => {
    const short = runs(pipe(50, 0.3, 'a', 'b'), component('receiver', 30, 'b'));
    const lumped = numberFrom('EVAC.TIME', numberFrom('RUN.VOLUME', short), PARTS, 'bare');
    const table = network(short, ports(['a', 'bare']));
    for (const node of ['a', 'b', 'whole network'])
      expect(Math.abs(timeAt(table, node) / lumped - 1)).toBeLessThan(5e-3);
  });

  it('shows that a second port at the far end helps every node', () => {
    const [one, two] = [network(MAIN), network(MAIN, ports(['plant', 'wide'], ['west', 'wide']))];
    for (const node of ['plant', 'riser', 'east', 'west', 'whole network'])
      expect(timeAt(two, node)).toBeLessThan(timeAt(one, node));
  });

  it('empties a line from both ends as a line of half its length with a dead end, and the middle last', () => {
    for (const [bore, length] of [
      [5, 100],
      [8, 40],
    ] as const) {
      const both = network(runs(pipe(bore, length, 'a', 'b')), ports(['a', 'wide'], ['b', 'wide']));
      const half = network(runs(pipe(bore, length / 2, 'a', 'b')), ports(['a', 'wide']));
      for (const place of ['a', 'whole network']) {
        expect(timeAt(both, place) / timeAt(half, place)).toBeCloseTo(1, 6);
        expect(gaugeAt(both, place) / gaugeAt(half, place)).toBeCloseTo(1, 6);
      }
      // and as the same line of two pipes
      const halves = runs(pipe(bore, length / 2, 'a', 'm'), pipe(bore, length / 2, 'm', 'b'));
      const split = network(halves, ports(['a', 'wide'], ['b', 'wide']));
      expect(timeAt(split, 'm') / timeAt(both, 'whole network')).toBeCloseTo(1, 3);
    }
  });

  it('takes names whatever their case and spaces, loops, parallel pipes, and components that join two nodes', () => {
    const ring = runs(
      pipe(10.9, 10, 'Plant ', 'far'),
      pipe(10.9, 10, 'far', 'plant', 2),
      component('header', 1, 'far', 'end  of line'),
      pipe(10.9, 5, 'End of line', 'FAR'),
      pipe(10.9, 4, 'far', 'capped', 0),
    );
    const table = network(ring, ports([' PLANT', 'wide']));
    expect(columnOf(table, 'Node')).toEqual(['Plant', 'far = end  of line', 'whole network']);
    expect(Number(columnOf(table, 'Volume').at(-1))).toBeCloseTo(numberFrom('RUN.VOLUME', ring), 9);
    const three = network(
      runs(
        pipe(10.9, 10, 'plant', 'far', 3),
        component('header and dead leg', 1 + (Math.PI / 4) * 0.109 ** 2 * 50, 'far'),
      ),
    );
    expect(timeAt(table, 'whole network') / timeAt(three, 'whole network')).toBeCloseTo(1, 3);
  });

  it('says that the time is for a dry network where there is water', () => {
    expect(String(network(MAIN, ONE, [['Water', 30]]).at(-1)?.[4])).toMatch(/dry only: the 30 g/);
  });

  it('reports in inch units on request', () => {
    const header = network(MAIN, ONE, [['Report units', 'inch']])[0];
    expect(header).toContain('Pressure at gauge target (micron)');
    expect(header).toContain('Volume (ft3)');
  });

  it('leaves the nodes that a leak holds above the target without an answer, and gives the others', () => {
    const table = network(MAIN, ONE, [['Leak', '0.01 Pa m3/s']]);
    expect(timeAt(table, 'plant')).toBeGreaterThan(0);
    expect(table.at(-1)?.[2]).toMatchObject({ error: '#N/A' });
  });
});

describe('a network that cannot be', () => {
  it('has rows without From or To', () => {
    const plain: CellRange = [
      ['Bore (mm)', 'Length (m)'],
      [10, 5],
    ];
    expectNetworkFault('#VALUE!', /Runs, row 2 of the range, column From.*From is blank/, plain);
    expectNetworkFault(
      '#VALUE!',
      /row 3 of the range, column To: To is blank/,
      runs(pipe(10, 5, 'plant', 'a'), pipe(10, 5, 'a', '')),
    );
    expectNetworkFault(
      '#VALUE!',
      /row 3 of the range, column From/,
      runs(pipe(10, 5, 'plant', 'a'), component('coil', 2, '')),
    );
  });

  it('has a pipe from a node to itself', () => {
    expectNetworkFault(
      '#VALUE!',
      /row 2 of the range, column To: To is "Plant".*also begins/,
      runs(pipe(10, 5, 'plant', 'Plant')),
    );
  });

  it('has islands, which are named', () => {
    const split = runs(pipe(10, 5, 'plant', 'a'), pipe(10, 5, 'b', 'c'), component('tank', 5, 'd'));
    expectNetworkFault('#VALUE!', /Runs, row 3 of the range: The way to a port from "b", "c", "d" is missing/, split);
    const table = network(split, ports(['plant', 'wide'], ['c', 'wide'], ['d', 'bare']));
    expect(columnOf(table, 'Time').every((cell) => Number(cell) > 0)).toBe(true);
  });

  it('has a port that is not in the runs, an unknown rig, a node twice, or no port', () => {
    expectNetworkFault(
      '#N/A',
      /Ports, row 2 of the range, column Node: There is no node of the runs "roof".*plant/,
      MAIN,
      ports(['roof', 'wide']),
    );
    expectNetworkFault(
      '#N/A',
      /Ports, row 2 of the range, column Rig: There is no rig "huge"/,
      MAIN,
      ports(['plant', 'huge']),
    );
    expectNetworkFault(
      '#VALUE!',
      /Ports, row 3 of the range, column Node.*already \(Ports, row 2 of the range\)/,
      MAIN,
      ports(['plant', 'wide'], ['PLANT', 'bare']),
    );
    expectNetworkFault('#VALUE!', /ports table has no rows/i, MAIN, ports());
    expectNetworkFault('#VALUE!', /no column "Rig"/, MAIN, [['Node'], ['plant']]);
  });

  it('has a target below reach, or above the start', () => {
    expectNetworkFault('#N/A', /out of reach.*2\.66645 Pa/, MAIN, ONE, [['Target', '20 micron']]);
    expectNetworkFault('#N/A', /out of reach.*leak/, MAIN, ONE, [['Leak', '5 Pa m3/s']]);
    expectNetworkFault('#VALUE!', /Start pressure must be above/, MAIN, ONE, [['Start pressure', 50]]);
  });

  it('holds no volume', () => {
    expectNetworkFault('#VALUE!', /Volume of the runs is 0/, runs(component('coil', 0, 'plant')));
  });
});

describe('a ports table', () => {
  it('is checked in words', () => {
    expect(tableFrom('CHECK', ONE, 'ports')[1]).toEqual(['', '', 'no fault found', '']);
    const faults = tableFrom('CHECK', ports(['plant', ''], ['', 'wide'], ['Plant', 'wide']), 'ports').slice(1);
    expect(faults.map((row) => row.slice(0, 2))).toEqual([
      [2, 'Rig'],
      [3, 'Node'],
      [4, 'Node'],
    ]);
  });
});
