import { describe, expect, it } from 'vitest';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import { type ChargeMoment, type Charging, charge, cylinderVolume } from '../../../src/engine/transfer/charge.ts';
import { liquidLaw, vapourLaw } from '../../../src/engine/transfer/charge-flow.ts';
import { core, hose, pumpOf, rigOf } from '../rig/fakes.ts';

const R134A = refrigerantByName('R-134a');
const AMBIENT = 293.15;
const RIG = rigOf(pumpOf(1), [hose(0.0048, 1.5), core(0.0016, 0.006)]);

function chargingOf(mass: number, as: 'liquid' | 'vapour', cylinder: Partial<Charging['cylinder']> = {}): Charging {
  return {
    refrigerant: R134A,
    mass,
    as,
    cylinder: { charge: 10, temperature: AMBIENT, heat: 0, bath: AMBIENT, ...cylinder },
    system: { volume: 0.008, heat: 0, ambient: AMBIENT },
  };
}

function walk(charging: Charging, times: readonly number[]) {
  const seen: ChargeMoment[] = [];
  return { ...charge(charging, RIG, { times, see: (moment) => seen.push(moment) }), seen };
}

describe('a cylinder', () => {
  it('is 80 % liquid at the warmer of its temperature and Ambient (common practice, no source)', () => {
    for (const [temperature, warmest] of [
      [AMBIENT, AMBIENT],
      [303.15, 303.15],
      [278.15, AMBIENT],
    ] as const) {
      const volume = cylinderVolume(chargingOf(1, 'liquid', { temperature }));
      const held = 0.8 * volume * R134A.liquidDensity(warmest) + 0.2 * volume * R134A.saturatedVapourDensity(warmest);
      expect(held).toBeCloseTo(10, 9);
    }
  });
});

describe('the way of a charge', () => {
  it('begins at nothing with the flow into vacuum, and is told at each time once, as far as it gets', () => {
    for (const [as, law] of [
      ['liquid', liquidLaw(R134A, RIG)],
      ['vapour', vapourLaw(R134A, RIG)],
    ] as const) {
      const mass = as === 'liquid' ? 1 : 0.15;
      const end = charge(chargingOf(mass, as), RIG).time;
      const times = [0, 1e-4, 1e-3, 0.1, end / 2, end * 0.99, end * 2, end * 3];
      const { seen, time, charged, last } = walk(chargingOf(mass, as), times);
      expect(time).toBeCloseTo(end, 9);
      expect(seen.map((moment) => moment.time)).toEqual(times.slice(0, 6));
      const start = seen[0];
      expect(start).toMatchObject({ charged: 0, choked: true });
      expect(start?.rate).toBeCloseTo(law(AMBIENT, R134A.bubblePressure(AMBIENT), 0).flow, 8);
      // at first the flow is steady
      expect((seen[3]?.charged ?? 0) / (0.1 * (start?.rate ?? 1))).toBeCloseTo(1, 2);
      expect(charged / mass).toBeCloseTo(1, 6);
      expect(last.charged).toBe(charged);
      expect(last.time).toBe(time);
    }
  });

  it('in a bath that holds its temperature is mass by flow: the flow of liquid into vacuum is choked and steady', () => {
    const { time, coldest, seen } = walk(chargingOf(0.4, 'liquid', { heat: 1e6 }), [0]);
    expect(coldest).toBeGreaterThan(AMBIENT - 0.05);
    expect(time / (0.4 / (seen[0]?.rate ?? 1))).toBeCloseTo(1, 2);
  });

  it('keeps the energy of both vessels but for what came in through their walls', () => {
    for (const heat of [0, 50]) {
      const { seen, last, coldest } = walk(chargingOf(1, 'liquid', { heat }), [0, 5, 10]);
      const moved = R134A.latentHeat(AMBIENT);
      for (const moment of [...seen, last])
        expect(Math.abs(moment.energy - moment.heatIn - (seen[0]?.energy ?? 0)) / moved).toBeLessThan(1e-4);
      expect(seen[0]?.heatIn).toBe(0);
      if (heat === 0) expect(last.heatIn).toBe(0);
      else expect(last.heatIn).toBeGreaterThan(0);
      // without heat the cylinder only cools: the end is the coldest
      if (heat === 0) expect(coldest).toBe(last.cylinder.temperature);
      expect(coldest).toBeLessThan(AMBIENT);
    }
  });
});
