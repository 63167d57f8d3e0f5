import { describe, expect, it } from 'vitest';
import { frictionTable } from '../../../src/engine/network/friction-table.ts';

/** Darcy friction factor. Source: Churchill, Chem. Eng. 84(24) (1977) 91. */
function darcy(re: number, roughness: number): number {
  const a = (2.457 * Math.log(1 / ((7 / re) ** 0.9 + 0.27 * roughness))) ** 16;
  const b = (37530 / re) ** 16;
  return 8 * ((8 / re) ** 12 + 1 / (a + b) ** 1.5) ** (1 / 12);
}
const tableOf = (roughness: number) => {
  const table = frictionTable(roughness);
  const out = { taken: Number.NaN, power: Number.NaN };
  const at = (re: number) => {
    table(re, out);
    return out;
  };
  return { friction: (re: number) => at(re).taken, power: (re: number) => at(re).power };
};
const taken = (re: number, roughness: number): number => (re * re * darcy(re, roughness)) / 16;
/** even steps in the logarithm, none on a node of the table */
const SOME = Array.from({ length: 400 }, (_, i) => 1000 * 10 ** ((4 * (i + 0.37)) / 400));

describe('the table of friction', () => {
  it.each([0, 2e-4, 5e-3])(
    'is Churchill from 1000 to 1e7, all but where the flow changes over, relative roughness %s',
    (roughness) => {
      const { friction } = tableOf(roughness);
      for (const re of SOME)
        expect(Math.abs(friction(re) / taken(re, roughness) - 1)).toBeLessThan(re < 2000 || re > 5000 ? 3e-6 : 1e-4);
      for (const re of [1000, 1000.001, 9.999e6, 1e7])
        expect(Math.abs(friction(re) / taken(re, roughness) - 1)).toBeLessThan(1e-6);
    },
  );

  it.each([0, 5e-3])('tells the power of Re with which it grows, relative roughness %s', (roughness) => {
    const { power } = tableOf(roughness);
    for (const re of SOME) {
      const slope = Math.log(taken(re * 1.0001, roughness) / taken(re / 1.0001, roughness)) / (2 * Math.log(1.0001));
      expect(Math.abs(power(re) - slope)).toBeLessThan(re < 2000 || re > 5000 ? 2e-3 : 0.015);
    }
  });

  it('is 4 Re where the flow is laminar, and grows with Re', () => {
    const { friction, power } = tableOf(2e-4);
    for (const re of [1e-9, 1, 640, 999.99]) expect([friction(re), power(re)]).toEqual([4 * re, 1]);
    expect(friction(1000) / 4000).toBeCloseTo(1, 8);
    expect(power(1000)).toBeCloseTo(1, 6);
  });

  it('grows with the square of Re beyond, as in a rough tube', () => {
    const { friction, power } = tableOf(5e-3);
    expect(friction(3e7) / friction(1e7)).toBeCloseTo(9, 8);
    expect(friction(1e9) / friction(1e7)).toBeCloseTo(1e4, 4);
    expect(power(3e7)).toBe(power(1e7));
    expect(power(1e7)).toBeCloseTo(2, 2);
  });
});
