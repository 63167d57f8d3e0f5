import { describe, expect, it } from 'vitest';
import { flowPatches } from '../../../src/engine/dry/quick/flow-patches.ts';
import { lowestBetween, marchStage, type Track } from '../../../src/engine/dry/quick/march.ts';
import {
  type Course,
  noSlopes,
  ratesAt,
  type Slopes,
  type Stage,
  type State,
} from '../../../src/engine/dry/quick/rates.ts';
import { type Reached, step } from '../../../src/engine/dry/quick/step.ts';
import { ICE_CELLS, LIQUID_CELLS, waterOn } from '../../../src/engine/dry/quick/water-cells.ts';
import { type GasLoad, NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import {
  iceHeat,
  latentEvaporation,
  latentSublimation,
  liquidHeat,
  overIce,
  overLiquid,
} from '../../../src/engine/gas/water.ts';
import { expectWithin } from '../../references/assert.ts';
import { AMBIENT, EVAPORATION, MELTING, RV, SPEED, SURFACE, surfaceOf, TRIPLE, TRIPLE_PA, VOLUME } from './simple.ts';

const PER_THROUGHPUT = 1 / (RV * AMBIENT);
const courseOf = (load: GasLoad = NO_LOAD, heat = 0.5, metal = 0, surface = SURFACE): Course => ({
  patches: flowPatches(surface),
  ambient: AMBIENT,
  volume: VOLUME,
  heat,
  metal,
  load,
  perPascal: VOLUME * PER_THROUGHPUT,
  perThroughput: PER_THROUGHPUT,
});
const rates = (course: Course, stage: Stage, state: State): Slopes => {
  const out = noSlopes();
  ratesAt(course, stage, state, true, out);
  return out;
};
const RATE = SPEED / VOLUME;
const OFF = SPEED * TRIPLE_PA * PER_THROUGHPUT;
const HEAT = 0.5 * (AMBIENT - TRIPLE);
const FREEZING: State = { time: 100, x0: Math.log(4000), x1: 1e-3, x2: 5e-3 };
const reachedOf = (): Reached => ({ time: 0, x0: 0, x1: 0, x2: 0, e0: 0, e1: 0, e2: 0 });

describe('the rates of the quick way', () => {
  it('are those of a pump of one speed: ln p falls by S/V, vapour goes off with p_s S/(R_v T)', () => {
    const dry = rates(courseOf(), 'dry', { time: 0, x0: Math.log(4000), x1: Math.log(400), x2: 0 });
    expect([dry.r0 / RATE, dry.r1 / RATE, dry.r2]).toEqual([expect.closeTo(-1, 9), expect.closeTo(-1, 9), 0]);
    expect([dry.j12, dry.j20, dry.j21, dry.j22]).toEqual([0, 0, 0, 0]);
    const freezing = rates(courseOf(), 'freezing', FREEZING);
    expectWithin(-freezing.r2, OFF, 1e-9, 'off');
    expectWithin(freezing.r1, (EVAPORATION * OFF - HEAT) / MELTING, 1e-6, 'freezes');
    expectWithin(freezing.throughput, SPEED * (4000 + TRIPLE_PA), 1e-9, 'throughput');
    // rows PL-06 and PL-07: 2339.32 and 3169.93 Pa at 20 and 25 C; 4.18 kJ/(kg K) and 2453.5 kJ/kg at 20 C (IAPWS-95)
    const liquid = rates(courseOf(NO_LOAD, 0.5, 30), 'liquid', { time: 0, x0: 7, x1: AMBIENT, x2: 5e-3 });
    const off = SPEED * 2339.32 * PER_THROUGHPUT;
    const slope = 6.23e-2;
    const filling = VOLUME * PER_THROUGHPUT * 2339.32 * slope;
    const warming = (-2453.5e3 * off) / (5e-3 * 4184 + 30 + 2453.5e3 * filling);
    expectWithin(liquid.r1, warming, 5e-3, 'cools');
    expectWithin(liquid.r2, -off - filling * warming, 5e-3, 'evaporates');
  });

  it('have a load come in over what is there, and know how it falls', () => {
    const load = { leak: 0.02, outgassing: 0.05, exponent: 0.7 };
    const inflow = (t: number): number => 0.02 + 0.05 * (3600 / t) ** 0.7;
    const at = rates(courseOf(load), 'freezing', { ...FREEZING, time: 500 });
    expectWithin(at.r0, inflow(500) / (4000 * VOLUME) - RATE, 1e-9, 'gas');
    const later = (inflow(500.01) - inflow(499.99)) / 0.02 / (4000 * VOLUME);
    expectWithin(at.later, later, 1e-6, 'with time');
    // level before its first minute, and where it is steady
    expect(rates(courseOf(load), 'freezing', { ...FREEZING, time: 59 }).later).toBe(0);
    expect(rates(courseOf(load), 'freezing', { ...FREEZING, time: 60 }).later).not.toBe(0);
    expect(rates(courseOf({ ...load, exponent: 0 }), 'freezing', FREEZING).later).toBe(0);
    // gas that is gone to nothing stays so without a load
    const gone = rates(courseOf(), 'freezing', { ...FREEZING, x0: -800 });
    expect(gone.r0 / RATE).toBeCloseTo(-1, 9);
  });

  const bent = surfaceOf((x, y) => -6 + 0.3 * y - 0.5 * y * y + x * (0.1 + 0.05 * y) - 0.004 * x * x);
  it.each([
    ['liquid', 280.3],
    ['ice', 262.2],
    ['freezing', 1e-3],
    ['dry', 5],
  ] as const)('have the slopes that small differences have: %s', (stage, x1) => {
    const course = courseOf({ leak: 1e-3, outgassing: 1e-3, exponent: 1 }, 1, 50, bent);
    const state: State = { time: 500, x0: 6.5, x1, x2: 4e-3 };
    const at = rates(course, stage, state);
    const small = { time: 1e-2, x0: 1e-6, x1: stage === 'freezing' ? 1e-8 : 1e-5, x2: 1e-8 };
    const slopes = {
      time: [at.later, 0, 0],
      x0: [at.j00, at.j10, at.j20],
      // ice beside liquid changes nothing
      x1: [stage === 'freezing' ? 0 : at.j01, at.j11, at.j21],
      x2: [0, at.j12, at.j22],
    };
    for (const key of ['time', 'x0', 'x1', 'x2'] as const) {
      const up = rates(course, stage, { ...state, [key]: state[key] + small[key] });
      const down = rates(course, stage, { ...state, [key]: state[key] - small[key] });
      [up.r0 - down.r0, up.r1 - down.r1, up.r2 - down.r2].forEach((change, i) => {
        const slope = slopes[key][i] ?? Number.NaN;
        expect(Math.abs(change / (2 * small[key]) - slope), `${key} ${i}`).toBeLessThan(1e-4 * Math.abs(slope) + 1e-10);
      });
    }
    if (stage === 'dry') return;
    // along the way throughput and composition change as they say
    const dt = 1e-3;
    const along = (t: number): Slopes =>
      rates(course, stage, {
        time: 500 + t,
        x0: state.x0 + t * at.r0,
        x1: state.x1 + t * at.r1,
        x2: state.x2 + t * at.r2,
      });
    const [ahead, behind] = [along(dt), along(-dt)];
    const share = ({ gas, vapour }: Slopes): number => vapour / (gas + vapour);
    expectWithin(at.throughputRate, (ahead.throughput - behind.throughput) / (2 * dt), 1e-4, 'throughput');
    expectWithin(at.fractionRate, (share(ahead) - share(behind)) / (2 * dt), 1e-4, 'fraction');
  });
});

describe('the step of the quick way', () => {
  it.each([
    ['liquid', 285],
    ['ice', 255],
    ['freezing', 1e-3],
    ['dry', 5],
  ] as const)('errs by the fourth power of its length, and its estimate by the third: %s', (stage, x1) => {
    const course = courseOf({ leak: 0.1, outgassing: 0.002, exponent: 1 }, 5, 0);
    const from: State = { time: 100, x0: 6, x1, x2: 5e-3 };
    const to = reachedOf();
    const go = (whole: number, pieces: number): { at: State; error: number[] } => {
      let at = { ...from };
      for (let i = 0; i < pieces; i++) {
        step(course, stage, at, rates(course, stage, at), whole / pieces, to);
        at = { time: to.time, x0: to.x0, x1: to.x1, x2: to.x2 };
      }
      return { at, error: [to.e0, to.e1, to.e2] };
    };
    // ice is stiff: the air around it is little
    const h = stage === 'ice' ? 0.25 : 4;
    // the pool of one temperature has no error but in the gas
    const unknowns = stage === 'liquid' ? [0, 1, 2] : stage === 'ice' ? [0, 1] : [0];
    for (const i of unknowns) {
      const of = ({ x0, x1, x2 }: State): number => [x0, x1, x2][i] ?? Number.NaN;
      const missed = (length: number): number => Math.abs(of(go(length, 1).at) - of(go(length, 64).at));
      const estimate = (length: number): number => Math.abs(go(length, 1).error[i] ?? 0);
      expect(missed(h) / missed(h / 2), `error ${i}`).toBeGreaterThan(10);
      expect(missed(h) / missed(h / 2), `error ${i}`).toBeLessThan(25);
      expect(estimate(h) / estimate(h / 2), `estimate ${i}`).toBeGreaterThan(5);
      expect(estimate(h) / estimate(h / 2), `estimate ${i}`).toBeLessThan(12);
      expect(missed(h)).toBeLessThan(estimate(h));
    }
    expect(go(h, 1).at.time).toBe(100 + h);
  });
});

describe('the march through a stage', () => {
  const SCALES = { water: 5e-3, target: 110, lowest: 0 };
  const track = (): Track => ({ coldest: AMBIENT, wettest: 0, tries: 0 });
  const atPump = (q: number, y: number): number => (y * q) / SPEED;

  it('ends where all is ice, all is melted or the pressure is there, as the closed forms do', () => {
    const freezing = { ...FREEZING };
    const watched = track();
    expect(marchStage(courseOf(), 'freezing', freezing, SCALES, watched, atPump)).toBe(0);
    const growth = (EVAPORATION * OFF - HEAT) / MELTING;
    expectWithin(freezing.time - 100, 4e-3 / (OFF + growth), 1e-4, 'all ice');
    expect(Math.abs(freezing.x2 - freezing.x1)).toBeLessThan(1e-7);
    expectWithin(watched.wettest, TRIPLE_PA, 1e-3, 'vapour at the pump');
    expect(watched.coldest).toBe(AMBIENT);
    const melting = { ...FREEZING };
    expect(marchStage(courseOf(NO_LOAD, 5), 'freezing', melting, SCALES, track(), atPump)).toBe(1);
    expectWithin(melting.time - 100, (1e-3 * MELTING) / (10 * HEAT - EVAPORATION * OFF), 1e-4, 'all melted');
    const dry: State = { time: 100, x0: Math.log(4000), x1: Math.log(400), x2: 0 };
    expect(marchStage(courseOf(), 'dry', dry, SCALES, track(), atPump)).toBe(0);
    expectWithin(dry.time - 100, Math.log(40) / RATE, 1e-4, 'at its pressure');
  });

  it('ends where liquid comes to the triple point, or is gone', () => {
    const cooling: State = { time: 0, x0: Math.log(4000), x1: 278.15, x2: 5e-3 };
    const watched = track();
    expect(marchStage(courseOf(NO_LOAD, 0), 'liquid', cooling, SCALES, watched, atPump)).toBe(1);
    expect(Math.abs(cooling.x1 - TRIPLE)).toBeLessThanOrEqual(1e-3);
    expect(watched.coldest).toBe(cooling.x1);
    const boiling: State = { time: 0, x0: Math.log(4000), x1: AMBIENT, x2: 5e-3 };
    expect(marchStage(courseOf(NO_LOAD, 1e7), 'liquid', boiling, SCALES, track(), atPump)).toBe(0);
    // row PL-06: 2339.32 Pa
    expectWithin(boiling.time, 5e-3 / (SPEED * 2339.32 * PER_THROUGHPUT), 1e-3, 'gone');
    const thawing: State = { time: 0, x0: 6, x1: 272, x2: 5e-3 };
    expect(marchStage(courseOf(NO_LOAD, 50), 'ice', thawing, SCALES, track(), atPump)).toBe(1);
    expect(Math.abs(thawing.x1 - TRIPLE)).toBeLessThanOrEqual(1e-3);
  });

  it('knows the lowest value of a cubic that turns', () => {
    // (x - low)^2 (x + more) + floor is least at low
    for (const [low, more, floor, from, to] of [
      [0.4, 2, 273, -1, 1],
      [1, 5, 10, 0.5, 4],
      [-2, 9, -3, -6, -1],
      [7, 40, 0, 6.9, 17],
    ] as const) {
      const at = (x: number): number => (x - low) ** 2 * (x + more) + floor;
      const slope = (x: number): number => 2 * (x - low) * (x + more) + (x - low) ** 2;
      const found = lowestBetween(at(from), at(to), slope(from), slope(to), to - from);
      expect(found, `${low}, ${more}`).toBeCloseTo(floor, 9);
    }
  });

  it('comes to no end below what a load keeps', () => {
    const dry: State = { time: 100, x0: Math.log(4000), x1: Math.log(400), x2: 0 };
    const load = { leak: 0.2, outgassing: 0, exponent: 0 };
    const watched = track();
    expect(marchStage(courseOf(load), 'dry', dry, { ...SCALES, lowest: 200 }, watched, atPump)).toBe('none');
    // seen when the longest of all times is over
    expect(watched.tries).toBeLessThan(250);
    const above: State = { time: 100, x0: Math.log(4000), x1: Math.log(400), x2: 0 };
    const scales = { water: 5e-3, target: 220, lowest: 200 };
    expect(marchStage(courseOf(load), 'dry', above, scales, track(), atPump)).toBe(0);
    expectWithin(above.time - 100, Math.log(4200 / 20) / RATE, 1e-3, 'close to the level');
  });
});

describe('the water of the quick way', () => {
  it('has the values and slopes of the formulas, and goes on beyond its cells', () => {
    const at = { pressure: 0.5, slope: 0.5, bend: 0.5, heat: 0.5, heatSlope: 0.5, latent: 0.5, latentSlope: 0.5 };
    const sets = [
      [ICE_CELLS, overIce, iceHeat, latentSublimation, [61.2, 150.1, 230.3, 272.9, 283.1]],
      [LIQUID_CELLS, overLiquid, liquidHeat, latentEvaporation, [263.2, 273.3, 293.2, 340.1, 399.9]],
    ] as const;
    for (const [cells, saturation, heat, latent, temperatures] of sets)
      for (const T of temperatures) {
        waterOn(cells, T, at);
        const difference = (of: (T: number) => number): number => (of(T + 1e-3) - of(T - 1e-3)) / 2e-3;
        expectWithin(at.pressure, saturation(T).pressure, 1e-5, `pressure at ${T} K`);
        expectWithin(at.slope, saturation(T).slope, 1e-4, `slope at ${T} K`);
        expectWithin(
          at.bend,
          difference((t) => saturation(t).slope),
          0.02,
          `bend at ${T} K`,
        );
        expectWithin(at.heat, heat(T), 1e-6, `heat at ${T} K`);
        expectWithin(at.latent, latent(T), 1e-6, `latent heat at ${T} K`);
        expect(at.heatSlope).toBeCloseTo(difference(heat), 2);
        expect(at.latentSlope).toBeCloseTo(difference(latent), 0);
      }
    for (const [cells, T, saturation] of [
      [LIQUID_CELLS, 263.0, overLiquid],
      [LIQUID_CELLS, 400.4, overLiquid],
      [ICE_CELLS, 283.3, overIce],
    ] as const) {
      waterOn(cells, T, at);
      expectWithin(at.pressure, saturation(T).pressure, 1e-4, `just outside, ${T} K`);
    }
  });
});
