import { tubeConductance } from '../../src/engine/flow/conductance.ts';
import { poiseuille } from '../../src/engine/flow/poiseuille.ts';
import { knudsen, rarefaction } from '../../src/engine/flow/regime.ts';
import { transmission } from '../../src/engine/flow/transmission.ts';
import { prepareTube } from '../../src/engine/flow/tube.ts';
import { gasState } from '../../src/engine/gas/gas.ts';
import { perfectGas } from '../engine/flow/gases.ts';
import { account, closeTo, halfLastDigit, near, within } from './account.ts';
import { numberOf, type ReferenceRow } from './rows.ts';

const air = gasState('air', 293.15);
const delta = (row: ReferenceRow): number => numberOf(row, 'delta');

/**
 * The handbook formula and the integral of G_P have no end correction: a tube a million times as long has none either,
 * and passes a millionth.
 */
const LONG = 1e6;

/** L/s of a long tube's unit by the engine; lengths in cm, mean pressure in mbar, as the handbook writes it. */
export const handbook = (bore: number, length: number, pressure: number): number =>
  tubeConductance(air, bore / 100, (length / 100) * LONG, pressure * 100) * LONG * 1000;

export const rarefiedTubes = account(
  'tube_rarefied',
  [
    [/^(GP|GPF)-/, (row) => near(row, poiseuille(delta(row)))],
    [/^GPB-01$/, (row) => near(row, poiseuille(delta(row)))],
    // the engine has another, kinetic, formula: the row's second tolerance
    [/^KN-/, (row) => near(row, poiseuille(delta(row)), Number(row.value), 1)],
    [/^LIM-01$/, (row) => near(row, poiseuille(delta(row)))],
    [
      /^LIM-02$/,
      (row) => {
        const bore = 0.01;
        return near(row, rarefaction(air, bore, 7) * 2 * knudsen(air, bore, 7));
      },
    ],
    [/^HB-01$/, (row) => near(row, handbook(1, 1, 1e4) / 1e4)],
    [/^HB-02$/, (row) => near(row, handbook(1, 1, 1e-9))],
    [
      /^HBC-/,
      (row) => {
        const ours = handbook(numberOf(row, 'D_cm'), numberOf(row, 'L_cm'), numberOf(row, 'pmean_mbar'));
        return near(row, ours, Number(row.value), 1);
      },
    ],
    [
      /^THR-/,
      (row) => {
        const gas = perfectGas(numberOf(row, 'M_kgmol'), numberOf(row, 'T'), numberOf(row, 'eta_Pas'));
        const length = numberOf(row, 'L_m') * LONG;
        const tube = prepareTube({ kind: 'tube', bore: numberOf(row, 'D_m'), length, loss: 0, roughness: 0 }, gas);
        return near(row, tube.throughput(numberOf(row, 'p1_Pa'), numberOf(row, 'p2_Pa')) * LONG);
      },
    ],
  ],
  { 'GPB-02': 'walls of incomplete accommodation: the engine has diffuse walls only' },
);

export const transmissions = account(
  'tube_transmission',
  [
    [
      /^TP-/,
      (row) => {
        const ours = transmission(Number(row.cells.L_over_R));
        const theirs = row.cells.W_Berman ?? '';
        const slack = Math.max(1e-5 * Number(theirs), halfLastDigit(theirs), 1e-12);
        return [
          closeTo(ours, Number(theirs), slack, 'the same formula'),
          // Berman's formula is at most 0.07 % from the solved integral equation
          within(ours, Number(row.cells.W_exact), 7e-4, 'the integral equation, within 0.07 %'),
        ];
      },
    ],
  ],
  {},
);
