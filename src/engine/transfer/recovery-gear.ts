import { raise } from '../../faults/issue.ts';
import type { Refrigerant } from '../refrigerant/refrigerant.ts';
import type { Machine, Rig } from '../rig/rig.ts';
import { type MachineCurve, machineCurve, machineSuction } from './machine.ts';
import { prepareRealGasRig, type RealVapour, realVapour } from './real-gas-rig.ts';
import { checkAmbient } from './recovery-faults.ts';

/** A machine with its rig on one refrigerant in one surrounding; shared by all systems on it. */
export interface RecoveryGear {
  readonly refrigerant: Refrigerant;
  readonly rig: Rig;
  readonly machine: Machine;
  readonly vapour: RealVapour;
  /** Pa; the machine condenses at it */
  readonly discharge: number;
  readonly curve: MachineCurve;
}

/**
 * @param ambient K, of the surroundings, the vapour and the rig
 * @throws `wrong` for a rig without a machine, faults for a temperature without a liquid
 */
export function recoveryGear(refrigerant: Refrigerant, rig: Rig, ambient: number): RecoveryGear {
  const { machine } = rig;
  if (machine === undefined)
    return raise({
      kind: 'wrong',
      argument: `rig "${rig.name}"`,
      found: 'a rig that begins with a pump',
      allowed: 'a rig that begins with a recovery machine',
      todo: 'Make the first row of the rig of kind machine, with its displacement in Speed.',
    });
  checkAmbient(refrigerant, ambient, machine.approach);
  const vapour = realVapour(refrigerant, ambient);
  const discharge = refrigerant.bubblePressure(ambient + machine.approach);
  const suction = machineSuction(machine, vapour, discharge);
  const curve = machineCurve(prepareRealGasRig(rig, vapour), vapour, suction, vapour.dewPressure);
  return { refrigerant, rig, machine, vapour, discharge, curve };
}

export type RecoveryMode = 'vapour' | 'liquid' | 'push-pull';

/** What is asked of a recovery. SI. */
export interface RecoveryTask {
  /** kg */
  readonly charge: number;
  /** m3 */
  readonly volume: number;
  /** W/K from the surroundings to the liquid */
  readonly heat: number;
  /** J/K of metal as cold as the liquid; default 0 */
  readonly metal?: number;
  readonly mode: RecoveryMode;
  /** Pa to reach */
  readonly level: number;
  /** K, of the cylinder in push-pull; default the surroundings */
  readonly cylinderTemperature?: number;
}
