import { describe, expect, it } from 'vitest';
import { chokedConstant, criticalRatio } from '../../src/engine/flow/nozzle.ts';
import { prepareTube } from '../../src/engine/flow/tube.ts';
import { machAt, massFlowConstant } from '../engine/flow/compressible.ts';
import { perfectGas } from '../engine/flow/gases.ts';
import { expectWithin, runAccount } from './assert.ts';
import { AIR_MASS, choked, engineFlow, MU, R } from './flow-choked.ts';
import { cite, numberOf, referenceRows } from './rows.ts';

runAccount(choked);

const n = numberOf;

describe('a choked hose of the engine, which is isothermal', () => {
  const rows = referenceRows('fanno_choked').filter((row) => row.id.startsWith('HX-'));
  it.each(rows.map((row) => [row.id, row] as const))('lies within 5 %% of adiabatic flow: %s', (_, row) => {
    const gas = perfectGas(R / n(row, 'R'), n(row, 'T0_K'), MU, n(row, 'gamma'));
    // smooth entry: one velocity head turns into motion
    const duct = { bore: n(row, 'D_m'), length: n(row, 'L_m'), loss: 1, friction: n(row, 'f_Darcy') };
    const ours = engineFlow(duct, gas, n(row, 'p0_Pa'), 0, Number(row.value));
    expectWithin(ours, Number(row.value), 0.05, cite(row));
  });

  it('never beats the ideal nozzle with its default loss, however short', () => {
    const gas = perfectGas(AIR_MASS, 293.15, MU);
    const area = (Math.PI / 4) * 0.003 ** 2;
    for (const length of [1e-6, 1e-4, 1e-2])
      for (const p of [1e3, 1e5, 1e6]) {
        const q = prepareTube({ kind: 'tube', bore: 0.003, length, loss: 1.5, roughness: 0 }, gas).throughput(p, 0);
        const rt = gas.specificGasConstant * gas.temperature;
        expect(q).toBeLessThan(chokedConstant(1.4) * area * p * Math.sqrt(rt));
      }
  });

  it('leaves at the Mach number that a static over total pressure of 0.5283 means, when ideal and adiabatic', () => {
    // ties the helper relations to each other: critical ratio of air and Mach 1
    expect(machAt(1.4, criticalRatio(1.4))).toBeCloseTo(1, 12);
    expect(massFlowConstant(1.4, 1)).toBeCloseTo(chokedConstant(1.4), 12);
  });
});
