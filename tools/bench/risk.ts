import { callFunction } from '../../src/functions/adapter.ts';
import { labourRisk } from '../../src/functions/estimate/labour-risk.ts';
import type { Cell } from '../../src/tables/cells.ts';
import { type BenchRow, partsRange, RIGS, timed } from './common.ts';

const RISK_ROWS = 1000;

/** All rows differ and have water, and all five factors act: the most work that a project of that size can be. */
export function benchRisk(rows: BenchRow[]): void {
  // what has been worked out is kept: each run has units that differ in the tenth digit
  const unitsOf = (run: number): Cell[][] => [
    ['Unit', 'Count', 'Volume (L)', 'Rig', 'Water (g)', 'Heat (W/K)', 'Ambient'],
    ...Array.from({ length: RISK_ROWS }, (_, i) => [
      ...[`unit ${i}`, 1 + (i % 5), (2 + (i % 97) * 0.7) * (1 + 1e-10 * run), `rig ${i % RIGS}`],
      ...[3 + (i % 41) * 2, 2, 18],
    ]),
  ];
  let run = 0;
  const rates: Cell[][] = [
    ['Role', 'Rate', 'Waits'],
    ['fitter', 40, 0.3],
  ];
  const factors: Cell[][] = [
    ['On', 'Low', 'Likely', 'High'],
    ['water', 0.4, 1, 2.5],
    ['ambient', -5, 0, 5],
    ['access', 0.9, 1, 1.4],
    ['learning', 0.9, 1, 1.3],
    ['leaks', 0, 5, 20],
  ];
  const parts = partsRange();
  const call = timed(() => {
    run += 1;
    callFunction(labourRisk, [unitsOf(run), parts, rates, factors]);
  }, 3);
  rows.push([
    `LABOUR.RISK, 10,000 scenarios x ${RISK_ROWS} rows, all wet and all different, range to range`,
    `${(call.best / 1e3).toFixed(2)} s (middle ${(call.middle / 1e3).toFixed(2)})`,
    'under 2 s',
  ]);
}
