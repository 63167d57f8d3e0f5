import { describe, expect, it } from 'vitest';
import { preparePassage } from '../../src/engine/flow/prepare.ts';
import { valveLiquid } from '../../src/engine/flow/valve.ts';
import { perfectGas } from '../engine/flow/gases.ts';
import { expectWithin, runAccount } from './assert.ts';
import { AIR_MASS, CALM, FULL_RECOVERY, sonicRow, valves } from './flow-valves.ts';
import { cite, referenceRows } from './rows.ts';

runAccount(valves);

describe('a component of known sonic conductance at ordinary pressures', () => {
  // the creeping-flow cap, which rarefied flow needs, still takes its share of a small pressure difference:
  // 0.376 delta (1 - r)/r is 450 at 7 bar and r = 0.99
  const rows = referenceRows('valve_sizing').filter((row) => /^ISC-(0\d|1[0-2]|19)$/.test(row.id));
  it.each(rows.map((row) => [`${row.id} ${row.cells.inputs}`, row] as const))('is as ISO 6358 says: %s', (_, row) => {
    expectWithin(sonicRow(row).engine, Number(row.value), 6e-4, cite(row));
  });
});

describe('a valve of known Kv', () => {
  it('passes 1 m3/h of water times Kv at 1 bar, by definition', () => {
    const water = { density: 1000, ...CALM };
    expect((valveLiquid(2.5, water, 3e5, 2e5, FULL_RECOVERY) * 3600) / 1000).toBeCloseTo(2.5, 12);
  });

  it('is as IEC 60534-2-1 says at ordinary pressures: constants 110 for Kv', () => {
    // kg/h = 110 Kv p1 Y sqrt(x M/(T Z)) with bar, kg/kmol, K. Source: IEC 60534-2-1, Table of constants, N8 for Kv
    for (const x of [0.05, 0.2, 0.5, 0.9]) {
      const held = Math.min(x, 0.7);
      const theirs = 110 * 0.3 * 5 * (1 - held / (3 * 0.7)) * Math.sqrt((held * 28.9655) / 293.15);
      const gas = perfectGas(AIR_MASS, 293.15, 1.82e-5);
      const valve = preparePassage({ kind: 'valve', kv: 0.3, pressureDropRatio: 0.7 }, gas);
      const ours = (valve.throughput(5e5, 5e5 * (1 - x)) / (gas.specificGasConstant * gas.temperature)) * 3600;
      expectWithin(ours, theirs, 5e-3, 'N8 = 110 is printed to three digits');
    }
  });
});
