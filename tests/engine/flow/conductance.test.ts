import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inParallel, inSeries, tubeConductance } from '../../../src/engine/flow/conductance.ts';
import { knudsen, meanFreePath, regime } from '../../../src/engine/flow/regime.ts';
import { transmission } from '../../../src/engine/flow/transmission.ts';
import { prepareTube } from '../../../src/engine/flow/tube.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';

const air = gasState('air', 293.15);
const between = (low: number, high: number): fc.Arbitrary<number> =>
  fc.double({ min: Math.log(low), max: Math.log(high), noNaN: true }).map(Math.exp);

describe('conductance of a tube', () => {
  it('is the flow over the pressure difference when that is small and the gas rarefied or slow', () => {
    for (const [bore, length] of [
      [0.00476, 1.5],
      [0.01, 0.02],
    ] as const)
      for (const p of [1e-3, 0.1, 1, 10]) {
        const tube = prepareTube({ kind: 'tube', bore, length, loss: 0, roughness: 0 }, air);
        const dp = p * 1e-4;
        const c = tube.throughput(p + dp / 2, p - dp / 2) / dp;
        expect(Math.abs(c / tubeConductance(air, bore, length, p) - 1), `${bore} ${p}`).toBeLessThan(2e-4);
      }
  });

  it('never falls with a larger bore, never rises with length', () => {
    fc.assert(
      fc.property(
        between(1e-4, 0.1),
        between(1e-4, 100),
        between(1e-6, 1e5),
        between(1, 3),
        (bore, length, p, more) => {
          const c = tubeConductance(air, bore, length, p);
          expect(tubeConductance(air, bore * more, length, p)).toBeGreaterThanOrEqual(c * (1 - 1e-12));
          expect(tubeConductance(air, bore, length * more, p)).toBeLessThanOrEqual(c * (1 + 1e-12));
        },
      ),
    );
  });

  it('is that of an opening at no length and no pressure', () => {
    const vbar = Math.sqrt((8 * air.specificGasConstant * air.temperature) / Math.PI);
    const area = (Math.PI / 4) * 0.005 ** 2;
    expect(tubeConductance(air, 0.005, 0, 0) / ((area * vbar) / 4)).toBeCloseTo(1, 12);
  });
});

describe('transmission of a tube', () => {
  it('falls from one, and joins its short and long limits without a step', () => {
    expect(transmission(0)).toBe(1);
    let before = 1;
    for (let l = 1e-8; l < 1e10; l *= 1.07) {
      const now = transmission(l);
      expect(now).toBeLessThanOrEqual(before);
      expect(now).toBeGreaterThan(before * 0.93);
      expect(now).toBeLessThan((8 / (3 * l)) * (1 + 1e-9));
      before = now;
    }
  });
});

describe('regimes', () => {
  it('follow the Knudsen number on the bore', () => {
    // mean free path of air at 20 C and 1 Pa is 6.6 mm (row MFP-01)
    expect(meanFreePath(air, 1)).toBeCloseTo(0.0066, 4);
    expect(knudsen(air, 0.0066, 1)).toBeCloseTo(1, 1);
    expect([1e-4, 0.01, 1, 100].map(regime)).toEqual(['viscous', 'slip', 'transitional', 'molecular']);
    expect(regime(Number.POSITIVE_INFINITY)).toBe('molecular');
  });
});

describe('passages together', () => {
  it('a series never beats its narrowest part, side by side never falls short of the widest', () => {
    fc.assert(
      fc.property(fc.array(between(1e-6, 1e6), { minLength: 1, maxLength: 8 }), (all) => {
        expect(inSeries(all)).toBeLessThanOrEqual(Math.min(...all) * (1 + 1e-12));
        expect(inParallel(all)).toBeGreaterThanOrEqual(Math.max(...all));
      }),
    );
  });

  it('halve and double for two equals', () => {
    expect(inSeries([2, 2])).toBe(1);
    expect(inParallel([2, 2])).toBe(4);
  });
});
