import { type FeedCurve, feedCurve } from '../../engine/breaks/feed.ts';
import { dryOutflow, wetOutflow } from '../../engine/breaks/outflow.ts';
import type { Gear } from '../../engine/breaks/plan.ts';
import type { GasState } from '../../engine/gas/state.ts';
import type { Rig } from '../../engine/rig/rig.ts';
import type { Conditions } from '../../tables/conditions.ts';
import { gasAtAmbient, surfaceFor } from '../dry-out/surfaces.ts';
import { curveOf } from '../rig/curves.ts';

/** Feed curves of one rig record; they go with it. */
const kept = new WeakMap<Rig, Map<string, FeedCurve | undefined>>();
const MOST_OF_RIG = 32;

function feedOf(rig: Rig, gas: GasState, supply: number): FeedCurve | undefined {
  let ofRig = kept.get(rig);
  if (ofRig === undefined) {
    ofRig = new Map();
    kept.set(rig, ofRig);
  }
  const key = `${gas.name} ${gas.temperature} ${supply}`;
  if (ofRig.has(key)) return ofRig.get(key);
  const curve = feedCurve(rig, gas, supply);
  if (ofRig.size >= MOST_OF_RIG) ofRig.clear();
  ofRig.set(key, curve);
  return curve;
}

/** A rig for plans of pulls and breaks, its curves shared with all other cells. */
export function gearOf(rig: Rig, conditions: Conditions): Gear {
  return {
    gas: gasAtAmbient(conditions),
    outflow: (gas, withVapour) => (withVapour ? wetOutflow(surfaceFor(rig, gas)) : dryOutflow(curveOf(rig, gas))),
    feed: (gas, supply) => feedOf(rig, gas, supply),
  };
}
