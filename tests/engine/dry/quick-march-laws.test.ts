import { describe, expect, it } from 'vitest';
import type { Ending } from '../../../src/engine/dry/quick/march.ts';
import { type Moment, poolStage } from '../../../src/engine/dry/stages.ts';
import { NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import { saturationPressure } from '../../../src/engine/gas/water.ts';
import { expectWithin } from '../../references/assert.ts';
import { type Marched, march, OFF, RATE, WARM } from './quick-march.ts';
import { AMBIENT, AROUND, EVAPORATION, MELTING, SPEED, surfaceOf, TRIPLE, TRIPLE_PA } from './simple.ts';

describe('the steps of the quick way', () => {
  it('have the gas within 2e-4 of the pressure, in no more tries than that takes: p = Q/S + (p0 - Q/S) exp(-S t/V)', () => {
    let tries = 0;
    for (const leak of [0, 0.1, 0.5, 5])
      for (const gas of [50, 4000, 90000]) {
        const { at, track } = march('freezing', gas, 1e-5, 1e-3, { leak });
        const level = leak / SPEED;
        const exact = level + (gas - level) * Math.exp(-RATE * at.time);
        expect(Math.abs(Math.exp(at.x0) - exact) / (exact + TRIPLE_PA), `${leak}, ${gas}`).toBeLessThan(2e-4);
        tries += track.tries;
      }
    expect(tries).toBeLessThan(190);
  });

  it('let ln p fall by 0.4 at most each, while gas is drawn off', () => {
    for (const gas of [4000, 20000, 90000]) {
      const { at, track } = march('freezing', gas, 1e-5, 1e-3);
      const fall = Math.log((gas + TRIPLE_PA) / (Math.exp(at.x0) + TRIPLE_PA));
      expect(track.tries).toBeGreaterThanOrEqual(fall / 0.4);
      expect(track.tries).toBeLessThan(fall / 0.4 + 6);
      const dry = march('dry', gas, Math.log(30), 0).track.tries;
      expect(dry).toBeGreaterThanOrEqual(Math.log((gas + 30) / 110) / 0.4);
      expect(dry).toBeLessThan(Math.log((gas + 30) / 110) / 0.4 + 7);
    }
  });

  it('have the last pull within 2e-4 of V/S ln((p - Q/S)/(p_t - Q/S)), and end at the target to 1e-5 of it', () => {
    let tries = 0;
    for (const leak of [0, 0.05, 0.1])
      for (const gas of [400, 4000, 90000])
        for (const vapour of [30, 3000]) {
          const { ending, at, track } = march('dry', gas, Math.log(vapour), 0, { leak });
          const level = leak / SPEED;
          expect(ending).toBe(0);
          expectWithin(
            at.time,
            Math.log((gas + vapour - level) / (110 - level)) / RATE,
            2e-4,
            `${leak}, ${gas}, ${vapour}`,
          );
          expectWithin(Math.exp(at.x0) + Math.exp(at.x1), 110, 1.001e-5, 'at the target');
          expectWithin(Math.exp(at.x1), vapour * Math.exp(-RATE * at.time), 1e-3, 'vapour');
          tries += track.tries;
        }
    expect(tries).toBeLessThan(440);
  });

  it('have water to its end within 6e-4 of fine steps and 1e-3 K, in no more tries than that takes', () => {
    const cases: readonly (readonly ['liquid' | 'ice', number, number, number, number, number])[] = [
      // state, K, W/K, J/K, kg, Pa of gas
      ['liquid', AMBIENT, 2, 0, 5e-3, 99000],
      ['liquid', AMBIENT, 2, 3000, 5e-3, 99000],
      ['liquid', AMBIENT, 0.3, 300, 5e-3, 99000],
      ['liquid', AMBIENT, 20, 3, 5e-3, 99000],
      ['liquid', AMBIENT, 0.3, 0, 5e-3, 1e-3],
      ['liquid', 285, 3, 3000, 0.05, 1],
      ['ice', 262, 0.3, 0, 5e-3, 3000],
      ['ice', 262, 0.3, 300, 5e-3, 3000],
      ['ice', 250, 30, 300, 5e-3, 3000],
      ['ice', TRIPLE, 0.1, 0, 1e-3, 1],
      ['ice', TRIPLE, 0.1, 1000, 1e-3, 1],
      ['ice', TRIPLE, 0.1, 0, 1e-3, 500],
    ];
    let tries = 0;
    for (const [state, temperature, heat, metal, water, gas] of cases) {
      const told = `${state} ${temperature} K ${heat} W/K ${metal} J/K ${gas} Pa`;
      const vapour = saturationPressure(temperature);
      const ice = state === 'ice' ? water : 0;
      const first: Moment = { time: 0, state, gas, vapour, water, ice, temperature };
      let coldest = AMBIENT;
      const see = (moment: Moment): void => {
        coldest = Math.min(coldest, moment.temperature);
      };
      const fine = poolStage({ ...AROUND, heat, metal, load: NO_LOAD }, first, undefined, { places: 4, see });
      const { ending, at, track } = march(state, gas, temperature, water, { heat, metal }, { coldest: temperature });
      expect(ending, told).toBe(fine?.state === 'dry' ? 0 : 1);
      expectWithin(at.time, fine?.time ?? 0, 6e-4, told);
      expect(Math.abs(track.coldest - Math.min(coldest, temperature)), told).toBeLessThan(1.1e-3);
      expect(Math.abs(at.x1 - (ending === 1 ? TRIPLE : (fine?.temperature ?? 0))), told).toBeLessThan(1e-3);
      expect(Math.abs(at.x2 - (fine?.water ?? 1)) / water, told).toBeLessThan(1e-4);
      tries += track.tries;
    }
    expect(tries).toBeLessThan(175);
  });

  it('know the coldest moment between their ends', () => {
    // gear that draws better at high pressure: cold while the air goes, warmer after
    for (const [bend, metal] of [
      [0.15, 0],
      [0.15, 10],
      [0.3, 0],
      [0.3, 30],
    ] as const) {
      const surface = surfaceOf((x) => Math.log(SPEED) - 1.5 + bend * (x - 6), { ultimate: 1 });
      const around = { ...AROUND, surface, heat: 3, metal };
      const vapour = saturationPressure(AMBIENT);
      const first: Moment = { time: 0, state: 'liquid', gas: 9e4, vapour, water: 0.05, ice: 0, temperature: AMBIENT };
      let coldest = AMBIENT;
      let end = AMBIENT;
      const see = ({ temperature }: Moment): void => {
        coldest = Math.min(coldest, temperature);
        end = temperature;
      };
      poolStage(around, first, undefined, { places: 8, see });
      const { track } = march('liquid', 9e4, AMBIENT, 0.05, { heat: 3, metal, surface });
      expect(end - coldest).toBeGreaterThan(0.1);
      expect(Math.abs(track.coldest - coldest)).toBeLessThan(1.5e-3);
    }
  });
});

describe('the end of a stage of the quick way', () => {
  it('is where it begins, when that is an end already', () => {
    const still = (made: Marched, ending: Ending): void => {
      expect(made.ending).toBe(ending);
      expect(made.at.time).toBe(0);
      expect(made.track.tries).toBe(1);
    };
    still(march('freezing', 4000, 1e-3, 1e-3), 0);
    still(march('freezing', 4000, 0, 1e-3, { heat: 5 }), 1);
    still(march('liquid', 4000, TRIPLE, 1e-3), 1);
    still(march('ice', 1, TRIPLE, 1e-3, { heat: 50 }), 1);
    still(march('dry', 50, Math.log(60), 0), 0);
    still(march('dry', 50, Math.log(50), 0), 0);
    // water at the triple point that goes the other way goes on
    expect(march('liquid', 4000, TRIPLE, 1e-3, { heat: 50 }).at.time).toBeGreaterThan(1);
    expect(march('ice', 1, TRIPLE, 1e-3, { heat: 0.1 }).at.time).toBeGreaterThan(1);
  });

  it('is the sooner of two in one step: all liquid gone, or all ice', () => {
    // ice melts and liquid evaporates, both in straight lines
    const heat = (1.05 * EVAPORATION * OFF) / WARM;
    const melts = (heat * WARM - EVAPORATION * OFF) / MELTING;
    for (const ratio of [0.2, 0.9, 0.999, 1.001, 1.1, 5]) {
      const ice = 1e-3;
      const all = ice / melts;
      const liquid = ratio * all * (OFF - melts);
      const { ending, at } = march('freezing', 1e-3, ice, ice + liquid, { heat });
      expect(ending, `${ratio}`).toBe(ratio < 1 ? 0 : 1);
      expectWithin(at.time, Math.min(ratio, 1) * all, 1e-4, `${ratio}`);
    }
  });

  it('has the vapour at the pump at its most, of all moments with water', () => {
    const warms = march('ice', 3000, 250, 5e-3, { heat: 30, metal: 300 });
    expectWithin(warms.track.wettest, TRIPLE_PA, 2e-4, 'at the end');
    const cools = march('liquid', 4000, 285, 5e-3, { heat: 0.1 });
    expect(cools.track.wettest).toBeLessThan(saturationPressure(285));
    expect(cools.track.wettest).toBeGreaterThan(0.9 * saturationPressure(285));
    expect(march('liquid', 4000, 285, 5e-3, { heat: 0.1 }, { wettest: 2000 }).track.wettest).toBe(2000);
    expect(march('dry', 4000, Math.log(3000), 0).track.wettest).toBe(0);
  });
});
