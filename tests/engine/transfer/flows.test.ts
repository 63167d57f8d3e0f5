import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { preparePassage } from '../../../src/engine/flow/prepare.ts';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import type { Machine } from '../../../src/engine/rig/rig.ts';
import { liquidDrop, liquidFlow, liquidState, prepareLiquidRig } from '../../../src/engine/transfer/liquid-flow.ts';
import { machineCurve, machineSuction, volumetricEfficiency } from '../../../src/engine/transfer/machine.ts';
import {
  prepareRealGas,
  prepareRealGasRig,
  realVapour,
  upstreamOfStages,
  vapourFlow,
} from '../../../src/engine/transfer/real-gas-rig.ts';
import { core, hose, port, pumpOf, rigOf } from '../rig/fakes.ts';

const R410A = refrigerantByName('R-410A');
const AMBIENT = 293.15;
const MACHINE: Machine = { name: 'machine', displacement: 3 / 3600, ultimate: 2e4, efficiency: 0.8, approach: 0 };
const PARTS = [hose(0.0048, 1.5), core(0.0016, 0.006), port(0.004)];

describe('real vapour through a passage', () => {
  const vapour = realVapour(R410A, AMBIENT);

  it('is the dilute gas where the pressure is low', () => {
    for (const { passage } of PARTS) {
      const real = prepareRealGas(passage, vapour);
      const dilute = preparePassage(passage, vapour.gas);
      expect(real.throughput(300, 100) / dilute.throughput(300, 100)).toBeCloseTo(1, 4);
    }
  });

  it('gives back the pressure that drives a flow', () => {
    const pressures = fc.double({ min: 1e3, max: 1.4e6, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...PARTS), pressures, pressures, ({ passage }, a, b) => {
        const [down, up] = [Math.min(a, b), Math.max(a, b)];
        fc.pre(up > 1.02 * down);
        const real = prepareRealGas(passage, vapour);
        const upstream = real.upstreamPressure(real.throughput(up, down), down);
        // at a choked passage the flow hardly knows the pressure behind: the pressure in front is found all the same
        expect(upstream / up).toBeCloseTo(1, 6);
      }),
      { numRuns: 40 },
    );
  });

  it('is Int rho dp over the friction of Hagen and Poiseuille in a long narrow tube, where Z is not 1', () => {
    // by hand: a laminar flow, so that f L/D is 64 mu L/(G D^2) and K and the logarithm are small beside it
    const { passage } = hose(0.0001, 40);
    if (passage.kind !== 'tube') throw new Error('a tube is wanted');
    const [p1, p2] = [1.3e6, 0.9e6];
    const real = prepareRealGas(passage, vapour);
    const mdot = real.throughput(p1, p2) * vapour.massPerThroughput;
    let integral = 0;
    for (let i = 0; i < 2000; i++) integral += vapour.density(p2 + ((i + 0.5) * (p1 - p2)) / 2000) * ((p1 - p2) / 2000);
    const byHand = (Math.PI * passage.bore ** 4 * integral) / (128 * vapour.gas.viscosity * passage.length);
    expect(vapour.compressibility(p1)).toBeLessThan(0.8);
    expect(mdot / byHand).toBeCloseTo(1, 2);
  });

  it('through a whole rig is the flow that the march asks for', () => {
    const rig = prepareRealGasRig(rigOf(pumpOf(1), PARTS), vapour);
    const flow = vapourFlow(rig, vapour, 8e5, 1e5);
    expect(upstreamOfStages(rig.stages, flow / vapour.massPerThroughput, 1e5)).toBeCloseTo(8e5, 0);
    expect(vapourFlow(rig, vapour, 1e5, 1e5)).toBe(0);
  });
});

describe('a recovery machine', () => {
  const vapour = realVapour(R410A, AMBIENT);

  it('loses to its clearance what re-expands, and draws nothing where that fills the cylinder', () => {
    const machine = { ...MACHINE, clearance: 0.05, efficiency: 1, ultimate: 0 };
    // 1 - 0.05 (8 - 1) = 0.65 at a pressure ratio of 8 and n = 1
    expect(volumetricEfficiency(machine, 1e5, 8e5, 1)).toBeCloseTo(0.65, 12);
    const discharge = R410A.bubblePressure(AMBIENT);
    const suction = machineSuction(machine, vapour, discharge);
    // (p_d/p)^(1/n) = 1 + 1/c = 21
    expect(suction.lowest).toBeCloseTo(discharge / 21 ** vapour.gas.heatCapacityRatio, 6);
    expect(suction.flow(suction.lowest)).toBe(0);
  });

  it('does not draw from below its lowest pressure', () => {
    const suction = machineSuction({ ...MACHINE, clearance: 0.02 }, vapour, R410A.bubblePressure(AMBIENT));
    expect(suction.lowest).toBeGreaterThanOrEqual(2e4);
    expect(suction.pressure(1e-9)).toBe(suction.lowest);
    const flow = suction.flow(3e5);
    expect(suction.pressure(flow)).toBeCloseTo(3e5, 2);
  });

  it('draws through a rig what its curve says, at any system pressure', () => {
    const rig = prepareRealGasRig(rigOf(pumpOf(1), PARTS), vapour);
    for (const machine of [MACHINE, { ...MACHINE, clearance: 0.02, ultimate: 4e4 }]) {
      const suction = machineSuction(machine, vapour, R410A.bubblePressure(AMBIENT));
      const curve = machineCurve(rig, vapour, suction, vapour.dewPressure);
      for (const pressure of [5e4, 1e5, 3e5, 7e5, 1.2e6]) {
        const flow = curve.flow(pressure);
        const system = upstreamOfStages(rig.stages, flow / vapour.massPerThroughput, suction.pressure(flow));
        expect(Math.abs(system / pressure - 1)).toBeLessThan(1e-3);
      }
      expect(curve.flow(curve.lowest)).toBe(0);
    }
  });
});

describe('liquid through a rig', () => {
  const liquid = { density: 1000, viscosity: 1e-3, vapourPressure: 1e6, criticalPressure: 4e6 };
  // F_F = 0.96 - 0.28 sqrt(1/4) = 0.82 by hand (IEC 60534-2-1)
  const boiling = 0.82e6;

  it('drops by the friction of Hagen and Poiseuille where it is laminar, and by Cd A sqrt(2 rho dp) at an opening', () => {
    const { passage } = hose(0.004, 10);
    const flow = 1e-4;
    const byHand = (128 * 1e-3 * 10 * flow) / (Math.PI * 1000 * 0.004 ** 4);
    expect(liquidDrop(passage, liquid, flow) / byHand).toBeCloseTo(1, 2);
    const orifice = port(0.004).passage;
    const through = 0.8 * (Math.PI / 4) * 0.004 ** 2 * Math.sqrt(2 * 1000 * 5e4);
    expect(liquidDrop(orifice, liquid, through)).toBeCloseTo(5e4, 4);
    // 1 m3/h of water at 1 bar is the definition of Kv = 1
    expect(liquidDrop({ kind: 'valve', kv: 1, pressureDropRatio: 0.7 }, liquid, 1000 / 3600)).toBeCloseTo(1e5, 4);
  });

  it('chokes at F_F p_v: a lower pressure behind draws no more', () => {
    const { gas } = realVapour(R410A, AMBIENT);
    const { stages } = prepareLiquidRig(rigOf(pumpOf(1), PARTS), gas, liquid);
    const choked = liquidFlow(stages, liquid, 1e6, boiling);
    expect(liquidFlow(stages, liquid, 1e6, 1e5)).toEqual({ flow: choked.flow, choked: true });
    expect(liquidFlow(stages, liquid, 1e6, 0.9e6).flow).toBeLessThan(choked.flow);
    expect(liquidFlow(stages, liquid, 1e6, 1e6).flow).toBe(0);
    expect(upstreamOfStages(stages, choked.flow, 0)).toBeCloseTo(1e6 - boiling, 2);
  });

  it('of two hoses side by side is twice that of one', () => {
    const { gas } = realVapour(R410A, AMBIENT);
    const state = liquidState(R410A, AMBIENT);
    const flowOf = (count: number): number => {
      const parts = Array.from({ length: count }, () => hose(0.0048, 1.5, { branch: 'both' }));
      const { stages } = prepareLiquidRig(rigOf(pumpOf(1), parts), gas, state);
      return liquidFlow(stages, state, 1.4e6, 1e5).flow;
    };
    expect(flowOf(2) / flowOf(1)).toBeCloseTo(2, 6);
  });
});
