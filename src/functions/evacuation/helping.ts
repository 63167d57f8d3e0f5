import { HELP, helpingSpeed } from '../../engine/evacuate/helping-speed.ts';
import type { GasState } from '../../engine/gas/state.ts';
import { prepareRig } from '../../engine/rig/prepare.ts';
import type { Rig } from '../../engine/rig/rig.ts';
import type { Conditions } from '../../tables/conditions.ts';
import { loadOf } from '../rig/curves.ts';

export const HELPING_NOTE = `A bigger pump stops helping at the pump speed from which on twice the speed would shorten the dry pull-down by less than ${100 * HELP} %, with the same parts in front of it and the same ultimate pressure (the bound is our choice; behind one conductance it is nine times that). It does not depend on the volume. Blank where a faster pump always helps.`;

/** Speeds kept, by rig record, then by all else that they depend on. */
const kept = new WeakMap<Rig, Map<string, number | undefined>>();
const MOST_OF_RIG = 64;

/** `helpingSpeed` of a rig under the conditions; each is worked out once. */
export function helpingSpeedOf(rig: Rig, gas: GasState, target: number, conditions: Conditions): number | undefined {
  const { startPressure: start } = conditions;
  const load = loadOf(conditions);
  // a load that fades makes the time depend on the volume: it is left out
  const steady = { ...load, exponent: 0 };
  let ofRig = kept.get(rig);
  if (ofRig === undefined) {
    ofRig = new Map();
    kept.set(rig, ofRig);
  }
  const key = JSON.stringify([gas.name, gas.temperature, start, target, steady]);
  if (ofRig.has(key)) return ofRig.get(key);
  const speed = helpingSpeed(prepareRig(rig, gas), { start, target, load: steady });
  if (ofRig.size >= MOST_OF_RIG) ofRig.clear();
  ofRig.set(key, speed);
  return speed;
}
