import { describe, expect, it } from 'vitest';
import { integrate } from '../../src/numerics/dormand-prince.ts';
import { integrateStiff } from '../../src/numerics/rodas.ts';

describe.each([
  ['non-stiff', integrate],
  ['stiff', integrateStiff],
] as const)('the work of %s integration', (_, solve) => {
  it('is counted to the last call, refused steps too', () => {
    let calls = 0;
    const { evaluations, refused } = solve(
      (t, y, out) => {
        calls++;
        out[0] = -50 * ((y[0] ?? 0) - (t > 1 ? 2 : 0));
      },
      0,
      [1],
      2,
      { relative: 1e-6, absolute: 1e-8, firstStep: 0.5 },
    );
    expect(refused).toBeGreaterThan(1);
    expect(evaluations).toBe(calls);
  });

  it('is exact for a rate that is a parabola in time, within the step, too', () => {
    const seen: [number, number][] = [];
    const { y, steps } = solve(
      (t, _y, out) => {
        out[0] = 3 * t * t - 2 * t + 1;
      },
      1,
      [5],
      2,
      {
        firstStep: 1,
        relative: 1e9,
        onStep: (_from, _to, at) => {
          for (const t of [1.1, 1.5, 1.9]) seen.push([t, at(t)[0] ?? Number.NaN]);
        },
      },
    );
    // y = t^3 - t^2 + t + 4
    expect(steps).toBe(1);
    expect(y[0]).toBeCloseTo(10, 6);
    for (const [t, value] of seen) expect(value).toBeCloseTo(t ** 3 - t * t + t + 4, 6);
  });
});

describe('the order of non-stiff integration', () => {
  it('is five at the end of a step and four within it', () => {
    const miss = (power: number, at: number): number => {
      let value = Number.NaN;
      integrate(
        (t, _y, out) => {
          out[0] = power * t ** (power - 1);
        },
        0,
        [0],
        1,
        {
          firstStep: 1,
          relative: 1e9,
          onStep: (_from, _to, inside) => {
            value = inside(at)[0] ?? Number.NaN;
          },
        },
      );
      return Math.abs(value - at ** power);
    };
    for (const power of [1, 2, 3, 4]) for (const at of [0.2, 0.5, 0.8]) expect(miss(power, at)).toBeLessThan(1e-12);
    expect(miss(5, 1)).toBeLessThan(1e-12);
    expect(miss(6, 1)).toBeGreaterThan(1e-6);
  });
});

describe('the Jacobian of stiff integration', () => {
  it('is kept for a refused step: only the tries cost', () => {
    // linear with a sudden change: tries are refused at one place
    let calls = 0;
    const f = (t: number, y: Float64Array, out: Float64Array): void => {
      calls++;
      out[0] = -50 * ((y[0] ?? 0) - (t > 1 ? 2 : 0));
      out[1] = -(y[1] ?? 0);
    };
    const { steps, refused } = integrateStiff(f, 0, [1, 1], 2, { relative: 1e-6, absolute: 1e-8, firstStep: 0.5 });
    // of four stages the first two take the slope at the start: two more and the slope at the end; a Jacobian of two unknowns and time
    expect(refused).toBeGreaterThan(1);
    expect(calls).toBe(1 + 3 * (steps + refused) + 3 * steps);
  });

  it('gives up where no number comes out, and says where', () => {
    const { status, t } = integrateStiff(
      (_t, _y, out) => {
        out[0] = Number.NaN;
      },
      3,
      [1],
      4,
      { mostSteps: 50 },
    );
    expect([status, t]).toEqual(['stuck', 3]);
  });
});
