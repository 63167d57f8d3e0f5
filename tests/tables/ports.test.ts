import { describe, expect, it } from 'vitest';
import { nodeKey, readPorts } from '../../src/tables/ports.ts';
import { allFaults, faultOf } from './faults.ts';

const HEADER = ['Node', 'Rig'];

describe('a ports table', () => {
  it('says which rig is at which node, in the order of its rows', () => {
    expect(readPorts([HEADER, ['head', 'wide'], [], [' far end', 'narrow ']]).ports).toEqual([
      { node: 'head', rig: 'wide', row: 2 },
      { node: 'far end', rig: 'narrow', row: 4 },
    ]);
    expect(
      readPorts([
        ['Rig', 'Port node'],
        ['wide', 'a'],
      ]).ports,
    ).toEqual([{ node: 'a', rig: 'wide', row: 2 }]);
  });

  it('refuses a node twice, whatever its case and spaces', () => {
    expect(faultOf(() => readPorts([HEADER, ['Far  end', 'wide'], ['x', 'wide'], [' FAR end ', 'narrow']]))).toEqual({
      issue: {
        kind: 'wrong',
        argument: 'Node',
        found: '"FAR end", which has a rig already (Ports, row 2 of the range)',
        allowed: 'one rig at a node',
        todo: 'Remove one of the rows, or connect the second rig at another node.',
      },
      place: { table: 'ports', row: 4, column: 'Node' },
    });
  });

  it('refuses a row without its node or its rig, and goes on', () => {
    let ports: ReturnType<typeof readPorts>['ports'] = [];
    const faults = allFaults((sink) => {
      ports = readPorts([HEADER, ['', 'wide'], ['b', ''], ['B', 'wide'], ['c', 'wide']], sink).ports;
    });
    expect(faults.map(({ issue, place }) => [issue.kind, place?.table, place?.row, place?.column])).toEqual([
      ['missing', 'ports', 2, 'Node'],
      ['missing', 'ports', 3, 'Rig'],
      ['wrong', 'ports', 4, 'Node'],
    ]);
    expect(ports).toEqual([{ node: 'c', rig: 'wide', row: 5 }]);
  });

  it('knows a node by its letters', () => {
    expect(nodeKey('  Roof \t  UNIT  2 ')).toBe('roof unit 2');
  });
});
