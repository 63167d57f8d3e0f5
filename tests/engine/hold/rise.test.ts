import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leakRate, massFlowOf } from '../../../src/engine/hold/leak.ts';
import { type HoldLoad, pressureAfterHold } from '../../../src/engine/hold/rise.ts';
import { Fault } from '../../../src/faults/issue.ts';
import { allowance, cite, referenceRows } from '../../references/rows.ts';
import { NOTHING } from './nothing.ts';

const input = (row: { inputs: ReadonlyMap<string, string> }, name: string): number => Number(row.inputs.get(name));

describe('the rise of an isolated volume', () => {
  it('is that of the rate-of-rise arithmetic of the reference row, both ways', () => {
    const row = referenceRows('pumpdown').find(({ id }) => id === 'RI-01');
    if (row === undefined) throw new Error('RI-01 is missing');
    const volume = input(row, 'V_L') * 1e-3;
    const leak = input(row, 'Q_PaLs') * 1e-3;
    const time = input(row, 't_s');
    const expected = Number(row.value);
    const rise = pressureAfterHold(volume, time, 40, { ...NOTHING, leak }) - 40;
    expect(Math.abs(rise - expected), cite(row)).toBeLessThanOrEqual(allowance(row, expected));
    expect(leakRate(volume, expected, time) / leak).toBeCloseTo(1, 9);
  });

  it('by outgassing that falls as 1/t follows the logarithm, and steady outgassing a leak', () => {
    const falling = pressureAfterHold(0.02, 1800, 40, { ...NOTHING, outgassing: 1e-4, exponent: 1 });
    // int Q1 h/(h + t) dt = Q1 h ln(1 + t/h), h = 3600 s
    expect(falling - 40).toBeCloseTo((1e-4 * 3600 * Math.log(1.5)) / 0.02, 9);
    const steady = pressureAfterHold(0.02, 1800, 40, { ...NOTHING, outgassing: 1e-4 });
    expect(steady).toBeCloseTo(pressureAfterHold(0.02, 1800, 40, { ...NOTHING, leak: 1e-4 }), 9);
    // exponent 1/2: 2 Q1 h (sqrt(1 + t/h) - 1)
    const root = pressureAfterHold(0.02, 1800, 40, { ...NOTHING, outgassing: 1e-4, exponent: 0.5 });
    expect(root - 40).toBeCloseTo((2 * 1e-4 * 3600 * (Math.sqrt(1.5) - 1)) / 0.02, 9);
  });

  it('by water ends at the saturation pressure of the reference rows, over liquid and over ice', () => {
    for (const row of referenceRows('water').filter(({ id }) => /^P[IL]-/u.test(id) && id !== 'PI-12')) {
      const ambient = input(row, 't_C') + 273.15;
      const expected = Number(row.value);
      const end = pressureAfterHold(0.02, 3600, 0.5, { ...NOTHING, water: 0.015, ambient });
      expect(Math.abs(end - expected), cite(row)).toBeLessThanOrEqual(allowance(row, expected));
    }
  });

  it('by little water ends where it has all evaporated: m R T/(M V)', () => {
    const end = pressureAfterHold(0.02, 3600, 40, { ...NOTHING, water: 2e-5 });
    // 8.314462618 / 0.01801527 = 461.52 J/(kg K), by hand
    expect(end - 40).toBeCloseTo((2e-5 * (8.314462618 / 0.01801527) * 293.15) / 0.02, 6);
  });

  it('never falls with a larger leak, more water, more time or a smaller volume', () => {
    const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(real(0, 1e-4), real(0, 0.01), real(0, 7200), real(0.001, 1), (leak, water, time, volume) => {
        const at = (more: Partial<HoldLoad>, factor = 1, share = 1): number =>
          pressureAfterHold(volume * share, time * factor, 40, {
            ...NOTHING,
            leak,
            water: water * volume,
            outgassing: leak,
            exponent: 0.7,
            ambientPressure: 1e9,
            ...more,
          });
        const here = at({});
        const slack = 1e-9 * here;
        expect(at({ leak: 2 * leak })).toBeGreaterThanOrEqual(here - slack);
        expect(at({ water: 2 * water * volume })).toBeGreaterThanOrEqual(here - slack);
        expect(at({}, 1.5)).toBeGreaterThanOrEqual(here - slack);
        expect(at({}, 1, 0.5)).toBeGreaterThanOrEqual(here - slack);
      }),
    );
  });

  it('is a fault for no volume, more water than room, and a leak near the pressure around', () => {
    const faults = (work: () => unknown): string => {
      try {
        work();
      } catch (error) {
        if (error instanceof Fault) return error.issue.kind;
      }
      return 'none';
    };
    expect(faults(() => pressureAfterHold(0, 60, 40, NOTHING))).toBe('limit');
    expect(faults(() => pressureAfterHold(0.02, 60, 40, { ...NOTHING, water: 20 }))).toBe('wrong');
    expect(faults(() => pressureAfterHold(0.02, 6000, 40, { ...NOTHING, leak: 0.5 }))).toBe('model-range');
    expect(faults(() => leakRate(-1, 1, 1))).toBe('limit');
    expect(faults(() => leakRate(1, 1, 0))).toBe('limit');
  });

  it('as grams a year of R-134a meets the reference row', () => {
    const row = referenceRows('units').find(({ cells }) => cells.from === 'g/yr of R-134a');
    if (row === undefined) throw new Error('the row is missing');
    // M = 102.032 g/mol (Tillner-Roth and Baehr 1994); a year of 365.25 days; the row shows three digits
    const grams = massFlowOf(Number(row.cells.factor), 0.102032, 293.15) * 1e3 * 365.25 * 86400;
    expect(Math.abs(grams - 1), cite(row)).toBeLessThan(1e-3);
  });
});
