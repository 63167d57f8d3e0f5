import { describe, expect, it } from 'vitest';
import { tubeConductance } from '../../src/engine/flow/conductance.ts';
import { poiseuille } from '../../src/engine/flow/poiseuille.ts';
import { knudsen, rarefaction } from '../../src/engine/flow/regime.ts';
import { transmission } from '../../src/engine/flow/transmission.ts';
import { prepareTube } from '../../src/engine/flow/tube.ts';
import { gasState } from '../../src/engine/gas/gas.ts';
import { perfectGas } from '../engine/flow/gases.ts';
import { expectNear, expectWithin, halfLastDigit, runRows } from './account.ts';
import { cite, numberOf, type ReferenceRow, referenceRows } from './rows.ts';

const air = gasState('air', 293.15);
const delta = (row: ReferenceRow): number => numberOf(row, 'delta');

/**
 * The handbook formula and the integral of G_P have no end correction: a tube a million times as long has none either,
 * and passes a millionth.
 */
const LONG = 1e6;

/** L/s of a long tube's unit by the engine; lengths in cm, mean pressure in mbar, as the handbook writes it. */
const handbook = (bore: number, length: number, pressure: number): number =>
  tubeConductance(air, bore / 100, (length / 100) * LONG, pressure * 100) * LONG * 1000;

runRows(
  'tube_rarefied',
  [
    [/^(GP|GPF)-/, (row) => expectNear(row, poiseuille(delta(row)))],
    [/^GPB-01$/, (row) => expectNear(row, poiseuille(delta(row)))],
    // the engine has another, kinetic, formula: the row's second tolerance
    [/^KN-/, (row) => expectNear(row, poiseuille(delta(row)), Number(row.value), 1)],
    [/^LIM-01$/, (row) => expectNear(row, poiseuille(delta(row)))],
    [
      /^LIM-02$/,
      (row) => {
        const bore = 0.01;
        expectNear(row, rarefaction(air, bore, 7) * 2 * knudsen(air, bore, 7));
      },
    ],
    [/^HB-01$/, (row) => expectNear(row, handbook(1, 1, 1e4) / 1e4)],
    [/^HB-02$/, (row) => expectNear(row, handbook(1, 1, 1e-9))],
    [
      /^HBC-/,
      (row) => {
        const ours = handbook(numberOf(row, 'D_cm'), numberOf(row, 'L_cm'), numberOf(row, 'pmean_mbar'));
        expectNear(row, ours, Number(row.value), 1);
      },
    ],
    [
      /^THR-/,
      (row) => {
        const gas = perfectGas(numberOf(row, 'M_kgmol'), numberOf(row, 'T'), numberOf(row, 'eta_Pas'));
        const length = numberOf(row, 'L_m') * LONG;
        const tube = prepareTube({ kind: 'tube', bore: numberOf(row, 'D_m'), length, loss: 0, roughness: 0 }, gas);
        expectNear(row, tube.throughput(numberOf(row, 'p1_Pa'), numberOf(row, 'p2_Pa')) * LONG);
      },
    ],
  ],
  { 'GPB-02': 'walls of incomplete accommodation: the engine has diffuse walls only' },
);

runRows(
  'tube_transmission',
  [
    [
      /^TP-/,
      (row) => {
        const ours = transmission(Number(row.cells.L_over_R));
        const theirs = row.cells.W_Berman ?? '';
        const slack = Math.max(1e-5 * Number(theirs), halfLastDigit(theirs), 1e-12);
        expect(Math.abs(ours - Number(theirs)), `${cite(row)}: ours ${ours}`).toBeLessThanOrEqual(slack);
        // Berman's formula is at most 0.07 % from the solved integral equation
        expectWithin(ours, Number(row.cells.W_exact), 7e-4, cite(row));
      },
    ],
  ],
  {},
);

describe('the handbook formula for long tubes of air', () => {
  const [viscous, molecular] = ['HB-01', 'HB-02'].map((id) => referenceRows('tube_rarefied').find((r) => r.id === id));
  // C = 135 D^4 p/L + 12.1 D^3/L (1 + 192 D p)/(1 + 237 D p); D, L in cm, p in mbar. Source: the HB rows
  const theirs = (bore: number, p: number): number =>
    135 * bore ** 4 * p + (12.1 * bore ** 3 * (1 + 192 * bore * p)) / (1 + 237 * bore * p);

  it('is met within 1 % at its viscous and molecular ends', () => {
    for (const bore of [0.2, 0.476, 0.953, 3]) {
      expectWithin(handbook(bore, 1, 100 / bore), theirs(bore, 100 / bore), 0.01, viscous ? cite(viscous) : '');
      expectWithin(handbook(bore, 1, 1e-6 / bore), theirs(bore, 1e-6 / bore), 0.01, molecular ? cite(molecular) : '');
    }
  });

  it('is met within 6 % at every pressure between', () => {
    for (let dp = 1e-6; dp < 100; dp *= 1.3)
      expectWithin(handbook(1, 1, dp), theirs(1, dp), 0.06, viscous ? cite(viscous) : '');
  });
});
