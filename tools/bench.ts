import { createRequire } from 'node:module';
import { pullDownTime } from '../src/engine/evacuate/pulldown.ts';
import { gasState } from '../src/engine/gas/gas.ts';
import { throughputFrom } from '../src/engine/rig/fit.ts';
import { prepareRig } from '../src/engine/rig/prepare.ts';
import type { Rig, RigPart } from '../src/engine/rig/rig.ts';
import { effectiveSpeed } from '../src/engine/rig/speed.ts';
import { rigCurve } from '../src/engine/rig/sweep.ts';
import { callFunction } from '../src/functions/adapter.ts';
import { labourRisk } from '../src/functions/estimate/labour-risk.ts';
import { evacProject } from '../src/functions/evacuation/project.ts';
import type { Cell } from '../src/tables/cells.ts';
import { readConditions } from '../src/tables/conditions.ts';
import { readParts } from '../src/tables/rigs.ts';
import { readUnits } from '../src/tables/units.ts';

/**
 * Prints, from one run on one machine, how long the work takes and how that compares with a general package for ordinary
 * differential equations (odex: extrapolation method of high order, BSD-2-Clause) that does the same pull-downs.
 */

interface OdeSolver {
  absoluteTolerance: number;
  relativeTolerance: number;
  solve(
    f: (x: number, y: number[]) => number[],
    from: number,
    start: number[],
    to: number,
  ): { y: number[]; nEval: number };
}
// the package ships its source, which would be held to our compiler's rules if it were imported
const { Solver } = createRequire(import.meta.url)('odex') as { Solver: new (unknowns: number) => OdeSolver };

const UNITS = 100_000;
const RIGS = 12;
const REPEATS = 7;
const TOLERANCE = 1e-6;
const CFM = 0.3048 ** 3 / 60;
const AMBIENT = 101325;
const TARGET = 66.66;
const GAS = gasState('air', 293.15);

/** Best and middle of several runs, ms: the best is what the code costs, the middle what a shared machine gives. */
function timed(work: () => void, repeats = REPEATS): { best: number; middle: number } {
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

const EIGHT_PARTS: Rig = {
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

function partsRange(): Cell[][] {
  const rows: Cell[][] = [['Rig', 'Part', 'Kind', 'Bore (mm)', 'Length (m)', 'Speed (cfm)', 'Ultimate (micron)']];
  for (let i = 0; i < RIGS; i++) {
    rows.push([`rig ${i}`, 'pump', 'pump', '', '', 4 + (i % 3) * 2, 20]);
    rows.push([`rig ${i}`, 'hose', 'hose', 4.8 + i * 0.6, 1.5, '', '']);
    rows.push([`rig ${i}`, 'core', 'core', 1.5 + i * 0.1, 0.01, '', '']);
    rows.push([`rig ${i}`, 'port', 'port', 4.7, '', '', '']);
  }
  return rows;
}

function unitsRange(count: number): Cell[][] {
  const rows: Cell[][] = [['Unit', 'Count', 'Volume (L)', 'Rig']];
  for (let i = 0; i < count; i++) rows.push([`unit ${i}`, 1, 2 + (i % 97) * 0.7, `rig ${i % RIGS}`]);
  return rows;
}

function benchProject(rows: string[][]): void {
  const partsCells = partsRange();
  const unitsCells = unitsRange(UNITS);
  const values = { units: readUnits(unitsCells), parts: readParts(partsCells), conditions: readConditions(undefined) };
  const body = timed(() => {
    evacProject.body({ ...values, runs: undefined });
  });
  const reading = timed(() => {
    readUnits(unitsCells);
  });
  const whole = timed(() => {
    callFunction(evacProject, [unitsCells, partsCells]);
  });
  const perUnit = ({ best, middle }: { best: number; middle: number }): string =>
    `${((best * 1e3) / UNITS).toFixed(2)} us (middle ${((middle * 1e3) / UNITS).toFixed(2)})`;
  const what = `EVAC.PROJECT, ${UNITS} units x ${RIGS} rigs, per unit`;
  rows.push([`${what}: times and rows, curves there`, perUnit(body), 'under 10 us']);
  rows.push([`${what}: reading the units range`, perUnit(reading), '']);
  rows.push([`${what}: whole call, range to range`, perUnit(whole), '']);
}

function benchCurve(rows: string[][]): void {
  // steady state first: a sheet builds many curves in one process
  for (let i = 0; i < 30; i++) rigCurve(prepareRig(EIGHT_PARTS, GAS));
  const build = timed(() => {
    rigCurve(prepareRig(EIGHT_PARTS, GAS));
  }, 21);
  const { marches, x } = rigCurve(prepareRig(EIGHT_PARTS, GAS));
  rows.push([
    `curve of an 8-part rig (${marches} marches, ${x.length} nodes)`,
    `${build.best.toFixed(2)} ms (middle ${build.middle.toFixed(2)})`,
    'under 5 ms',
  ]);
}

function benchPeer(rows: string[][]): void {
  const prepared = prepareRig(EIGHT_PARTS, GAS);
  const curve = rigCurve(prepared);
  const volume = 0.02;
  const peer = (speed: (p: number) => number): { y: number[]; nEval: number } => {
    const solver = new Solver(1);
    solver.absoluteTolerance = TOLERANCE;
    solver.relativeTolerance = TOLERANCE;
    return solver.solve((x) => [volume / speed(Math.exp(-x))], -Math.log(AMBIENT), [0], -Math.log(TARGET));
  };
  const direct = (): { y: number[]; nEval: number } => peer((p) => throughputFrom(prepared, p) / p);
  const onCurve = (): { y: number[]; nEval: number } => peer((p) => effectiveSpeed(curve, p));
  const ours = pullDownTime(curve, volume, AMBIENT, TARGET);
  const theirs = direct();
  rows.push([
    `time of one pull-down: shared curve against odex on the marched rig, tolerance ${TOLERANCE}`,
    `${(Math.abs(ours / (theirs.y[0] ?? Number.NaN) - 1) * 100).toFixed(4)} % apart`,
    'under 0.2 %',
  ]);
  const many = 1000;
  const one = timed(() => {
    for (let i = 0; i < many; i++) pullDownTime(curve, volume + i * 1e-5, AMBIENT, TARGET);
  });
  const oneMs = one.best / many;
  const marched = timed(direct);
  const curved = timed(onCurve);
  const ratio = (ms: number): string => `${Math.round(ms / oneMs)} times`;
  rows.push(['one more pull-down on a curve that is there', `${(oneMs * 1e3).toFixed(2)} us`, '']);
  rows.push([`the same by odex on the marched rig (${theirs.nEval} evaluations)`, ratio(marched.best), 'ratio']);
  rows.push([`the same by odex on the shared curve (${onCurve().nEval} evaluations)`, ratio(curved.best), 'ratio']);
}

const RISK_ROWS = 1000;

/** All rows differ and have water, and all five factors act: the most work that a project of that size can be. */
function benchRisk(rows: string[][]): void {
  const units: Cell[][] = [['Unit', 'Count', 'Volume (L)', 'Rig', 'Water (g)', 'Heat (W/K)', 'Ambient']];
  for (let i = 0; i < RISK_ROWS; i++)
    units.push([`unit ${i}`, 1 + (i % 5), 2 + (i % 97) * 0.7, `rig ${i % RIGS}`, 3 + (i % 41) * 2, 2, 18]);
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
    callFunction(labourRisk, [units, parts, rates, factors]);
  }, 3);
  rows.push([
    `LABOUR.RISK, 10,000 scenarios x ${RISK_ROWS} rows, all wet and all different, range to range`,
    `${(call.best / 1e3).toFixed(2)} s (middle ${(call.middle / 1e3).toFixed(2)})`,
    'under 2 s',
  ]);
}

const rows: string[][] = [];
benchCurve(rows);
benchPeer(rows);
benchProject(rows);
benchRisk(rows);
const lines = [['what', 'measured', 'aim'], ['---', '---', '---'], ...rows].map((row) => `| ${row.join(' | ')} |`);
console.log(lines.join('\n'));
