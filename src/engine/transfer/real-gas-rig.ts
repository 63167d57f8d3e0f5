import { pchip } from '../../numerics/interpolate.ts';
import { findRisingRoot } from '../../numerics/root.ts';
import type { Passage, PreparedPassage } from '../flow/passage.ts';
import { preparePassage } from '../flow/prepare.ts';
import { MOLAR_GAS_CONSTANT } from '../gas/constants.ts';
import type { GasState } from '../gas/state.ts';
import type { Refrigerant } from '../refrigerant/refrigerant.ts';
import { type PreparedRig, prepareRig, type Stage } from '../rig/prepare.ts';
import type { Rig } from '../rig/rig.ts';
import { splitFlow } from '../rig/split.ts';

/**
 * Refrigerant vapour through a rig with its real density. SI.
 *
 * The passages are those of a perfect gas. A perfect gas whose molar mass is M/Z has the density of the real one where
 * Z is taken; and at one temperature the mass flow of a perfect gas through any of our passages is the same function of
 * p/sqrt(Z), since pressure only comes with sqrt(R_s T): a tube's p/(mu v0/a), an opening's p1/sqrt(R_s T) and so on. So
 *
 *     mdot(p1, p2) with Z  =  mdot(p1/sqrt(Z), p2/sqrt(Z)) of the dilute gas,
 *
 * and one set of tables serves every Z. Z is taken for each part on its own:
 *   tube: at p* = (2/3)(p1^2 + p1 p2 + p2^2)/(p1 + p2), which makes Int rho dp exact for a Z that is straight in p;
 *   opening, valve: at the inlet pressure, as the sizing equations do.
 *
 * Throughput here is mdot R_s T with the gas constant of the dilute gas, so that it is the same in every part.
 *
 * Limits: within 1 % of Int rho dp where Z is above 0.6; the heat capacity ratio and the viscosity are those of the
 * dilute gas (real vapour near saturation: choked flow of an opening 2 to 4 % less, viscosity up to some 10 % more).
 * The vapour is at one temperature; pressures above the dew line keep the Z of the dew line.
 */
export interface RealVapour {
  /** dilute gas */
  readonly gas: GasState;
  /** Pa at its temperature */
  readonly dewPressure: number;
  /** p/(rho R_s T) at a pressure (Pa) */
  compressibility(pressure: number): number;
  /** kg/m3 at a pressure (Pa) */
  density(pressure: number): number;
  /** d(density)/d(pressure) at the vapour's temperature, kg/(m3 Pa) */
  densitySlope(pressure: number): number;
  /** kg/s for a throughput of 1 Pa m3/s: 1/(R_s T) */
  readonly massPerThroughput: number;
}

/** The dilute vapour of a refrigerant at a temperature (K), as the flow engine takes a gas. */
export function vapourState(refrigerant: Refrigerant, temperature: number): GasState {
  const specificGasConstant = MOLAR_GAS_CONSTANT / refrigerant.molarMass;
  return {
    name: refrigerant.name,
    temperature,
    molarMass: refrigerant.molarMass,
    specificGasConstant,
    viscosity: refrigerant.vapourViscosity(temperature),
    heatCapacityRatio: refrigerant.heatCapacityRatio(temperature),
    probableSpeed: Math.sqrt(2 * specificGasConstant * temperature),
  };
}

/** A pressure this little above the dew line is on it. */
const SLACK = 1 + 1e-9;
/** Pressures as parts of the dew pressure at which Z is tabulated. */
const NODES = 64;

/**
 * The vapour of a refrigerant at one temperature (K).
 * @throws the refrigerant's own fault for a temperature outside its table
 */
export function realVapour(refrigerant: Refrigerant, temperature: number): RealVapour {
  const gas = vapourState(refrigerant, temperature);
  const dewPressure = refrigerant.dewPressure(temperature);
  const perThroughput = 1 / (gas.specificGasConstant * temperature);
  const at = Float64Array.from({ length: NODES + 1 }, (_, i) =>
    i === NODES ? dewPressure : (i / NODES) * dewPressure,
  );
  const z = at.map((pressure) =>
    pressure > 0 ? (pressure * perThroughput) / refrigerant.vapourDensity(temperature, pressure) : 1,
  );
  const table = pchip(at, z);
  const atDew = z[NODES] ?? 1;
  const compressibility = (pressure: number): number => (pressure >= dewPressure ? atDew : table.value(pressure));
  return {
    gas,
    dewPressure,
    compressibility,
    density: (pressure) => (pressure * perThroughput) / compressibility(pressure),
    densitySlope(pressure) {
      const here = compressibility(pressure);
      const slope = pressure > dewPressure * SLACK ? 0 : table.slope(Math.min(pressure, dewPressure));
      return (perThroughput * (here - pressure * slope)) / (here * here);
    },
    massPerThroughput: perThroughput,
  };
}

/** The pressure (Pa) at which a part takes its Z, from the pressures on both sides. */
function pressureOfZ(passage: Passage, upstream: number, downstream: number): number {
  if (passage.kind !== 'tube') return upstream;
  const sum = upstream + downstream;
  return sum > 0 ? (2 / 3) * (sum - (upstream * downstream) / sum) : 0;
}

const TOLERANCE = 1e-11;

/** A passage made ready for a real vapour; see above. */
export function prepareRealGas(passage: Passage, vapour: RealVapour): PreparedPassage {
  const dilute = preparePassage(passage, vapour.gas);
  const rootZ = (upstream: number, downstream: number): number =>
    Math.sqrt(vapour.compressibility(pressureOfZ(passage, upstream, downstream)));
  return {
    passage,
    gas: vapour.gas,
    bore: dilute.bore,
    throughput(upstream, downstream) {
      const z = rootZ(upstream, downstream);
      return dilute.throughput(upstream / z, downstream / z);
    },
    upstreamPressure(throughput, downstream) {
      if (!(throughput > 0)) return downstream;
      const next = (upstream: number): number => {
        const z = rootZ(upstream, downstream);
        return z * dilute.upstreamPressure(throughput, downstream / z);
      };
      // ln p1 - ln of what p1 asks for: slope 1 to 2, as Z falls with pressure
      const x = findRisingRoot((ln) => ln - Math.log(next(Math.exp(ln))), Math.log(next(downstream)), {
        slope: 1.1,
        absolute: TOLERANCE,
      });
      return Math.max(downstream, Math.exp(x));
    },
  };
}

/** A rig made ready for a real vapour; march it with throughputs mdot R_s T. */
export function prepareRealGasRig(rig: Rig, vapour: RealVapour): PreparedRig {
  return prepareRig(rig, vapour.gas, (passage) => prepareRealGas(passage, vapour));
}

/**
 * Pressure (Pa) in front of all stages of a rig while `flow` passes them against `downstream` (Pa). The flow is in the
 * unit that the passages take: throughput for vapour, kg/s for liquid.
 */
export function upstreamOfStages(stages: readonly Stage[], flow: number, downstream: number): number {
  let pressure = downstream;
  for (const stage of stages)
    pressure =
      stage.kind === 'part'
        ? stage.passage.upstreamPressure(flow / stage.count, pressure)
        : splitFlow(stage.legs, flow, pressure).upstream;
  return pressure;
}

/**
 * Mass flow (kg/s) of a vapour through a whole rig from `upstream` to `downstream` (Pa): one monotone root.
 * 0 where upstream is not above downstream.
 */
export function vapourFlow(rig: PreparedRig, vapour: RealVapour, upstream: number, downstream: number): number {
  if (!(upstream > downstream)) return 0;
  const { stages } = rig;
  // the flow that the first part alone would pass is a start; ln(drop) rises with ln(flow), slope 1 to 2
  const first = stages[0];
  if (first === undefined) return Number.POSITIVE_INFINITY;
  const alone =
    first.kind === 'part'
      ? first.count * first.passage.throughput(upstream, downstream)
      : (first.legs[0]?.ways[0]?.[0]?.passage.throughput(upstream, downstream) ?? 1);
  const drop = upstream - downstream;
  const miss = (ln: number): number =>
    Math.log((upstreamOfStages(stages, Math.exp(ln), downstream) - downstream) / drop);
  const ln = findRisingRoot(miss, Math.log(alone), { slope: 1.5, absolute: 1e-10 });
  return Math.exp(ln) * vapour.massPerThroughput;
}
