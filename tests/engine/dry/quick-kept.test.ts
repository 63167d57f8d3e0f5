import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type DryOut, dryOut, type WetSystem } from '../../../src/engine/dry/dry-out.ts';
import { rigSurface } from '../../../src/engine/dry/rig-surface.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import { Fault } from '../../../src/faults/issue.ts';
import { hose, pumpOf, rigOf } from '../rig/fakes.ts';

const ROOM = 293.15;
const SURFACE = rigSurface(
  rigOf(pumpOf(2.36e-3, 2.7), [hose(6e-3, 1.5)]),
  gasState('air', ROOM),
  gasState('water vapour', ROOM),
);
const WET: WetSystem = { volume: 0.01, water: 0.004, heat: 2, metal: 300, start: 1e5, target: 60, quick: true };
const LEAKING: WetSystem = { ...WET, load: { leak: 1e-4, outgassing: 2e-4, exponent: 1 } };

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
  const change = fc.oneof(
    ...(['volume', 'water', 'heat', 'metal', 'start', 'target'] as const).map((key) =>
      fc.constantFrom(0.5, 0.999, 1, 1.001, 2).map((factor) => (of: WetSystem) => ({
        ...of,
        [key]: factor * (of[key] ?? 0),
      })),
    ),
    fc.constantFrom('leak', 'outgassing', 'exponent').chain((key) =>
      fc.constantFrom(0, 0.5, 1).map((factor) => (of: WetSystem) => ({
        ...of,
        load: {
          leak: 1e-4,
          outgassing: 2e-4,
          exponent: 1,
          ...of.load,
          [key]: factor * (key === 'exponent' ? 1 : 1e-4),
        },
      })),
    ),
  );
  fc.assert(
    fc.property(fc.constantFrom(WET, LEAKING), fc.array(change, { maxLength: 4 }), (from, changes) => {
      const of = changes.reduce((at, one) => one(at), from);
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
