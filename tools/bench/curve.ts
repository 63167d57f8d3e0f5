import { pullDownTime } from '../../src/engine/evacuate/pulldown.ts';
import { throughputFrom } from '../../src/engine/rig/fit.ts';
import { prepareRig } from '../../src/engine/rig/prepare.ts';
import { effectiveSpeed } from '../../src/engine/rig/speed.ts';
import { rigCurve } from '../../src/engine/rig/sweep.ts';
import { AMBIENT, type BenchRow, EIGHT_PARTS, GAS, Solver, TARGET, TOLERANCE, timed } from './common.ts';
import { byScipy } from './scipy.ts';

export function benchCurve(rows: BenchRow[]): void {
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

export function benchPeer(rows: BenchRow[]): void {
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
  const scipy = byScipy(curve, volume, AMBIENT, TARGET, TOLERANCE);
  rows.push([
    'the same by scipy (LSODA) on the shared curve',
    scipy === undefined ? 'no Python with scipy here' : ratio(scipy.ms),
    'ratio',
  ]);
}
