import { createRequire } from 'node:module';
import { gasState } from '../../src/engine/gas/gas.ts';
import type { Rig, RigPart } from '../../src/engine/rig/rig.ts';
import type { Cell } from '../../src/tables/cells.ts';

/** What the parts of the bench have in common. */

/** A line of the table that is printed: what, measured, aim. */
export type BenchRow = readonly [what: string, measured: string, aim: string];

/** odex: extrapolation method of high order, BSD-2-Clause */
interface OdeSolver {
  absoluteTolerance: number | number[];
  maxSteps: number;
  relativeTolerance: number;
  solve(
    f: (x: number, y: number[]) => number[],
    from: number,
    start: number[],
    to: number,
  ): { y: number[]; nEval: number };
}
// the package ships its source, which would be held to our compiler's rules if it were imported
export const { Solver } = createRequire(import.meta.url)('odex') as { Solver: new (unknowns: number) => OdeSolver };

export const RIGS = 12;
const REPEATS = 7;
export const TOLERANCE = 1e-6;
const CFM = 0.3048 ** 3 / 60;
/** Pa, from and to which is pumped */
export const AMBIENT = 101325;
export const TARGET = 66.66;
export const GAS = gasState('air', 293.15);

/** Best and middle of several runs, ms: the best is what the code costs, the middle what a shared machine gives. */
export function timed(work: () => unknown, repeats = REPEATS): { best: number; middle: number } {
  work();
  const runs = Array.from({ length: repeats }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  }).sort((a, b) => a - b);
  return { best: runs[0] ?? Number.NaN, middle: runs[repeats >> 1] ?? Number.NaN };
}

const tube = (name: string, kind: RigPart['kind'], bore: number, length: number): RigPart => ({
  name,
  kind,
  count: 1,
  passage: { kind: 'tube', bore, length, loss: 1.5, roughness: 1.5e-6 },
});
const opening = (name: string, bore: number): RigPart => ({
  name,
  kind: 'port',
  count: 1,
  passage: { kind: 'opening', bore, dischargeCoefficient: 0.8 },
});

export const EIGHT_PARTS: Rig = {
  name: 'eight parts',
  pump: { name: 'pump', speed: 4 * CFM, ultimate: 2.7 },
  parts: [
    opening('pump port', 4.7e-3),
    tube('hose', 'hose', 4.8e-3, 1.5),
    opening('manifold seat', 5e-3),
    tube('manifold passage', 'manifold', 6e-3, 0.1),
    tube('hose to system', 'hose', 4.8e-3, 0.9),
    opening('depressor', 4e-3),
    tube('core', 'core', 1.5e-3, 10e-3),
    opening('port', 4.7e-3),
  ],
};

export function partsRange(): Cell[][] {
  const rows: Cell[][] = [['Rig', 'Part', 'Kind', 'Bore (mm)', 'Length (m)', 'Speed (cfm)', 'Ultimate (micron)']];
  for (let i = 0; i < RIGS; i++) {
    rows.push([`rig ${i}`, 'pump', 'pump', '', '', 4 + (i % 3) * 2, 20]);
    rows.push([`rig ${i}`, 'hose', 'hose', 4.8 + i * 0.6, 1.5, '', '']);
    rows.push([`rig ${i}`, 'core', 'core', 1.5 + i * 0.1, 0.01, '', '']);
    rows.push([`rig ${i}`, 'port', 'port', 4.7, '', '', '']);
  }
  return rows;
}

export function unitsRange(count: number): Cell[][] {
  const rows: Cell[][] = [['Unit', 'Count', 'Volume (L)', 'Rig']];
  for (let i = 0; i < count; i++) rows.push([`unit ${i}`, 1, 2 + (i % 97) * 0.7, `rig ${i % RIGS}`]);
  return rows;
}
