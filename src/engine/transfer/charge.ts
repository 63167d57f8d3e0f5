import { raise } from '../../faults/issue.ts';
import type { OdeResult } from '../../numerics/ode.ts';
import { integrateStiff } from '../../numerics/rodas.ts';
import type { Rig } from '../rig/rig.ts';
import { checkCharge } from './charge-check.ts';
import { liquidLaw, vapourLaw } from './charge-flow.ts';
import { type ChargeMoment, type Charging, heatDrivenRate, momentOf, outgoing, type Walk } from './charge-moment.ts';
import { energyInTwoPhases, vapourEnergy } from './charge-vessel.ts';

export type { ChargeMoment, Charging } from './charge-moment.ts';

/**
 * done: the mass is in. met: the pressures have met, and at that moment heat does not part them (the charge would take
 * over a day). dry: the cylinder has no liquid left. cold: the cylinder is colder than the refrigerant's table.
 */
export type ChargeEnd = 'done' | 'met' | 'dry' | 'cold';

export interface ChargeResult {
  readonly end: ChargeEnd;
  /** s */
  readonly time: number;
  /** kg */
  readonly charged: number;
  /** lowest temperature in the cylinder, K */
  readonly coldest: number;
  readonly last: ChargeMoment;
}

/** A cylinder as full as one may be: liquid fills this part of it at the warmest it is here. Common practice, no source. */
export const LIQUID_PART = 0.8;

/** m3 that the cylinder holds: 80 % liquid at its own temperature or Ambient, whichever is warmer. */
export function cylinderVolume({ refrigerant, cylinder, system }: Charging): number {
  const warmest = Math.max(cylinder.temperature, system.ambient);
  const density = refrigerant.liquidDensity(warmest);
  return cylinder.charge / (LIQUID_PART * density + (1 - LIQUID_PART) * refrigerant.saturatedVapourDensity(warmest));
}

/** in the order of the events that stop the march */
const ENDS: readonly ChargeEnd[] = ['done', 'met', 'dry', 'cold'];

/** of each step; vapour soon goes over at hardly any difference, which errors must not hide */
const RELATIVE = { liquid: 1e-5, vapour: 1e-6 } as const;
/** Slower than this part of the charge in a second it counts as stopped: the whole charge would take over a day. */
const STOPPED = 1 / 86_400;
/** s; in a year a rate that is not stopped has moved 365 charges */
const LONGEST = 3.2e7;
/** Part of the charge that is let in before the balance starts, at the flow into vacuum. */
const FIRST_PART = 1e-4;
/** K above the lowest of the table */
const COLD_MARGIN = 0.01;

/**
 * Charges an evacuated system from a cylinder through a rig.
 *
 *     dm/dt = mdot(T_c, p_c, p_s),  dU_c/dt = -mdot h + UA_c (T_bath - T_c),  dU_s/dt = mdot h + UA_s (T_amb - T_s)
 *
 * Cylinder and system are each in equilibrium at their own energy, mass and volume: the cylinder cools as its liquid
 * boils to fill what left; liquid that enters the vacuum flashes, and the pressure in the system rises as it fills. h is
 * that of the saturated liquid (charging as liquid) or vapour (as vapour) at the cylinder's temperature.
 *
 * Charged as vapour, the system stays at Ambient until vapour fills it (its walls weigh far more than the vapour); what
 * comes after that must condense, and its heat goes off by UA_s.
 *
 * The flow is quasi-steady through all parts of the rig (`liquidLaw`, `vapourLaw`).
 * Limits: no heads of liquid, no gas in the system at the start, no oil; the metal's own heat is left out but for the
 * vapour at Ambient; the rig holds no refrigerant.
 *
 * @param watch is given the moment at each of its times (s, rising), as far as the charge gets
 * @returns how and when it ended: a charge that stops short is no fault here
 * @throws faults of `checkCharge`
 */
export function charge(
  charging: Charging,
  rig: Rig,
  watch?: { times: readonly number[]; see: (moment: ChargeMoment) => void },
): ChargeResult {
  checkCharge(charging);
  const { refrigerant, mass, system, cylinder } = charging;
  const vessel = cylinderVolume(charging);
  const law = charging.as === 'liquid' ? liquidLaw(refrigerant, rig) : vapourLaw(refrigerant, rig);
  const walk: Walk = { charging, law, vessel, latest: undefined };
  const held = cylinder.charge * energyInTwoPhases(refrigerant, cylinder.temperature, cylinder.charge / vessel);
  const waiting = [...(watch?.times ?? [])];
  const tell = (upTo: number, momentAt: (time: number) => ChargeMoment): void => {
    for (let next = waiting[0]; next !== undefined && next <= upTo; next = waiting[0]) {
      watch?.see(momentAt(next));
      waiting.shift();
    }
  };

  let coldest = cylinder.temperature;
  const run = (gas: boolean, from: number, y0: readonly number[], until: number) => {
    const rates = (time: number, y: Float64Array, out: Float64Array): void => {
      const now = momentOf(walk, gas, time, y);
      const carried = now.rate * outgoing(charging, now.cylinder.temperature);
      const toCylinder = cylinder.heat * (cylinder.bath - now.cylinder.temperature);
      // what the walls take from vapour kept at Ambient is counted when the stage ends
      const toSystem = gas ? 0 : system.heat * (system.ambient - now.system.temperature);
      out[0] = now.rate;
      out[1] = toCylinder - carried;
      out[2] = toSystem + carried;
      out[3] = toCylinder + toSystem;
    };
    const relative = RELATIVE[charging.as];
    const scale = relative * mass;
    const joules = scale * refrigerant.latentHeat(cylinder.temperature);
    return integrateStiff(rates, from, y0, LONGEST, {
      relative,
      absolute: [scale, joules, joules, joules],
      events: [
        (_, y) => (y[0] ?? 0) - until,
        (time, y) => {
          const least = STOPPED * mass;
          const { rate } = momentOf(walk, gas, time, y);
          // near the end of the difference rounding hides the flow, while heat may well keep it up
          return (rate > 2 * least ? rate : Math.max(rate, heatDrivenRate(walk, gas, y))) - least;
        },
        // what is in the cylinder above its dry vapour: the liquid itself is never below 0, and would only tell the step
        (time, y) => {
          const { temperature } = momentOf(walk, gas, time, y).cylinder;
          const dry = vessel * refrigerant.saturatedVapourDensity(Math.min(temperature, refrigerant.highest));
          return cylinder.charge - (y[0] ?? 0) - dry;
        },
        (time, y) => momentOf(walk, gas, time, y).cylinder.temperature - refrigerant.lowest - COLD_MARGIN,
      ],
      onStep: (start, end, at) => {
        coldest = Math.min(coldest, momentOf(walk, gas, end, at(end)).cylinder.temperature);
        tell(end, (time) => momentOf(walk, gas, Math.max(time, start), at(Math.max(time, start))));
      },
    });
  };
  const ended = ({ status, event }: OdeResult): ChargeEnd => {
    // a march that gives up says nothing of the charge
    if (status === 'stuck') return raise({ kind: 'internal', detail: 'the march of a charge is stuck' });
    return event === undefined ? 'met' : (ENDS[event] ?? 'met');
  };
  const finish = (gas: boolean, { t, y }: Pick<OdeResult, 't' | 'y'>, end: ChargeEnd): ChargeResult => {
    const last = momentOf(walk, gas, t, y);
    return { end, time: t, charged: last.charged, coldest, last };
  };

  if (charging.as === 'liquid') {
    const start = momentOf(walk, false, 0, [0, held, 0, 0]);
    // the flow into vacuum is choked and steady at first
    const first = (time: number): readonly number[] => {
      const in1 = time * start.rate;
      const carried = in1 * outgoing(charging, cylinder.temperature);
      return [in1, held - carried, carried, 0];
    };
    const from = (FIRST_PART * mass) / start.rate;
    tell(from, (time) => momentOf(walk, false, time, first(time)));
    const filled = run(false, from, first(from), mass);
    return finish(false, filled, ended(filled));
  }
  const full = system.volume * refrigerant.saturatedVapourDensity(system.ambient);
  const thin = run(true, 0, [0, held, 0, 0], Math.min(mass, full));
  if (ended(thin) !== 'done' || mass <= full) return finish(true, thin, ended(thin));
  const energy = full * vapourEnergy(refrigerant, system.ambient);
  const walls = energy - (thin.y[2] ?? 0);
  const filled = run(false, thin.t, [full, thin.y[1] ?? 0, energy, (thin.y[3] ?? 0) + walls], mass);
  return finish(false, filled, ended(filled));
}
