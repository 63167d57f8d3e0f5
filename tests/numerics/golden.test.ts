import { expect, it } from 'vitest';
import { GOLDEN, goldenMinimum } from '../../src/numerics/golden.ts';

it('finds the bottom of a valley within the width that was asked for', () => {
  // arithmetic: (x - 3)^2 and |x - 0.2| have their minima at 3 and 0.2
  expect(goldenMinimum((x) => (x - 3) ** 2, 0, 10, 1e-6)).toBeCloseTo(3, 5);
  expect(goldenMinimum((x) => Math.abs(x - 0.2), -1, 1, 1e-9)).toBeCloseTo(0.2, 8);
});

it('goes to the lower end where there is no valley', () => {
  expect(goldenMinimum((x) => x, 2, 5, 1e-6)).toBeCloseTo(2, 5);
});

it('asks for one value a step', () => {
  let asked = 0;
  const steps = 18;
  goldenMinimum(
    (x) => {
      asked++;
      return x * x;
    },
    -1,
    2,
    3 * GOLDEN ** steps * 1.000001,
  );
  expect(asked).toBe(2 + steps);
});
