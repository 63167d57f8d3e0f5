import { describe, expect, it } from 'vitest';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import type { Machine, Rig, RigPart } from '../../../src/engine/rig/rig.ts';
import { recover } from '../../../src/engine/transfer/recovery.ts';
import { type RecoveryTask, recoveryGear } from '../../../src/engine/transfer/recovery-gear.ts';
import { liquidByPush, liquidToMachine } from '../../../src/engine/transfer/recovery-liquid.ts';
import type { RecoveryMoment } from '../../../src/engine/transfer/recovery-stages.ts';
import { integrateStiff } from '../../../src/numerics/rodas.ts';
import { issueOf } from '../../issue-of.ts';
import { core, hose } from '../rig/fakes.ts';

const R134A = refrigerantByName('R-134a');
const AMBIENT = 293.15;
const machine: Machine = { name: 'machine', displacement: 3 / 3600, ultimate: 2e4, efficiency: 0.8, approach: 0 };
const rigOf = (parts: readonly RigPart[]): Rig => ({
  name: 'rig',
  pump: { name: 'machine', speed: 1, ultimate: 0 },
  machine,
  parts,
});
const NARROW = rigOf([hose(0.0048, 1.5), core(0.0016, 0.006)]);
const gear = recoveryGear(R134A, NARROW, AMBIENT);
const TASK: RecoveryTask = { charge: 2, volume: 0.01, heat: 30, metal: 2000, mode: 'vapour', level: 101_325 };

function wayOf(task: Partial<RecoveryTask>) {
  const way: RecoveryMoment[] = [];
  const result = recover(gear, { ...TASK, ...task }, (moment) => way.push(moment));
  return { ...result, way, wet: way.filter(({ state }) => state === 'liquid') };
}

/** kg of liquid where mass and volume are shared between boiling liquid and its vapour */
const liquidAtFirst = (charge: number, volume: number): number => {
  const [dense, thick] = [R134A.saturatedVapourDensity(AMBIENT), R134A.liquidDensity(AMBIENT)];
  return (charge - volume * dense) / (1 - dense / thick);
};

describe('vapour drawn off boiling liquid', () => {
  /** The same balances in total mass and total heat, integrated by another method in other variables. */
  function byTotals(task: RecoveryTask): { dry: number; coldest: number } {
    const { vapour, curve } = gear;
    const { charge, volume, heat, metal = 0 } = task;
    const begin = liquidAtFirst(charge, volume);
    const parts = (t: number, mass: number) => {
      const dense = vapour.density(R134A.dewPressure(t));
      const thick = R134A.liquidDensity(t);
      return { dense, liquid: (mass - volume * dense) / (1 - dense / thick) };
    };
    const liquidOf = (y: ArrayLike<number>): number => parts(y[1] ?? 0, y[0] ?? 0).liquid;
    let coldest = AMBIENT;
    const end = integrateStiff(
      (_time, y, out) => {
        const [mass, t] = [y[0] ?? 0, Math.min(y[1] ?? 0, AMBIENT)];
        const flow = curve.flow(R134A.dewPressure(t));
        // boiled = -d(liquid)/dt; liquid is a function of mass and temperature, by differences
        const { liquid } = parts(t, mass);
        const byMass = (parts(t, mass + 1e-6).liquid - parts(t, mass - 1e-6).liquid) / 2e-6;
        const d = 0.01;
        const byHeat = (parts(t + d, mass).liquid - parts(t - d, mass).liquid) / (2 * d);
        const capacity = liquid * ((R134A.liquidEnthalpy(t + d) - R134A.liquidEnthalpy(t - d)) / (2 * d)) + metal;
        // capacity T' = UA (Ta - T) - L boiled, boiled = byMass flow - byHeat T'
        const latent = R134A.latentHeat(t);
        const rate = (heat * (AMBIENT - t) - latent * byMass * flow) / (capacity - latent * byHeat);
        out[0] = -flow;
        out[1] = rate;
      },
      0,
      [charge, AMBIENT - 1e-9],
      1e6,
      {
        relative: 1e-7,
        absolute: [1e-7, 1e-5],
        events: [(_t, y) => liquidOf(y) - 1e-6 * begin],
        onStep: (_from, to, at) => {
          coldest = Math.min(coldest, at(to)[1] ?? AMBIENT);
        },
      },
    );
    expect(end.status).toBe('event');
    return { dry: end.t, coldest };
  }

  it.each([
    [30, 2000],
    [200, 0],
    [60, 20_000],
  ])('with %d W/K and %d J/K of metal is gone when the balances of the whole say so', (heat, metal) => {
    const task = { ...TASK, heat, metal };
    const found = wayOf(task);
    const expected = byTotals(task);
    expect(found.dry / expected.dry).toBeCloseTo(1, 3);
    expect(found.coldest).toBeCloseTo(expected.coldest, 0);
  });

  it('stands at the dew pressure of the liquid all the way, and what flows is what the machine draws', () => {
    const { wet, way, dry, coldest } = wayOf({});
    expect(wet.length).toBeGreaterThan(10);
    for (const moment of wet) {
      expect(moment.pressure / R134A.dewPressure(moment.temperature)).toBeCloseTo(1, 9);
      expect(moment.flow).toBeCloseTo(gear.curve.flow(moment.pressure), 10);
      expect(moment.suction).toBeCloseTo(gear.curve.suction.pressure(moment.flow), 3);
      const vapour = gear.vapour.density(moment.pressure);
      const room = 0.01 - moment.liquid / R134A.liquidDensity(moment.temperature);
      expect(moment.mass).toBeCloseTo(moment.liquid + room * vapour, 9);
      expect(moment.time).toBeLessThanOrEqual(dry);
      expect(moment.liquid).toBeGreaterThan(0);
    }
    expect(wet[0]).toMatchObject({ time: 0, mass: 2, temperature: AMBIENT });
    expect(wet[0]?.liquid).toBeCloseTo(liquidAtFirst(2, 0.01), 4);
    expect(Math.min(...way.map(({ temperature }) => temperature))).toBe(coldest);
    way.forEach((moment, i) => {
      expect(moment.time).toBeGreaterThanOrEqual(way[i - 1]?.time ?? 0);
      expect(moment.mass).toBeLessThanOrEqual((way[i - 1]?.mass ?? 2) * (1 + 1e-12));
    });
  });

  it('ends with what vapour at the level weighs, and the rest is recovered', () => {
    const { left, recovered, time, dry, way, misses } = wayOf({});
    expect(left / (0.01 * R134A.vapourDensity(AMBIENT, 101_325))).toBeCloseTo(1, 6);
    expect(recovered + left).toBeCloseTo(2, 12);
    expect(time).toBeGreaterThan(dry);
    expect(way.at(-1)).toMatchObject({ time, state: 'vapour', liquid: 0, temperature: AMBIENT });
    expect(way.at(-1)?.pressure).toBe(101_325);
    expect(Math.abs(misses.mass)).toBeLessThan(1e-7);
    expect(Math.abs(misses.energy)).toBeLessThan(1e-6);
    // a balance of sums never closes to the last digit: it was drawn up
    expect(misses.energy).not.toBe(0);
  });

  it('may begin full of liquid, and with no more than that', () => {
    const most = 0.01 * R134A.liquidDensity(AMBIENT);
    const { way, misses } = wayOf({ charge: most, heat: 500 });
    expect(way[0]?.liquid).toBeCloseTo(most, 9);
    expect(Math.abs(misses.mass)).toBeLessThan(1e-6);
    expect(issueOf(() => wayOf({ charge: most * (1 + 1e-12) }))).toMatchObject({ kind: 'limit', argument: 'Charge' });
  });
});

describe('liquid taken first', () => {
  it('leaves at the pace of rig and machine at its own temperature', () => {
    const { wet, dry, misses } = wayOf({ mode: 'liquid', heat: 100 });
    expect(Math.abs(misses.mass)).toBeLessThan(1e-7);
    expect(Math.abs(misses.energy)).toBeLessThan(1e-6);
    for (const { temperature, flow, suction } of wet) {
      const by = liquidToMachine(NARROW, machine, R134A, gear.vapour.gas, temperature, gear.discharge);
      expect(flow / by.flow).toBeCloseTo(1, 4);
      expect(suction / by.end).toBeCloseTo(1, 3);
    }
    expect(dry).toBeGreaterThan(0);
    expect(dry).toBeLessThan(wayOf({ heat: 100 }).dry);
  });

  it('with metal enough keeps its temperature, so that it is gone after volume by flow', () => {
    const { dry, coldest } = wayOf({ mode: 'liquid', metal: 1e9, heat: 0 });
    const { flow } = liquidToMachine(NARROW, machine, R134A, gear.vapour.gas, AMBIENT, gear.discharge);
    // as liquid leaves, some boils to fill its place: the liquid falls by flow/(1 - r) each second
    const r = gear.vapour.density(gear.vapour.dewPressure) / R134A.liquidDensity(AMBIENT);
    expect(coldest).toBeCloseTo(AMBIENT, 2);
    expect(dry / ((liquidAtFirst(2, 0.01) * (1 - r)) / flow)).toBeCloseTo(1, 4);
  });
});

describe('push-pull', () => {
  it('takes liquid by flow, at one temperature and the pressure pushed up to, and vapour fills its place', () => {
    const { wet, dry, coldest, misses } = wayOf({ mode: 'push-pull' });
    const by = liquidByPush(NARROW, machine, R134A, gear.vapour.gas, AMBIENT, AMBIENT);
    expect(dry / (liquidAtFirst(2, 0.01) / by.flow)).toBeCloseTo(1, 6);
    expect(coldest).toBe(AMBIENT);
    expect(misses.energy).toBe(0);
    expect(Math.abs(misses.mass)).toBeLessThan(1e-9);
    const dense = R134A.saturatedVapourDensity(AMBIENT);
    const thick = R134A.liquidDensity(AMBIENT);
    expect(wet).toHaveLength(9);
    wet.forEach((moment, i) => {
      expect(moment.time).toBeCloseTo((i * dry) / 8, 9);
      expect(moment).toMatchObject({ temperature: AMBIENT, pressure: by.system, suction: by.end });
      expect(moment.flow).toBeCloseTo(by.flow * (1 - dense / thick), 9);
      expect(moment.liquid).toBeCloseTo(liquidAtFirst(2, 0.01) * (1 - i / 8), 5);
      expect(moment.mass).toBeCloseTo(moment.liquid + (0.01 - moment.liquid / thick) * dense, 6);
    });
    // the vapour that is left is drawn off from its dew pressure
    expect(wayOf({ mode: 'push-pull' }).way[9]).toMatchObject({ state: 'vapour', pressure: gear.vapour.dewPressure });
  });

  it('knows the temperature of the cylinder, which is that of the surroundings where not given', () => {
    const same = wayOf({ mode: 'push-pull' }).dry;
    expect(wayOf({ mode: 'push-pull', cylinderTemperature: AMBIENT }).dry).toBe(same);
    const cold = liquidByPush(NARROW, machine, R134A, gear.vapour.gas, AMBIENT, 273.15);
    const { dry } = wayOf({ mode: 'push-pull', cylinderTemperature: 273.15 });
    expect(dry / (liquidAtFirst(2, 0.01) / cold.flow)).toBeCloseTo(1, 6);
    // the vapour of a cold cylinder is thin, so that less is pushed
    expect(dry).toBeGreaterThan(same);
  });
});

describe('a charge of vapour alone', () => {
  it('begins at the pressure at which it fills the volume, with no liquid and no time to dry', () => {
    const charge = 0.6 * 0.01 * R134A.saturatedVapourDensity(AMBIENT);
    const { dry, way, coldest, recovered, misses } = wayOf({ charge });
    expect(dry).toBe(0);
    // even steps in the logarithm of what is left above the lowest pressure, each later than the one before
    const excess = way.map(({ pressure }) => pressure - 2e4);
    const [from = 1, to = 1] = [excess[0], excess.at(-1)];
    excess.forEach((each, i) => {
      expect(each / (from * (to / from) ** (i / (excess.length - 1)))).toBeCloseTo(1, 9);
      if (i > 0) expect(way[i]?.time).toBeGreaterThan(way[i - 1]?.time ?? 0);
    });
    expect(coldest).toBe(AMBIENT);
    expect(misses.energy).toBe(0);
    expect(way[0]).toMatchObject({ time: 0, state: 'vapour', liquid: 0 });
    expect(R134A.vapourDensity(AMBIENT, way[0]?.pressure ?? 0) / (charge / 0.01)).toBeCloseTo(1, 6);
    expect(way.every(({ state, liquid }) => state === 'vapour' && liquid === 0)).toBe(true);
    expect(recovered).toBeCloseTo(charge - 0.01 * R134A.vapourDensity(AMBIENT, 101_325), 8);
  });

  it('in twice the volume, at the same density, takes twice the time', () => {
    const charge = 0.6 * 0.01 * R134A.saturatedVapourDensity(AMBIENT);
    expect(wayOf({ charge: 2 * charge, volume: 0.02 }).time / wayOf({ charge }).time).toBeCloseTo(2, 9);
  });
});
