import { describe, expect, it } from 'vitest';
import { type BrokenSystem, type PlanStep, runPlan } from '../../../src/engine/breaks/plan.ts';
import type { Phase } from '../../../src/engine/breaks/steps.ts';
import { gearFor, NITROGEN, SMALL } from './gear.ts';

const SYSTEM: BrokenSystem = { volume: 0.02, water: 3e-3, heat: 4, metal: 100, start: 1e5 };
const breakAt = (pullTo: number, wait = 600): PlanStep => ({
  pullTo,
  fill: { to: 1.1e5, gas: NITROGEN, supply: 2e5, wait },
});
const PLAN: readonly PlanStep[] = [breakAt(2000), breakAt(1500), { pullTo: 60 }];

/** A rig that keeps its pulls, and how many were worked out. */
function keeping() {
  const kept = new Map<string, Phase>();
  const gear = gearFor(SMALL);
  const work = { done: 0 };
  return {
    work,
    gear: {
      ...gear,
      keep: (key: string, make: () => Phase): Phase => {
        const known = kept.get(key);
        if (known !== undefined) return known;
        work.done += 1;
        const made = make();
        kept.set(key, made);
        return made;
      },
    },
  };
}

const CHANGES: Readonly<Record<string, readonly [BrokenSystem, readonly PlanStep[]]>> = {
  'another last pressure': [SYSTEM, [...PLAN.slice(0, 2), { pullTo: 30 }]],
  'another first pressure': [SYSTEM, [breakAt(2500), ...PLAN.slice(1)]],
  'a longer wait': [SYSTEM, [breakAt(2000, 900), ...PLAN.slice(1)]],
  'a cap on a pull': [SYSTEM, [{ ...breakAt(2000), longestPull: 60 }, ...PLAN.slice(1)]],
  'more water': [{ ...SYSTEM, water: 4e-3 }, PLAN],
  'more heat': [{ ...SYSTEM, heat: 5 }, PLAN],
  'more metal': [{ ...SYSTEM, metal: 200 }, PLAN],
  'a smaller volume': [{ ...SYSTEM, volume: 0.015 }, PLAN],
  'another start': [{ ...SYSTEM, start: 9e4 }, PLAN],
  'a leak': [{ ...SYSTEM, load: { leak: 1e-4, outgassing: 0, exponent: 0 } }, PLAN],
  'no break': [SYSTEM, [{ pullTo: 60 }]],
};

describe('pulls that are kept', () => {
  it.each(Object.keys(CHANGES))('change nothing where a plan has %s', (name) => {
    const [system, plan] = CHANGES[name] ?? [SYSTEM, PLAN];
    const { gear } = keeping();
    runPlan(gear, SYSTEM, PLAN);
    expect(runPlan(gear, system, plan)).toEqual(runPlan(gearFor(SMALL), system, plan));
    // and the first one is still what it was
    expect(runPlan(gear, SYSTEM, PLAN)).toEqual(runPlan(gearFor(SMALL), SYSTEM, PLAN));
  });

  it('tell one first gas from another', () => {
    const { gear } = keeping();
    const inAir = runPlan(gear, SYSTEM, PLAN);
    const inNitrogen = runPlan({ ...gear, gas: NITROGEN }, SYSTEM, PLAN);
    expect(inNitrogen).toEqual(runPlan({ ...gearFor(SMALL), gas: NITROGEN }, SYSTEM, PLAN));
    expect(inNitrogen).not.toEqual(inAir);
  });

  it('are not worked out again for another last pressure', () => {
    const { gear, work } = keeping();
    runPlan(gear, SYSTEM, PLAN);
    const first = work.done;
    expect(first).toBeGreaterThan(1);
    for (const pullTo of [40, 50, 70]) runPlan(gear, SYSTEM, [...PLAN.slice(0, 2), { pullTo }]);
    expect(work.done).toBe(first);
    runPlan(gear, { ...SYSTEM, water: 3.1e-3 }, PLAN);
    expect(work.done).toBe(2 * first);
  });

  it('are worked out each time where balances are kept', () => {
    const { gear, work } = keeping();
    const { misses } = runPlan(gear, { ...SYSTEM, balances: true }, PLAN);
    expect(work.done).toBe(0);
    expect(Math.abs(misses?.water ?? 1)).toBeLessThan(1e-5);
  });
});
