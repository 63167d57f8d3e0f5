import { describe, expect, it } from 'vitest';
import { integrateStiff } from '../../src/numerics/rodas.ts';
import { integrateToEvent } from '../../src/numerics/to-event.ts';

describe('a stiff problem that ends at an event', () => {
  it('ends where the closed form crosses, however stiff a companion it has', () => {
    // y' = -y from 1 crosses 0.2 at ln 5; z follows y within 1e-6 of the time scale
    const f = (_: number, y: Float64Array, out: Float64Array): void => {
      out[0] = -(y[0] ?? 0);
      out[1] = -1e6 * ((y[1] ?? 0) - (y[0] ?? 0));
    };
    const events = [(_: number, y: Float64Array) => (y[0] ?? 0) - 0.2];
    const { t, y, event, stuck } = integrateToEvent(f, 0, [1, 1], 100, { relative: 1e-8, absolute: 1e-10, events });
    expect(stuck).toBe(false);
    expect(event).toBe(0);
    expect(t).toBeCloseTo(Math.log(5), 6);
    expect(y[0]).toBeCloseTo(0.2, 8);
  });

  it('says that nothing happened where the end comes first', () => {
    const f = (_: number, y: Float64Array, out: Float64Array): void => {
      out[0] = -(y[0] ?? 0);
    };
    const { t, y, event } = integrateToEvent(f, 0, [1], 1, { events: [(_, at) => (at[0] ?? 0) - 0.2] });
    expect(event).toBeUndefined();
    expect(t).toBe(1);
    expect(y[0]).toBeCloseTo(Math.exp(-1), 4);
  });
});

describe('an event within a long step', () => {
  /** y' = -k(y - cos t): y = (k² cos t + k sin t)/(k² + 1) and a transient, by the theory of linear equations. */
  const k = 1e3;
  const lag = (t: number): number => (k * k * Math.cos(t) + k * Math.sin(t)) / (k * k + 1);
  const f = (t: number, y: Float64Array, out: Float64Array): void => {
    out[0] = -k * ((y[0] ?? 0) - Math.cos(t));
  };
  const rough = { relative: 1e-3, absolute: 1e-4 };

  it.each([
    ['after it', 0.2, 1e-6],
    ['before it', 0.5, 1e-4],
    ['before it, at the end of a long way', 0.9, 1e-4],
    ['below nought', -0.3, 1e-4],
  ])('is where the unknown has its value, though the cubic of the step puts the event %s', (_, level, near) => {
    const events = [(_t: number, y: Float64Array) => (y[0] ?? 0) - level];
    const rest = integrateStiff(f, 0, [2], 3, { ...rough, events });
    const found = integrateToEvent(f, 0, [2], 3, { ...rough, events });
    expect(found.event).toBe(0);
    expect(Math.abs((found.y[0] ?? 9) - level)).toBeLessThan(1e-8);
    expect(Math.abs(lag(found.t) - level)).toBeLessThan(near);
    expect(Math.abs(lag(rest.t) - level)).toBeGreaterThan(10 * near);
  });

  it('shows each step once, and walks the last one again in silence', () => {
    const ends: number[] = [];
    const events = [(_t: number, y: Float64Array) => (y[0] ?? 0) - 0.2];
    const { steps } = integrateStiff(f, 0, [2], 3, { ...rough, events });
    integrateToEvent(f, 0, [2], 3, { ...rough, events, onStep: (_from, to) => ends.push(to) });
    expect(ends).toHaveLength(steps);
    expect(ends).toEqual([...ends].sort((a, b) => a - b));
  });

  it('needs little more work than the way there', () => {
    let calls = 0;
    const counted = (t: number, y: Float64Array, out: Float64Array): void => {
      calls++;
      f(t, y, out);
    };
    const events = [(_t: number, y: Float64Array) => (y[0] ?? 0) - 0.2];
    const { evaluations } = integrateStiff(f, 0, [2], 3, { ...rough, events });
    integrateToEvent(counted, 0, [2], 3, { ...rough, events });
    expect(calls).toBeLessThan(2 * evaluations);
  });

  it('says that it is stuck where the steps run out before', () => {
    const events = [(_t: number, y: Float64Array) => (y[0] ?? 0) - 0.2];
    const found = integrateToEvent(f, 0, [2], 3, { ...rough, events, mostSteps: 4 });
    expect(found).toMatchObject({ stuck: true, event: undefined });
    expect(integrateToEvent(f, 0, [2], 0.5, { ...rough, events })).toMatchObject({ stuck: false, event: undefined });
  });

  it('is named by its place among several', () => {
    const events = [() => 1, (_t: number, y: Float64Array) => (y[0] ?? 0) - 0.2];
    expect(integrateToEvent(f, 0, [2], 3, { ...rough, events }).event).toBe(1);
  });
});
