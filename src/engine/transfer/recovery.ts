import { raise } from '../../faults/issue.ts';
import { findRoot } from '../../numerics/root.ts';
import type { Refrigerant } from '../refrigerant/refrigerant.ts';
import type { Machine, Rig } from '../rig/rig.ts';
import { type MachineCurve, machineCurve, machineSuction } from './machine.ts';
import { prepareRealGasRig, type RealVapour, realVapour } from './real-gas-rig.ts';
import { checkAmbient, raiseNeverDry, solidBelow } from './recovery-faults.ts';
import { type LiquidDraw, liquidByPush, liquidToMachine } from './recovery-liquid.ts';
import {
  type Draw,
  liquidStage,
  type RecoveryBalance,
  type RecoveryMoment,
  type RecoverySystem,
  vapourStage,
  type WatchRecovery,
} from './recovery-stages.ts';

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

/** Vapour mode, or liquid mode, until the liquid is gone. */
function boilOut(
  gear: RecoveryGear,
  system: RecoverySystem,
  { mode, heat }: RecoveryTask,
  first: RecoveryMoment,
  balance: RecoveryBalance,
  watch: WatchRecovery,
): RecoveryMoment {
  const { refrigerant, rig, machine, vapour, discharge, curve } = gear;
  const draw =
    mode === 'liquid'
      ? byTemperature(vapour.gas.temperature, (temperature): Draw => {
          const at = Math.max(temperature, refrigerant.lowest);
          const { flow, end }: LiquidDraw = liquidToMachine(rig, machine, refrigerant, vapour.gas, at, discharge);
          return { vapour: 0, liquid: flow, suction: end };
        })
      : (_temperature: number, pressure: number): Draw => {
          const flow = curve.flow(pressure);
          return { vapour: flow, liquid: 0, suction: flow > 0 ? curve.suction.pressure(flow) : curve.lowest };
        };
  const leaves = draw(first.temperature, first.pressure);
  watch({ ...first, flow: leaves.vapour + leaves.liquid, suction: leaves.suction });
  const end = liquidStage(system, first, draw, balance, watch, solidBelow(refrigerant));
  return end ?? raiseNeverDry(refrigerant, heat, mode);
}

/** K between the temperatures at which a liquid flow is worked out. */
const LIQUID_STEP = 1.5;

/** A draw that depends on the temperature alone, worked out on even steps below the first one and joined by cubics. */
function byTemperature(first: number, draw: (temperature: number) => Draw): (temperature: number) => Draw {
  const known = new Map<number, Draw>();
  const at = (k: number): Draw => {
    const found = known.get(k) ?? draw(first - k * LIQUID_STEP);
    known.set(k, found);
    return found;
  };
  return (temperature) => {
    const x = Math.max(0, (first - temperature) / LIQUID_STEP);
    const k = Math.max(1, Math.floor(x));
    const u = x - k;
    const points = [at(k - 1), at(k), at(k + 1), at(k + 2)] as const;
    // Lagrange through four neighbours at -1, 0, 1, 2
    const weights = [
      (-u * (u - 1) * (u - 2)) / 6,
      ((u + 1) * (u - 1) * (u - 2)) / 2,
      (-(u + 1) * u * (u - 2)) / 2,
      ((u + 1) * u * (u - 1)) / 6,
    ];
    const mix = (of: (point: Draw) => number): number =>
      points.reduce((sum, point, i) => sum + (weights[i] ?? 0) * of(point), 0);
    return {
      vapour: 0,
      liquid: Math.max(
        0,
        mix((p) => p.liquid),
      ),
      suction: mix((p) => p.suction),
    };
  };
}

/** Push-pull: the liquid leaves at an even rate and vapour takes its place; nothing changes its temperature. */
function pushOut(
  gear: RecoveryGear,
  { volume, cylinderTemperature, heat }: RecoveryTask,
  first: RecoveryMoment,
  balance: RecoveryBalance,
  watch: WatchRecovery,
): RecoveryMoment {
  const { refrigerant, rig, machine, vapour } = gear;
  const { temperature } = first;
  const { flow, end, system } = liquidByPush(
    rig,
    machine,
    refrigerant,
    vapour.gas,
    temperature,
    cylinderTemperature ?? temperature,
  );
  if (!(flow > 0)) return raiseNeverDry(refrigerant, heat, 'push-pull');
  const density = refrigerant.liquidDensity(temperature);
  const dense = vapour.density(vapour.dewPressure);
  const out = flow * (1 - dense / density);
  const last = first.liquid / flow;
  const at = (time: number): RecoveryMoment => {
    const liquid = first.liquid - flow * time;
    const mass = liquid + (volume - liquid / density) * dense;
    return { time, state: 'liquid', pressure: system, mass, liquid, temperature, flow: out, suction: end };
  };
  const STEPS = 8;
  for (let i = 0; i <= STEPS; i++) watch(at((last * i) / STEPS));
  balance.out += out * last;
  return { ...at(last), liquid: 0, pressure: vapour.dewPressure };
}

/** What left the liquid against what it held and took in, as a part of what left. */
function energyMiss(
  { refrigerant, metal }: RecoverySystem,
  balance: RecoveryBalance,
  from: RecoveryMoment,
  to: RecoveryMoment,
): number {
  const held = ({ liquid, temperature }: RecoveryMoment): number =>
    liquid * refrigerant.liquidEnthalpy(Math.max(temperature, refrigerant.lowest)) + metal * temperature;
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
