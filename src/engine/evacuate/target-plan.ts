import type { RigCurve } from '../rig/curve.ts';
import { limitingPart } from '../rig/profile.ts';
import { effectiveSpeed } from '../rig/speed.ts';
import { type GasLoad, isSteady, NO_LOAD } from './load.ts';
import { checkPullDown, pullDownTime } from './pulldown.ts';

/**
 * What every unit on one rig with one start, target and load has in common. Under a steady load the time is in
 * proportion to the volume, so one plan serves any number of units and a further unit costs one product.
 */
export interface TargetPlan {
  readonly curve: RigCurve;
  readonly start: number;
  readonly target: number;
  readonly load: GasLoad;
  /** s/m3; undefined under a load that fades with time */
  readonly secondsPerVolume: number | undefined;
  /** at the target, m3/s */
  readonly speedAtTarget: number;
  /** the part with the largest share of the loss at the target; undefined for a bare pump */
  readonly limiting: { readonly name: string; readonly share: number } | undefined;
}

/**
 * @throws the faults of `pullDownTime`: a target that is not below the start, or that the rig cannot reach
 */
export function targetPlan(curve: RigCurve, start: number, target: number, load: GasLoad = NO_LOAD): TargetPlan {
  checkPullDown(curve, 1, start, target, load);
  return {
    curve,
    start,
    target,
    load,
    secondsPerVolume: isSteady(load) ? pullDownTime(curve, 1, start, target, load) : undefined,
    speedAtTarget: effectiveSpeed(curve, target),
    limiting: limitingPart(curve, target),
  };
}

/** Seconds for a volume (m3, above 0) under a plan. */
export function plannedSeconds(plan: TargetPlan, volume: number): number {
  return plan.secondsPerVolume === undefined || !(volume > 0)
    ? pullDownTime(plan.curve, volume, plan.start, plan.target, plan.load)
    : volume * plan.secondsPerVolume;
}
