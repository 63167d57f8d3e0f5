import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DryOut, dryOut, type WetSystem } from '../../../src/engine/dry/dry-out.ts';
import { rigSurface } from '../../../src/engine/dry/rig-surface.ts';
import type { Moment } from '../../../src/engine/dry/stages.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import { Fault } from '../../../src/faults/issue.ts';
import { hose, pumpOf, rigOf } from '../rig/fakes.ts';
import { change, changed, LEAKING, WET } from './changes.ts';

const ROOM = 293.15;
const RIG = rigOf(pumpOf(2.36e-3, 2.7), [hose(6e-3, 1.5)]);
const SURFACE = rigSurface(RIG, gasState('air', ROOM), gasState('water vapour', ROOM));
const COLD = rigSurface(RIG, gasState('air', 263.15), gasState('water vapour', 263.15));

interface Told {
  readonly result: DryOut | string;
  readonly moments: readonly Moment[];
}

/** What comes of it, or the fault, and all moments where they are watched. */
function told(of: WetSystem, surface: typeof SURFACE, watched: boolean): Told {
  const moments: Moment[] = [];
  try {
    return { result: dryOut(surface, of, watched ? (moment) => moments.push(moment) : undefined), moments };
  } catch (fault) {
    if (fault instanceof Fault) return { result: JSON.stringify(fault.issue), moments };
    throw fault;
  }
}

describe('the way until the water is gone, which is kept', () => {
  it('gives what it gives on a new surface, whatever was dried before, watched or not', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(WET, LEAKING),
        fc.array(change, { maxLength: 3 }),
        fc.boolean(),
        fc.constantFrom(SURFACE, COLD),
        (from, changes, watched, surface) => {
          const of = changed(from, changes);
          expect(told(of, surface, watched)).toEqual(told(of, { ...surface }, watched));
        },
      ),
      { numRuns: 60 },
    );
  });

  it('is the same to the moment for another target, and ends later for a lower one', () => {
    const surface = { ...SURFACE };
    const high = told({ ...WET, target: 200 }, surface, true);
    const low = told(WET, surface, true);
    const untilDry = (moments: readonly Moment[]) => moments.filter(({ state }) => state !== 'dry');
    expect(untilDry(high.moments).length).toBeGreaterThan(100);
    // the very same records: they were not worked out again
    untilDry(high.moments).forEach((moment, i) => {
      expect(low.moments[i]).toBe(moment);
    });
    expect(low.moments.at(-1)?.time).toBeGreaterThan(high.moments.at(-1)?.time ?? 0);
  });

  it('forgets the ones of long ago, not those of late', () => {
    const surface = { ...SURFACE };
    const first = told(WET, surface, true).moments[5];
    for (let i = 1; i <= 3; i++) told({ ...WET, water: WET.water + i * 1e-5 }, surface, true);
    expect(told(WET, surface, true).moments[5]).toBe(first);
    for (let i = 1; i <= 9; i++) told({ ...WET, water: WET.water + i * 1e-5 }, surface, true);
    const again = told(WET, surface, true).moments[5];
    expect(again).not.toBe(first);
    expect(again).toEqual(first);
  });

  it('is not used where balances are kept', () => {
    const { misses } = dryOut(SURFACE, { ...WET, balances: true });
    expect(Math.abs(misses?.mass ?? 1)).toBeLessThan(1e-6);
    expect(dryOut(SURFACE, WET).misses).toBeUndefined();
    expect(dryOut(SURFACE, { ...WET, balances: true }).misses).toEqual(misses);
  });
});
