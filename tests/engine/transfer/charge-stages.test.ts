import { describe, expect, it } from 'vitest';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import { type ChargeMoment, type Charging, charge } from '../../../src/engine/transfer/charge.ts';
import { liquidLaw } from '../../../src/engine/transfer/charge-flow.ts';
import { core, hose, pumpOf, rigOf } from '../rig/fakes.ts';

const R134A = refrigerantByName('R-134a');
const AMBIENT = 293.15;
const NARROW = rigOf(pumpOf(1), [hose(0.0048, 1.5), core(0.0016, 0.006)]);

function walk(charging: Charging, times: readonly number[] = [], rig = NARROW) {
  const seen: ChargeMoment[] = [];
  return { ...charge(charging, rig, { times, see: (moment) => seen.push(moment) }), seen };
}
function chargingOf(
  mass: number,
  as: 'liquid' | 'vapour',
  system: Partial<Charging['system']> = {},
  cylinder: Partial<Charging['cylinder']> = {},
): Charging {
  return {
    refrigerant: R134A,
    mass,
    as,
    cylinder: { charge: 10, temperature: AMBIENT, heat: 0, bath: AMBIENT, ...cylinder },
    system: { volume: 0.008, heat: 0, ambient: AMBIENT, ...system },
  };
}
const THIN = R134A.saturatedVapourDensity(AMBIENT);

describe('vapour into an evacuated system', () => {
  const whole = () => {
    const charging = chargingOf(1, 'vapour', { heat: 40 }, { heat: 50, bath: 313.15 });
    const times = [...Array(120).keys()].map((i) => 2 + 5 * i);
    const found = walk(charging, times);
    const gas = found.seen.filter(({ charged }) => charged < 0.008 * THIN);
    const wet = found.seen.filter(({ charged }) => charged > 0.008 * THIN);
    return { ...found, gas, wet };
  };

  it('is as warm as Ambient and without liquid until it fills the system, at the pressure of its density', () => {
    const { end, gas } = whole();
    expect(end).toBe('done');
    expect(gas.length).toBeGreaterThan(2);
    for (const { system, charged } of gas) {
      expect(system).toMatchObject({ temperature: AMBIENT, liquid: 0, state: 'vapour' });
      expect(R134A.vapourDensity(AMBIENT, system.pressure) / (charged / 0.008)).toBeCloseTo(1, 6);
    }
  });

  it('condenses from there on: the system is warmer than Ambient, at first by little', () => {
    const { wet, last, time } = whole();
    expect(wet.length).toBeGreaterThan(10);
    for (const { system, charged } of wet) {
      expect(system.state).toBe('two phases');
      const dense = R134A.saturatedVapourDensity(system.temperature);
      const liquid = (charged - 0.008 * dense) / (1 - dense / R134A.liquidDensity(system.temperature));
      expect(system.liquid).toBeCloseTo(liquid, 6);
      expect(system.temperature).toBeGreaterThan(AMBIENT);
    }
    const [first] = wet;
    expect((first?.system.temperature ?? 0) - AMBIENT).toBeLessThan(2);
    // and in the end sheds by its walls what it gains by condensing: latent heat, and what the liquid in it is still warmed by
    const shed = 40 * (last.system.temperature - AMBIENT);
    expect((last.rate * R134A.latentHeat(last.system.temperature)) / shed).toBeGreaterThan(0.9);
    expect((last.rate * R134A.latentHeat(last.system.temperature)) / shed).toBeLessThan(1.1);
    expect(last.time).toBe(time);
  });

  it('keeps its energy but for what came in through the walls, over both stages', () => {
    const { seen, last } = whole();
    const moved = R134A.latentHeat(AMBIENT);
    const start = (seen[0]?.energy ?? 0) - (seen[0]?.heatIn ?? 0);
    for (const { energy, heatIn } of [...seen, last])
      expect(Math.abs(energy - heatIn - start) / moved).toBeLessThan(1e-4);
  });

  it('that just fills the system is in, all vapour', () => {
    const { end, last, charged } = walk(chargingOf(0.008 * THIN, 'vapour', {}, { heat: 50, bath: 303.15 }));
    expect(end).toBe('done');
    expect(charged / (0.008 * THIN)).toBeCloseTo(1, 9);
    expect(last.system).toMatchObject({ temperature: AMBIENT, liquid: 0, state: 'vapour' });
    expect(last.system.pressure / R134A.dewPressure(AMBIENT)).toBeCloseTo(1, 6);
  });
});

describe('the first of a charge of liquid', () => {
  it('flashes in the vacuum: the energy of the liquid is in the system, cold, mostly vapour', () => {
    // a ten-thousandth of 0.45 kg in half a litre: 0.09 kg/m3, above the vapour at the end of the table
    const charging = chargingOf(0.45, 'liquid', { volume: 0.0005 });
    const { flow } = liquidLaw(R134A, NARROW)(AMBIENT, R134A.bubblePressure(AMBIENT), 0);
    const part = (1e-4 * 0.45) / flow;
    const [start, thin, later] = walk(charging, [0, 0.1 * part, 0.999 * part]).seen;
    expect(start?.system).toMatchObject({ state: 'empty', pressure: 0, liquid: 0 });
    expect(start?.heatIn).toBe(0);
    // thinner than any vapour of the table
    expect(thin?.system.state).toBe('below table');
    expect(later?.charged).toBeCloseTo(0.999e-4 * 0.45, 12);
    const { system, charged = 0 } = later ?? {};
    expect(system?.state).toBe('two phases');
    const [t, liquid] = [system?.temperature ?? 0, system?.liquid ?? 0];
    const ofLiquid = R134A.liquidEnthalpy(t) - R134A.bubblePressure(t) / R134A.liquidDensity(t);
    const ofVapour = R134A.vapourEnthalpy(t) - R134A.dewPressure(t) / R134A.saturatedVapourDensity(t);
    expect((liquid * ofLiquid + (charged - liquid) * ofVapour) / (charged * R134A.liquidEnthalpy(AMBIENT))).toBeCloseTo(
      1,
      6,
    );
    expect(liquid / charged).toBeGreaterThan(0.3);
    expect(liquid / charged).toBeLessThan(0.5);
  });

  it('is in after mass by flow, be it a few grams or through the widest of pipes', () => {
    for (const [mass, rig] of [
      [0.005, NARROW],
      [0.5, NARROW],
      [0.5, rigOf(pumpOf(1), [hose(0.3, 0.1)])],
    ] as const) {
      const { flow } = liquidLaw(R134A, rig)(AMBIENT, R134A.bubblePressure(AMBIENT), 0);
      const { end, time, charged } = walk(chargingOf(mass, 'liquid', { volume: 0.2 }), [], rig);
      expect(end).toBe('done');
      expect(charged / mass).toBeCloseTo(1, 6);
      expect(time / (mass / flow), `${mass}`).toBeCloseTo(1, 1);
    }
  });
});
