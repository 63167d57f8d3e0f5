import { describe, expect, it } from 'vitest';
import { chokedConstant, criticalRatio, subsonicConstant } from '../../../src/engine/flow/nozzle.ts';
import { ellipse } from '../../../src/engine/flow/opening.ts';
import type { Passage } from '../../../src/engine/flow/passage.ts';
import { preparePassage } from '../../../src/engine/flow/prepare.ts';
import { prepareSonic, sonicMassFlow } from '../../../src/engine/flow/sonic.ts';
import { liquidCriticalFactor, prepareValve, valveExpansion, valveLiquid } from '../../../src/engine/flow/valve.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';

const air = gasState('air', 293.15);
/** J/(mol K), CODATA 2018 */
const R = 8.314462618;
/** kg/s as Pa m3/s of air at 293.15 K; molar mass 28.965 g/mol */
const ofMass = (kilograms: number): number => (kilograms * R * 293.15) / 28.965e-3;

describe('the ideal nozzle', () => {
  it('chokes as the gas dynamics of perfect gases says', () => {
    // 0.6847 and 0.5283 for 1.4: tables of compressible flow in textbooks
    expect(chokedConstant(1.4)).toBeCloseTo(0.6847, 4);
    expect(criticalRatio(1.4)).toBeCloseTo(0.5283, 4);
    // one atom, 5/3: sqrt(5/3) (3/4)² and (3/4)^2.5 by hand
    expect(chokedConstant(5 / 3)).toBeCloseTo(Math.sqrt(5 / 3) * 0.5625, 12);
    expect(criticalRatio(5 / 3)).toBeCloseTo(0.75 ** 2 * Math.sqrt(0.75), 12);
  });

  it('passes less above the critical ratio, and the same at it', () => {
    // 5/3 at r = 0.81^2.5: r^0.6 = 0.81^1.5 = 0.729, and 5 (1 - 0.81) = 0.95
    expect(subsonicConstant(5 / 3, 0.81 ** 2.5)).toBeCloseTo(0.729 * Math.sqrt(0.95), 12);
    for (const gamma of [1.1, 1.3, 1.4, 5 / 3])
      expect(subsonicConstant(gamma, criticalRatio(gamma))).toBeCloseTo(chokedConstant(gamma), 12);
  });
});

describe('a component of sonic conductance', () => {
  it('passes C times the density of the reference times the pressure where it chokes', () => {
    // 5 dm3/(s bar) at 6 bar: 30 dm3/s of 1.185 kg/m3, ISO 6358-1
    const C = 5e-8;
    expect(sonicMassFlow(C, 0.3, 6e5, 1e5, 293.15)).toBeCloseTo(0.03 * 1.185, 12);
    expect(sonicMassFlow(C, 0.3, 6e5, 1.8e5, 293.15)).toBeCloseTo(0.03 * 1.185, 12);
    // half-way from the critical ratio to none: sqrt(1 - 1/4), or to another power
    expect(sonicMassFlow(C, 0.3, 6e5, 3.9e5, 293.15)).toBeCloseTo(0.03 * 1.185 * Math.sqrt(0.75), 12);
    expect(sonicMassFlow(C, 0.3, 6e5, 3.9e5, 293.15, 0.7)).toBeCloseTo(0.03 * 1.185 * 0.75 ** 0.7, 12);
    expect(sonicMassFlow(C, 0.3, 6e5, 6e5, 293.15)).toBe(0);
    expect(sonicMassFlow(C, 0.3, 6e5, 1e5, 4 * 293.15)).toBeCloseTo(0.015 * 1.185, 12);
  });

  it('keeps to the ellipse between', () => {
    expect([ellipse(0.7, 0.3), ellipse(0.9, 0.3), ellipse(0, 0.3)]).toEqual([1, 1, 0]);
    expect(ellipse(0.35, 0.3, 1)).toBeCloseTo(0.75, 12);
    expect(ellipse(0.14, 0.3)).toBeCloseTo(0.6, 12);
  });

  const component = (bore?: number) =>
    prepareSonic(
      { kind: 'sonic', sonicConductance: 5e-8, criticalRatio: 0.3, ...(bore === undefined ? {} : { bore }) },
      air,
    );
  /** sqrt(R T/(2 pi M)), m/s: the molecular flow into an opening, kinetic theory */
  const molecular = Math.sqrt((R * 293.15) / (2 * Math.PI * 28.965e-3));
  const areaOf = (part: ReturnType<typeof component>): number => part.throughput(1e-6, 0) / (1e-6 * molecular);
  /** mdot = Cd A psi* p/sqrt(R T/M) with mdot = C 1.185 p */
  const choking = (discharge: number): number =>
    (5e-8 * 1.185 * Math.sqrt((R * 293.15) / 28.965e-3)) / (discharge * 0.684731);

  it('is what the standard says at working pressures, whatever its bore', () => {
    for (const bore of [undefined, 4e-3, 20e-3, 1e-3])
      for (const downstream of [1e5, 3.9e5, 5e5])
        expect(
          component(bore).throughput(6e5, downstream) / ofMass(sonicMassFlow(5e-8, 0.3, 6e5, downstream, 293.15)),
        ).toBeCloseTo(1, 2);
  });

  it('is an opening of the area of its bore in molecular flow, held to what its conductance allows', () => {
    expect(areaOf(component()) / choking(0.8)).toBeCloseTo(1, 3);
    expect(component().bore / Math.sqrt((4 * choking(0.8)) / Math.PI)).toBeCloseTo(1, 3);
    // a bore that implies a coefficient of 0.6
    const bore = Math.sqrt((4 * choking(0.6)) / Math.PI);
    expect(areaOf(component(bore)) / choking(0.6)).toBeCloseTo(1, 3);
    expect(component(bore).bore).toBe(bore);
    expect(areaOf(component(0.1)) / choking(0.3)).toBeCloseTo(1, 3);
    expect(areaOf(component(1e-4)) / choking(1)).toBeCloseTo(1, 3);
  });
});

describe('a valve known by Kv', () => {
  it('expands gas as the standard says', () => {
    // Y = 1 - x/(3 F xT): x 0.35 of 0.7 gives 5/6; choked 2/3
    expect(valveExpansion(0.35, 0.7, 1.4)).toBeCloseTo((5 / 6) * Math.sqrt(0.35), 12);
    expect(valveExpansion(0.9, 0.7, 1.4)).toBeCloseTo((2 / 3) * Math.sqrt(0.7), 12);
    // F = 1.12/1.4 = 0.8: chokes at 0.56
    expect(valveExpansion(0.28, 0.7, 1.12)).toBeCloseTo((5 / 6) * Math.sqrt(0.28), 12);
    expect(valveExpansion(0.6, 0.7, 1.12)).toBeCloseTo((2 / 3) * Math.sqrt(0.56), 12);
  });

  it('passes gas as the equation in kg/h and bar says', () => {
    // W = 31.6 Kv Y sqrt(x p1 rho1): IEC 60534-2-1 with N6 for kg/h, bar, kg/m3 (31.6 is rounded from 31.62)
    const valve = prepareValve({ kind: 'valve', kv: 2, pressureDropRatio: 0.7 }, air);
    const density = (6e5 * 28.965e-3) / (R * 293.15);
    for (const [downstream, x] of [
      [3e5, 0.5],
      [5.4e5, 0.1],
      [1e5, 0.7],
    ] as const) {
      const hourly = 31.6 * 2 * (1 - x / 2.1) * Math.sqrt(x * 6 * density);
      expect(valve.throughput(6e5, downstream) / ofMass(hourly / 3600)).toBeCloseTo(1, 2);
    }
    // mdot = Kv/36000 (2/3) sqrt(0.7) p/sqrt(R T/M) choked, as an opening of coefficient 0.8
    const area = ((2 / 36000) * (2 / 3) * Math.sqrt(0.7)) / (0.8 * 0.684731);
    expect(valve.bore / Math.sqrt((4 * area) / Math.PI)).toBeCloseTo(1, 4);
  });

  it('passes liquid as the definition of Kv says, until it flashes', () => {
    const water = { density: 1000, vapourPressure: 0, criticalPressure: 220e5 };
    // 1 m3/h of water at 1 bar
    expect(valveLiquid(1, water, 3e5, 2e5, 0.9)).toBeCloseTo(1000 / 3600, 12);
    expect(valveLiquid(2, water, 5e5, 1e5, 1)).toBeCloseTo(4 * (1000 / 3600), 12);
    // pv/pc = 1/4: F = 0.96 - 0.14
    expect(liquidCriticalFactor(5, 20)).toBeCloseTo(0.82, 12);
    const light = { density: 900, vapourPressure: 5e5, criticalPressure: 20e5 };
    // held at 0.81 (10 - 0.82 5) bar = 4.779 bar
    expect(valveLiquid(1, light, 10e5, 1e5, 0.9)).toBeCloseTo(Math.sqrt(900 * 4.779e5) / 36000, 12);
    expect(valveLiquid(1, light, 10e5, 7e5, 0.9)).toBeCloseTo(Math.sqrt(900 * 3e5) / 36000, 12);
    for (const [upstream, downstream] of [
      [5e5, 5e5],
      [4e5, 5e5],
      [4e5, 1e5],
    ] as const)
      expect(valveLiquid(1, light, upstream, downstream, 0.9)).toBe(0);
  });
});

describe('an opening of a poor discharge coefficient', () => {
  it('passes less than molecular flow into vacuum would, in dense gas, and molecular flow in thin gas', () => {
    const bore = 2e-3;
    const part = preparePassage({ kind: 'opening', bore, dischargeCoefficient: 0.3 }, air);
    const area = (Math.PI / 4) * bore ** 2;
    const rt = (R * 293.15) / 28.965e-3;
    // 0.6847 is psi* of air
    expect(part.throughput(5e5, 0) / (0.3 * 0.684731 * area * 5e5 * Math.sqrt(rt))).toBeCloseTo(1, 2);
    expect(part.throughput(1e-5, 0) / (area * 1e-5 * Math.sqrt(rt / (2 * Math.PI)))).toBeCloseTo(1, 3);
    // in between, between the two
    const share = part.throughput(60, 0) / (area * 60 * Math.sqrt(rt / (2 * Math.PI)));
    expect(share).toBeLessThan(1);
    expect(share).toBeGreaterThan(0.3 * 0.684731 * Math.sqrt(2 * Math.PI));
  });
});

describe('any short restriction', () => {
  const passages: readonly Passage[] = [
    { kind: 'sonic', sonicConductance: 5e-8, criticalRatio: 0.3 },
    { kind: 'valve', kv: 0.5, pressureDropRatio: 0.7 },
    { kind: 'opening', bore: 2e-3, dischargeCoefficient: 0.8 },
  ];

  it.each(passages)('gives back the pressure that drives a flow: $kind', (passage) => {
    const count = { evaluations: 0 };
    const part = preparePassage(passage, air, count);
    for (const [upstream, downstream] of [
      [1e5, 9e4],
      [1e5, 0],
      [100, 1],
      [1e-2, 0],
      [2, 1.99],
    ] as const) {
      const flow = part.throughput(upstream, downstream);
      expect(flow).toBeGreaterThan(0);
      expect(Math.abs(part.upstreamPressure(flow, downstream) / upstream - 1)).toBeLessThan(1e-9);
    }
    expect(count.evaluations).toBeGreaterThan(5);
    expect(count.evaluations).toBeLessThan(60);
    for (const [upstream, downstream] of [
      [5, 5],
      [3, 5],
    ] as const)
      expect(part.throughput(upstream, downstream)).toBe(0);
    for (const none of [0, -1, Number.NaN]) expect(part.upstreamPressure(none, 7)).toBe(7);
  });
});
