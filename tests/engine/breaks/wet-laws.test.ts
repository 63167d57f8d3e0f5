import { describe, expect, it } from 'vitest';
import { type Balance, type Contents, totalPressure } from '../../../src/engine/breaks/contents.ts';
import { type Flow, wetStage } from '../../../src/engine/breaks/wet.ts';
import { NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import { expectWithin } from '../../references/assert.ts';
import {
  AMBIENT,
  AROUND,
  EVAPORATION,
  FEED_SPEED,
  FREEZING,
  MELTING,
  PUMP,
  RV,
  SPEED,
  SUPPLY,
  TRIPLE,
  TRIPLE_PA,
  VOLUME,
} from './simple.ts';

const OUT: Flow = { kind: 'out', throughput: PUMP.throughput };
const IN: Flow = { kind: 'in', throughput: (p) => FEED_SPEED * (SUPPLY - p) };
const NONE: Flow = { kind: 'none' };
const TIME = VOLUME / SPEED;
/** kg/s of vapour that the pump takes off a pool at the triple point, and W that reach it */
const OFF = (SPEED * TRIPLE_PA) / (RV * AMBIENT);
const HEAT = 0.5 * (AMBIENT - TRIPLE);
const LIQUID: Contents = { ...FREEZING, state: 'liquid', ice: 0 };
const nothing = (): Balance => ({ vapourOff: 0, heatIn: 0, enthalpyOff: 0, firstOff: 0, firstIn: 0 });

describe('water and ice together, where the temperature stands still', () => {
  it('melt by the heat that comes in, m = UA (T - T_t) t/L_f, until the ice is gone', () => {
    const shut = wetStage(AROUND, NONE, FREEZING, { time: 120 });
    expect(shut?.why).toBe('time');
    expect(shut?.contents).toMatchObject({ time: 120, state: 'freezing', temperature: TRIPLE, vapour: TRIPLE_PA });
    expectWithin(shut?.contents.ice ?? 0, 1e-3 - (HEAT * 20) / MELTING, 1e-6, 'ice');
    expect(shut?.contents.water).toBeCloseTo(5e-3, 12);
    expect(shut?.contents).toMatchObject({ first: 3000, fed: 1000 });
    const thawed = wetStage(AROUND, NONE, FREEZING, { time: 1e5 });
    expect(thawed).toMatchObject({ why: 'pool', contents: { state: 'liquid', ice: 0 } });
    expectWithin((thawed?.contents.time ?? 0) - 100, (1e-3 * MELTING) / HEAT, 1e-6, 'all melted');
  });

  it('freeze by the vapour that goes off, until all is ice', () => {
    const balance = nothing();
    const seen: Contents[] = [];
    const frozen = wetStage(AROUND, OUT, FREEZING, { time: 1e5 }, balance, (at) => seen.push(at));
    // liquid 5 g - 1 g falls by the vapour and by what freezes
    const freezing = (EVAPORATION * OFF - HEAT) / MELTING;
    const t = 4e-3 / (OFF + freezing);
    const end = frozen?.contents;
    expect(frozen).toMatchObject({ why: 'pool', contents: { state: 'ice', temperature: TRIPLE } });
    expectWithin((end?.time ?? 0) - 100, t, 1e-6, 'all ice');
    expectWithin(end?.water ?? 0, 5e-3 - OFF * t, 1e-6, 'ice left');
    expect(end?.ice).toBe(end?.water);
    // both gases fall with the pump's exponential
    expect(end?.first).toBeCloseTo(3000 * Math.exp(-t / TIME), 3);
    expect(end?.fed).toBeCloseTo(1000 * Math.exp(-t / TIME), 3);
    expectWithin(balance.vapourOff, OFF * t, 1e-6, 'vapour off');
    expectWithin(balance.heatIn, HEAT * t, 1e-6, 'heat in');
    expectWithin(balance.enthalpyOff, EVAPORATION * OFF * t, 1e-6, 'enthalpy off');
    expectWithin(balance.firstOff, 3000 * VOLUME * (1 - Math.exp(-t / TIME)), 1e-5, 'first gas off');
    expect(balance.firstIn).toBe(0);
    // every moment seen is one of that way
    expect(seen.length).toBeGreaterThan(2);
    for (const { time, state, ice } of seen) {
      expect(state).toBe('freezing');
      expectWithin(ice, 1e-3 + freezing * (time - 100), 1e-5, 'ice on the way');
    }
  });

  it('end where the pressure is there', () => {
    const until = { time: 1e5, pressure: 1000 };
    const end = wetStage(AROUND, OUT, FREEZING, until);
    expect(end?.why).toBe('pressure');
    const t = TIME * Math.log(4000 / (1000 - TRIPLE_PA));
    expectWithin((end?.contents.time ?? 0) - 100, t, 1e-5, 'down to 1000 Pa');
    const up = wetStage(AROUND, IN, { ...FREEZING, ice: 3e-3 }, { time: 1e5, pressure: 1e5 });
    expect(up?.why).toBe('pressure');
    const start = SUPPLY - totalPressure(FREEZING);
    const filled = (VOLUME / FEED_SPEED) * Math.log(start / (SUPPLY - 1e5));
    expectWithin((up?.contents.time ?? 0) - 100, filled, 1e-5, 'up to 1 bar');
    expect(up?.contents.first).toBe(3000);
    expectWithin(up?.contents.fed ?? 0, 1e5 - 3000 - TRIPLE_PA, 1e-6, 'fed');
  });

  for (const [name, load] of [
    ['a leak', { leak: 0.5, outgassing: 0, exponent: 0 }],
    ['outgassing', { leak: 0, outgassing: 0.5, exponent: 0 }],
  ] as const)
    it(`with ${name} have the first gas come to Q/S, and the fed gas fall alone`, () => {
      const around = { ...AROUND, load };
      const balance = nothing();
      const end = wetStage(around, OUT, FREEZING, { time: 160 }, balance)?.contents;
      const part = Math.exp(-60 / TIME);
      expectWithin(end?.first ?? 0, 500 + 2500 * part, 1e-5, 'first gas');
      expectWithin(end?.fed ?? 0, 1000 * part, 1e-5, 'fed gas');
      expectWithin(balance.firstIn, 30, 1e-6, 'came in');
      expectWithin(balance.firstOff, 30 + (3000 - 500 - 2500 * part) * VOLUME, 1e-5, 'went off');
      expectWithin(balance.vapourOff, OFF * 60, 1e-5, 'vapour off');
      // what leaks in while gas is fed, or while the system stands, does not count
      for (const flow of [IN, NONE]) {
        const shut = nothing();
        expect(wetStage(around, flow, FREEZING, { time: 110 }, shut)?.contents.first).toBe(3000);
        expect(shut.firstIn).toBe(0);
      }
    });
});

describe('liquid water', () => {
  it('cools to the triple point and begins to freeze there', () => {
    // no heat: what goes off cools the rest
    const warm = { ...LIQUID, temperature: 278.15, vapour: 872.6 };
    const end = wetStage({ ...AROUND, heat: 0 }, OUT, warm, { time: 1e5 });
    expect(end).toMatchObject({ why: 'pool', contents: { state: 'freezing', temperature: TRIPLE, ice: 0 } });
    // 5 K of 4.2 kJ/(kg K) take some 4.2/2.5e3 of the mass a kelvin
    const gone = 5e-3 - (end?.contents.water ?? 0);
    expectWithin(gone, (5e-3 * 4.204 * 4.99) / 2495, 0.02, 'gone off');
  });

  it('is gone after m R_v T/(S p) where all heat that it takes comes in at once', () => {
    const around = { ...AROUND, heat: 1e6 };
    // row PL-06 of the reference file: 2339.32 Pa at 20 C (IAPWS-95)
    const warm = { ...LIQUID, temperature: AMBIENT, vapour: 2339.32, first: 0, fed: 0 };
    const end = wetStage(around, OUT, warm, { time: 1e5 });
    expect(end).toMatchObject({ why: 'pool', contents: { state: 'dry', water: 0, ice: 0, first: 0, fed: 0 } });
    expectWithin((end?.contents.time ?? 0) - 100, (5e-3 * RV * AMBIENT) / (SPEED * 2339.32), 1e-4, 'dry');
  });

  it('warms with the metal beside it', () => {
    // shut in a litre, 0.5 kg of water and 2000 J/K of metal: hardly anything evaporates
    const around = { ...AROUND, volume: 1e-3, metal: 2000 };
    const cool = { ...LIQUID, water: 0.5, temperature: 283.15, vapour: 1228.2 };
    const end = wetStage(around, NONE, cool, { time: 5100 });
    const kept = Math.exp((-0.5 * 5000) / (0.5 * 4190 + 2000));
    expect(end?.why).toBe('time');
    expectWithin(AMBIENT - (end?.contents.temperature ?? 0), 10 * kept, 2e-3, 'what is left to warm');
  });

  it('keeps its vapour at the saturation pressure, and ice is all of the water where it is ice', () => {
    // PI-08 of the reference file: 259.87 Pa at -10 C (IAPWS R14-08)
    const ice: Contents = {
      ...FREEZING,
      state: 'ice',
      ice: 5e-3,
      temperature: 263.15,
      vapour: 259.87,
      first: 0,
      fed: 0,
    };
    const around = { ...AROUND, ambient: 263.15, heat: 1e6 };
    const end = wetStage(around, OUT, ice, { time: 160 })?.contents;
    expect(end?.state).toBe('ice');
    expect(end?.ice).toBe(end?.water);
    expectWithin(end?.vapour ?? 0, 259.87, 5e-4, 'vapour over ice');
    expectWithin(5e-3 - (end?.water ?? 0), (60 * SPEED * 259.87) / (RV * 263.15), 1e-3, 'sublimed');
    expect(around.load).toBe(NO_LOAD);
  });
});
