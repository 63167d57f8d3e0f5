import { describe, expect, it } from 'vitest';
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
