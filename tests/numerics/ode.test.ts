import { describe, expect, it } from 'vitest';
import { integrate } from '../../src/numerics/dormand-prince.ts';
import type { Derivative } from '../../src/numerics/ode.ts';
import { integrateStiff } from '../../src/numerics/rodas.ts';

const decay: Derivative = (_, y, out) => {
  out[0] = -(y[0] ?? 0);
};
/** y' = cos t, and an oscillator of period 2 pi. */
const swing: Derivative = (t, y, out) => {
  out[0] = y[1] ?? 0;
  out[1] = -(y[0] ?? 0);
  out[2] = Math.cos(t);
};

describe.each([
  ['non-stiff', integrate, 1e-10],
  ['stiff', integrateStiff, 1e-8],
] as const)('%s integration', (_, solve, relative) => {
  it('follows an exponential decay', () => {
    const { y, status } = solve(decay, 0, [1], 5, { relative, absolute: 1e-14 });
    expect(status).toBe('end');
    expect(Math.abs((y[0] ?? 0) / Math.exp(-5) - 1)).toBeLessThan(100 * relative);
  });

  it('follows an oscillator and a forced rate', () => {
    const { y } = solve(swing, 0, [0, 1, 0], 2 * Math.PI, { relative, absolute: 1e-12 });
    expect(Math.abs(y[0] ?? 1)).toBeLessThan(300 * relative);
    expect(Math.abs((y[1] ?? 0) - 1)).toBeLessThan(300 * relative);
    expect(Math.abs(y[2] ?? 1)).toBeLessThan(300 * relative);
  });

  it('stops at an event and says which', () => {
    const { t, y, status, event } = solve(decay, 0, [1], 10, {
      relative,
      absolute: 1e-14,
      events: [() => 1, (_t, [value = 0]) => value - 0.2],
    });
    expect(status).toBe('event');
    expect(event).toBe(1);
    expect(t).toBeCloseTo(Math.log(5), 5);
    expect(y[0]).toBeCloseTo(0.2, 8);
  });

  it('gives values inside its steps', () => {
    let worst = 0;
    solve(swing, 0, [0, 1, 0], 6, {
      relative,
      absolute: 1e-10,
      onStep: (from, to, at) => {
        for (const u of [0.25, 0.5, 0.75]) {
          const t = from + u * (to - from);
          worst = Math.max(worst, Math.abs((at(t)[0] ?? 9) - Math.sin(t)));
        }
      },
    });
    expect(worst).toBeLessThan(1e-5);
  });

  it('is of the order that it claims: a tolerance 1000 times finer costs at most so many more steps', () => {
    const steps = (tolerance: number): number =>
      solve(swing, 0, [0, 1, 0], 20, { relative: tolerance, absolute: tolerance }).steps;
    const order = solve === integrate ? 5 : 3;
    const growth = steps(1e-8) / steps(1e-5);
    expect(growth).toBeLessThan(1.2 * 1000 ** (1 / order));
  });

  it('gives up instead of hanging where the rate stops being a number', () => {
    const broken: Derivative = (t, y, out) => {
      out[0] = t > 1 ? Number.NaN : -(y[0] ?? 0);
    };
    const { status, t } = solve(broken, 0, [1], 2, { mostSteps: 5000 });
    expect(status).toBe('stuck');
    expect(t).toBeLessThanOrEqual(1);
  });
});

describe('stiff integration', () => {
  it('takes a problem with rates a million apart in few steps', () => {
    // fast relaxation of y1 onto cos t, slow decay of y2: exact after the transient
    const fast = 1e6;
    const f: Derivative = (t, y, out) => {
      out[0] = -fast * ((y[0] ?? 0) - Math.cos(t));
      out[1] = -(y[1] ?? 0);
    };
    const { y, steps, refused } = integrateStiff(f, 0, [0, 1], 3, { relative: 1e-6, absolute: 1e-9 });
    expect(steps + refused).toBeLessThan(600);
    expect(y[0]).toBeCloseTo(Math.cos(3), 4);
    expect(Math.abs((y[1] ?? 0) / Math.exp(-3) - 1)).toBeLessThan(1e-4);
  });

  it('solves the three reactions of Robertson to the published values', () => {
    const f: Derivative = (_, [a = 0, b = 0, c = 0], out) => {
      out[0] = -0.04 * a + 1e4 * b * c;
      out[2] = 3e7 * b * b;
      out[1] = -(out[0] ?? 0) - (out[2] ?? 0);
    };
    // at t = 40: 0.7158, 9.1855e-6, 0.2842. Source: Hindmarsh, LSODE documentation (1980), example problem
    const { y } = integrateStiff(f, 0, [1, 0, 0], 40, { relative: 1e-6, absolute: [1e-9, 1e-13, 1e-9] });
    expect(y[0]).toBeCloseTo(0.7158, 4);
    expect((y[1] ?? 0) * 1e6).toBeCloseTo(9.1855, 2);
    expect(y[2]).toBeCloseTo(0.2842, 4);
  });
});
