import { describe, expect, it } from 'vitest';
import { callById } from '../../../src/functions/index.ts';
import { cite, referenceRows } from '../../references/rows.ts';

function value(id: string, ...args: (string | number)[]): number {
  const outcome = callById(id, args);
  if (!outcome.ok || typeof outcome.value !== 'number') throw new Error(JSON.stringify(outcome));
  return outcome.value;
}

describe('CONVERT', () => {
  it('goes between gauge, vacuum and absolute pressures', () => {
    // standard atmosphere 101325 Pa; inHg 3386.389 Pa (conventional)
    expect(value('CONVERT', 0, 'psi g', 'kPa')).toBeCloseTo(101.325, 9);
    expect(value('CONVERT', 29, 'inHg vac', 'micron')).toBeCloseTo((101325 - 29 * 3386.388640341) / 0.133322387415, 6);
  });

  it('names both the unit and the quantity that do not go together', () => {
    expect(callById('CONVERT', [1, 'ft', 'micron'])).toMatchObject({
      ok: false,
      code: '#VALUE!',
      message: expect.stringContaining('"micron", which is not a unit of length'),
    });
  });
});

describe('TUBE.BORE', () => {
  it('gives the bore of coil by ASTM B280 where no standard is named', () => {
    for (const row of referenceRows('tubes_copper').filter(({ cells }) => cells.item === 'ASTM B280 annealed coil')) {
      const { size_label: size = '', ID_mm: bore } = row.cells;
      // the file rounds to a micrometre
      expect(Math.abs(value('TUBE.BORE', size) - Number(bore)), cite(row)).toBeLessThan(0.0006);
    }
  });

  it('lists the sizes for one that there is not', () => {
    expect(callById('TUBE.BORE', ['5/7 in'])).toMatchObject({
      ok: false,
      code: '#N/A',
      message: expect.stringContaining('5/8 in'),
    });
  });
});

describe('GAS', () => {
  it('gives molar mass and the ratio of heat capacities in the units that the page says', () => {
    // atomic weights, rounded: nitrogen 28.01, argon 39.95 g/mol; a monatomic gas has 5/3
    expect(value('GAS', 'nitrogen', 'molar mass')).toBeCloseTo(28.01, 1);
    expect(value('GAS', 'argon', 'molar mass')).toBeCloseTo(39.95, 1);
    expect(value('GAS', 'argon', 'heat capacity ratio')).toBeCloseTo(5 / 3, 2);
  });

  it('gives a molecular speed that is the root of 2 R T over M', () => {
    const speed = Math.sqrt((2 * 8.314462618 * 273.15) / (value('GAS', 'helium', 'molar mass') / 1000));
    expect(value('GAS', 'helium', 'molecular speed', '0 C')).toBeCloseTo(speed, 6);
  });

  it('gives a viscosity that grows with temperature', () => {
    expect(value('GAS', 'air', 'viscosity', 50)).toBeGreaterThan(value('GAS', 'air', 'viscosity'));
  });
});
