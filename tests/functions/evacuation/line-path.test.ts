import { describe, expect, it } from 'vitest';
import type { RigPart } from '../../../src/engine/rig/rig.ts';
import { lineEnd } from '../../../src/functions/evacuation/project-line.ts';
import type { Cell } from '../../../src/tables/cells.ts';
import { readConditions } from '../../../src/tables/conditions.ts';
import { readParts } from '../../../src/tables/rigs.ts';
import { readRuns } from '../../../src/tables/runs.ts';
import { PARTS } from '../rig/tables.ts';

const rig = readParts(PARTS).rig('wide');
const conditions = readConditions([]);

/** Rows: from, to, bore in mm, length in m, count. */
function endOf(port: string, ...pipes: (readonly [string, string, number, number, number?])[]) {
  const rows: Cell[][] = pipes.map(([from, to, bore, length, count = 1]) => ['u', bore, length, count, from, to]);
  const table = readRuns([['Unit', 'Bore (mm)', 'Length (m)', 'Count', 'From', 'To'], ...rows]);
  const task = { runs: [...table.runs], port, rest: 1e-3, target: 66.66 };
  const end = lineEnd(rig, conditions.gas, conditions, task);
  if (!('longRig' in end)) throw new Error('it has no end');
  return { node: end.node, parts: end.longRig.parts.slice(rig.parts.length) };
}
const told = ({ name, count, passage }: RigPart): (string | number)[] =>
  passage.kind === 'tube' ? [name, passage.bore * 1e3, passage.length, count] : [name];

describe('the pipes between the port and the node that is last', () => {
  it('come in order from the port outwards, whichever way round they were written', () => {
    const { node, parts } = endOf(
      'plant',
      ['riser', 'plant', 14, 20],
      ['riser', 'hall', 11, 15],
      ['west', 'hall', 9, 30],
    );
    expect(node).toBe('west');
    expect(parts.map(told)).toEqual([
      ['pipe plant to riser', expect.closeTo(14, 9), 20, 1],
      ['pipe riser to hall', expect.closeTo(11, 9), 15, 1],
      ['pipe hall to west', expect.closeTo(9, 9), 30, 1],
    ]);
    for (const part of parts) expect(part.branch).toBeUndefined();
  });

  it('leave side branches out', () => {
    const { node, parts } = endOf(
      'plant',
      ['plant', 'riser', 14, 20],
      ['riser', 'east', 11, 2],
      ['riser', 'west', 9, 40],
    );
    expect(node).toBe('west');
    expect(parts.map(({ name }) => name)).toEqual(['pipe plant to riser', 'pipe riser to west']);
  });

  it('go the way of the least length over bore to the fourth, not the shortest and not that of fewest pipes', () => {
    // L/D^4 in 1e-6 m/mm4: 10 m of 6 mm 7716; twice 20 m of 12 mm 1929. A loop: the end hangs on where both ways meet.
    const around = endOf('a', ['a', 'd', 6, 10], ['a', 'b', 12, 20], ['b', 'd', 12, 20], ['d', 'end', 9, 40]);
    expect(around.node).toBe('end');
    expect(around.parts.map(({ name }) => name)).toEqual(['pipe a to b', 'pipe b to d', 'pipe d to end']);
    // four of the 10 m of 6 mm side by side 1929; twice 25 m of 12 mm 2411
    const straight = endOf('a', ['a', 'd', 6, 10, 4], ['a', 'b', 12, 25], ['b', 'd', 12, 25], ['d', 'end', 9, 40]);
    expect(straight.parts.map(told)).toEqual([
      ['pipe a to d', expect.closeTo(6, 9), 10, 4],
      ['pipe d to end', expect.closeTo(9, 9), 40, 1],
    ]);
  });

  it('take pipes between the same two nodes side by side', () => {
    const { parts } = endOf('a', ['a', 'b', 9, 20], ['b', 'a', 6, 20], ['b', 'end', 9, 40]);
    expect(parts.map(told)).toEqual([
      ['pipe a to b', expect.closeTo(9, 9), 20, 1],
      ['pipe a to b', expect.closeTo(6, 9), 20, 1],
      ['pipe b to end', expect.closeTo(9, 9), 40, 1],
    ]);
    const [first, second, third] = parts.map(({ branch }) => branch);
    expect(first).toBeDefined();
    expect(second).toBe(first);
    expect(third).toBeUndefined();
  });
});
