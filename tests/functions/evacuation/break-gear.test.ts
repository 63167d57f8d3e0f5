import { expect, it } from 'vitest';
import type { Phase } from '../../../src/engine/breaks/steps.ts';
import { gearOf } from '../../../src/functions/evacuation/break-gear.ts';
import { readConditions } from '../../../src/tables/conditions.ts';
import { readParts } from '../../../src/tables/rigs.ts';
import { PARTS } from '../rig/tables.ts';

it('the pulls of a rig are kept for all cells that use it, apart from those of another rig', () => {
  const parts = readParts(PARTS);
  const conditions = readConditions(undefined);
  const phase = (pressure: number): Phase => ({
    end: { time: 1, state: 'dry', first: pressure, fed: 0, vapour: 0, water: 0, ice: 0, temperature: 293 },
    why: 'dry',
    seen: { coldest: undefined, froze: false, vapourAtPump: 0 },
  });
  const keepOf = (rig: string) => gearOf(parts.rig(rig), conditions).keep;
  const first = keepOf('wide')?.('a', () => phase(1));
  expect(first?.end.first).toBe(1);
  expect(keepOf('wide')?.('a', () => phase(2))).toBe(first);
  expect(keepOf('wide')?.('b', () => phase(3))?.end.first).toBe(3);
  expect(keepOf('bare')?.('a', () => phase(4))?.end.first).toBe(4);
});
