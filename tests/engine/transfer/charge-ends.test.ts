import { describe, expect, it } from 'vitest';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import type { Refrigerant } from '../../../src/engine/refrigerant/refrigerant.ts';
import { type ChargeMoment, type Charging, charge, cylinderVolume } from '../../../src/engine/transfer/charge.ts';
import { issueOf } from '../../issue-of.ts';
import { core, hose, pumpOf, rigOf } from '../rig/fakes.ts';

const R134A = refrigerantByName('R-134a');
const AMBIENT = 293.15;
const NARROW = rigOf(pumpOf(1), [hose(0.0048, 1.5), core(0.0016, 0.006)]);

interface Given {
  readonly refrigerant?: Refrigerant;
  readonly cylinder?: Partial<Charging['cylinder']>;
  readonly system?: Partial<Charging['system']>;
}
function chargingOf(mass: number, as: 'liquid' | 'vapour', { refrigerant = R134A, cylinder, system }: Given = {}) {
  return {
    refrigerant,
    mass,
    as,
    cylinder: { charge: 10, temperature: AMBIENT, heat: 0, bath: AMBIENT, ...cylinder },
    system: { volume: 0.008, heat: 0, ambient: AMBIENT, ...system },
  } satisfies Charging;
}
function walk(charging: Charging, times: readonly number[], rig = NARROW) {
  const seen: ChargeMoment[] = [];
  return { ...charge(charging, rig, { times, see: (moment) => seen.push(moment) }), seen };
}

/** J of two phases at one temperature, by u = h - p v of each */
function energyOf(r: Refrigerant, t: number, liquid: number, vapour: number): number {
  const ofLiquid = r.liquidEnthalpy(t) - r.bubblePressure(t) / r.liquidDensity(t);
  return liquid * ofLiquid + vapour * (r.vapourEnthalpy(t) - r.dewPressure(t) / r.saturatedVapourDensity(t));
}
/** kg of liquid where a mass shares a volume with its vapour */
function liquidIn(r: Refrigerant, t: number, mass: number, volume: number): number {
  const dense = r.saturatedVapourDensity(t);
  return (mass - volume * dense) / (1 - dense / r.liquidDensity(t));
}

/**
 * kg of vapour that leave a cylinder without heat till it has cooled to a temperature: in small steps of the temperature, U + dU = U - dm h.
 */
function boiledOff(r: Refrigerant, mass: number, volume: number, from: number, to: number): number {
  const steps = 2000;
  const held = (t: number, m: number): number => {
    const liquid = liquidIn(r, t, m, volume);
    return energyOf(r, t, liquid, m - liquid);
  };
  let m = mass;
  for (let i = 0; i < steps; i++) {
    const [a, b] = [i, i + 1].map((k) => from + ((to - from) * k) / steps) as [number, number];
    const h = r.vapourEnthalpy((a + b) / 2);
    // held(b, m - dm) = held(a, m) - dm h; U at a temperature is straight in the mass
    const perKg = held(b, m) - held(b, m - 1);
    m -= (held(a, m) - held(b, m)) / (h - perKg);
  }
  return mass - m;
}

describe('a charge that stops', () => {
  it('because the pressures have met, flows by then at a charge a day', () => {
    for (const charging of [chargingOf(3, 'liquid', { system: { heat: 20 } }), chargingOf(2, 'vapour')]) {
      const { end, last, time } = charge(charging, NARROW);
      expect(end).toBe('met');
      expect((last.rate * 86_400) / charging.mass).toBeCloseTo(1, 2);
      expect(time).toBeLessThan(86_400);
    }
  });

  it('because the cylinder is as cold as the table of the refrigerant goes, has boiled off what cools it so far', () => {
    const short = { ...R134A, lowest: 285 };
    // 222 g of vapour fill 8 L, 8.3 kg fill 300 L
    const charging = chargingOf(9.5, 'vapour', { refrigerant: short, system: { volume: 0.3 } });
    const { end, last, charged, coldest } = charge(charging, NARROW);
    expect(end).toBe('cold');
    expect(last.cylinder.temperature).toBeCloseTo(285.01, 4);
    expect(coldest).toBe(last.cylinder.temperature);
    const expected = boiledOff(R134A, 10, cylinderVolume(charging), AMBIENT, 285.01);
    expect(charged / expected).toBeCloseTo(1, 4);
    // the system holds vapour alone still
    expect(last.system).toMatchObject({ temperature: AMBIENT, liquid: 0, state: 'vapour' });
  });

  it('because the cylinder has no liquid left while vapour does not fill the system yet', () => {
    const warm = { charge: 2, heat: 100, bath: AMBIENT };
    const charging = chargingOf(1.99, 'vapour', { cylinder: warm, system: { volume: 0.075 } });
    const { end, last, charged } = charge(charging, NARROW);
    expect(end).toBe('dry');
    expect(last.cylinder.liquid).toBeCloseTo(0, 6);
    expect(charged).toBeLessThan(0.075 * R134A.saturatedVapourDensity(AMBIENT));
    expect(last.system).toMatchObject({ temperature: AMBIENT, liquid: 0, state: 'vapour' });
    // the cylinder is full of dry vapour
    const left = cylinderVolume(charging) * R134A.saturatedVapourDensity(last.cylinder.temperature);
    expect((2 - charged) / left).toBeCloseTo(1, 5);
  });

  it('where the properties have a hole is a fault of the program and no charge', () => {
    const hole = { ...R134A, vapourViscosity: (t: number) => (t < 288 ? Number.NaN : R134A.vapourViscosity(t)) };
    const charging = chargingOf(5, 'vapour', { refrigerant: hole, system: { volume: 0.3 } });
    expect(issueOf(() => charge(charging, NARROW))).toEqual({
      kind: 'internal',
      detail: 'the march of a charge is stuck',
    });
  });
});

describe('the times of a charge', () => {
  it('are told up to its end, which counts', () => {
    for (const charging of [chargingOf(0.5, 'liquid'), chargingOf(0.15, 'vapour')]) {
      const { time, last } = charge(charging, NARROW);
      const { seen } = walk(charging, [time, time * (1 + 1e-9)]);
      expect(seen).toEqual([last]);
    }
  });
});
