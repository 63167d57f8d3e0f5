import { type FeedCurve, feedCurve } from '../../engine/breaks/feed.ts';
import { dryOutflow, wetOutflow } from '../../engine/breaks/outflow.ts';
import type { Gear } from '../../engine/breaks/plan.ts';
import type { Phase } from '../../engine/breaks/steps.ts';
import type { GasState } from '../../engine/gas/state.ts';
import { keepingOf } from '../../engine/keep.ts';
import type { Rig } from '../../engine/rig/rig.ts';
import type { Conditions } from '../../tables/conditions.ts';
import { gasAtAmbient, surfaceFor } from '../dry-out/surfaces.ts';
import { curveOf } from '../rig/curves.ts';

/** Feed curves of one rig record; they go with it. */
const MOST_OF_RIG = 32;
const keep = keepingOf<Rig, FeedCurve | undefined>(MOST_OF_RIG);
/** Pulls of wet systems through one rig record. */
const MOST_PULLS = 64;
const keepPull = keepingOf<Rig, Phase>(MOST_PULLS);

function feedOf(rig: Rig, gas: GasState, supply: number): FeedCurve | undefined {
  return keep(rig, `${gas.name} ${gas.temperature} ${supply}`, () => feedCurve(rig, gas, supply));
}

/** A rig for plans of pulls and breaks, its curves shared with all other cells. */
export function gearOf(rig: Rig, conditions: Conditions): Gear {
  return {
    gas: gasAtAmbient(conditions),
    outflow: (gas, withVapour) => (withVapour ? wetOutflow(surfaceFor(rig, gas)) : dryOutflow(curveOf(rig, gas))),
    feed: (gas, supply) => feedOf(rig, gas, supply),
    keep: (key, work) => keepPull(rig, key, work),
  };
}
