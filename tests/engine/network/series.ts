import { networkPullDown } from '../../../src/engine/network/pulldown.ts';
import { heldPipe } from './nets.ts';

const K = 2e-7;
const AREA = 5e-5;
const LENGTH = 20;
const START = 1000;
const HELD = 10;
/** s */
const TAU = (AREA * LENGTH * LENGTH) / K;

/**
 * Excess pressure at the closed end as a part of that at the start, held end x = 0:
 * sum of 4 (-1)^n/((2n + 1) pi) exp(-((2n + 1) pi/2)^2 t/tau).
 * Source: Carslaw and Jaeger, Conduction of Heat in Solids, 3.3 (slab, one face held, the other insulated).
 */
function closedEnd(time: number): number {
  let sum = 0;
  for (let n = 0; n < 200; n++) {
    const odd = 2 * n + 1;
    sum += ((4 * (-1) ** n) / (odd * Math.PI)) * Math.exp(-(((odd * Math.PI) / 2) ** 2) * (time / TAU));
  }
  return sum;
}

/** s until that part of the excess is left, by the series */
export function timeTo(part: number): number {
  let [low, high] = [0, 10 * TAU];
  for (let i = 0; i < 100; i++) {
    const middle = 0.5 * (low + high);
    if (closedEnd(middle) > part) low = middle;
    else high = middle;
  }
  return low;
}

/** the same by the network */
export function farEnd(part: number, refine = 1): number {
  const target = HELD + part * (START - HELD);
  return networkPullDown(heldPipe(K, AREA, LENGTH, HELD), START, target, undefined, { refine }).times[1] ?? Number.NaN;
}
