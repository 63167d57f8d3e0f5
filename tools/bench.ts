import { createRequire } from 'node:module';
import { dryOut, type WetSystem } from '../src/engine/dry/dry-out.ts';
import { POOLS } from '../src/engine/dry/pool.ts';
import { mixtureThroughput, rigSurface } from '../src/engine/dry/rig-surface.ts';
import { pullDownTime } from '../src/engine/evacuate/pulldown.ts';
import { gasState } from '../src/engine/gas/gas.ts';
import { saturationPressure, VAPOUR_GAS_CONSTANT } from '../src/engine/gas/water.ts';
import { throughputFrom } from '../src/engine/rig/fit.ts';
import { prepareRig } from '../src/engine/rig/prepare.ts';
import type { Rig, RigPart } from '../src/engine/rig/rig.ts';
import { effectiveSpeed } from '../src/engine/rig/speed.ts';
import { rigCurve } from '../src/engine/rig/sweep.ts';
import { callFunction } from '../src/functions/adapter.ts';
import { labourRisk } from '../src/functions/estimate/labour-risk.ts';
import { evacProject } from '../src/functions/evacuation/project.ts';
import type { Derivative } from '../src/numerics/ode.ts';
import { integrateStiff } from '../src/numerics/rodas.ts';
import type { Cell } from '../src/tables/cells.ts';
import { readConditions } from '../src/tables/conditions.ts';
import { readParts } from '../src/tables/rigs.ts';
import { readUnits } from '../src/tables/units.ts';

/**
 * Prints, from one run on one machine, how long the work takes and how that compares with a general package for ordinary
 * differential equations (odex: extrapolation method of high order, BSD-2-Clause) that does the same pull-downs. A short look
 * found no stiff one; for wet units our own general one, with slopes by differences, is the second peer.
 */

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
function timed(work: () => unknown, repeats = REPEATS): { best: number; middle: number } {
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

const WET_UNITS = 2000;
const WET_PART = 50;
const WET_REPEATS = 25;
const WET_TOLERANCE = 1e-4;
/** The part of the dry-out that the peers are given: up to just before the pool is gone, where no stage ends. */
const NEARLY = 0.99;

function benchWet(rows: string[][]): void {
  const surface = rigSurface(EIGHT_PARTS, GAS, gasState('water vapour', GAS.temperature));
  const units = Array.from({ length: WET_UNITS }, (_, i): WetSystem => {
    const [volume, water, heat] = [0.002 + (i % 97) * 7e-4, 5e-4 * (1 + (i % 41)), 0.5 * (1 + (i % 13))];
    return { volume, water, heat, start: AMBIENT, target: TARGET, quick: true };
  });
  // in parts of a few milliseconds, so that the best of each is not what else the machine does
  const sheet = { best: 0, middle: 0 };
  for (let from = 0; from < WET_UNITS; from += WET_PART) {
    const part = units.slice(from, from + WET_PART);
    const { best, middle } = timed(() => {
      for (const unit of part) dryOut(surface, unit);
    }, WET_REPEATS);
    sheet.best += best;
    sheet.middle += middle;
  }
  const perSecond = (ms: number): string => Math.round((WET_UNITS * 1e3) / ms).toLocaleString('en');
  rows.push([
    `wet units a second through a shared surface (${WET_UNITS} units, 0.5 to 20 g of water, with and without freezing)`,
    `${perSecond(sheet.best)} (middle ${perSecond(sheet.middle)})`,
    'at least 20,000',
  ]);
  const building = timed(() => {
    rigSurface(EIGHT_PARTS, GAS, gasState('water vapour', GAS.temperature));
  });
  rows.push(['building that surface', `${building.best.toFixed(1)} ms`, '']);

  // one unit that does not freeze, by general solvers on the same equations and surface
  const unit: WetSystem = { volume: 0.02, water: 5e-3, heat: 5, start: AMBIENT, target: TARGET, quick: true };
  const fine = dryOut(surface, { ...unit, quick: false });
  const own = timed(() => {
    for (let i = 0; i < WET_PART; i++) dryOut(surface, unit);
  }, WET_REPEATS);
  const oneMs = own.best / WET_PART;
  const ambient = GAS.temperature;
  const perThroughput = 1 / (VAPOUR_GAS_CONSTANT * ambient);
  const rates: Derivative = (_, y, out) => {
    const [gas = 0, temperature = 0, mass = 0] = y;
    const { pressure: vapour, slope } = POOLS.liquid.saturation(temperature);
    const latent = POOLS.liquid.latent(temperature);
    const throughput = mixtureThroughput(surface, gas + vapour, vapour / (gas + vapour));
    const off = (vapour / (gas + vapour)) * throughput * perThroughput;
    const filling = unit.volume * perThroughput * vapour * slope;
    const held = mass * POOLS.liquid.heat(temperature) + latent * filling;
    out[0] = ((vapour / (gas + vapour) - 1) * throughput) / unit.volume;
    out[1] = (unit.heat * (ambient - temperature) - latent * off) / held;
    out[2] = -off - filling * out[1];
  };
  const start = [AMBIENT - saturationPressure(ambient), ambient, unit.water];
  const absolute = [100, 10, unit.water].map((size) => WET_TOLERANCE * size);
  const end = NEARLY * fine.dry;
  const stiff = (): number =>
    integrateStiff(rates, 0, start, end, { relative: WET_TOLERANCE, absolute, mostSteps: 1e6 }).evaluations;
  const slopes = new Float64Array(3);
  const extrapolating = (): number => {
    const solver = new Solver(3);
    solver.absoluteTolerance = absolute;
    solver.relativeTolerance = WET_TOLERANCE;
    solver.maxSteps = 1e6;
    const f = (x: number, y: number[]): number[] => {
      rates(x, Float64Array.from(y), slopes);
      return Array.from(slopes);
    };
    return solver.solve(f, 0, start, end).nEval;
  };
  const ratio = (ms: number): string => `${(ms / oneMs).toFixed(1)} times`;
  rows.push(['one wet unit to dry and target, the quick way', `${(oneMs * 1e3).toFixed(1)} us`, 'under 50 us']);
  const general = `up to ${NEARLY} of its time until dry, tolerance ${WET_TOLERANCE}`;
  const byStiff = timed(stiff, WET_REPEATS);
  rows.push([
    `the same ${general}, by our general stiff solver (RODAS3, numeric slopes, ${stiff()} evaluations)`,
    ratio(byStiff.best),
    'ratio',
  ]);
  rows.push([
    `the same ${general}, by odex (${extrapolating()} evaluations)`,
    ratio(timed(extrapolating, WET_REPEATS).best),
    'ratio',
  ]);
  const marched = timed(() => {
    dryOut(surface, { ...unit, quick: false });
  });
  rows.push(['the same to dry and target, by fine steps', ratio(marched.best), '']);
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
benchWet(rows);
benchProject(rows);
benchRisk(rows);
const lines = [['what', 'measured', 'aim'], ['---', '---', '---'], ...rows].map((row) => `| ${row.join(' | ')} |`);
console.log(lines.join('\n'));
