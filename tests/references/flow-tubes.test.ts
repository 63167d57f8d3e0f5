import { describe, it } from 'vitest';
import { expectWithin, runAccount } from './assert.ts';
import { handbook, rarefiedTubes, transmissions } from './flow-tubes.ts';
import { cite, referenceRows } from './rows.ts';

runAccount(rarefiedTubes);
runAccount(transmissions);

describe('the handbook formula for long tubes of air', () => {
  const [viscous, molecular] = ['HB-01', 'HB-02'].map((id) => referenceRows('tube_rarefied').find((r) => r.id === id));
  // C = 135 D^4 p/L + 12.1 D^3/L (1 + 192 D p)/(1 + 237 D p); D, L in cm, p in mbar. Source: the HB rows
  const theirs = (bore: number, p: number): number =>
    135 * bore ** 4 * p + (12.1 * bore ** 3 * (1 + 192 * bore * p)) / (1 + 237 * bore * p);

  it('is met within 1 % at its viscous and molecular ends', () => {
    for (const bore of [0.2, 0.476, 0.953, 3]) {
      expectWithin(handbook(bore, 1, 100 / bore), theirs(bore, 100 / bore), 0.01, viscous ? cite(viscous) : '');
      expectWithin(handbook(bore, 1, 1e-6 / bore), theirs(bore, 1e-6 / bore), 0.01, molecular ? cite(molecular) : '');
    }
  });

  it('is met within 6 % at every pressure between', () => {
    for (let dp = 1e-6; dp < 100; dp *= 1.3)
      expectWithin(handbook(1, 1, dp), theirs(1, dp), 0.06, viscous ? cite(viscous) : '');
  });
});
