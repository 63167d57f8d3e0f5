import { raise } from '../../faults/issue.ts';
import { type Interpolant, pchip } from '../../numerics/interpolate.ts';
import type { Refrigerant } from '../refrigerant/refrigerant.ts';
import type { PreparedRig } from '../rig/prepare.ts';
import type { Pump, Rig } from '../rig/rig.ts';
import { liquidFlow, liquidState, prepareLiquidRig } from './liquid-flow.ts';
import { prepareRealGasRig, realVapour, vapourFlow, vapourState } from './real-gas-rig.ts';

/** Flow out of a cylinder through a rig. */
export interface ChargeFlow {
  /** kg/s */
  readonly flow: number;
  /** true where a lower pressure in the system would draw no more */
  readonly choked: boolean;
}

/** From the cylinder's temperature (K) and pressure and the system's pressure (Pa). */
export type ChargeFlowLaw = (temperature: number, cylinder: number, system: number) => ChargeFlow;

const NONE: ChargeFlow = { flow: 0, choked: false };
/** Charging is driven by pressure alone: the pump or machine of the rig stands still. */
const NO_PUMP: Pump = { name: 'none', speed: 1, ultimate: 0 };

/** The parts as the refrigerant meets them from the system back to the cylinder, which stands where the pump would. */
function towardsCylinder(rig: Rig): Rig {
  if (rig.parts.length === 0)
    raise({ kind: 'missing', argument: `A part between cylinder and system in rig "${rig.name}"` });
  return { name: rig.name, pump: NO_PUMP, parts: [...rig.parts].reverse() };
}

/** Saturated liquid through all parts of a rig as one restriction with choked flashing; see `liquidFlow`. */
export function liquidLaw(refrigerant: Refrigerant, rig: Rig): ChargeFlowLaw {
  const turned = towardsCylinder(rig);
  return (temperature, cylinder, system) => {
    if (!(cylinder > system)) return NONE;
    const liquid = liquidState(refrigerant, temperature);
    const { stages } = prepareLiquidRig(turned, vapourState(refrigerant, temperature), liquid);
    return liquidFlow(stages, liquid, cylinder, system);
  };
}

/** K between temperatures for which the flow of vapour is worked out; between them ln(flow/pressure) is near straight */
const TEMPERATURE_STEP = 6;
/** places along sqrt(1 - p2/p1), in which the flow begins straight */
const PLACES = 16;
/** a flow this near to that into vacuum counts as choked */
const CHOKED = 0.9999;

/** Their tables depend on rig and refrigerant alone, so that they go on serving while those records live. */
const laws = new WeakMap<Rig, WeakMap<Refrigerant, ChargeFlowLaw>>();

/**
 * Saturated vapour through a rig, real gas at the cylinder's temperature all along; see `vapourFlow`. Tabulated once for
 * each few degrees over the square root of the part of the pressure that is lost, then interpolated.
 */
export function vapourLaw(refrigerant: Refrigerant, rig: Rig): ChargeFlowLaw {
  const ofRig = laws.get(rig) ?? new WeakMap<Refrigerant, ChargeFlowLaw>();
  laws.set(rig, ofRig);
  const law = ofRig.get(refrigerant) ?? tabulated(refrigerant, rig);
  ofRig.set(refrigerant, law);
  return law;
}

function tabulated(refrigerant: Refrigerant, rig: Rig): ChargeFlowLaw {
  const turned = towardsCylinder(rig);
  const { lowest, highest } = refrigerant;
  const tables = new Map<number, Interpolant>();
  const nodeTemperature = (node: number): number => Math.min(lowest + node * TEMPERATURE_STEP, highest);
  /** kg/s for each Pa in the cylinder, over s = sqrt(1 - p2/p1) */
  const tableOf = (node: number): Interpolant => {
    const known = tables.get(node);
    if (known !== undefined) return known;
    const vapour = realVapour(refrigerant, nodeTemperature(node));
    const prepared: PreparedRig = prepareRealGasRig(turned, vapour);
    const upstream = vapour.dewPressure;
    const places = Float64Array.from({ length: PLACES + 1 }, (_, i) => i / PLACES);
    const flows = places.map((s) =>
      s === 0 ? 0 : vapourFlow(prepared, vapour, upstream, upstream * (1 - s * s)) / upstream,
    );
    const table = pchip(places, flows);
    tables.set(node, table);
    return table;
  };
  const perPascal = (temperature: number, s: number): number => {
    const last = Math.ceil((highest - lowest) / TEMPERATURE_STEP);
    const node = Math.min(Math.max(0, Math.floor((temperature - lowest) / TEMPERATURE_STEP)), last - 1);
    const from = nodeTemperature(node);
    const part = (temperature - from) / (nodeTemperature(node + 1) - from);
    return tableOf(node).value(s) ** (1 - part) * tableOf(node + 1).value(s) ** part;
  };
  return (temperature, cylinder, system) => {
    if (!(cylinder > system)) return NONE;
    const s = Math.sqrt(Math.max(0, 1 - system / cylinder));
    const flow = cylinder * perPascal(temperature, s);
    return { flow, choked: flow >= CHOKED * cylinder * perPascal(temperature, 1) };
  };
}
