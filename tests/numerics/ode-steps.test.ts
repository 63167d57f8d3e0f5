import { describe, expect, it } from 'vitest';
import { type Method, march, type OdeOptions } from '../../src/numerics/ode.ts';

type Errors = (h: number, t: number) => readonly number[] | false;

/** A method whose errors are told, so that only the choice of steps is at work; y grows by h. */
function told(errors: Errors, tried: number[], order = 2): Method {
  return {
    order,
    prepare: (_, unknowns) => ({
      next: new Float64Array(unknowns),
      nextSlope: new Float64Array(unknowns).fill(1),
      error: new Float64Array(unknowns),
      evaluations: 0,
      attempt(t, y, _slope, h) {
        tried.push(h);
        const e = errors(h, t);
        if (e === false) return false;
        this.error.set(e);
        y.forEach((value, i) => {
          this.next[i] = value + h;
        });
        return true;
      },
    }),
  };
}

const one = (_t: number, _y: Float64Array, out: Float64Array): void => {
  out.fill(1);
};

function walk(errors: Errors, t0: number, y0: readonly number[], t1: number, options: OdeOptions, order = 2) {
  const tried: number[] = [];
  const result = march(told(errors, tried, order), one, t0, y0, t1, { absolute: 1, relative: 0, ...options });
  return { ...result, tried: tried.map((h) => Number(h.toPrecision(12))) };
}

/** All steps below follow from h' = 0.9 h e^(-1/order), held between a fifth and five times. */
describe('the steps of a march', () => {
  it('grow five-fold where there is no error, and the last one ends at the end', () => {
    const { tried, t, status, steps, refused } = walk(() => [0], 5, [0], 15, { firstStep: 0.1 });
    expect(tried).toEqual([0.1, 0.5, 2.5, 6.9]);
    expect([t, status, steps, refused]).toEqual([15, 'end', 4, 0]);
  });

  it('grow with the error to the power of the order, and shrink at the bound of what is accepted', () => {
    expect(walk(() => [0.81], 0, [0], 1, { firstStep: 0.25 }).tried).toEqual([0.25, 0.25, 0.25, 0.25]);
    expect(walk(() => [0.25], 0, [0], 1, { firstStep: 0.1 }).tried).toEqual([0.1, 0.18, 0.324, 0.396]);
    expect(walk(() => [0.729], 0, [0], 1, { firstStep: 0.25 }, 3).tried).toEqual([0.25, 0.25, 0.25, 0.25]);
    expect(walk(() => [0.01], 0, [0], 3, { firstStep: 0.1 }).tried).toEqual([0.1, 0.5, 2.4]);
    expect(walk(() => [1], 0, [0], 2.71, { firstStep: 1 }).tried).toEqual([1, 0.9, 0.81]);
  });

  it.each([
    ['by the error', 4, 0.45],
    ['never to less than a fifth', 1e6, 0.2],
    ['always to nine tenths at most', 1 + 1e-9, 0.9],
    ['to a fifth where the error is no number', Number.NaN, 0.2],
    ['to a fifth where the error is endless', Number.POSITIVE_INFINITY, 0.2],
    ['to a fifth where no step could be formed', undefined, 0.2],
  ])('shrink after a refusal %s', (_, error, then) => {
    const found = walk((h) => (h > 0.95 ? (error === undefined ? false : [error]) : [0.81]), 0, [0], then, {
      firstStep: 1,
      largestStep: 1,
    });
    // the end is nearer than the first step: it is tried whole
    expect(found.tried[0]).toBeCloseTo(then, 11);
    const whole = walk((h) => (h > 0.95 ? (error === undefined ? false : [error]) : [0.81]), 0, [0], 9, {
      firstStep: 1,
      mostSteps: 2,
    });
    expect(whole.tried[1]).toBeCloseTo(then, 8);
    expect([whole.steps, whole.refused]).toEqual([1, 1]);
  });

  it('are refused for good where the last try gave no number, whatever its error was before', () => {
    let asked = 0;
    const found = walk(() => (++asked === 2 ? false : [0.81]), 0, [0], 3, { firstStep: 1, mostSteps: 3 });
    expect(found.tried).toEqual([1, 1, 0.2]);
    expect([found.steps, found.refused]).toEqual([2, 1]);
  });

  it('take a crumb along, and not more than a crumb', () => {
    expect(walk(() => [0.81], 0, [0], 1.0005, { firstStep: 1 }).tried).toEqual([1.0005]);
    expect(walk(() => [0.81], 0, [0], 1.002, { firstStep: 1 }).tried).toEqual([1, 0.002]);
    expect(walk(() => [0.81], 0, [0], 0.4, { firstStep: 1 }).tried).toEqual([0.4]);
  });

  it('are no longer than the longest allowed, from the first on', () => {
    expect(walk(() => [0], 2, [0], 4, { firstStep: 1, largestStep: 0.5 }).tried).toEqual([0.5, 0.5, 0.5, 0.5]);
  });

  it('end, stuck, where they run out or no longer move the time', () => {
    const out = walk((h) => (h > 0.3 ? [4] : [0.81]), 0, [0], 9, { firstStep: 0.5, mostSteps: 3 });
    expect([out.status, out.steps, out.refused]).toEqual(['stuck', 2, 1]);
    expect(out.t).toBeCloseTo(0.45, 12);
    const still = walk(() => [0], 1, [0], 2, { firstStep: 1e-20 });
    expect([still.status, still.t, still.tried.length]).toEqual(['stuck', 1, 0]);
    const half = walk(() => [0], 1, [0], 2, { firstStep: Number.EPSILON / 2 });
    expect([half.status, half.tried.length]).toEqual(['stuck', 0]);
  });

  it('weigh each unknown by its own tolerance, and by the larger of its two values', () => {
    const each = walk(() => [0.81, 1.62], 0, [0, 0], 1, { firstStep: 0.25, absolute: [1, 2] });
    expect(each.tried).toEqual([0.25, 0.25, 0.25, 0.25]);
    // one unknown without error of two: the mean square is half of 2 x 0.81 squared
    const mean = walk(() => [0.81 * Math.SQRT2, 0], 0, [0, 0], 1, { firstStep: 0.25 });
    expect(mean.tried).toEqual([0.25, 0.25, 0.25, 0.25]);
    // y goes from 2 to 3: the scale is 3
    const rising = walk(() => [0.81 * 3], 0, [2], 2, { firstStep: 1, absolute: 0, relative: 1, mostSteps: 2 });
    expect(rising.tried).toEqual([1, 1]);
    // from -3 to -2: 3 again
    const falling = walk(() => [0.81 * 3], 0, [-3], 2, { firstStep: 1, absolute: 0, relative: 1, mostSteps: 2 });
    expect(falling.tried).toEqual([1, 1]);
  });

  it('begin with the one that changes the unknowns by a hundredth', () => {
    const first = (y0: readonly number[], slopes: readonly number[], options: OdeOptions = {}): number => {
      const tried: number[] = [];
      const f = (_t: number, _y: Float64Array, out: Float64Array): void => out.set(slopes);
      march(
        told(() => y0.map(() => 0), tried),
        f,
        5,
        y0,
        15,
        { absolute: 1, relative: 0, ...options },
      );
      return Number(tried[0]?.toPrecision(12));
    };
    expect(first([4], [2])).toBe(0.02);
    expect(first([-4], [-2])).toBe(0.02);
    expect(first([4, 1], [1, 2])).toBe(0.02);
    expect(first([1, 4], [2, 1])).toBe(0.02);
    // sizes 4/2 and 9/9, speeds 1/2 and 18/9
    expect(first([4, 9], [1, 18], { absolute: [2, 9] })).toBe(0.01);
    // nothing to go by: a thousandth of the way; slow: all of it
    expect(first([0], [2])).toBe(0.01);
    expect(first([4], [0])).toBe(0.01);
    expect(first([1e6], [1])).toBe(10);
  });
});

describe('an event of a march', () => {
  const at = (level: number) => (_: number, y: Float64Array) => (y[0] ?? 0) - level;
  const down = (level: number) => (_: number, y: Float64Array) => level - (y[0] ?? 0);
  const until = (events: NonNullable<OdeOptions['events']>, y0 = 0, end = 3) =>
    walk(() => [0.81], 0, [y0], end, { firstStep: 1, events });

  it('is met rising and falling, in the first step and later', () => {
    for (const event of [at, down])
      for (const level of [0.3, 1.7, 2.9]) {
        const { t, y, status, event: which } = until([event(level)]);
        expect([status, which]).toEqual(['event', 0]);
        expect(Math.abs(t - level)).toBeLessThan(1e-12);
        expect(y[0]).toBeCloseTo(level, 12);
      }
  });

  it('counts where a step ends on it, and not where the march begins on it', () => {
    for (const event of [at, down]) {
      expect(until([event(2)])).toMatchObject({ status: 'event', t: 2, event: 0, steps: 2 });
      expect(until([event(0)])).toMatchObject({ status: 'end', t: 3, event: undefined });
    }
  });

  it('that comes first is the one, in whatever order they are given; of two at once the first given', () => {
    expect(until([at(1.7), at(1.2), at(2.5)])).toMatchObject({ event: 1 });
    expect(until([at(1.2), at(1.7)])).toMatchObject({ event: 0 });
    expect(until([at(9), at(1), down(1)])).toMatchObject({ event: 1, t: 1 });
  });

  it('ends the last step that is shown', () => {
    const shown: [number, number, number][] = [];
    walk(() => [0.81], 0, [0], 3, {
      firstStep: 1,
      events: [at(1.5)],
      onStep: (from, to, value) => shown.push([from, to, value(from + 0.25)[0] ?? Number.NaN]),
    });
    expect(shown.map((row) => row.map((value) => Number(value.toFixed(9))))).toEqual([
      [0, 1, 0.25],
      [1, 1.5, 1.25],
    ]);
  });

  it('that stops being a number within a step is put at its end', () => {
    const odd = (t: number): number => (t === 0 ? -1 : t === 1 ? 1 : Number.NaN);
    const { status, t } = until([odd]);
    expect(status).toBe('event');
    expect(t).toBeCloseTo(1, 9);
  });
});
