import { describe, expect, it } from 'vitest';
import { type Balance, type Moment, poolStage, vapourPerPascal } from '../../../src/engine/dry/stages.ts';
import { expectWithin } from '../../references/assert.ts';
import { AMBIENT, AROUND, FREEZING, RV, SPEED, SURFACE, surfaceOf, TRIPLE, TRIPLE_PA, VOLUME } from './simple.ts';

const watch = { places: 1, see: (): void => undefined };

describe('where a stage with water ends', () => {
  // once the air is gone the steps last for days, and what is interpolated within them is worth nothing
  const cold = 248.15;
  const ICE: Moment = {
    time: 0,
    state: 'ice',
    gas: 9000,
    // row PI-05 of the reference file: 63.274 Pa at -25 C (IAPWS R14-08)
    vapour: 63.274,
    water: 0.2,
    ice: 0.2,
    temperature: cold,
  };

  it('all water is gone to 1e-9 of it, after long steps as well', () => {
    for (const [heat, speed] of [
      [0.05, 1e-4],
      [0.3, 1e-3],
      [1.7, 1e-4],
      [1.7, 1e-3],
      [10, 1e-3],
      [100, 5e-3],
    ] as const) {
      const surface = { ...surfaceOf(() => Math.log(speed), { ultimate: 1 }), temperature: cold };
      const around = { ...AROUND, surface, volume: 4e-3, heat };
      const balance: Balance = { carriedOff: 0, heatIn: 0, enthalpyOff: 0 };
      const end = poolStage(around, ICE, balance, watch);
      expect(end).toMatchObject({ state: 'dry', water: 0 });
      const perPascal = vapourPerPascal(around);
      const left = perPascal * (end?.vapour ?? 0);
      expect(Math.abs((0.2 + perPascal * ICE.vapour - left - balance.carriedOff) / 0.2)).toBeLessThan(1e-9);
      // and the time is the same from anywhere on the way
      const alone = poolStage(around, ICE, undefined, watch);
      expectWithin(alone?.time ?? 0, end?.time ?? 1, heat < 10 ? 1e-6 : 1e-9, 'with and without the sums');
    }
  });

  it('liquid is at the triple point after the time that its heat and the vapour above it take', () => {
    // (m c + C + L V p_s'/(R_v T)) T' = -L S p_s/(R_v T) without heat, p_s an exponential between the two: by hand. Row PL-03: 872.575 Pa
    // at 5 C; 4.204 kJ/(kg K) and 2495 kJ/kg in the mean (steam tables)
    for (const [metal, volume] of [
      [0, VOLUME],
      [40, VOLUME],
      [0, 0.1],
    ] as const) {
      const start: Moment = { ...FREEZING, state: 'liquid', ice: 0, temperature: 278.15, vapour: 872.575 };
      const end = poolStage({ ...AROUND, heat: 0, metal, volume }, start, undefined, watch);
      const ln = Math.log(872.575 / TRIPLE_PA);
      const mean = ((1 / TRIPLE_PA - 1 / 872.575) * (278.15 - TRIPLE)) / ln;
      const pool = (((5e-3 * 4204 + metal) * RV * AMBIENT) / (SPEED * 2495e3)) * mean;
      expect(end?.state).toBe('freezing');
      expectWithin((end?.time ?? 0) - 100, pool + (volume / SPEED) * ln, 5e-3, 'time');
      expectWithin(SURFACE.temperature, AMBIENT, 1e-12, 'surface');
    }
  });
});
