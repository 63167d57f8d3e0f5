import { describe, expect, it } from 'vitest';
import { NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import { balanceOf } from '../../../src/engine/network/balance.ts';
import { constantLaw, type LineLaw } from '../../../src/engine/network/law.ts';
import { type Mesh, meshOf } from '../../../src/engine/network/mesh.ts';
import type { Line, Network, Port } from '../../../src/engine/network/network.ts';
import { dead, pipe } from './nets.ts';

const port = (node: number, conductance: number, ultimate = 0): Port => ({
  node,
  ultimate,
  throughput: (p) => conductance * (p - ultimate),
  slope: () => conductance,
});
const line = (from: number, to: number, law: LineLaw, count = 1, length = 2): Line => ({
  from,
  to,
  length,
  count,
  law,
});
/** A mesh of nodes alone, one segment a line. */
const bare = (volumes: readonly number[], lines: readonly Line[]): Mesh => ({
  nodes: volumes.length,
  volumes: Float64Array.from(volumes),
  chains: lines.map((one) => ({ line: one, points: Int32Array.of(one.from, one.to), step: one.length })),
});
const flowsOf = (mesh: Mesh, ports: readonly Port[], pressures: readonly number[], load = NO_LOAD, time = 0) => {
  const balance = balanceOf(mesh, ports, load);
  const out = new Float64Array(pressures.length);
  const drawn = balance.flows(time, Float64Array.from(pressures), out, true);
  return { balance, out: [...out], drawn };
};

describe('the gas balance of points', () => {
  it('is what lines bring less what they carry off, by hand', () => {
    // 0 to 1: 3 m4/s over 2 m, two side by side, 10 Pa: 30; 1 to 2: 4/2 m3/s, back, -20 Pa: -40; the port at 2 draws 5 (50 - 2)
    const mesh = bare([1, 1, 1], [line(0, 1, constantLaw(3, 1), 2), line(1, 2, constantLaw(4, 1))]);
    const { out, drawn } = flowsOf(mesh, [port(2, 5, 2)], [40, 30, 50]);
    expect(out).toEqual([-30, 30 + 40, -40 - 240]);
    expect(drawn).toBe(240);
  });

  it('gets its load by volume, as it is at the time', () => {
    const mesh = bare([1, 3], []);
    const load = { leak: 2, outgassing: 6, exponent: 1 };
    // after two hours half the outgassing of the first
    const { out, balance } = flowsOf(mesh, [], [9, 9], load, 7200);
    expect(out).toEqual([1.25, 3.75]);
    expect([balance.loadAt(7200), balance.loadAt(3600), balance.volume]).toEqual([5, 8, 4]);
  });

  it('starts from nothing each time, and counts', () => {
    const mesh = bare([1, 1], [line(0, 1, constantLaw(3, 1))]);
    const balance = balanceOf(mesh, [port(1, 5)], NO_LOAD);
    const out = new Float64Array(2);
    balance.flows(0, Float64Array.of(4, 2), out, true);
    const diagonal = [...balance.jacobian.diagonal];
    balance.flows(0, Float64Array.of(4, 2), out, true);
    expect([...out]).toEqual([-3, 3 - 10]);
    expect([...balance.jacobian.diagonal]).toEqual(diagonal);
    expect(diagonal).toEqual([1.5, 6.5]);
    expect([[...balance.jacobian.upper], [...balance.jacobian.lower]]).toEqual([[-1.5], [-1.5]]);
    expect(balance.work.evaluations).toBe(2);
    // without slopes those of before stand
    balance.flows(0, Float64Array.of(9, 1), out, false);
    expect([...balance.jacobian.diagonal, balance.drawSlopes[0]?.slope]).toEqual([1.5, 6.5, 5]);
    expect(balance.work.evaluations).toBe(3);
  });

  it('takes what a line restrains: between the higher and the lower end, whichever way it goes', () => {
    const asked: number[][] = [];
    const law: LineLaw = {
      area: 1,
      at(pressure, out) {
        Object.assign(out, { pressure, potential: pressure * pressure, conductivity: 2 * pressure });
      },
      restrain(laminar, upper, lower, length, near, out) {
        asked.push([laminar, upper.pressure, lower.pressure, length, near]);
        out.flow = 0.5 * laminar;
        out.upperShare = 0.25;
        out.lowerShare = 0.125;
      },
    };
    const mesh = bare([1, 1, 1, 1], [line(0, 1, law, 3), line(1, 2, law), line(2, 3, law)]);
    const { out, balance } = flowsOf(mesh, [], [4, 2, 6, 6]);
    // (16 - 4)/2 and (36 - 4)/2; nothing is asked where nothing flows
    expect(asked).toEqual([
      [6, 4, 2, 2, 0],
      [16, 6, 2, 2, 0],
    ]);
    // the next time it is told of the flow of before, to begin there
    balance.flows(0, Float64Array.of(6, 2, 6, 6), new Float64Array(4), false);
    expect(asked.slice(2)).toEqual([
      [16, 6, 2, 2, 3],
      [16, 6, 2, 2, 8],
    ]);
    expect(out).toEqual([-9, 9 + 8, -8, 0]);
    // 0 to 1: 3 x 8/2 x 1/4 at the upper end, 3 x 4/2 x 1/8 at the lower; 1 to 2: 4/2 x 1/8 and 12/2 x 1/4; 2 to 3 as they are
    expect([...balance.jacobian.diagonal]).toEqual([3, 0.75 + 0.25, 1.5 + 6, 6]);
  });

  it('adds up lines side by side between the same two points', () => {
    const mesh = bare([1, 1], [line(0, 1, constantLaw(3, 1)), line(1, 0, constantLaw(4, 1))]);
    const { out, balance } = flowsOf(mesh, [], [10, 4]);
    expect(out).toEqual([-21, 21]);
    const { diagonal, upper, lower } = balance.jacobian;
    expect([[...diagonal], [...upper], [...lower]]).toEqual([[3.5, 3.5], [-3.5], [-3.5]]);
  });

  it('may have more than one port, at one node too', () => {
    const { out, drawn, balance } = flowsOf(bare([1, 1], []), [port(0, 2), port(1, 3), port(0, 5, 1)], [4, 10]);
    expect([out, drawn]).toEqual([[-8 - 15, -30], 53]);
    expect([...balance.jacobian.diagonal]).toEqual([7, 3]);
    expect(balance.drawSlopes).toEqual([
      { node: 0, slope: 2 },
      { node: 1, slope: 3 },
      { node: 0, slope: 5 },
    ]);
  });
});

describe('the balance of a network of pipes', () => {
  const loop: Network = {
    volumes: [0.01, 0.002, 0.001],
    lines: [pipe(0, 1, 0.008, 3, 2), pipe(1, 2, 0.006, 2), pipe(2, 0, 0.01, 4)],
    ports: [port(1, 2e-3, 5)],
  };
  const pressuresOf = (mesh: Mesh): Float64Array =>
    mesh.volumes.map((_, i) => 800 + 600 * Math.sin(1 + 2.7 * i) + 100 * Math.cos(i * i));

  it('neither makes nor loses gas: all flows together are the load less what is drawn', () => {
    const mesh = meshOf(loop, 0.2);
    const balance = balanceOf(mesh, loop.ports, { leak: 0.3, outgassing: 0, exponent: 0 });
    const out = mesh.volumes.slice();
    const drawn = balance.flows(0, pressuresOf(mesh), out, false);
    const sum = out.reduce((all, one) => all + one, 0);
    const size = out.reduce((all, one) => all + Math.abs(one), 0);
    expect(Math.abs(sum - (0.3 - drawn)) / size).toBeLessThan(1e-13);
  });

  it('has as its matrix the differences of its flows', () => {
    for (const network of [loop, dead(0.0079, 5)]) {
      const mesh = meshOf(network, 0.15);
      const balance = balanceOf(mesh, network.ports, NO_LOAD);
      const pressures = pressuresOf(mesh);
      const n = pressures.length;
      const out = new Float64Array(n);
      balance.flows(0, pressures, out, true);
      const { plan, jacobian } = balance;
      const { diagonal, upper, lower } = jacobian;
      const at = (i: number, j: number): number => {
        if (i === j) return diagonal[i] ?? 0;
        const { entry, firstIsEarlier } = plan.entryOf(i, j);
        return entry < 0 ? 0 : ((firstIsEarlier ? upper : lower)[entry] ?? 0);
      };
      const matrix = Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => at(i, j)));
      for (let j = 0; j < n; j++) {
        const [above, below] = [pressures.slice(), pressures.slice()];
        const step = 1e-4 * (pressures[j] ?? 0);
        above[j] = (pressures[j] ?? 0) + step;
        below[j] = (pressures[j] ?? 0) - step;
        const [more, less] = [new Float64Array(n), new Float64Array(n)];
        balance.flows(0, above, more, false);
        balance.flows(0, below, less, false);
        const scale = Math.max(...diagonal);
        for (let i = 0; i < n; i++) {
          const slope = ((less[i] ?? 0) - (more[i] ?? 0)) / (2 * step);
          expect(Math.abs((matrix[i]?.[j] ?? 0) - slope) / scale).toBeLessThan(2e-3);
        }
      }
    }
  });
});
