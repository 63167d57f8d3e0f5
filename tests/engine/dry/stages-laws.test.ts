import { describe, expect, it } from 'vitest';
import { dryOutCurve } from '../../../src/engine/dry/curve.ts';
import { rigSurface } from '../../../src/engine/dry/rig-surface.ts';
import {
  type Balance,
  dryStage,
  heldEnthalpy,
  LONGEST,
  type Moment,
  poolStage,
  vapourPerPascal,
} from '../../../src/engine/dry/stages.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import { expectWithin } from '../../references/assert.ts';
import { hose, pumpOf, rigOf } from '../rig/fakes.ts';
import {
  AMBIENT,
  AROUND,
  DRY,
  EVAPORATION,
  FREEZING,
  MELTING,
  RV,
  SPEED,
  SURFACE,
  surfaceOf,
  TRIPLE,
  TRIPLE_PA,
  VOLUME,
} from './simple.ts';

const TIME = VOLUME / SPEED;
/** kg/s of vapour that the pump takes off a pool at the triple point, and W that reach it */
const OFF = (SPEED * TRIPLE_PA) / (RV * AMBIENT);
const HEAT = 0.5 * (AMBIENT - TRIPLE);
const LIQUID: Moment = { ...FREEZING, state: 'liquid', ice: 0 };
function noted(places = 1): { seen: Moment[]; places: number; see: (moment: Moment) => void } {
  const seen: Moment[] = [];
  return { seen, places, see: (moment) => seen.push(moment) };
}
const nothing = (): Balance => ({ carriedOff: 0, heatIn: 0, enthalpyOff: 0 });

describe('a stage with water and ice', () => {
  it('freezes by L m_out less the heat, until all is ice, with its sums', () => {
    const balance = nothing();
    const watch = noted();
    const end = poolStage(AROUND, FREEZING, balance, watch);
    const freezing = (EVAPORATION * OFF - HEAT) / MELTING;
    const t = 4e-3 / (OFF + freezing);
    expect(end).toMatchObject({ state: 'ice', temperature: TRIPLE, vapour: TRIPLE_PA });
    expectWithin((end?.time ?? 0) - 100, t, 1e-7, 'all ice');
    expectWithin(end?.water ?? 0, 5e-3 - OFF * t, 1e-7, 'ice left');
    expect(end?.ice).toBe(end?.water);
    expect(end?.gas).toBeCloseTo(4000 * Math.exp(-t / TIME), 3);
    expectWithin(balance.carriedOff, OFF * t, 1e-7, 'vapour off');
    expectWithin(balance.heatIn, HEAT * t, 1e-7, 'heat in');
    expectWithin(balance.enthalpyOff, EVAPORATION * OFF * t, 1e-7, 'enthalpy off');
    for (const { time, ice, water, state } of watch.seen) {
      expect(state).toBe('freezing');
      expectWithin(ice, 1e-3 + freezing * (time - 100), 1e-5, 'ice on the way');
      expectWithin(water, 5e-3 - OFF * (time - 100), 1e-5, 'water on the way');
    }
    expect(watch.seen.at(-1)?.time).toBe(end?.time);
  });

  it('thaws where more heat comes in than the vapour takes', () => {
    const end = poolStage({ ...AROUND, heat: 5 }, FREEZING, undefined, noted());
    const melting = (10 * HEAT - EVAPORATION * OFF) / MELTING;
    expect(end).toMatchObject({ state: 'liquid', ice: 0, temperature: TRIPLE });
    expectWithin((end?.time ?? 0) - 100, 1e-3 / melting, 1e-8, 'all melted');
    expectWithin(end?.water ?? 0, 5e-3 - (OFF * 1e-3) / melting, 1e-8, 'water left');
  });

  it('has a leak come to Q/S', () => {
    const load = { leak: 0.5, outgassing: 0, exponent: 0 };
    const end = poolStage({ ...AROUND, load }, FREEZING, undefined, noted());
    const t = 4e-3 / (OFF + (EVAPORATION * OFF - HEAT) / MELTING);
    expectWithin(end?.gas ?? 0, 500 + 3500 * Math.exp(-t / TIME), 1e-5, 'gas');
  });

  it('shows places within its steps where it is watched closely', () => {
    const one = noted();
    const four = noted(4);
    poolStage(AROUND, FREEZING, undefined, one);
    poolStage(AROUND, FREEZING, undefined, four);
    // the last step is walked again and its end alone is shown
    expect(four.seen.length - 1).toBe(4 * (one.seen.length - 1));
    const freezing = (EVAPORATION * OFF - HEAT) / MELTING;
    four.seen.forEach(({ time, ice, gas }, i) => {
      expect(time).toBeGreaterThan(four.seen[i - 1]?.time ?? 100);
      expectWithin(ice, 1e-3 + freezing * (time - 100), 1e-5, 'ice');
      expect(Math.abs(gas - 4000 * Math.exp(-(time - 100) / TIME))).toBeLessThan(2);
    });
  });
});

describe('a stage with liquid or ice', () => {
  it('cools to the triple point without heat: m c dT = L dm', () => {
    const warm = { ...LIQUID, temperature: 278.15, vapour: 872.575 };
    const end = poolStage({ ...AROUND, heat: 0 }, warm, undefined, noted());
    expect(end).toMatchObject({ state: 'freezing', temperature: TRIPLE, ice: 0 });
    expectWithin(5e-3 - (end?.water ?? 0), (5e-3 * 4.204 * 4.99) / 2495, 0.02, 'gone off');
  });

  it('is gone after m R_v T/(S p) where all heat that it takes comes in at once', () => {
    const warm = { ...LIQUID, temperature: AMBIENT, vapour: 2339.32, gas: 0 };
    const end = poolStage({ ...AROUND, heat: 1e6 }, warm, undefined, noted());
    expect(end).toMatchObject({ state: 'dry', water: 0, ice: 0, gas: 0 });
    // row PL-06 of the reference file (IAPWS-95)
    expectWithin((end?.time ?? 0) - 100, (5e-3 * RV * AMBIENT) / (SPEED * 2339.32), 1e-4, 'dry');
  });

  it('sublimes as ice, all of it ice, and thaws from the triple point on a warm day', () => {
    const cold = 263.15;
    const surface = { ...SURFACE, temperature: cold };
    const ice: Moment = { ...FREEZING, state: 'ice', ice: 5e-3, temperature: cold, vapour: 259.87, gas: 0 };
    const watch = noted();
    const end = poolStage({ ...AROUND, surface, heat: 1e6 }, ice, undefined, watch);
    expect(end?.state).toBe('dry');
    // row PI-08 of the reference file (IAPWS R14-08)
    expectWithin((end?.time ?? 0) - 100, (5e-3 * RV * cold) / (SPEED * 259.87), 5e-4, 'dry');
    for (const { ice, water } of watch.seen) expect(ice).toBe(water);
    const thawing = poolStage({ ...AROUND, heat: 50 }, { ...ice, temperature: 272 }, undefined, noted());
    expect(thawing).toMatchObject({ state: 'freezing', temperature: TRIPLE });
    expect(thawing?.ice).toBe(thawing?.water);
  });

  it('never ends without heat once it is cold', () => {
    const ice: Moment = { ...FREEZING, state: 'ice', ice: 5e-3 };
    expect(poolStage({ ...AROUND, heat: 1e-7 }, ice, undefined, noted())).toBeUndefined();
    expect(LONGEST).toBe(366 * 24 * 3600);
  });
});

describe('the last stage, without water', () => {
  it('takes V/S ln(p0/p1), and gas and vapour keep their ratio, watched or not', () => {
    for (const watch of [noted(1), noted(4)]) {
      const end = dryStage(AROUND, DRY, 110, watch);
      expectWithin((end?.time ?? 0) - 100, TIME * Math.log(40), 1e-6, 'time');
      expectWithin(end?.gas ?? 0, 100, 1e-6, 'gas');
      expectWithin(end?.vapour ?? 0, 10, 1e-6, 'vapour');
      expect(end).toMatchObject({ state: 'dry', water: 0, ice: 0, temperature: AMBIENT });
      for (const { time, gas, vapour, state } of watch.seen) {
        expect(state).toBe('dry');
        expect(gas / vapour).toBeCloseTo(10, 4);
        expect(Math.abs(gas - 4000 * Math.exp(-(time - 100) / TIME))).toBeLessThan(4);
      }
      expect(watch.seen.length > 4).toBe(watch.places === 4);
    }
  });

  it('is over where the pressure is there already', () => {
    expect(dryStage(AROUND, DRY, 4400, noted())).toBe(DRY);
    expect(dryStage(AROUND, DRY, 5000, noted())).toBe(DRY);
  });

  for (const load of [
    { leak: 0.2, outgassing: 0, exponent: 0 },
    { leak: 0, outgassing: 0.2, exponent: 0 },
  ])
    it(`comes to Q/S with a load, and is not there below it: leak ${load.leak}, outgassing ${load.outgassing}`, () => {
      const end = dryStage({ ...AROUND, load }, DRY, 300, noted());
      const t = TIME * Math.log((4400 - 200) / (300 - 200));
      expectWithin((end?.time ?? 0) - 100, t, 1e-6, 'time');
      expectWithin(end?.vapour ?? 0, 400 * Math.exp(-t / TIME), 1e-5, 'vapour');
      expectWithin(end?.gas ?? 0, 300 - 400 * Math.exp(-t / TIME), 1e-6, 'gas');
      expect(dryStage({ ...AROUND, load }, DRY, 199, noted())).toBeUndefined();
    });

  it('goes as fast as its mixture, and counts the pressure above the ultimate one', () => {
    // Q = S exp(0.3 y) (p - 5 Pa)
    const surface = surfaceOf((_, y) => Math.log(SPEED) + 0.3 * y);
    const t = (TIME * Math.log(4395 / 15)) / Math.exp(0.3 / 11);
    for (const places of [1, 4]) {
      const end = dryStage({ ...AROUND, surface }, DRY, 20, noted(places));
      expectWithin((end?.time ?? 0) - 100, t, 1e-5, 'time');
      expectWithin(end?.vapour ?? 0, 20 / 11, 1e-6, 'vapour');
      expectWithin(end?.gas ?? 0, 200 / 11, 1e-6, 'gas');
    }
    // with a leak the vapour thins: small steps of the midpoint rule
    let [gas, vapour] = [4000, 400];
    const dt = 40 / 20_000;
    const slopes = (a: number, b: number): [number, number] => {
      const y = b / (a + b);
      const q = SPEED * Math.exp(0.3 * y) * (a + b - 5);
      return [(0.2 - (1 - y) * q) / VOLUME, (-y * q) / VOLUME];
    };
    for (let i = 0; i < 20_000; i++) {
      const [a, b] = slopes(gas, vapour);
      const middle = slopes(gas + 0.5 * dt * a, vapour + 0.5 * dt * b);
      gas += dt * middle[0];
      vapour += dt * middle[1];
    }
    const load = { leak: 0.2, outgassing: 0, exponent: 0 };
    const end = dryStage({ ...AROUND, surface, load }, DRY, gas + vapour, noted());
    expectWithin((end?.time ?? 0) - 100, 40, 1e-5, 'time with a leak');
    expectWithin(end?.vapour ?? 0, vapour, 1e-4, 'vapour with a leak');
  });

  it('behind a hose is the integral of V dp/Q by small steps', () => {
    const surface = rigSurface(rigOf(pumpOf(SPEED, 5), [hose(5e-3, 1.5)]), gasState('air', AMBIENT), SURFACE_VAPOUR);
    const watched = dryStage({ ...AROUND, surface }, DRY, 7, noted(2));
    const end = dryStage({ ...AROUND, surface }, DRY, 7, noted());
    expectWithin((end?.time ?? 0) - 100, (watched?.time ?? 0) - 100, 1e-5, 'integral and march');
    expect((end?.gas ?? 0) + (end?.vapour ?? 0)).toBeCloseTo(7, 9);
    expect((end?.vapour ?? 0) / 7).toBeCloseTo(400 / 4400, 9);
  });
});

const SURFACE_VAPOUR = gasState('water vapour', AMBIENT);

describe('what a moment holds', () => {
  it('is vapour by the gas law, and heat counted from liquid and metal at the triple point', () => {
    expect(vapourPerPascal(AROUND)).toBeCloseTo(VOLUME / (RV * AMBIENT), 14);
    const around = { ...AROUND, metal: 400 };
    expect(heldEnthalpy(around, { ...DRY, temperature: 283.16 })).toBeCloseTo(4000, 6);
    expect(heldEnthalpy(around, FREEZING)).toBeCloseTo(-1e-3 * MELTING, 6);
  });
});

describe('a dry-out as points for a chart', () => {
  const surface = rigSurface(rigOf(pumpOf(2e-3, 2.7), [hose(9e-3, 1.5)]), gasState('air', AMBIENT), SURFACE_VAPOUR);
  const system = { volume: 0.02, water: 5e-3, heat: 5, start: 101325, target: 66.66 };

  it('stands at even steps of the sum of what is done of ln p, of the water and of the time', () => {
    for (const count of [3, 5, 12]) {
      const { result, points } = dryOutCurve(surface, system, count);
      const whole = result.dry + result.toTarget;
      const fall = Math.log(101325 / 66.66);
      points.forEach(({ time, pressure, water, state, temperature }, k) => {
        const done = Math.log(101325 / pressure) / fall + (5e-3 - water) / 5e-3 + time / whole;
        // straight lines between moments are not straight in ln p
        expect(Math.abs(done - (3 * k) / (count - 1)), `${k} of ${count}`).toBeLessThan(0.02);
        expect(temperature === undefined).toBe(state === 'dry');
      });
    }
  });

  it('has the vapour at the pump and the temperature of the water at each', () => {
    const { result, points } = dryOutCurve(surface, system, 60);
    const wettest = Math.max(...points.map(({ vapourAtPump }) => vapourAtPump));
    expect(wettest).toBeLessThanOrEqual(result.vapourAtPump);
    expectWithin(wettest, result.vapourAtPump, 0.05, 'largest');
    expect(points[0]?.temperature).toBe(AMBIENT);
    const coldest = Math.min(...points.map(({ temperature }) => temperature ?? 400));
    expect(coldest).toBeGreaterThanOrEqual(result.coldest);
    expect(coldest - result.coldest).toBeLessThan(0.2);
  });
});
