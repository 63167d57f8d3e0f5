import { describe, expect, it } from 'vitest';
import { type GasLoad, NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import { balanceOf } from '../../../src/engine/network/balance.ts';
import { type MarchOptions, marchNetwork } from '../../../src/engine/network/march.ts';
import type { Port } from '../../../src/engine/network/network.ts';

const VOLUME = 0.02;
const SPEED = 0.002;
const START = 1000;
/** s */
const TAU = VOLUME / SPEED;
const sink = (ultimate = 0, speed = SPEED): Port => ({
  node: 0,
  ultimate,
  throughput: (p) => speed * (p - ultimate),
  slope: () => speed,
});
interface Taken {
  readonly from: number;
  readonly to: number;
  readonly before: number;
  readonly after: number;
}
/** One volume at a sink: V dp/dt = load - S (p - p0). */
function march(until: number, options: MarchOptions = {}, load: GasLoad = NO_LOAD, port: Port = sink()) {
  const mesh = { nodes: 1, volumes: Float64Array.of(VOLUME), chains: [] };
  const pressures = Float64Array.of(START);
  const taken: Taken[] = [];
  const result = marchNetwork(
    balanceOf(mesh, [port], load),
    pressures,
    until,
    ({ from, to, before, after }) => {
      taken.push({ from, to, before: before[0] ?? 0, after: after[0] ?? 0 });
      return false;
    },
    options,
  );
  return { ...result, pressure: result.pressures[0] ?? 0, taken, same: result.pressures === pressures };
}

describe('a march of one volume', () => {
  it.each([0.1, 3, 12])('falls exponentially, after %s time constants within the part asked for', (part) => {
    const exact = START * Math.exp(-part);
    for (const relative of [1e-4, 1e-6, 1e-8]) {
      const { pressure, status, time, same } = march(part * TAU, { relative });
      // errors of all steps together: some tens of that of one
      expect(Math.abs(pressure / exact - 1)).toBeLessThan(40 * relative);
      expect([status, time, same]).toEqual(['end', part * TAU, true]);
    }
    expect(march(part * TAU).pressure).toBe(march(part * TAU, { relative: 3e-5 }).pressure);
  });

  it('takes ten times the steps for a thousandth of the error: order 3 with an estimate of order 2', () => {
    const steps = [1e-5, 1e-8].map((relative) => march(5 * TAU, { relative }).steps);
    expect((steps[1] ?? 0) / (steps[0] ?? 1)).toBeGreaterThan(8);
    expect((steps[1] ?? 0) / (steps[0] ?? 1)).toBeLessThan(11);
  });

  it('hands over every step from end to end', () => {
    const { taken, steps } = march(4 * TAU);
    expect(taken).toHaveLength(steps);
    taken.forEach(({ from, to, before, after }, i) => {
      expect(from).toBe(i === 0 ? 0 : taken[i - 1]?.to);
      expect(before).toBe(i === 0 ? START : taken[i - 1]?.after);
      expect(to).toBeGreaterThan(from);
      expect(after).toBeLessThan(before);
    });
    // the first is a thousandth of the time in which the volume would empty; none is four times the one before
    expect(taken[0]?.to).toBeCloseTo(1e-3 * TAU, 12);
    taken.slice(1, -1).forEach(({ from, to }, i) => {
      const last = taken[i];
      expect(to - from).toBeLessThanOrEqual(4 * (1 + 1e-9) * ((last?.to ?? 0) - (last?.from ?? 0)));
    });
    expect((taken[1]?.to ?? 0) - (taken[1]?.from ?? 0)).toBeCloseTo(4e-3 * TAU, 12);
  });

  it('keeps its gas to rounding, whatever the step, and tells what came and went', () => {
    for (const load of [NO_LOAD, { leak: 0.1, outgassing: 0, exponent: 0 }, { leak: 0, outgassing: 0.02, exponent: 1 }])
      for (const relative of [1e-2, 1e-5]) {
        const { pressure, drawn, admitted } = march(600, { relative }, load);
        expect(Math.abs(VOLUME * (START - pressure) + admitted - drawn) / (VOLUME * START)).toBeLessThan(1e-12);
        if (load === NO_LOAD) expect(admitted).toBe(0);
        if (load.leak > 0) expect(admitted).toBeCloseTo(600 * load.leak, 10);
      }
  });

  it('rises to where a leak and the pump are in balance', () => {
    const { pressure } = march(50 * TAU, { leastExcess: 1 }, { leak: 0.1, outgassing: 0, exponent: 0 }, sink(3));
    expect(pressure).toBeCloseTo(3 + 0.1 / SPEED, 5);
    const along = march(2 * TAU, { relative: 1e-7 }, { leak: 0.1, outgassing: 0, exponent: 0 }, sink(3)).pressure;
    expect(along / (53 + (START - 53) * Math.exp(-2))).toBeCloseTo(1, 5);
  });

  it('follows outgassing that fades, with the corner of its first minute on a step', () => {
    // 0.02 x 3600/t from a minute on: p by the integrating factor, Simpson's rule
    const load = { leak: 0, outgassing: 0.02, exponent: 1 };
    const until = 400;
    const n = 4000;
    const rate = (t: number): number => (0.02 * 3600) / Math.max(t, 60) / VOLUME;
    const part = (from: number, to: number): number => {
      const h = (to - from) / n;
      let sum = 0;
      for (let i = 0; i <= n; i++) {
        const t = from + i * h;
        sum += (i === 0 || i === n ? 1 : i % 2 ? 4 : 2) * rate(t) * Math.exp((t - until) / TAU);
      }
      return (sum * h) / 3;
    };
    const exact = START * Math.exp(-until / TAU) + part(0, 60) + part(60, until);
    const { pressure, taken, admitted } = march(until, { relative: 1e-8, corners: [0, 60] }, load);
    expect(pressure / exact).toBeCloseTo(1, 6);
    // 72 t/60 up to a minute, 72 ln after
    expect(admitted / (72 * (1 + Math.log(until / 60)))).toBeCloseTo(1, 6);
    expect(taken.some(({ to }) => to === 60)).toBe(true);
    expect(taken.at(-1)?.to).toBe(until);
  });

  it('crosses no corner, however many, nor the end', () => {
    const corners = [1, 2.5, 7, 20, 55];
    const { taken, time } = march(30, { corners });
    const ends = taken.map(({ to }) => to);
    for (const corner of corners) expect(ends.includes(corner)).toBe(corner < 30);
    expect(time).toBe(30);
  });

  it('needs no more steps than its floor makes worth while', () => {
    const at = (floor: number, leastExcess: number): number =>
      march(20 * TAU, { floor, leastExcess }, NO_LOAD, sink(10)).steps;
    // close to the ultimate pressure the excess is what must be right; from a least excess on it need not be
    expect(at(10, 0)).toBeGreaterThan(1.5 * at(0, 0));
    expect(at(10, 5)).toBeLessThan(at(10, 0) / 1.3);
  });
});

describe('the end of a march', () => {
  const mesh = { nodes: 1, volumes: Float64Array.of(VOLUME), chains: [] };
  const run = (stop: (time: number) => boolean, options: MarchOptions = {}, port: Port = sink(), load = NO_LOAD) =>
    marchNetwork(balanceOf(mesh, [port], load), Float64Array.of(START), 100, ({ to }) => stop(to), options);

  it('is where it is told to stop', () => {
    const { status, time, steps } = run((to) => to > 1);
    expect(status).toBe('stopped');
    expect(time).toBeGreaterThan(1);
    expect(time).toBeLessThan(10);
    expect(steps).toBeGreaterThan(3);
    expect(run(() => true).steps).toBe(1);
    // told at the very end it is stopped, too
    expect(run((to) => to === 100).status).toBe('stopped');
  });

  it('is being stuck when the steps are used up, refused ones counted', () => {
    const { status, steps, refused } = run(() => false, { mostSteps: 5 });
    expect([status, steps + refused]).toEqual(['stuck', 5]);
    expect(run(() => false, { mostSteps: 0 })).toMatchObject({ status: 'stuck', time: 0, steps: 0 });
    const all = run(() => false);
    expect(run(() => false, { mostSteps: all.steps + all.refused }).status).toBe('end');
    expect(run(() => false, { mostSteps: all.steps + all.refused - 1 }).status).toBe('stuck');
  });

  it('is being stuck where no step can be formed, soon', () => {
    const broken: Port = { node: 0, ultimate: 0, throughput: () => Number.NaN, slope: () => 0 };
    const { status, steps, refused } = run(() => false, {}, broken);
    expect([status, steps]).toEqual(['stuck', 0]);
    expect(refused).toBeLessThan(50);
    // a pivot that is no number
    const steep: Port = { ...sink(), slope: () => Number.NaN };
    expect(run(() => false, {}, steep)).toMatchObject({ status: 'stuck', steps: 0 });
  });

  it('refuses steps that would leave nothing, and goes on with smaller ones', () => {
    // draws all the more the lower it is, until it has nothing left in 10 s: the march must not pass through zero
    const greedy: Port = { node: 0, ultimate: 0, throughput: () => (VOLUME * START) / 10, slope: () => 0 };
    const { pressures, refused, time, status } = run(() => false, { leastExcess: 1 }, greedy);
    expect(pressures[0]).toBeGreaterThan(0);
    expect(pressures[0]).toBeLessThan(1e-6 * START);
    expect(time).toBeCloseTo(10, 6);
    expect(refused).toBeGreaterThan(0);
    expect(status).toBe('stuck');
  });

  it('counts the evaluations of its balance', () => {
    const { evaluations, steps, refused } = run(() => false);
    // one at the start and one at the end of each step; two within each try that got so far
    expect(evaluations).toBeGreaterThanOrEqual(1 + 3 * steps);
    expect(evaluations).toBeLessThanOrEqual(1 + 3 * steps + 2 * refused);
  });
});
