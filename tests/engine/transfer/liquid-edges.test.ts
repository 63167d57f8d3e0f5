import { describe, expect, it } from 'vitest';
import type { Passage } from '../../../src/engine/flow/passage.ts';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import type { RigPart } from '../../../src/engine/rig/rig.ts';
import {
  liquidDrop,
  liquidFlow,
  liquidFlowForDrop,
  liquidState,
  prepareLiquidRig,
} from '../../../src/engine/transfer/liquid-flow.ts';
import { vapourState } from '../../../src/engine/transfer/real-gas-rig.ts';
import { hose, port, pumpOf, rigOf } from '../rig/fakes.ts';

const WATER = { density: 1000, viscosity: 1e-3, vapourPressure: 2.5e5, criticalPressure: 4e6 };
const R22 = refrigerantByName('R-22');
const gas = vapourState(R22, 293.15);
const VALVE: Passage = { kind: 'valve', kv: 0.25, pressureDropRatio: 0.7 };
const part = (passage: Passage): RigPart => ({ ...port(0.004), passage });
const stagesOf = (parts: readonly RigPart[]) => prepareLiquidRig(rigOf(pumpOf(1), parts), gas, WATER).stages;

describe('the drop of liquid', () => {
  it('in a rough tube at a very high Reynolds number is by Nikuradse: 1/sqrt(f) = 2 log10(3.7 D/e)', () => {
    const passage: Passage = { kind: 'tube', bore: 0.01, length: 3, loss: 2, roughness: 1e-4 };
    const flow = 200;
    const speed = flow / (1000 * (Math.PI / 4) * 1e-4);
    const friction = (2 * Math.log10(3.7 * 100)) ** -2;
    const byHand = (friction * 300 + 2) * 0.5 * 1000 * speed ** 2;
    // Churchill's formula is the same to a per cent there
    expect(Math.abs(liquidDrop(passage, WATER, flow) / byHand - 1)).toBeLessThan(0.01);
  });

  it('in a valve grows with the square of the flow and falls with that of Kv', () => {
    // Kv 0.25: 0.25 m3/h of water at 1 bar
    expect(liquidDrop(VALVE, WATER, 250 / 3600)).toBeCloseTo(1e5, 4);
    expect(liquidDrop(VALVE, WATER, 500 / 3600)).toBeCloseTo(4e5, 4);
    expect(liquidDrop({ ...VALVE, kv: 0.5 }, { ...WATER, density: 2000 }, 500 / 3600)).toBeCloseTo(0.5e5, 4);
  });

  it('in a sonic conductance is that of the nozzle which chokes the same air', () => {
    // ISO 6358: C p1 rho0 kg/s of air at 20 C; an ideal nozzle chokes at 0.6847 p1 A/sqrt(R T), gamma 1.4
    // (White, Fluid Mechanics: 0.6847), R of air 287.05 J/(kg K)
    const conductance = 1e-8;
    const area = (conductance * 1.185 * Math.sqrt(287.05 * 293.15)) / 0.6847;
    const flow = 0.02;
    const byHand = (flow / area) ** 2 / (2 * 1000);
    const passage: Passage = { kind: 'sonic', sonicConductance: conductance, criticalRatio: 0.3 };
    expect(Math.abs(liquidDrop(passage, WATER, flow) / byHand - 1)).toBeLessThan(2e-4);
  });

  it('is nothing without a flow, whatever the passage', () => {
    const sonic: Passage = { kind: 'sonic', sonicConductance: 1e-8, criticalRatio: 0.3 };
    for (const passage of [hose(0.004, 1).passage, port(0.004).passage, VALVE, sonic])
      for (const none of [0, -1, Number.NaN]) expect(liquidDrop(passage, WATER, none)).toBe(0);
  });
});

describe('a passage made ready for liquid', () => {
  it.each([
    ['hose', hose(0.004, 2).passage, 0.004],
    ['port', port(0.003).passage, 0.003],
    ['valve', VALVE, 0],
  ] as const)('gives the flow of two pressures and the pressure of a flow: %s', (_, passage, bore) => {
    const [stage] = stagesOf([part(passage)]);
    if (stage?.kind !== 'part') throw new Error('a part is wanted');
    const ready = stage.passage;
    expect(ready.bore).toBe(bore);
    for (const drop of [1e-3, 10, 1e5, 3e6]) {
      const flow = ready.throughput(2e5 + drop, 2e5);
      expect(Math.abs((ready.upstreamPressure(flow, 2e5) - 2e5) / drop - 1)).toBeLessThan(1e-6);
    }
    expect(ready.throughput(1e5, 1e5)).toBe(0);
    expect(ready.throughput(1e5, 2e5)).toBe(0);
    expect(ready.upstreamPressure(0, 2e5)).toBe(2e5);
  });
});

describe('liquid through a rig', () => {
  it('at an opening is Cd A sqrt(2 rho dp) to 1e-9, over ten decades of flow', () => {
    const stages = stagesOf([port(0.004)]);
    const area = 0.8 * (Math.PI / 4) * 0.004 ** 2;
    for (const drop of [1e-6, 1, 1e3, 1e5, 1e8, 1e14]) {
      const byHand = area * Math.sqrt(2 * 1000 * drop);
      expect(Math.abs(liquidFlowForDrop(stages, drop) / byHand - 1)).toBeLessThan(1e-9);
    }
    // the flow that it begins to look from
    const begin = (1e-3 / area) ** 2 / 2000;
    expect(liquidFlowForDrop(stages, begin)).toBeCloseTo(1e-3, 12);
  });

  it('in series adds the drops: two alike openings pass 1/sqrt(2) of one', () => {
    const one = liquidFlowForDrop(stagesOf([port(0.004)]), 1e5);
    expect(liquidFlowForDrop(stagesOf([port(0.004), port(0.004)]), 1e5) / one).toBeCloseTo(Math.SQRT1_2, 9);
    expect(liquidFlowForDrop(stagesOf([{ ...port(0.004), count: 3 }]), 1e5) / one).toBeCloseTo(3, 9);
  });

  it('of parts that differ and lie in parallel is the sum of each alone', () => {
    const alone = [port(0.004), hose(0.003, 1)].map((each) => liquidFlowForDrop(stagesOf([each]), 1e5));
    const both = [port(0.004, { branch: 'b' }), hose(0.003, 1, { branch: 'b' })];
    expect(liquidFlowForDrop(stagesOf(both), 1e5)).toBeCloseTo((alone[0] ?? 0) + (alone[1] ?? 0), 9);
  });

  it('has no limit where there is no part', () => {
    expect(liquidFlowForDrop([], 1e5)).toBe(Number.POSITIVE_INFINITY);
  });

  it('chokes just below F_F p_v and says so: F_F = 0.96 - 0.28 sqrt(1/16) = 0.89 (IEC 60534-2-1)', () => {
    const stages = stagesOf([port(0.004)]);
    const boiling = 0.89 * 2.5e5;
    expect(liquidFlow(stages, WATER, 1e6, boiling + 1)).toMatchObject({ choked: false });
    const choked = liquidFlow(stages, WATER, 1e6, boiling - 1);
    expect(choked.choked).toBe(true);
    const byHand = 0.8 * (Math.PI / 4) * 0.004 ** 2 * Math.sqrt(2000 * (1e6 - boiling));
    expect(choked.flow / byHand).toBeCloseTo(1, 9);
    expect(liquidFlow(stages, WATER, boiling - 1, 0)).toEqual({ flow: 0, choked: true });
    expect(liquidFlow(stages, WATER, 4e5, 5e5)).toEqual({ flow: 0, choked: false });
  });

  it('of a refrigerant has the properties of boiling liquid at its temperature', () => {
    // R-22 at 20 C: 1210 kg/m3, 9.1 bar, critical 49.9 bar; tables of the trade, from memory
    const state = liquidState(R22, 293.15);
    expect(state.density / 1210).toBeCloseTo(1, 2);
    expect(state.vapourPressure / 9.1e5).toBeCloseTo(1, 2);
    expect(state.criticalPressure / 49.9e5).toBeCloseTo(1, 2);
    expect(state.viscosity / 1.7e-4).toBeCloseTo(1, 0);
  });
});
