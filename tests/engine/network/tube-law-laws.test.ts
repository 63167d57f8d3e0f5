import fc from 'fast-check';
import { beforeEach, describe, expect, it } from 'vitest';
import type { LineLaw } from '../../../src/engine/network/law.ts';
import { DRAWN_ROUGHNESS, tubeLaw } from '../../../src/engine/network/tube-law.ts';
import { AIR } from '../rig/fakes.ts';
import { laminarFlow, pieceFlow, pointOf } from './nets.ts';

const BORE = 0.008;
const RADIUS = BORE / 2;
const { viscosity, probableSpeed, specificGasConstant, temperature } = AIR;
/** m2/s2 */
const RT = specificGasConstant * temperature;
let law: LineLaw;
beforeEach(() => {
  law = tubeLaw(AIR, BORE);
});
/** rarefaction of 1 Pa */
const DELTA = RADIUS / (viscosity * probableSpeed);
/** throughput of Re = 1: mass flow mu D pi/4, times RT */
const PER_RE = viscosity * BORE * (Math.PI / 4) * RT;

/** Darcy friction factor. Source: Churchill, Chem. Eng. 84(24) (1977) 91. */
function darcy(re: number, roughness: number): number {
  const a = (2.457 * Math.log(1 / ((7 / re) ** 0.9 + 0.27 * roughness))) ** 16;
  const b = (37530 / re) ** 16;
  return 8 * ((8 / re) ** 12 + 1 / (a + b) ** 1.5) ** (1 / 12);
}
/** Simpson's rule in ln x. */
function integral(of: (x: number) => number, from: number, to: number): number {
  const n = 400;
  const h = Math.log(to / from) / n;
  let sum = 0;
  for (let i = 0; i <= n; i++) {
    const x = from * Math.exp(i * h);
    sum += (i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2) * of(x) * x;
  }
  return (sum * h) / 3;
}
function root(of: (x: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let i = 0; i < 90; i++) {
    const middle = 0.5 * (low + high);
    if (of(middle) > 0) high = middle;
    else low = middle;
  }
  return 0.5 * (low + high);
}
const conductivity = (pressure: number): number => pointOf(law, pressure).conductivity;
const potential = (pressure: number): number => pointOf(law, pressure).potential;
const laminarOf = (upper: number, lower: number, length: number): number => laminarFlow(law, upper, lower, length);
const flowOf = (upper: number, lower: number, length: number, of = law) => pieceFlow(of, upper, lower, length);

describe('the conductivity of a pipe', () => {
  it('is molecular at low pressure: (2 pi/3) a^3 times the mean speed', () => {
    // Knudsen's long tube; mean speed = sqrt(8 RT/pi)
    const molecular = ((2 * Math.PI) / 3) * RADIUS ** 3 * Math.sqrt((8 * RT) / Math.PI);
    expect(conductivity(1e-7) / molecular).toBeCloseTo(1, 4);
    expect(potential(1e-7) / (1e-7 * molecular)).toBeCloseTo(1, 4);
    expect(conductivity(0) / molecular).toBeCloseTo(1, 12);
  });

  it('is viscous at high pressure: pi a^4 p/(8 mu), with slip 4 x 1.018/delta of it', () => {
    // Hagen and Poiseuille; slip coefficient of Sharipov and Seleznev (1998)
    for (const p of [1e5, 5e5]) {
      const viscous = (Math.PI * RADIUS ** 4 * p) / (8 * viscosity);
      expect(conductivity(p) / (viscous * (1 + (4 * 1.018) / (p * DELTA)))).toBeCloseTo(1, 4);
    }
  });

  it('is the slope of the potential: its integral between two pressures', () => {
    for (const [low, high] of [
      [1e-3, 1e-2],
      [0.2, 3],
      [40, 900],
      [2e4, 1.1e5],
    ] as const) {
      const summed = integral(conductivity, low, high);
      expect((potential(high) - potential(low)) / summed).toBeCloseTo(1, 5);
    }
  });

  it('has the bore as its cross-section, drawn copper where no roughness is given', () => {
    expect(law.area).toBeCloseTo((Math.PI / 4) * BORE ** 2, 15);
    // 1.5 micrometres: drawn tubing in the usual tables of roughness (White, Fluid Mechanics)
    expect(DRAWN_ROUGHNESS).toBe(1.5e-6);
    expect(flowOf(1e5, 8e4, 5)).toEqual(flowOf(1e5, 8e4, 5, tubeLaw(AIR, BORE, 1.5e-6)));
    expect(flowOf(1e5, 8e4, 5, tubeLaw(AIR, BORE, 1e-4)).flow).toBeLessThan(flowOf(1e5, 8e4, 5).flow);
  });
});

describe('the flow of a piece of pipe', () => {
  it.each([
    [101325, 95000, 5],
    [101325, 60000, 20],
    [101325, 50000, 2],
    [300000, 200000, 3],
    [101325, 101000, 30],
  ])('is isothermal pipe flow from %s to %s Pa over %s m', (upper, lower, length) => {
    // p1^2 - p2^2 = G^2 R T (f L/D + 2 ln(p1/p2)), the usual formula of gas pipes (from memory); slip and rarefied inertia are below 1e-3 here
    const area = (Math.PI / 4) * BORE ** 2;
    const re = root(
      (one) => {
        const flux = (one * viscosity) / BORE;
        const taken = (darcy(one, 1.5e-6 / BORE) * length) / BORE + 2 * Math.log(upper / lower);
        return flux ** 2 * RT * taken - (upper ** 2 - lower ** 2);
      },
      1,
      1e6,
    );
    expect(flowOf(upper, lower, length).flow / (((re * viscosity) / BORE) * area * RT)).toBeCloseTo(1, 2.5);
  });

  // the equation of the piece as the source states it, with integrals by Simpson's rule and Churchill's own formula
  const pulled = (upper: number, lower: number): number =>
    (DELTA * 8 * integral(conductivity, lower, upper)) / ((Math.PI * RADIUS ** 3 * probableSpeed) / 2);
  const pushed = (upper: number, lower: number): number =>
    integral((p) => (8 * conductivity(p)) / ((1 + p * DELTA) * p), lower, upper) /
    ((Math.PI * RADIUS ** 3 * probableSpeed) / 2);
  /** where the exit of a choked flow stands: delta^2 = B delta/(1 + delta) */
  const exitOf = (b: number): number => root((p) => p * DELTA * (1 + p * DELTA) - b, 0, 1e7);
  function byHand(upper: number, lower: number, length: number): { re: number; choked: boolean } {
    const excess = (re: number): number => {
      const b = (re * re) / 8;
      const exit = Math.max(lower, exitOf(b));
      if (exit >= upper) return 1;
      const friction = (length / RADIUS) * re * re * (re < 100 ? 64 / re : darcy(re, 1.5e-6 / BORE)) * (1 / 16);
      return friction + b * pushed(upper, exit) - pulled(upper, exit);
    };
    const re = root(excess, 0, laminarOf(upper, lower, length) / PER_RE + 1e-9);
    return { re, choked: exitOf((re * re) / 8) > lower };
  }
  const CASES = [
    // laminar with some inertia; turbulent; between; choked and turbulent; choked and laminar; choked in rarefied gas
    [2000, 1500, 1, false],
    [2000, 500, 1, true],
    [101325, 90000, 3, false],
    [60000, 40000, 9, false],
    [101325, 2000, 3, true],
    [20000, 100, 0.5, true],
    [3000, 1, 0.2, true],
    [400, 0.5, 0.05, true],
    [400, 1e-3, 0.05, true],
    [900, 500, 0.3, false],
  ] as const;

  it.each(CASES)(
    'is the root of its equation from %s to %s Pa over %s m (choked: %s)',
    (upper, lower, length, chokes) => {
      const { re, choked } = byHand(upper, lower, length);
      expect(choked).toBe(chokes);
      expect(Math.abs(flowOf(upper, lower, length).flow / (re * PER_RE) - 1)).toBeLessThan(4e-5);
    },
  );

  it.each(CASES)('changes as its shares tell from %s to %s Pa over %s m', (upper, lower, length, chokes) => {
    const { upperShare, lowerShare } = flowOf(upper, lower, length);
    const by = 1e-3;
    const per = (low: number, high: number): number => high - low;
    const rise = per(flowOf(upper * (1 - by), lower, length).flow, flowOf(upper * (1 + by), lower, length).flow);
    const fall = per(flowOf(upper, lower * (1 + by), length).flow, flowOf(upper, lower * (1 - by), length).flow);
    expect(Math.abs((upperShare * conductivity(upper) * 2 * by * upper) / length / rise - 1)).toBeLessThan(2e-3);
    if (chokes) expect([lowerShare, fall]).toEqual([0, expect.closeTo(0, 9)]);
    else expect(Math.abs((lowerShare * conductivity(lower) * 2 * by * lower) / length / fall - 1)).toBeLessThan(2e-3);
  });

  it('choked does not see what is below, and passes no more for a lower end', () => {
    const at = (lower: number): number => flowOf(50_000, lower, 0.5).flow;
    expect(at(10) / at(1000)).toBeCloseTo(1, 7);
    expect(at(25_000) / at(1000)).toBeCloseTo(1, 9);
    expect(at(30_000)).toBeLessThan(0.99 * at(1000));
  });

  it('in rarefied gas is the flow by the potential, unchanged, with whole shares', () => {
    const laminar = laminarOf(0.02, 0.019, 10);
    expect(flowOf(0.02, 0.019, 10)).toEqual({ flow: laminar, upperShare: 1, lowerShare: 1 });
    // inertia counts from 1e-7 of the gradient on
    expect(flowOf(2000, 500, 1).flow).toBeLessThan(laminarOf(2000, 500, 1));
    // turbulent, however little the inertia
    const slow = flowOf(101_325, 95_000, 30);
    expect(slow.flow).toBeLessThan(0.999 * laminarOf(101_325, 95_000, 30));
  });

  it('is turbulent in a very wide pipe, where its own acceleration is next to nothing', () => {
    const wide = tubeLaw(AIR, 1);
    const perRe = viscosity * (Math.PI / 4) * RT;
    // so long that laminar flow would have Re 5000: Re^2 f/16 = 4 x 5000 then
    const length = laminarFlow(wide, 101_325, 101_000, 5000 * perRe);
    const re = root((one) => (one * one * darcy(one, 1.5e-6)) / 16 - 4 * 5000, 100, 5000);
    expect(flowOf(101_325, 101_000, length, wide).flow / perRe / re).toBeCloseTo(1, 3.5);
    expect(re).toBeLessThan(4000);
  });

  it('grows with the fall of pressure without jumps, and never passes more than laminar', () => {
    let before = 0;
    let laminarBefore = 0;
    for (let k = 1; k <= 400; k++) {
      const lower = 101_325 * (1 - k / 401);
      const laminar = laminarOf(101_325, lower, 4);
      const { flow } = flowOf(101_325, lower, 4);
      expect(flow).toBeLessThanOrEqual(laminar * (1 + 1e-12));
      expect(flow).toBeGreaterThanOrEqual(before * (1 - 1e-9));
      expect(flow - before).toBeLessThanOrEqual((laminar - laminarBefore) * (1 + 1e-6));
      [before, laminarBefore] = [flow, laminar];
    }
  });

  it.each(CASES)('is the same from wherever the search begins, from %s to %s Pa over %s m', (upper, lower, length) => {
    const { flow, upperShare } = flowOf(upper, lower, length);
    for (const part of [1e-6, 0.3, 0.99, 1, 1.02, 3, 1e9]) {
      const again = pieceFlow(law, upper, lower, length, part * flow);
      expect(again.flow / flow).toBeCloseTo(1, 10);
      expect(again.upperShare / upperShare).toBeCloseTo(1, 5);
    }
  });

  it('is the same whatever was asked before', () => {
    const any = fc.record({
      upper: fc.double({ min: 10, max: 1e5, noNaN: true }),
      part: fc.double({ min: 0.01, max: 0.99, noNaN: true }),
    });
    const asked = fc.sample(any, { numRuns: 40, seed: 9 });
    const first = asked.map(({ upper, part }) => flowOf(upper, upper * part, 2).flow);
    // along a chain: the lower end of one piece is the upper end of the next, and the other way round
    for (const { upper, part } of asked) {
      flowOf(upper, upper * part, 2);
      flowOf(upper * part, upper * part * part, 2);
      flowOf(upper * 1.5, upper, 2);
    }
    expect(asked.map(({ upper, part }) => flowOf(upper, upper * part, 2).flow).reverse()).toEqual(first.reverse());
  });
});
