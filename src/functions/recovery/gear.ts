import type { Refrigerant } from '../../engine/refrigerant/refrigerant.ts';
import type { Rig } from '../../engine/rig/rig.ts';
import { type RecoveryGear, type RecoveryTask, recoveryGear } from '../../engine/transfer/recovery-gear.ts';
import type { Conditions } from '../../tables/conditions.ts';

/** Gears kept, the latest used; what is kept never changes a result, since the key is all that it depends on. */
const MOST_KEPT = 64;
const kept = new Map<string, RecoveryGear>();

/** A machine with its rig on a refrigerant at Ambient: built once, shared by all cells that ask for the same. */
export function gearOf(refrigerant: Refrigerant, rig: Rig, ambient: number): RecoveryGear {
  const key = JSON.stringify([refrigerant.name, rig, ambient]);
  const known = kept.get(key);
  const gear = known ?? recoveryGear(refrigerant, rig, ambient);
  kept.delete(key);
  kept.set(key, gear);
  const [oldest] = kept.keys();
  if (kept.size > MOST_KEPT && oldest !== undefined) kept.delete(oldest);
  return gear;
}

export function taskOf(charge: number, volume: number, conditions: Conditions): RecoveryTask {
  const { heat, metal, recoverAs, recoverTo, cylinderTemperature } = conditions;
  return {
    charge,
    volume,
    heat,
    metal,
    mode: recoverAs,
    level: recoverTo,
    ...(cylinderTemperature === undefined ? {} : { cylinderTemperature }),
  };
}
