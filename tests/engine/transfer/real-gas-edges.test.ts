import { describe, expect, it } from 'vitest';
import { preparePassage } from '../../../src/engine/flow/prepare.ts';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import type { RigPart } from '../../../src/engine/rig/rig.ts';
import { liquidLaw, vapourLaw } from '../../../src/engine/transfer/charge-flow.ts';
import { liquidFlow, liquidState, prepareLiquidRig } from '../../../src/engine/transfer/liquid-flow.ts';
import {
  prepareRealGas,
  prepareRealGasRig,
  realVapour,
  upstreamOfStages,
  vapourFlow,
  vapourState,
} from '../../../src/engine/transfer/real-gas-rig.ts';
import { issueOf } from '../../issue-of.ts';
import { core, hose, port, pumpOf, rigOf } from '../rig/fakes.ts';

const R = 8.314462618;
const R410A = refrigerantByName('R-410A');
const AMBIENT = 293.15;
const vapour = realVapour(R410A, AMBIENT);
const DEW = R410A.dewPressure(AMBIENT);
const rig = (...parts: readonly RigPart[]) => rigOf(pumpOf(1), parts);
const flowOf = (parts: readonly RigPart[], up: number, down: number): number =>
  vapourFlow(prepareRealGasRig(rig(...parts), vapour), vapour, up, down);

describe('the vapour of a refrigerant', () => {
  it('as a dilute gas has R/M and the probable speed of its molecules, sqrt(2 R T/M)', () => {
    const gas = vapourState(R410A, AMBIENT);
    const specific = R / R410A.molarMass;
    expect(gas).toMatchObject({ name: 'R-410A', temperature: AMBIENT, molarMass: R410A.molarMass });
    expect(gas.specificGasConstant / specific).toBeCloseTo(1, 9);
    expect(gas.probableSpeed / Math.sqrt(2 * specific * AMBIENT)).toBeCloseTo(1, 9);
    expect(gas.viscosity).toBe(R410A.vapourViscosity(AMBIENT));
    expect(gas.heatCapacityRatio).toBe(R410A.heatCapacityRatio(AMBIENT));
    expect(vapour.massPerThroughput * specific * AMBIENT).toBeCloseTo(1, 9);
  });

  it('has the density of the refrigerant to 1e-6, and the slope of that density', () => {
    const vapour = realVapour(R410A, AMBIENT);
    expect((vapour.massPerThroughput * R * AMBIENT) / R410A.molarMass).toBeCloseTo(1, 9);
    expect(vapour.dewPressure).toBe(DEW);
    expect(vapour.compressibility(0)).toBe(1);
    for (const part of [1e-5, 0.004, 0.03, 0.2, 0.37, 0.71, 0.995, 1]) {
      const p = part * DEW;
      expect(vapour.density(p) / R410A.vapourDensity(AMBIENT, p)).toBeCloseTo(1, 6);
      const z = (p * R410A.molarMass) / (R * AMBIENT * R410A.vapourDensity(AMBIENT, p));
      expect(vapour.compressibility(p)).toBeCloseTo(z, 6);
      const [a, b] = [p * (1 - 1e-4), Math.min(DEW, p * (1 + 1e-4))];
      const slope = (R410A.vapourDensity(AMBIENT, b) - R410A.vapourDensity(AMBIENT, a)) / (b - a);
      expect(vapour.densitySlope(p) / slope).toBeCloseTo(1, 2);
    }
  });

  it('above its dew line keeps the Z of the dew line, so that the density goes on in step with the pressure', () => {
    const vapour = realVapour(R410A, AMBIENT);
    const z = vapour.compressibility(DEW);
    for (const over of [1.001, 1.5, 3]) {
      expect(vapour.compressibility(over * DEW)).toBe(z);
      expect(vapour.density(over * DEW) / vapour.density(DEW)).toBeCloseTo(over, 12);
      expect(vapour.densitySlope(over * DEW) / (vapour.density(DEW) / DEW)).toBeCloseTo(1, 12);
    }
    // rounding does not put a pressure above the line
    expect(vapour.densitySlope(DEW * (1 + 5e-10)) / vapour.densitySlope(DEW)).toBeCloseTo(1, 6);
    expect(vapour.densitySlope(DEW) / vapour.densitySlope(DEW * 1.001)).toBeGreaterThan(1.2);
  });
});

describe('a passage for a real vapour', () => {
  it('that is an opening chokes at Cd A psi p1/sqrt(Z R_s T), Z at the inlet', () => {
    const g = R410A.heatCapacityRatio(AMBIENT);
    const psi = Math.sqrt(g) * (2 / (g + 1)) ** ((g + 1) / (2 * (g - 1)));
    const [small, large] = [0.5, 1].map((part) => {
      const p = part * DEW;
      const z = (p * R410A.molarMass) / (R * AMBIENT * R410A.vapourDensity(AMBIENT, p));
      const byHand = (psi * p) / Math.sqrt((z * R * AMBIENT) / R410A.molarMass);
      return flowOf([port(0.003)], p, 1e3) / ((Math.PI / 4) * 0.003 ** 2 * byHand);
    });
    // one coefficient of discharge, near that of the port, serves both pressures
    expect((large ?? 0) / (small ?? 1)).toBeCloseTo(1, 3);
    expect(large).toBeGreaterThan(0.78);
    expect(large).toBeLessThan(0.95);
  });

  it('that is a tube takes Z at (2/3)(p1^2 + p1 p2 + p2^2)/(p1 + p2), an opening at the inlet', () => {
    for (const [part, up, down, at] of [
      [hose(0.0048, 1.5), 1.2e6, 3e5, ((2 / 3) * (1.44 + 0.36 + 0.09) * 1e12) / 1.5e6],
      [hose(0.0048, 1.5), 6e5, 0, 4e5],
      [port(0.003), 1.2e6, 3e5, 1.2e6],
    ] as const) {
      const root = Math.sqrt(vapour.compressibility(at));
      const dilute = preparePassage(part.passage, vapour.gas);
      const real = prepareRealGas(part.passage, vapour);
      expect(real.throughput(up, down) / dilute.throughput(up / root, down / root)).toBeCloseTo(1, 12);
      expect(real.bore).toBe(dilute.bore);
      expect(real.upstreamPressure(real.throughput(up, down), down) / up).toBeCloseTo(1, 8);
    }
  });

  it('without a flow has the same pressure on both sides, and none at all between two vacuums', () => {
    for (const { passage } of [hose(0.0048, 1.5), port(0.003)]) {
      const real = prepareRealGas(passage, vapour);
      for (const none of [0, -1]) expect(real.upstreamPressure(none, 3e5)).toBe(3e5);
      expect(real.throughput(0, 0)).toBe(0);
    }
  });
});

describe('vapour through a rig', () => {
  it('is that of its only part, times the count, and adds up over ways in parallel', () => {
    const real = prepareRealGas(hose(0.0048, 1.5).passage, vapour);
    const one = real.throughput(8e5, 2e5) * vapour.massPerThroughput;
    expect(flowOf([hose(0.0048, 1.5)], 8e5, 2e5) / one).toBeCloseTo(1, 8);
    expect(flowOf([{ ...hose(0.0048, 1.5), count: 3 }], 8e5, 2e5) / one).toBeCloseTo(3, 8);
    const narrow = flowOf([port(0.002)], 8e5, 2e5);
    const both = [port(0.002, { branch: 'b' }), hose(0.0048, 1.5, { branch: 'b' })];
    expect(flowOf(both, 8e5, 2e5) / (one + narrow)).toBeCloseTo(1, 7);
  });

  it('has no limit without parts and is nothing against the same or a higher pressure', () => {
    expect(flowOf([], 8e5, 2e5)).toBe(Number.POSITIVE_INFINITY);
    for (const down of [8e5, 9e5]) expect(flowOf([port(0.002)], 8e5, down)).toBe(0);
    expect(upstreamOfStages([], 1, 2e5)).toBe(2e5);
  });
});

describe('the flow out of a cylinder', () => {
  // a wide hose at the system, a narrow core at the cylinder: the order matters to vapour
  const turned = rig(hose(0.003, 1.5), core(0.0016, 0.006));
  const fromCylinder = [core(0.0016, 0.006), hose(0.003, 1.5)];

  it('needs a part between cylinder and system', () => {
    for (const law of [liquidLaw, vapourLaw])
      expect(issueOf(() => law(R410A, rig())(AMBIENT, 1e6, 1e5))).toEqual({
        kind: 'missing',
        argument: 'A part between cylinder and system in rig "rig"',
      });
  });

  it('of liquid is that of boiling liquid through all parts, none against a higher pressure', () => {
    const law = liquidLaw(R410A, turned);
    const liquid = liquidState(R410A, 280);
    const { stages } = prepareLiquidRig(turned, vapourState(R410A, 280), liquid);
    const up = liquid.vapourPressure;
    for (const down of [0, 0.5 * up, 0.95 * up]) {
      const expected = liquidFlow(stages, liquid, up, down);
      expect(law(280, up, down).flow).toBeCloseTo(expected.flow, 12);
      expect(law(280, up, down).choked).toBe(expected.choked);
    }
    for (const down of [up, 2 * up]) expect(law(280, up, down)).toEqual({ flow: 0, choked: false });
  });

  it('of vapour is that of the rig from the cylinder on, at any temperature of the table', () => {
    const law = vapourLaw(R410A, turned);
    for (const t of [R410A.lowest, R410A.lowest + 5.99, 250, 281.7, 300, R410A.highest - 0.5, R410A.highest]) {
      const real = realVapour(R410A, t);
      const prepared = prepareRealGasRig(rig(...fromCylinder), real);
      const up = real.dewPressure;
      for (const part of [0, 0.3, 0.7, 0.95]) {
        const expected = vapourFlow(prepared, real, up, part * up);
        expect(Math.abs(law(t, up, part * up).flow / expected - 1), `${t} ${part}`).toBeLessThan(0.01);
      }
      expect(law(t, up, up)).toEqual({ flow: 0, choked: false });
      expect(law(t, up, 1.1 * up)).toEqual({ flow: 0, choked: false });
    }
  });

  it('of vapour counts as choked where a vacuum would draw no more', () => {
    const law = vapourLaw(R410A, turned);
    const up = R410A.dewPressure(280);
    const vacuum = law(280, up, 0).flow;
    for (const part of [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.99]) {
      const { flow, choked } = law(280, up, part * up);
      expect(choked).toBe(flow >= 0.9999 * vacuum);
      // Z in a tube follows both pressures, so that the plateau is level to a per cent or two
      expect(flow).toBeLessThanOrEqual(vacuum * 1.02);
    }
    expect([law(280, up, 0).choked, law(280, up, 0.9 * up).choked]).toEqual([true, false]);
  });

  it('of vapour goes to the last temperature of a table whose length is whole steps', () => {
    const even = { ...R410A, highest: R410A.lowest + 60 };
    const up = even.dewPressure(even.highest);
    const [at, below] = [even.highest, even.highest - 1e-6].map((t) => vapourLaw(even, turned)(t, up, 0).flow);
    expect((at ?? Number.NaN) / (below ?? 1)).toBeCloseTo(1, 6);
  });

  it('of vapour is tabulated once for a rig and a refrigerant', () => {
    expect(vapourLaw(R410A, turned)).toBe(vapourLaw(R410A, turned));
    expect(vapourLaw(R410A, rig(...turned.parts))).not.toBe(vapourLaw(R410A, turned));
    expect(vapourLaw(refrigerantByName('R-32'), turned)).not.toBe(vapourLaw(R410A, turned));
  });
});
