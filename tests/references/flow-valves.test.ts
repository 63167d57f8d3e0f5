import { describe, expect, it } from 'vitest';
import { chokedConstant } from '../../src/engine/flow/nozzle.ts';
import { preparePassage } from '../../src/engine/flow/prepare.ts';
import { SONIC_REFERENCE, sonicMassFlow } from '../../src/engine/flow/sonic.ts';
import {
  DEFAULT_PRESSURE_DROP_RATIO,
  KV_PER_CV,
  liquidCriticalFactor,
  valveLiquid,
} from '../../src/engine/flow/valve.ts';
import { bisect } from '../engine/flow/compressible.ts';
import { perfectGas } from '../engine/flow/gases.ts';
import { expectNear, expectWithin, runRows } from './account.ts';
import { cite, numberOf, type ReferenceRow, referenceRows } from './rows.ts';

const n = numberOf;
const BAR = 1e5;
const AIR_MASS = 0.0289655;
/** Rows of a liquid that cannot flash. */
const CALM = { vapourPressure: 0, criticalPressure: 1 } as const;
const FULL_RECOVERY = 1;

function sonicRow(row: ReferenceRow): { ours: number; engine: number } {
  const [c, b, p1, t1, ratio] = [n(row, 'C'), n(row, 'b'), n(row, 'p1_Pa'), n(row, 'T1_K'), n(row, 'p2/p1')];
  const gas = perfectGas(AIR_MASS, t1, 1.82e-5);
  const passage = preparePassage({ kind: 'sonic', sonicConductance: c, criticalRatio: b }, gas);
  return {
    ours: sonicMassFlow(c, b, p1, p1 * ratio, t1, n(row, 'm')),
    engine: passage.throughput(p1, p1 * ratio) / (gas.specificGasConstant * gas.temperature),
  };
}

/** kg/h through a valve of `kv` by the engine; Z is folded into the gas constant. */
function gasRow(row: ReferenceRow, kv: number, x: number): number {
  const gas = perfectGas(n(row, 'M') / 1000 / n(row, 'Z'), n(row, 'T'), 1.5e-5, n(row, 'gamma'));
  const p1 = n(row, 'p1_bar') * BAR;
  const valve = preparePassage({ kind: 'valve', kv, pressureDropRatio: n(row, 'xT') }, gas);
  return (valve.throughput(p1, p1 * (1 - x)) / (gas.specificGasConstant * gas.temperature)) * 3600;
}

/** x of "x=dp/p1=0.2" */
const dropRatio = (row: ReferenceRow): number => Number(/x=dp\/p1=([\d.]+)/.exec(row.cells.inputs ?? '')?.[1]);

/** Required Kv of the two worked liquid examples: the flow is proportional to Kv. */
function requiredKv(flow: number, density: number, recovery: number): number {
  const liquid = { density, vapourPressure: 70.1e3, criticalPressure: 22120e3 };
  return (flow * density) / 3600 / valveLiquid(1, liquid, 680e3, 220e3, recovery);
}

/**
 * Required Kv of the worked gas example, with fittings: the piping factor Fp of IEC 60534-2-1 (reducers, sizes in mm) is
 * written out here, the flow is the engine's. As the example does: Y by x_T, Fp by repeated substitution until Kv moves
 * by less than 1 %. (Carried to the end it is 72.8; with x_TP, which the standard asks for where there are fittings, 71.0.)
 */
function fittedGasKv(row: ReferenceRow): number {
  const [d1, d2, d] = [n(row, 'D1'), n(row, 'D2'), 50];
  const gas = perfectGas(n(row, 'M') / 1000 / n(row, 'Z'), 433, 1.4665e-5, n(row, 'gamma'));
  const [p1, p2] = [n(row, 'p1_kPa') * 1e3, n(row, 'p2_kPa') * 1e3];
  // normal cubic metres: 0 C, 101.325 kPa
  const mass = ((n(row, 'Q_normal_m3h') / 3600) * 101325 * (n(row, 'M') / 1000)) / (8.314462618 * 273.15);
  const n2 = 0.0016;
  const sum = 0.5 * (1 - (d / d1) ** 2) ** 2 + (1 - (d / d2) ** 2) ** 2 + (1 - (d / d1) ** 4) - (1 - (d / d2) ** 4);
  const flow = (kv: number): number => {
    const valve = preparePassage({ kind: 'valve', kv, pressureDropRatio: n(row, 'xT') }, gas);
    return valve.throughput(p1, p2) / (gas.specificGasConstant * gas.temperature);
  };
  const bare = bisect((kv) => flow(kv) - mass, 1, 500);
  let before = 0;
  let kv = bare;
  while (before < 0.99 * kv) {
    before = kv;
    kv = bare * Math.sqrt(1 + (sum / n2) * (kv / d ** 2) ** 2);
  }
  return kv;
}

runRows(
  'valve_sizing',
  [
    [/^ISC-(0\d|1\d)$/, (row) => expectNear(row, sonicRow(row).ours)],
    [
      /^ISC-20$/,
      (row) => {
        const perArea =
          chokedConstant(n(row, 'gamma')) / (Math.sqrt(n(row, 'R') * n(row, 'T0')) * SONIC_REFERENCE.density);
        expectNear(row, perArea);
      },
    ],
    [/^IEC-01$/, (row) => expectNear(row, requiredKv(360, 965.4, 0.9))],
    [/^IEC-02$/, (row) => expectNear(row, requiredKv(360, 965.4, 0.6))],
    [/^IEC-03$/, (row) => expectNear(row, fittedGasKv(row))],
    [/^IEC-05$|^FF-/, (row) => expectNear(row, liquidCriticalFactor(n(row, 'pv_kPa'), n(row, 'pc_kPa')))],
    /**
     * These rows use N8 = 94.8 (bar, kg/h), which IEC 60534-2-1 lists for Cv; for Kv it lists 110. Kv's own definition
     * (rows IEL), row CV-02 and the worked example IEC-03 agree with 110. So their coefficient is a Cv here.
     */
    [/^IEG-/, (row) => expectNear(row, gasRow(row, n(row, 'Kv') * KV_PER_CV, dropRatio(row)))],
    [
      /^IEL-/,
      (row) => {
        const drop = n(row, 'dp_bar') * BAR;
        const liquid = { density: n(row, 'rho'), ...CALM };
        expectNear(row, valveLiquid(n(row, 'Kv'), liquid, 10 * drop, 9 * drop, FULL_RECOVERY) * 3600);
      },
    ],
    [/^CV-01$/, (row) => expectNear(row, KV_PER_CV)],
    [
      /^CV-02$/,
      (row) => {
        const gas = perfectGas(AIR_MASS, SONIC_REFERENCE.temperature, 1.82e-5);
        const kv = n(row, 'Cv') * KV_PER_CV;
        const valve = preparePassage({ kind: 'valve', kv, pressureDropRatio: DEFAULT_PRESSURE_DROP_RATIO }, gas);
        const p1 = 7 * BAR;
        const mass = valve.throughput(p1, 0) / (gas.specificGasConstant * gas.temperature);
        // m3/(s Pa) to dm3/(s bar)
        expectNear(row, (mass / (SONIC_REFERENCE.density * p1)) * 1e8);
      },
    ],
  ],
  {
    'IS-01': 'a formula without numbers: rows ISC are its values',
    'IS-02': 'a formula without numbers: rows ISC are its values',
    'IEC-04': 'laminar flow through a small trim (F_R): not modelled',
  },
);

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
