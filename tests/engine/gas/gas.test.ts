import { describe, expect, it } from 'vitest';
import { findGas, gasNames, gasState } from '../../../src/engine/gas/gas.ts';
import { issueOf } from '../../issue-of.ts';

describe('gases', () => {
  it.each([
    ['N2', 'nitrogen'],
    ['Dry Nitrogen', 'nitrogen'],
    ['AIR', 'air'],
    ['steam', 'water vapour'],
    ['H2O', 'water vapour'],
    ['CO2', 'carbon dioxide'],
    ['r744', 'carbon dioxide'],
    ['R134a', 'R-134a'],
    ['r-410a', 'R-410A'],
    ['32', 'R-32'],
    [' he ', 'helium'],
  ])('are found by the names in use: %s', (name, gas) => {
    expect(findGas(name).name).toBe(gas);
  });

  it('that are not known are a fault that lists those that are', () => {
    expect(issueOf(() => gasState('phlogiston', 293.15))).toEqual({
      kind: 'unknown',
      what: 'gas',
      value: 'phlogiston',
      known: gasNames,
    });
    expect(issueOf(() => gasState('__proto__', 293.15))).toMatchObject({ kind: 'unknown' });
    expect(issueOf(() => gasState('', 293.15))).toMatchObject({ kind: 'unknown' });
  });

  it('refuse a temperature where their viscosity is not known', () => {
    for (const t of [0, 77, 5000, Number.NaN, Number.POSITIVE_INFINITY])
      expect(issueOf(() => gasState('air', t))).toMatchObject({ kind: 'model-range', unit: 'K' });
  });

  it('grow more viscous and faster as they grow warmer', () => {
    for (const name of gasNames) {
      let before = gasState(name, 230);
      for (let t = 240; t <= 400; t += 10) {
        const now = gasState(name, t);
        expect(now.viscosity, `${name} ${t} K`).toBeGreaterThan(before.viscosity);
        expect(now.probableSpeed).toBeGreaterThan(before.probableSpeed);
        before = now;
      }
    }
  });

  it('have no two names for different gases', () => {
    for (const name of gasNames) expect(findGas(name).name).toBe(name);
  });

  // uPa s at 300 K. Source: handbook tables of gas viscosity (CRC Handbook of Chemistry and Physics), from memory
  it.each([
    ['argon', 22.7],
    ['helium', 19.9],
    ['oxygen', 20.6],
    ['hydrogen', 8.9],
    ['nitrogen', 17.9],
    ['air', 18.5],
    ['carbon dioxide', 15.0],
  ])('have the viscosity of the handbooks at 300 K within 2 %%: %s', (name, theirs) => {
    expect(Math.abs(gasState(name, 300).viscosity / (theirs * 1e-6) - 1)).toBeLessThan(0.02);
  });

  // uPa s at 600 K, same source, from memory
  it.each([
    ['argon', 38.8],
    ['helium', 32.2],
    ['nitrogen', 29.6],
    ['air', 30.6],
    ['carbon dioxide', 28.0],
    ['water vapour', 21.4],
  ])('stay within 4 %% of the handbooks at 600 K: %s', (name, theirs) => {
    expect(Math.abs(gasState(name, 600).viscosity / (theirs * 1e-6) - 1)).toBeLessThan(0.04);
  });

  it('have the speed of kinetic theory: v0 = sqrt(2 R T/M)', () => {
    const gas = gasState('helium', 300);
    expect(gas.specificGasConstant).toBeCloseTo(8.314462618 / 0.0040026, 6);
    expect(gas.probableSpeed).toBeCloseTo(Math.sqrt((2 * 8.314462618 * 300) / 0.0040026), 6);
  });
});
