import { raiseNeverDry, solidBelow } from './recovery-faults.ts';
import type { RecoveryGear, RecoveryTask } from './recovery-gear.ts';
import { type LiquidDraw, liquidByPush, liquidToMachine } from './recovery-liquid.ts';
import {
  type Draw,
  liquidStage,
  type RecoveryBalance,
  type RecoveryMoment,
  type RecoverySystem,
  type WatchRecovery,
} from './recovery-stages.ts';

/** The ways in which the liquid leaves a system, each until it is gone. SI. */

/** Vapour mode, or liquid mode, until the liquid is gone. */
export function boilOut(
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

/** Moments of a push-pull that a watcher is given. */
const PUSH_MOMENTS = 8;

/** Push-pull: the liquid leaves at an even rate and vapour takes its place; nothing changes its temperature. */
export function pushOut(
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
  for (let i = 0; i <= PUSH_MOMENTS; i++) watch(at((last * i) / PUSH_MOMENTS));
  balance.out += out * last;
  return { ...at(last), liquid: 0, pressure: vapour.dewPressure };
}
