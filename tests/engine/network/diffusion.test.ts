import { describe, expect, it } from 'vitest';
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

function timeTo(part: number): number {
  let [low, high] = [0, 10 * TAU];
  for (let i = 0; i < 100; i++) {
    const middle = 0.5 * (low + high);
    if (closedEnd(middle) > part) low = middle;
    else high = middle;
  }
  return low;
}

function farEnd(part: number, refine = 1): number {
  const target = HELD + part * (START - HELD);
  return networkPullDown(heldPipe(K, AREA, LENGTH, HELD), START, target, undefined, { refine }).times[1] ?? Number.NaN;
}

describe('a closed pipe of constant conductance, held at one end', () => {
  it.each([0.9, 0.5, 0.1, 0.01])('stands at %s of its excess at its far end when the series says so', (part) => {
    expect(Math.abs(farEnd(part) / timeTo(part) - 1)).toBeLessThan(1e-3);
  });

  it('is met with the square of the segment length', () => {
    const misses = [0.1, 0.2, 0.4].map((refine) => Math.abs(farEnd(0.2, refine) / timeTo(0.2) - 1));
    const orders = [0, 1].map((i) => Math.log2((misses[i] ?? 0) / (misses[i + 1] ?? 1)));
    for (const order of orders) {
      expect(order).toBeGreaterThan(1.7);
      expect(order).toBeLessThan(2.3);
    }
  });
});
