import { describe, expect, it } from 'vitest';
import { farEnd, timeTo } from './series.ts';

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
