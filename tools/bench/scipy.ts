import { spawnSync } from 'node:child_process';
import type { RigCurve } from '../../src/engine/rig/curve.ts';
import { effectiveSpeed } from '../../src/engine/rig/speed.ts';

/** The same pull-down by scipy's LSODA on ln(speed) over ln(p) in straight lines; argument and answer are JSON. */
const SCRIPT = `
import json, sys, time
import numpy as np
from scipy.integrate import solve_ivp
task = json.load(sys.stdin)
x, s = np.array(task["x"]), np.array(task["lnSpeed"])
f = lambda t, y: task["volume"] / np.exp(np.interp(-t, x, s))
run = lambda: solve_ivp(f, (-x[-1], -x[0]), [0.0], method="LSODA", rtol=task["tolerance"], atol=task["tolerance"])
times = []
for _ in range(9):
    start = time.perf_counter()
    answer = run()
    times.append(time.perf_counter() - start)
print(json.dumps({"ms": 1e3 * min(times), "seconds": answer.y[0, -1]}))
`;
const POINTS = 400;

/** Milliseconds that scipy takes for one pull-down, and its seconds of pumping; undefined where there is no Python that has it. */
export function byScipy(
  curve: RigCurve,
  volume: number,
  start: number,
  target: number,
  tolerance: number,
): { readonly ms: number; readonly seconds: number } | undefined {
  const from = Math.log(target);
  const step = (Math.log(start) - from) / (POINTS - 1);
  const x = Array.from({ length: POINTS }, (_, i) => from + i * step);
  const lnSpeed = x.map((lnPressure) => Math.log(effectiveSpeed(curve, Math.exp(lnPressure))));
  const python = process.env.NARROWS_PYTHON ?? 'python3';
  const input = JSON.stringify({ x, lnSpeed, volume, tolerance });
  const ran = spawnSync(python, ['-c', SCRIPT], { input, encoding: 'utf8' });
  return ran.status === 0 ? (JSON.parse(ran.stdout) as { ms: number; seconds: number }) : undefined;
}
