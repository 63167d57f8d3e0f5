import { raise } from '../../faults/issue.ts';
import { findRoot } from '../../numerics/root.ts';
import type { RecoveryGear, RecoveryTask } from './recovery-gear.ts';
import { poolEnthalpy } from './recovery-pool.ts';
import {
  type RecoveryBalance,
  type RecoveryMoment,
  type RecoverySystem,
  vapourStage,
  type WatchRecovery,
} from './recovery-stages.ts';
import { boilOut, pushOut } from './recovery-ways.ts';

export interface Recovery {
  /** s to the level, with all liquid gone */
  readonly time: number;
  /** s until the last liquid is gone; 0 where there was none */
  readonly dry: number;
  /** lowest temperature of the liquid, K */
  readonly coldest: number;
  /** kg */
  readonly recovered: number;
  readonly left: number;
  /** what the balances miss: of the charge; of the energy that left the liquid */
  readonly misses: { readonly mass: number; readonly energy: number };
}

/**
 * Time to recover a charge to a level.
 *
 * The system of volume V holds the charge at the temperature of the surroundings, boiling liquid under its vapour. As long as
 * there is liquid, vapour stands at the dew pressure of the liquid's own temperature: boiling is paid by UA (T_amb - T) and by
 * the heat of the liquid and the metal, so that the liquid cools and the pressure falls. Then vapour alone, at the
 * temperature of the surroundings, to the level. Vapour in the system, the rig and the machine's suction is as warm as the
 * surroundings.
 *
 * Modes: `vapour` all through the machine as vapour; `liquid` first the liquid through rig and machine, then vapour;
 * `push-pull` first the liquid, pushed out by vapour from the cylinder, then vapour.
 *
 * @throws faults for a charge that the volume does not hold, a level out of reach, and liquid that is never gone
 */
export function recover(gear: RecoveryGear, task: RecoveryTask, watch: WatchRecovery = () => {}): Recovery {
  const { refrigerant, vapour, curve } = gear;
  const { charge, volume, heat, metal = 0, level, mode } = task;
  const ambient = vapour.gas.temperature;
  checkTask(gear, task);
  const system: RecoverySystem = { refrigerant, vapour, curve, volume, heat, metal };
  const first = startOf(gear, task);
  const balance: RecoveryBalance = { out: 0, heatIn: 0, enthalpyOut: 0 };
  let coldest = ambient;
  const see = (moment: RecoveryMoment): void => {
    coldest = Math.min(coldest, moment.temperature);
    watch(moment);
  };
  let moment = first;
  let dry = 0;
  let energy = 0;
  if (first.liquid > 0) {
    const end =
      mode === 'push-pull'
        ? pushOut(gear, task, first, balance, see)
        : boilOut(gear, system, task, first, balance, see);
    energy = mode === 'push-pull' ? 0 : energyMiss(system, balance, first, end);
    dry = end.time;
    moment = end;
  }
  const end = vapourStage(system, moment, level, see);
  balance.out += moment.mass - end.mass;
  return {
    time: end.time,
    dry,
    coldest,
    recovered: charge - end.mass,
    left: end.mass,
    misses: { mass: (charge - balance.out - end.mass) / charge, energy },
  };
}

function startOf(gear: RecoveryGear, { charge, volume }: RecoveryTask): RecoveryMoment {
  const { refrigerant, vapour } = gear;
  const temperature = vapour.gas.temperature;
  const dense = vapour.density(vapour.dewPressure);
  const liquid = Math.max(0, (charge - volume * dense) / (1 - dense / refrigerant.liquidDensity(temperature)));
  const pressure =
    liquid > 0
      ? vapour.dewPressure
      : findRoot((p) => vapour.density(p) - charge / volume, 0, vapour.dewPressure, { relative: 1e-13 });
  return { time: 0, state: 'liquid', pressure, mass: charge, liquid, temperature, flow: 0, suction: pressure };
}

/** What left the liquid against what it held and took in, as a part of what left. */
function energyMiss(
  { refrigerant, metal }: RecoverySystem,
  balance: RecoveryBalance,
  from: RecoveryMoment,
  to: RecoveryMoment,
): number {
  const held = ({ liquid, temperature }: RecoveryMoment): number =>
    liquid * poolEnthalpy(refrigerant, temperature) + metal * temperature;
  return (held(from) - held(to) + balance.heatIn - balance.enthalpyOut) / balance.enthalpyOut;
}

const KILO = 1000;

function checkTask({ refrigerant, vapour, curve }: RecoveryGear, { charge, volume, level }: RecoveryTask): void {
  const most = volume * refrigerant.liquidDensity(vapour.gas.temperature);
  if (!(charge > 0)) raise({ kind: 'limit', argument: 'Charge', value: charge, rule: 'above', limit: 0, unit: 'kg' });
  if (!(charge <= most))
    raise({
      kind: 'limit',
      argument: 'Charge',
      value: charge,
      rule: 'at most',
      limit: most,
      unit: 'kg',
      todo: `A volume of ${Number((volume * KILO).toPrecision(4))} L is then full of liquid: check both, and their units.`,
    });
  if (!(level > curve.lowest))
    raise({
      kind: 'out-of-reach',
      targetPa: level,
      lowestPa: curve.lowest,
      because:
        'the recovery machine draws from no lower pressure (its Ultimate, or its Clearance against the discharge)',
    });
}
