import { describe, expect, it } from 'vitest';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import type { Machine } from '../../../src/engine/rig/rig.ts';
import { machineCurve, machineSuction, volumetricEfficiency } from '../../../src/engine/transfer/machine.ts';
import { prepareRealGasRig, realVapour, upstreamOfStages } from '../../../src/engine/transfer/real-gas-rig.ts';
import { core, hose, pumpOf, rigOf } from '../rig/fakes.ts';

const R134A = refrigerantByName('R-134a');
const vapour = realVapour(R134A, 293.15);
const DISCHARGE = R134A.bubblePressure(303.15);
const PLAIN: Machine = { name: 'plain', displacement: 1e-3, ultimate: 2e4, efficiency: 0.8, approach: 0 };
const CLEARED: Machine = { ...PLAIN, clearance: 0.04, ultimate: 0 };
const CUT_OUT: Machine = { ...CLEARED, ultimate: 1.2e5 };
const NARROW = prepareRealGasRig(rigOf(pumpOf(1), [hose(0.0048, 1.5), core(0.0016, 0.006)]), vapour);
const BARE = prepareRealGasRig(rigOf(pumpOf(1)), vapour);

describe('the volumetric efficiency of a machine', () => {
  it('without a clearance is e (1 - p_u/p_s), by hand', () => {
    expect(volumetricEfficiency(PLAIN, 8e4, 1e6, 1.1)).toBeCloseTo(0.8 * 0.75, 14);
    expect(volumetricEfficiency(PLAIN, 2e4, 1e6, 1.1)).toBe(0);
    expect(volumetricEfficiency(PLAIN, 1e4, 1e6, 1.1)).toBe(0);
  });
  it('with a clearance is e (1 - c ((p_d/p_s)^(1/n) - 1)), by hand, and does not know the cut-out', () => {
    // (32)^(1/1.25) = 16: 1 - 0.04 x 15 = 0.4
    for (const machine of [CLEARED, CUT_OUT])
      expect(volumetricEfficiency(machine, 1e5, 32e5, 1.25)).toBeCloseTo(0.32, 14);
    expect(volumetricEfficiency(CLEARED, 1e3, 32e5, 1.25)).toBe(0);
    // a suction above the discharge fills no more than the cylinder
    expect(volumetricEfficiency(CLEARED, 2e6, 1e6, 1.25)).toBe(0.8);
  });
});

describe('what a machine draws alone', () => {
  it('is swept volume x efficiency x density, and nothing at its lowest pressure or below', () => {
    const suction = machineSuction(PLAIN, vapour, DISCHARGE);
    expect(suction.lowest).toBe(2e4);
    for (const p of [3e4, 1e5, 4e5]) {
      expect(suction.flow(p)).toBeCloseTo(1e-3 * 0.8 * (1 - 2e4 / p) * vapour.density(p), 14);
    }
    for (const p of [2e4, 1e4, 0]) expect(suction.flow(p)).toBe(0);
  });

  it('gives back the suction pressure of any flow, over nine decades', () => {
    for (const machine of [PLAIN, CLEARED, { ...PLAIN, ultimate: 0 }]) {
      const suction = machineSuction(machine, vapour, DISCHARGE);
      for (const excess of [1e-3, 1, 1e2, 1e4, 3e5]) {
        const p = suction.lowest + excess;
        expect(Math.abs(suction.pressure(suction.flow(p)) - p) / excess).toBeLessThan(1e-5);
      }
      for (const none of [0, -1, Number.NaN]) expect(suction.pressure(none)).toBe(suction.lowest);
    }
  });

  it('with a clearance ends where (p_d/p)^(1/n) = 1 + 1/c, or at the cut-out where that is higher', () => {
    const n = vapour.gas.heatCapacityRatio;
    const zero = DISCHARGE / 26 ** n;
    expect(machineSuction(CLEARED, vapour, DISCHARGE).lowest / zero).toBeCloseTo(1, 12);
    expect(machineSuction({ ...CLEARED, ultimate: zero / 2 }, vapour, DISCHARGE).lowest / zero).toBeCloseTo(1, 12);
    const cut = machineSuction(CUT_OUT, vapour, DISCHARGE);
    expect(cut.lowest).toBe(1.2e5);
    expect(cut.flow(1.2e5 - 1e-6)).toBe(0);
    // at the cut-out it still draws with what its clearance leaves it
    const share = 1 - 0.04 * ((DISCHARGE / 1.2e5) ** (1 / n) - 1);
    expect(cut.flow(1.2e5)).toBeCloseTo(1e-3 * 0.8 * share * vapour.density(1.2e5), 12);
    expect(cut.pressure(cut.flow(1.2e5) / 2)).toBe(1.2e5);
  });
});

describe('the curve of a machine and a rig', () => {
  it('is the law of the machine itself where there is no rig', () => {
    const suction = machineSuction(PLAIN, vapour, DISCHARGE);
    const curve = machineCurve(BARE, vapour, suction, vapour.dewPressure);
    expect(curve).toMatchObject({ lowest: 2e4, top: vapour.dewPressure });
    for (const p of [2.1e4, 1e5, 5e5]) {
      expect(curve.flow(p)).toBe(suction.flow(p));
      expect(curve.conductance(Math.log(p - 2e4)) * (p - 2e4)).toBeCloseTo(suction.flow(p), 14);
    }
  });

  it('gives the flow at which suction and drop of the rig make up the system pressure, to a thousandth', () => {
    for (const machine of [PLAIN, CLEARED, CUT_OUT]) {
      const suction = machineSuction(machine, vapour, DISCHARGE);
      const curve = machineCurve(NARROW, vapour, suction, vapour.dewPressure);
      for (const share of [1e-6, 1e-4, 0.01, 0.1, 0.3, 0.5, 0.7, 0.9, 0.99, 1]) {
        const p = suction.lowest + share * (vapour.dewPressure - suction.lowest);
        const flow = curve.flow(p);
        const system = upstreamOfStages(NARROW.stages, flow / vapour.massPerThroughput, suction.pressure(flow));
        const miss = Math.abs((system - suction.lowest) / (p - suction.lowest) - 1);
        // the top of the table is one of its nodes
        expect(miss, `${share}`).toBeLessThan(share === 1 ? 1e-8 : 1e-3);
      }
    }
  });

  it('goes on level below its foot and draws nothing from its lowest pressure down', () => {
    const curve = machineCurve(NARROW, vapour, machineSuction(PLAIN, vapour, DISCHARGE), vapour.dewPressure);
    for (const p of [2e4, 1e4, 0]) expect(curve.flow(p)).toBe(0);
    expect(curve.conductance(-30)).toBe(curve.conductance(-40));
    expect(curve.flow(2e4 + 1e-9) / 1e-9 / curve.conductance(-30)).toBeCloseTo(1, 2);
  });

  it('is nothing where the machine draws from no pressure that the system has', () => {
    const suction = machineSuction({ ...PLAIN, ultimate: 1e6 }, vapour, DISCHARGE);
    for (const top of [1e6, 5e5]) {
      const curve = machineCurve(NARROW, vapour, suction, top);
      expect(curve).toMatchObject({ lowest: 1e6, top });
      expect([curve.flow(2e6), curve.conductance(3)]).toEqual([0, 0]);
    }
    // at its cut-out it would draw, but the system has no more than that
    const curve = machineCurve(NARROW, vapour, machineSuction(CUT_OUT, vapour, DISCHARGE), 1.2e5);
    expect([curve.flow(2e5), curve.conductance(3)]).toEqual([0, 0]);
  });

  it('of a rig so wide that it hardly drops the pressure is that of the machine alone, cut-out or not', () => {
    for (const machine of [PLAIN, CUT_OUT]) {
      const suction = machineSuction(machine, vapour, DISCHARGE);
      const wide = prepareRealGasRig(rigOf(pumpOf(1), [hose(1, 0.01)]), vapour);
      const curve = machineCurve(wide, vapour, suction, vapour.dewPressure);
      for (const p of [2e5, 4e5, 5.5e5]) expect(curve.flow(p) / suction.flow(p)).toBeCloseTo(1, 3);
    }
  });
});
