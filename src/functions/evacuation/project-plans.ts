import { plannedSeconds, type TargetPlan, targetPlan } from '../../engine/evacuate/target-plan.ts';
import type { GasState } from '../../engine/gas/state.ts';
import type { Rig } from '../../engine/rig/rig.ts';
import { Fault } from '../../faults/issue.ts';
import type { Conditions } from '../../tables/conditions.ts';
import { curveOf, loadOf } from '../rig/curves.ts';

/**
 * Plans shared by the units of one project: one for each rig and target, or the fault that every such unit meets.
 * Made anew for each call of a function, so that it holds nothing longer than that.
 */
export interface ProjectPlans {
  planFor(rig: Rig, target: number): TargetPlan | Fault;
  /** plans worked out so far, for tests of shared work */
  readonly made: () => number;
}

/** @param gas that of the conditions, where not another temperature is asked for */
export function projectPlans(conditions: Conditions, gas: GasState = conditions.gas): ProjectPlans {
  const { startPressure } = conditions;
  const load = loadOf(conditions);
  const plans = new Map<Rig, Map<number, TargetPlan | Fault>>();
  let made = 0;
  return {
    made: () => made,
    planFor(rig, target) {
      let ofRig = plans.get(rig);
      if (ofRig === undefined) {
        ofRig = new Map();
        plans.set(rig, ofRig);
      }
      const known = ofRig.get(target);
      if (known !== undefined) return known;
      made += 1;
      const plan = orFault(() => targetPlan(curveOf(rig, gas), startPressure, target, load));
      ofRig.set(target, plan);
      return plan;
    },
  };
}

/** What `work` gives, or the fault that it raises; other errors go on. */
export function orFault<T>(work: () => T): T | Fault {
  try {
    return work();
  } catch (error) {
    if (error instanceof Fault) return error;
    throw error;
  }
}

/** Seconds for one unit, or its fault. A steady load makes this one product. */
export function secondsOrFault(plan: TargetPlan | Fault, volume: number): number | Fault {
  if (plan instanceof Fault) return plan;
  return plan.secondsPerVolume === undefined
    ? orFault(() => plannedSeconds(plan, volume))
    : volume * plan.secondsPerVolume;
}
