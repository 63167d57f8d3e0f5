import { HELP, helpingSpeed } from '../../engine/evacuate/helping-speed.ts';
import type { GasState } from '../../engine/gas/state.ts';
import { keepingOf } from '../../engine/keep.ts';
import type { RigCurve } from '../../engine/rig/curve.ts';
import { prepareRig } from '../../engine/rig/prepare.ts';
import type { Rig } from '../../engine/rig/rig.ts';
import type { Conditions } from '../../tables/conditions.ts';
import { curveOf, loadOf } from '../rig/curves.ts';

export const HELPING_NOTE = `A bigger pump stops helping at the pump speed from which on twice the speed would shorten the dry pull-down by less than ${100 * HELP} %, with the same parts in front of it and the same ultimate pressure, a Speed table in proportion (the bound is our choice; behind one conductance it is nine times that). It does not depend on the volume. Blank where a faster pump always helps.`;

/** Speeds kept, by rig record, then by all else that they depend on. */
const MOST_OF_RIG = 64;
const keep = keepingOf<Rig, number | undefined>(MOST_OF_RIG);
/** Curves behind faster and slower pumps: they do not depend on the target. */
const keepCurve = keepingOf<Rig, RigCurve>(MOST_OF_RIG);

/** `helpingSpeed` of a rig under the conditions; each is worked out once. */
export function helpingSpeedOf(rig: Rig, gas: GasState, target: number, conditions: Conditions): number | undefined {
  const { startPressure: start } = conditions;
  const load = loadOf(conditions);
  // a load that fades makes the time depend on the volume: it is left out
  const steady = { ...load, exponent: 0 };
  const ofGas = [gas.name, gas.temperature];
  const curveAt = (speed: number, make: () => RigCurve): RigCurve =>
    speed === rig.pump.speed ? curveOf(rig, gas) : keepCurve(rig, JSON.stringify([...ofGas, speed]), make);
  const key = JSON.stringify([...ofGas, start, target, steady]);
  return keep(rig, key, () => helpingSpeed(prepareRig(rig, gas), { start, target, load: steady, curveAt }));
}
