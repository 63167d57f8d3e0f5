import { describe, expect, it } from 'vitest';
import { flowPatches, throughputOn } from '../../../src/engine/dry/quick/flow-patches.ts';
import { type WaterAt, type WaterCells, waterOn } from '../../../src/engine/dry/quick/water-cells.ts';
import { atPumpOf } from '../../../src/engine/dry/quick/wet-inlet.ts';
import { mixtureThroughput } from '../../../src/engine/dry/rig-surface.ts';
import type { Pump } from '../../../src/engine/rig/rig.ts';
import { expectWithin } from '../../references/assert.ts';
import { pumpOf, rigOf } from '../rig/fakes.ts';
import { SURFACE, surfaceOf } from './simple.ts';

describe('water as cubics over cells', () => {
  // two cells of 0.5 K from 300 K, each three cubics by their powers: ln p, heat capacity, latent heat
  const CUBICS = [
    [
      [0.3, -0.7, 1.1, 1.9],
      [3, 5, -7, 11],
      [13, -17, 19, 23],
    ],
    [
      [-0.2, 0.9, -1.3, 2.1],
      [29, 31, 37, -41],
      [43, 47, -53, 59],
    ],
  ];
  const CELLS: WaterCells = { from: 300, cells: 2, coefficients: Float64Array.from(CUBICS.flat(2)) };
  const sum = (cubic: readonly number[] | undefined, of: (power: number) => number): number =>
    (cubic ?? []).reduce((all, coefficient, power) => all + coefficient * of(power), 0);
  const check = (temperature: number, cell: number): void => {
    const t = temperature - 300 - cell * 0.5;
    const out: WaterAt = { pressure: 0, slope: 0, bend: 0, heat: 0, heatSlope: 0, latent: 0, latentSlope: 0 };
    waterOn(CELLS, temperature, out);
    const [lnP, heat, latent] = CUBICS[cell] ?? [];
    const value = (power: number): number => t ** power;
    const slope = (power: number): number => (power < 1 ? 0 : power * t ** (power - 1));
    const bend = (power: number): number => (power < 2 ? 0 : power * (power - 1) * t ** (power - 2));
    expect(Math.log(out.pressure), `${temperature} K`).toBeCloseTo(sum(lnP, value), 10);
    expect(out.slope).toBeCloseTo(sum(lnP, slope), 10);
    expect(out.bend).toBeCloseTo(sum(lnP, bend), 10);
    expect(out.heat).toBeCloseTo(sum(heat, value), 9);
    expect(out.heatSlope).toBeCloseTo(sum(heat, slope), 9);
    expect(out.latent).toBeCloseTo(sum(latent, value), 9);
    expect(out.latentSlope).toBeCloseTo(sum(latent, slope), 9);
  };

  it('has the value of each cubic with its slopes, from its own cell', () => {
    for (const T of [300, 300.07, 300.31, 300.499]) check(T, 0);
    for (const T of [300.5, 300.57, 300.83, 300.999]) check(T, 1);
  });

  it('has the end cells go on outside', () => {
    for (const T of [299.9, 298.7]) check(T, 0);
    for (const T of [301, 301.1, 302.3]) check(T, 1);
  });
});

describe('the throughput between irregular nodes', () => {
  /** No polynomial of either variable. */
  const rough = (x: number, y: number): number => -6 + 0.4 * Math.sin(7 * x + 1) + 0.6 * Math.cos(5 * y + 0.3 * x);
  const FOOT = -2;
  const STEPS = 6;
  const surface = surfaceOf(rough, { ultimate: 5, foot: FOOT, steps: STEPS });
  const PLACES = [0, 1, 2, 3, 4].map((k) => 0.5 * (1 - Math.cos((k * Math.PI) / 4)));

  /** Through the five compositions by Neville's scheme. */
  const over = (node: number, y: number): number => {
    const x = FOOT + 0.05 * Math.max(0, Math.min(STEPS, node));
    let row = PLACES.map((place) => rough(x, place));
    for (let width = 1; row.length > 1; width++)
      row = row.slice(1).map((next, k) => {
        const [a, b] = [PLACES[k] ?? 0, PLACES[k + width] ?? 0];
        return ((y - a) * next - (y - b) * (row[k] ?? 0)) / (b - a);
      });
    return row[0] ?? Number.NaN;
  };
  /** Between nodes in Hermite's form, the slope at each that of the straight line between its neighbours. */
  const lnK = (place: number, y: number): number => {
    const i = Math.max(0, Math.min(STEPS - 1, Math.floor(place)));
    const t = place - i;
    const [a, b, c, d] = [-1, 0, 1, 2].map((k) => over(i + k, y)) as [number, number, number, number];
    const from = (1 + 2 * t) * (1 - t) ** 2 * b + t * (1 - t) ** 2 * ((c - a) / 2);
    return from + t * t * (3 - 2 * t) * c + t * t * (t - 1) * ((d - b) / 2);
  };

  it('is the cubic through four nodes and the polynomial through five compositions, by both ways', () => {
    const patches = flowPatches(surface);
    const out = { value: 0, byPressure: 0, byFraction: 0 };
    // first step, within, last step, and beyond it
    for (const place of [0.21, 0.83, 1.4, 2.9, 3.55, 4.1, 5.07, 5.6, 5.99, 6.01, 6.7])
      for (const y of [0, 0.13, 0.46, 0.88, 1]) {
        const excess = Math.exp(FOOT + 0.05 * place);
        const p = 5 + excess;
        const told = `${place}, ${y}`;
        const exact = excess * Math.exp(lnK(place, y));
        expectWithin(mixtureThroughput(surface, p, y), exact, 1e-10, told);
        throughputOn(patches, p, y, false, out);
        expectWithin(out.value, exact, 1e-10, told);
        throughputOn(patches, p, y, true, out);
        expectWithin(out.value, exact, 1e-10, told);
        const small = 1e-5;
        const byPlace = (lnK(place + small, y) - lnK(place - small, y)) / (2 * small);
        const byFraction = (lnK(place, y + small) - lnK(place, y - small)) / (2 * small);
        // across a node the second slope jumps
        expect(out.byPressure / (exact / excess), told).toBeCloseTo(1 + byPlace / 0.05, 5);
        expect(out.byFraction / exact, told).toBeCloseTo(byFraction, 6);
      }
  });
});

describe('the vapour at a pump with a speed table', () => {
  const counted = (): { pump: Pump; reads: () => number } => {
    let reads = 0;
    const table = [
      [10, 1e-3],
      [1000, 2e-3],
    ] as const;
    return {
      pump: {
        ...pumpOf(2e-3),
        get speedTable() {
          reads++;
          return table;
        },
      },
      reads: () => reads,
    };
  };

  it('inverts the table once per step of ln Q, up to the highest', () => {
    const { pump, reads } = counted();
    const at = atPumpOf({ ...SURFACE, rig: rigOf(pump), ultimate: 0 });
    // steps of 0.05 from -30 to 20
    for (const ln of [0.01, 12.51, 19.99, 20.02, 25]) {
      at(Math.exp(ln), 0.5);
      const before = reads();
      for (const more of [0, 0.01]) at(Math.exp(ln + more), 0.5);
      expect(reads(), `ln Q ${ln}`).toBe(before);
    }
    expect(reads()).toBeGreaterThan(0);
  });

  it('is within 1e-3 of Q = S(p) p between the steps, and level beyond the last', () => {
    const { pump } = counted();
    const at = atPumpOf({ ...SURFACE, rig: rigOf(pump), ultimate: 0 });
    for (let p = 12; p < 1000; p *= 1.013) {
      const speed = 1e-3 + (1e-3 * Math.log(p / 10)) / Math.log(100);
      expectWithin(at(speed * p, 0.25), 0.25 * p, 1e-3, `${p} Pa`);
    }
    expectWithin(at(Math.exp(24), 1), Math.exp(20) / 2e-3, 1e-6, 'beyond the last step');
    expectWithin(at(Math.exp(-40), 1), Math.exp(-30) / 1e-3, 1e-6, 'below the first');
  });
});
