import { raise } from '../../faults/issue.ts';
import { pchip } from '../../numerics/interpolate.ts';
import { findRisingRoot } from '../../numerics/root.ts';
import type { PreparedRig } from '../rig/prepare.ts';
import type { Machine } from '../rig/rig.ts';
import { type RealVapour, upstreamOfStages } from './real-gas-rig.ts';

/**
 * What a recovery machine draws, alone and through a rig. SI.
 */

/**
 * Volumetric efficiency of a machine at a suction pressure (Pa), 0 to 1.
 *
 *     with a clearance ratio c:  eta = e [1 - c ((p_d/p_s)^(1/n) - 1)],  n the vapour's heat capacity ratio
 *     without:                   eta = e (1 - p_u/p_s)
 *
 * The first is the re-expansion of the vapour that stays in the clearance (textbooks of refrigeration); the second, as for
 * pumps, is the same with n = 1 where the re-expansion leaves nothing at the lowest pressure p_u. e is 1 where not given.
 *
 * @param discharge p_d, Pa
 */
export function volumetricEfficiency(
  machine: Machine,
  suction: number,
  discharge: number,
  heatCapacityRatio: number,
): number {
  const { clearance, efficiency, ultimate } = machine;
  const share =
    clearance === undefined
      ? 1 - ultimate / suction
      : 1 - clearance * ((discharge / suction) ** (1 / heatCapacityRatio) - 1);
  return efficiency * Math.min(1, Math.max(0, share));
}

/** A machine drawing one vapour against one discharge pressure. */
export interface MachineSuction {
  /** Pa; nothing is drawn from here down */
  readonly lowest: number;
  /** kg/s at a suction pressure (Pa) */
  flow(suction: number): number;
  /** Pa at the suction for a flow (kg/s); never below `lowest` */
  pressure(flow: number): number;
}

/**
 * mdot = displacement eta(p_s) rho(p_s, T). With a clearance the machine's own lowest pressure is a cut-out besides: it
 * draws from no lower pressure, and then takes what the rig brings there.
 */
export function machineSuction(machine: Machine, vapour: RealVapour, discharge: number): MachineSuction {
  const { displacement, clearance, ultimate } = machine;
  const n = vapour.gas.heatCapacityRatio;
  const zero = clearance === undefined ? ultimate : discharge * (clearance / (1 + clearance)) ** n;
  const lowest = Math.max(zero, ultimate);
  const flow = (suction: number): number =>
    suction > zero ? displacement * volumetricEfficiency(machine, suction, discharge, n) * vapour.density(suction) : 0;
  return {
    lowest,
    flow: (suction) => (suction >= lowest ? flow(suction) : 0),
    pressure(wanted) {
      if (!(wanted > 0)) return lowest;
      // in the excess over the pressure of no flow the flow rises with a power near 1
      const guess = wanted / (displacement * machine.efficiency * vapour.massPerThroughput);
      const miss = (ln: number): number => Math.log(flow(zero + Math.exp(ln)) / wanted);
      const x = findRisingRoot(miss, Math.log(guess), { slope: 1, absolute: 1e-11 });
      return Math.max(lowest, zero + Math.exp(x));
    },
  };
}

/** What a machine draws from a system through a rig, tabulated over the system pressure. */
export interface MachineCurve {
  /** Pa; the system gets no lower */
  readonly lowest: number;
  /** Pa; the highest pressure of the table */
  readonly top: number;
  readonly suction: MachineSuction;
  /** kg/s from the system at a pressure (Pa) */
  flow(pressure: number): number;
  /** mdot/(p - lowest), kg/(s Pa), at ln(p - lowest) */
  conductance(lnExcess: number): number;
}

/** Nodes of a curve, and how far down it goes as a part of the top flow; below, mdot/(p - lowest) is level. */
const NODES = 97;
const DEPTH = 1e-7;

/**
 * The curve of a machine and a prepared rig: from a flow the suction pressure is known, and the march gives the system
 * pressure. mdot = K e with e = p - lowest; ln K is tabulated over ln e and interpolated by a monotone cubic.
 *
 * @param top highest system pressure (Pa)
 * @throws `wrong` for a rig that nothing gets through
 */
export function machineCurve(rig: PreparedRig, vapour: RealVapour, suction: MachineSuction, top: number): MachineCurve {
  const { lowest } = suction;
  if (rig.stages.length === 0) {
    // nothing in front of the machine: its own law, as it is
    const conductance = (lnExcess: number): number => suction.flow(lowest + Math.exp(lnExcess)) / Math.exp(lnExcess);
    return { lowest, top, suction, conductance, flow: suction.flow };
  }
  const systemAt = (flow: number): number =>
    upstreamOfStages(rig.stages, flow / vapour.massPerThroughput, suction.pressure(flow));
  const most = suction.flow(top);
  if (!(top > lowest) || !(most > 0)) return { lowest, top, suction, flow: () => 0, conductance: () => 0 };
  const miss = (ln: number): number => Math.log((systemAt(Math.exp(ln)) - lowest) / (top - lowest));
  const lnTop = Math.min(Math.log(most), findRisingRoot(miss, Math.log(most), { slope: 1.2, absolute: 1e-10 }));
  const lnBottom = lnTop + Math.log(DEPTH);
  const x: number[] = [];
  const lnK: number[] = [];
  for (let i = 0; i < NODES; i++) {
    // closer at high flows, where choking and turbulence bend the curve
    const share = i / (NODES - 1);
    const lnFlow = lnBottom + (lnTop - lnBottom) * share * (2 - share);
    const lnExcess = i === NODES - 1 ? Math.log(top - lowest) : Math.log(systemAt(Math.exp(lnFlow)) - lowest);
    if (!(lnExcess < Number.POSITIVE_INFINITY)) return raiseBlocked(rig);
    // rounding at the foot must not turn the order; behind a cut-out a wide rig may show no excess there at all
    if (lnExcess <= (x.at(-1) ?? Number.NEGATIVE_INFINITY)) continue;
    x.push(lnExcess);
    lnK.push(lnFlow - lnExcess);
  }
  const table = pchip(x, lnK);
  const first = x[0] ?? 0;
  const conductance = (lnExcess: number): number => Math.exp(table.value(Math.max(first, lnExcess)));
  return {
    lowest,
    top,
    suction,
    conductance,
    flow(pressure) {
      const excess = pressure - lowest;
      return excess > 0 ? conductance(Math.log(excess)) * excess : 0;
    },
  };
}

function raiseBlocked(rig: PreparedRig): never {
  return raise({
    kind: 'wrong',
    argument: `rig "${rig.rig.name}"`,
    found: 'so narrow that no flow through it can be counted',
    allowed: 'parts that vapour gets through',
    todo: 'Check bores, lengths and flow coefficients, and their units.',
  });
}
