import type { Passage, PreparedPassage } from '../../../src/engine/flow/passage.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import type { GasState } from '../../../src/engine/gas/state.ts';
import type { Pump, Rig, RigPart } from '../../../src/engine/rig/rig.ts';

export const AIR: GasState = gasState('air', 293.15);

/** Stand-in for a passage of constant conductance, m3/s: an opening whose bore holds the conductance. */
export function constantPart(name: string, conductance: number, more: Partial<RigPart> = {}): RigPart {
  return {
    name,
    kind: 'hose',
    count: 1,
    passage: { kind: 'opening', bore: conductance, dischargeCoefficient: 1 },
    ...more,
  };
}

/** Q = C (p1 - p2): series and parallel then follow the textbook rules by hand. */
export function prepareConstant(passage: Passage, gas: GasState): PreparedPassage {
  const conductance = passage.kind === 'opening' ? passage.bore : Number.NaN;
  return {
    passage,
    gas,
    bore: 0.005,
    upstreamPressure: (throughput, downstream) => downstream + throughput / conductance,
    throughput: (upstream, downstream) => conductance * (upstream - downstream),
  };
}

/** Laminar continuum flow alone, Q = (a/2)(p1^2 - p2^2) with a = pi D^4/(128 eta L), as some textbook rows want it. */
export function prepareLaminar(passage: Passage, gas: GasState): PreparedPassage {
  if (passage.kind !== 'tube') throw new Error('a tube is wanted');
  const a = (Math.PI * passage.bore ** 4) / (128 * gas.viscosity * passage.length);
  return {
    passage,
    gas,
    bore: passage.bore,
    upstreamPressure: (throughput, downstream) => Math.sqrt(downstream ** 2 + (2 * throughput) / a),
    throughput: (upstream, downstream) => (a / 2) * (upstream ** 2 - downstream ** 2),
  };
}

export function pumpOf(speed: number, ultimate = 0): Pump {
  return { name: 'pump', speed, ultimate };
}

export function rigOf(pump: Pump, parts: readonly RigPart[] = []): Rig {
  return { name: 'rig', pump, parts };
}

export function hose(bore: number, length: number, more: Partial<RigPart> = {}): RigPart {
  return {
    name: `hose ${(bore * 1e3).toFixed(1)} mm`,
    kind: 'hose',
    count: 1,
    passage: { kind: 'tube', bore, length, loss: 1.5, roughness: 1.5e-6 },
    ...more,
  };
}

export function core(bore: number, length: number, more: Partial<RigPart> = {}): RigPart {
  return { ...hose(bore, length), name: 'core', kind: 'core', ...more };
}

export function port(bore: number, more: Partial<RigPart> = {}): RigPart {
  return {
    name: `port ${(bore * 1e3).toFixed(1)} mm`,
    kind: 'port',
    count: 1,
    passage: { kind: 'opening', bore, dischargeCoefficient: 0.8 },
    ...more,
  };
}
