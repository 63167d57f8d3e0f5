import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type DryOut, dryOut, type WetSystem } from '../../../src/engine/dry/dry-out.ts';
import { rigSurface } from '../../../src/engine/dry/rig-surface.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import { Fault } from '../../../src/faults/issue.ts';
import { hose, pumpOf, rigOf } from '../rig/fakes.ts';
import { change, changed, WET as SLOW, LEAKING as SLOW_LEAKING } from './changes.ts';

const ROOM = 293.15;
const SURFACE = rigSurface(
  rigOf(pumpOf(2.36e-3, 2.7), [hose(6e-3, 1.5)]),
  gasState('air', ROOM),
  gasState('water vapour', ROOM),
);
const WET: WetSystem = { ...SLOW, quick: true };
const LEAKING: WetSystem = { ...SLOW_LEAKING, quick: true };

/** What comes of it, or the fault, as text. */
function told(of: WetSystem, surface = SURFACE): DryOut | string {
  try {
    return dryOut(surface, of);
  } catch (fault) {
    if (fault instanceof Fault) return JSON.stringify(fault.issue);
    throw fault;
  }
}

it('whatever was dried before on the same surface, a dry-out gives what it gives on a new one', () => {
  fc.assert(
    fc.property(fc.constantFrom(WET, LEAKING), fc.array(change, { maxLength: 4 }), (from, changes) => {
      const of = changed(from, changes);
      expect(told(of)).toEqual(told(of, { ...SURFACE }));
    }),
    { numRuns: 300 },
  );
});

it('another target changes the last pull alone', () => {
  const [deep, high] = [told(WET), told({ ...WET, target: 200 })];
  if (typeof deep === 'string' || typeof high === 'string') throw new Error('no dry-out');
  expect({ ...high, toTarget: 0 }).toEqual({ ...deep, toTarget: 0 });
  expect(high.toTarget).toBeLessThan(deep.toTarget);
});
