import type { Refrigerant } from '../refrigerant/refrigerant.ts';
import type { ChargeFlow, ChargeFlowLaw } from './charge-flow.ts';
import { fillPressure, type VesselState, vesselState } from './charge-vessel.ts';

/** A cylinder on one side of a rig, an evacuated system on the other. SI. */
export interface Charging {
  readonly refrigerant: Refrigerant;
  /** kg to be charged */
  readonly mass: number;
  /** what leaves the cylinder */
  readonly as: 'liquid' | 'vapour';
  readonly cylinder: {
    /** kg in it at the start */
    readonly charge: number;
    /** K at the start */
    readonly temperature: number;
    /** W/K from the bath to the refrigerant in it */
    readonly heat: number;
    /** K of the air or the water that it stands in */
    readonly bath: number;
  };
  readonly system: {
    /** m3 */
    readonly volume: number;
    /** W/K from Ambient to the refrigerant in it */
    readonly heat: number;
    /** K, Ambient */
    readonly ambient: number;
  };
}

/** How it stands at one time. SI. */
export interface ChargeMoment {
  readonly time: number;
  /** kg in the system */
  readonly charged: number;
  /** kg/s */
  readonly rate: number;
  readonly choked: boolean;
  readonly cylinder: VesselState;
  readonly system: VesselState;
  /** J that both vessels hold, and J that came in through their walls since the start */
  readonly energy: number;
  readonly heatIn: number;
}

/** One charge on its way. */
export interface Walk {
  readonly charging: Charging;
  readonly law: ChargeFlowLaw;
  readonly vessel: number;
  /** the moment asked for last: slopes and events ask for the same one in turn */
  latest: { readonly gas: boolean; readonly moment: ChargeMoment; readonly y: readonly number[] } | undefined;
}

/** A step on trial may leave the table; where it is taken the march ends first. */
function inTable({ lowest, highest }: Refrigerant, temperature: number): number {
  return Math.min(highest, Math.max(lowest, temperature));
}

/** The system while it holds vapour only, at Ambient. */
function gasAtAmbient({ refrigerant, system }: Charging, mass: number): VesselState {
  const pressure = fillPressure(refrigerant, system.ambient, mass / system.volume);
  return { temperature: system.ambient, pressure, liquid: 0, state: 'vapour' };
}

/** Part of the cylinder's pressure below which a difference drives the flow in proportion. */
const STRAIGHT = 1e-5;

/**
 * Flow by the law of the rig; at hardly any difference in proportion to it, backwards too. The laws begin with the root of the
 * difference and know no way back: where heat holds the pressures together, a march would stop at that corner.
 */
function flowBetween({ charging, law }: Walk, cylinder: VesselState, system: VesselState): ChargeFlow {
  const temperature = inTable(charging.refrigerant, cylinder.temperature);
  const least = STRAIGHT * cylinder.pressure;
  const difference = cylinder.pressure - system.pressure;
  if (difference >= least) return law(temperature, cylinder.pressure, system.pressure);
  const { flow } = law(temperature, cylinder.pressure, cylinder.pressure - least);
  return { flow: (flow * Math.max(difference, -least)) / least, choked: false };
}

/** y = [kg charged, J in the cylinder, J in the system, J through the walls] */
export function momentOf(walk: Walk, gas: boolean, time: number, y: ArrayLike<number>): ChargeMoment {
  const { latest } = walk;
  const same = latest?.gas === gas && latest.moment.time === time && latest.y.every((value, i) => value === y[i]);
  if (latest !== undefined && same) return latest.moment;
  const { charging, vessel } = walk;
  const { refrigerant } = charging;
  const charged = y[0] ?? 0;
  const cylinder = vesselState(refrigerant, charging.cylinder.charge - charged, y[1] ?? 0, vessel);
  const system = gas
    ? gasAtAmbient(charging, charged)
    : vesselState(refrigerant, charged, y[2] ?? 0, charging.system.volume);
  const { flow, choked } = flowBetween(walk, cylinder, system);
  const energy = (y[1] ?? 0) + (y[2] ?? 0);
  const moment = { time, charged, rate: flow, choked, cylinder, system, energy, heatIn: y[3] ?? 0 };
  walk.latest = { gas, moment, y: Array.from(y) };
  return moment;
}

/** s, and part of the charge, over which `heatDrivenRate` looks how the pressures part and close */
const A_MOMENT = 0.1;
const A_LITTLE = 1e-5;

/**
 * kg/s that heat alone keeps up once the pressures have met: what holds p_c - p_s where it is, with d/dt at constant mass
 * from the heat and d/dm from a little that moves over. Negative where the pressures would close on each other further.
 */
export function heatDrivenRate(walk: Walk, gas: boolean, y: ArrayLike<number>): number {
  const { charging, vessel } = walk;
  const { refrigerant, mass, cylinder, system } = charging;
  const [charged = 0, inCylinder = 0, inSystem = 0] = Array.from(y);
  const now = momentOf(walk, gas, Number.NaN, y);
  const difference = (moved: number, seconds: number): number => {
    const carried = moved * outgoing(charging, now.cylinder.temperature);
    const heat = seconds * cylinder.heat * (cylinder.bath - now.cylinder.temperature);
    const over = seconds * system.heat * (system.ambient - now.system.temperature);
    const left = vesselState(refrigerant, cylinder.charge - charged - moved, inCylinder + heat - carried, vessel);
    const got = gas
      ? gasAtAmbient(charging, charged + moved)
      : vesselState(refrigerant, charged + moved, inSystem + over + carried, system.volume);
    return left.pressure - got.pressure;
  };
  const level = difference(0, 0);
  const opens = (difference(0, A_MOMENT) - level) / A_MOMENT;
  const closes = (level - difference(A_LITTLE * mass, 0)) / (A_LITTLE * mass);
  return opens / closes;
}

/** J/kg of what leaves the cylinder at its temperature (K). */
export function outgoing({ refrigerant, as }: Charging, temperature: number): number {
  const within = inTable(refrigerant, temperature);
  return as === 'liquid' ? refrigerant.liquidEnthalpy(within) : refrigerant.vapourEnthalpy(within);
}
