import { describe, expect, it } from 'vitest';
import { churchill } from '../../../src/engine/flow/friction.ts';

/** The formula as it is printed. Source: Churchill, Chem. Eng. 84(24) (1977) 91. */
function printed(re: number, roughness: number): number {
  const a = (2.457 * Math.log(1 / ((7 / re) ** 0.9 + 0.27 * roughness))) ** 16;
  const b = (37530 / re) ** 16;
  return 8 * ((8 / re) ** 12 + 1 / (a + b) ** 1.5) ** (1 / 12);
}

describe('friction of a round tube', () => {
  it.each([0, 1e-5, 3e-3, 0.05])('is the formula as printed, relative roughness %s', (roughness) => {
    for (let re = 10; re < 1e9; re *= 1.3)
      expect(Math.abs(churchill(re, roughness) / printed(re, roughness) - 1), `Re ${re}`).toBeLessThan(1e-12);
    for (const re of [999, 999.999, 1000, 1001])
      expect(Math.abs(churchill(re, roughness) / printed(re, roughness) - 1), `Re ${re}`).toBeLessThan(1e-12);
  });

  it('is 64/Re where the flow is laminar, to the last digit under Re 1000', () => {
    for (const re of [1e-200, 1e-9, 0.3, 640, 999.9]) expect(churchill(re, 0.01)).toBe(64 / re);
    expect(churchill(1000, 0.01) / 0.064).toBeCloseTo(1, 9);
  });
});
