import { describe, expect, it } from 'vitest';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import type { Refrigerant } from '../../../src/engine/refrigerant/refrigerant.ts';
import type { Machine, RigPart } from '../../../src/engine/rig/rig.ts';
import { liquidFlow, liquidState, prepareLiquidRig } from '../../../src/engine/transfer/liquid-flow.ts';
import { realVapour, vapourState } from '../../../src/engine/transfer/real-gas-rig.ts';
import { liquidByPush, liquidToMachine } from '../../../src/engine/transfer/recovery-liquid.ts';
import { poolPoint, poolPressure } from '../../../src/engine/transfer/recovery-pool.ts';
import { core, hose, pumpOf, rigOf } from '../rig/fakes.ts';

const R = 8.314462618;
const R134A = refrigerantByName('R-134a');
const R22 = refrigerantByName('R-22');
const CO2 = refrigerantByName('R-744');
const PARTS = [hose(0.0048, 1.5), core(0.0016, 0.006)];
const MACHINE: Machine = { name: 'machine', displacement: 1e-3, ultimate: 0, efficiency: 1, approach: 0 };
const rig = (parts: readonly RigPart[]) => rigOf(pumpOf(1), parts);

/** kg/s of boiling liquid at a temperature through the parts from a pressure to another */
function through(refrigerant: Refrigerant, t: number, from: number, to: number): number {
  const liquid = liquidState(refrigerant, t);
  const { stages } = prepareLiquidRig(rig(PARTS), vapourState(refrigerant, 293.15), liquid);
  return liquidFlow(stages, liquid, from, to).flow;
}

/** kg/m3 after throttling at constant enthalpy, both phases at one speed */
function throttled(r: Refrigerant, from: number, pressure: number): number {
  const end = r.bubblePressure(r.lowest);
  const t = pressure > end ? r.bubbleTemperature(pressure) : r.lowest;
  const x = (r.liquidEnthalpy(from) - r.liquidEnthalpy(t)) / (r.vapourEnthalpy(t) - r.liquidEnthalpy(t));
  const vapour = r.saturatedVapourDensity(t) * Math.min(1, pressure / end);
  return 1 / (x / vapour + (1 - x) / r.liquidDensity(t));
}

const toMachine = (r: Refrigerant, machine: Machine, t: number, parts: readonly RigPart[] = PARTS) =>
  liquidToMachine(rig(parts), machine, r, vapourState(r, 293.15), t, 1e6);

describe('liquid into a machine', () => {
  it.each([
    ['above the table', R134A, 293.15, 0.9],
    ['above the table', R134A, 260, 0.6],
    ['below the end of the table', R134A, R134A.lowest + 0.5, 0.7],
  ] as const)('stands where rig and machine pass the same, %s', (_, r, t, share) => {
    // the pressure is chosen, and the machine is sized to it by hand
    const end = share * r.bubblePressure(t);
    const flow = through(r, t, r.bubblePressure(t), end);
    for (const ultimate of [0, end / 4]) {
      const displacement = flow / ((1 - ultimate / end) * throttled(r, t, end));
      const found = toMachine(r, { ...MACHINE, displacement, ultimate }, t);
      expect(found.flow / flow).toBeCloseTo(1, 6);
      expect(found.end / end).toBeCloseTo(1, 6);
    }
  });

  it('is what the rig passes choked where the machine could take more', () => {
    const upstream = R134A.bubblePressure(293.15);
    const found = toMachine(R134A, { ...MACHINE, displacement: 10 }, 293.15);
    expect(found.flow).toBeCloseTo(through(R134A, 293.15, upstream, 0), 12);
    expect(found.end).toBeCloseTo(upstream / 2, 6);
  });

  it('is no more than the liquid rate of the machine, where it states one', () => {
    expect(toMachine(R134A, { ...MACHINE, displacement: 10, liquidRate: 0.004 }, 293.15).flow).toBe(0.004);
    expect(toMachine(R134A, { ...MACHINE, displacement: 1e-6, liquidRate: 5 }, 293.15).flow).toBeLessThan(0.002);
    expect(toMachine(R134A, { ...MACHINE, liquidRate: 0.004 }, 293.15, []).flow).toBe(0.004);
  });

  it('without parts is liquid swept as it is, at its own pressure', () => {
    const found = toMachine(R134A, MACHINE, 293.15, []);
    expect(found.end).toBe(R134A.bubblePressure(293.15));
    expect(found.flow / (1e-3 * R134A.liquidDensity(293.15))).toBeCloseTo(1, 9);
  });

  it('is nothing where its pressure is no more than the lowest of the machine', () => {
    const own = R134A.bubblePressure(240);
    for (const ultimate of [own, 2 * own])
      expect(toMachine(R134A, { ...MACHINE, ultimate }, 240)).toEqual({ flow: 0, end: ultimate });
    expect(toMachine(R134A, { ...MACHINE, ultimate: 0.99 * own }, 240).flow).toBeGreaterThan(0);
  });
});

const byPush = (r: Refrigerant, machine: Machine, t: number, cold: number, parts: readonly RigPart[] = PARTS) =>
  liquidByPush(rig(parts), machine, r, vapourState(r, t), t, cold);

/** m3/s of a machine that holds a system at a pressure: as much volume of vapour comes in as liquid leaves */
function sweptFor(r: Refrigerant, t: number, cold: number, system: number): number {
  const dew = r.dewPressure(t);
  const dense = system <= dew ? r.vapourDensity(t, system) : (r.saturatedVapourDensity(t) * system) / dew;
  const volume = through(r, t, system, r.dewPressure(cold)) / r.liquidDensity(t);
  return (volume * dense) / r.saturatedVapourDensity(cold);
}

describe('push-pull', () => {
  it('holds the system where as much vapour comes in as liquid leaves, by volume', () => {
    for (const [t, cold] of [
      [293.15, 293.15],
      [293.15, 283.15],
      [283.15, 293.15],
    ] as const) {
      const cylinder = R22.dewPressure(cold);
      for (const system of [1.3e6, 2.5e6]) {
        for (const ultimate of [0, cylinder / 4]) {
          const displacement = sweptFor(R22, t, cold, system) / (1 - ultimate / cylinder);
          const found = byPush(R22, { ...MACHINE, displacement, ultimate }, t, cold);
          expect(found.system / system, `${t} ${cold}`).toBeCloseTo(1, 6);
          expect(found.flow / through(R22, t, system, cylinder)).toBeCloseTo(1, 6);
          expect(found.end).toBe(cylinder);
        }
      }
    }
  });

  it('with a colder cylinder flows by itself, however small the machine', () => {
    const own = R22.bubblePressure(293.15);
    const found = byPush(R22, { ...MACHINE, displacement: 1e-9 }, 293.15, 273.15);
    expect(found).toEqual({ flow: through(R22, 293.15, own, R22.dewPressure(273.15)), end: found.end, system: own });
  });

  it('pushes to 3.9 MPa at the most, the high-pressure cut-out (common practice, no source)', () => {
    const found = byPush(R22, { ...MACHINE, displacement: 1 }, 293.15, 293.15);
    expect(found.system).toBe(3.9e6);
    expect(found.flow).toBeCloseTo(through(R22, 293.15, 3.9e6, R22.dewPressure(293.15)), 12);
    // carbon dioxide stands above it by itself
    const own = byPush(CO2, { ...MACHINE, displacement: 1 }, 290, 280);
    expect(own.system).toBe(CO2.bubblePressure(290));
  });

  it('without parts moves the volume that the machine sweeps', () => {
    const found = byPush(R22, MACHINE, 293.15, 293.15, []);
    expect(found.flow / (1e-3 * R22.liquidDensity(293.15))).toBeCloseTo(1, 6);
    expect(found).toMatchObject({ end: R22.dewPressure(293.15), system: R22.bubblePressure(293.15) });
  });
});

describe('a pool of boiling liquid', () => {
  it('stands at its dew pressure, and below the table ln p runs on straight in 1/T as Clapeyron has it', () => {
    for (const r of [R134A, R22, CO2]) {
      expect(poolPressure(r, 280)).toBe(r.dewPressure(280));
      expect(poolPressure(r, r.highest + 5)).toBe(r.dewPressure(r.highest));
      const { lowest } = r;
      const ln = (t: number): number => Math.log(poolPressure(r, t));
      const slope = (a: number, b: number): number => (ln(a) - ln(b)) / (1 / a - 1 / b);
      expect(slope(lowest, lowest - 10) / slope(lowest - 10, lowest - 35)).toBeCloseTo(1, 9);
      expect(slope(lowest + 1, lowest) / slope(lowest, lowest - 1e-3)).toBeCloseTo(1, 6);
      // d ln p/d(1/T) = -L/(R_s Z): Z of cold vapour is 1 but for carbon dioxide at its triple point, 5.2 bar
      const z = (poolPressure(r, lowest) * r.molarMass) / (R * lowest * r.saturatedVapourDensity(lowest));
      expect(slope(lowest, lowest - 20) / ((-r.latentHeat(lowest) * r.molarMass) / (R * z))).toBeCloseTo(1, 1);
    }
  });

  it('has slopes that are those of its values over a longer step', () => {
    const vapour = realVapour(R134A, 293.15);
    for (const t of [200, 250, 290]) {
      const point = poolPoint(R134A, vapour, t);
      const over = (f: (t: number) => number): number => (f(t + 0.03) - f(t - 0.03)) / 0.06;
      expect(point.pressure).toBe(R134A.dewPressure(t));
      expect(point.vapourDensity).toBe(vapour.density(point.pressure));
      expect(point.vapourDensitySlope / over((at) => vapour.density(R134A.dewPressure(at)))).toBeCloseTo(1, 4);
      expect(point.liquidDensity).toBe(R134A.liquidDensity(t));
      expect(point.liquidDensitySlope / over((at) => R134A.liquidDensity(at))).toBeCloseTo(1, 4);
      expect(point.heat / over((at) => R134A.liquidEnthalpy(at))).toBeCloseTo(1, 4);
      expect(point.latentHeat).toBeCloseTo(R134A.latentHeat(t), 6);
    }
  });

  it('at and beyond the ends of the table keeps the values of the end, but for its pressure', () => {
    const { lowest, highest } = R134A;
    const vapour = realVapour(R134A, highest);
    for (const t of [lowest - 20, lowest, lowest + 0.001]) {
      const point = poolPoint(R134A, vapour, t);
      expect(point.pressure).toBe(poolPressure(R134A, t));
      expect(point.liquidDensity / R134A.liquidDensity(lowest)).toBeCloseTo(1, 4);
      expect(point.latentHeat / R134A.latentHeat(lowest)).toBeCloseTo(1, 4);
      expect(point.heat / R134A.liquidHeat(lowest)).toBeCloseTo(1, 1);
      expect(point.vapourDensitySlope).toBeGreaterThan(0);
      if (t < lowest) expect(point.liquidDensitySlope).toBe(0);
      else expect(point.liquidDensitySlope).toBeLessThan(0);
    }
    const top = poolPoint(R134A, vapour, highest);
    expect(top.liquidDensity / R134A.liquidDensity(highest)).toBeCloseTo(1, 2);
    const slope = (R134A.dewPressure(highest) - R134A.dewPressure(highest - 0.01)) / 0.01;
    expect(top.vapourDensitySlope / (vapour.densitySlope(top.pressure) * slope)).toBeCloseTo(1, 2);
  });
});
