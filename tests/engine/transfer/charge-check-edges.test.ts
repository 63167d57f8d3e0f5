import { describe, expect, it } from 'vitest';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import type { Refrigerant } from '../../../src/engine/refrigerant/refrigerant.ts';
import type { Charging } from '../../../src/engine/transfer/charge.ts';
import { checkCharge } from '../../../src/engine/transfer/charge-check.ts';
import { issueOf } from '../../issue-of.ts';

/** Liquid of 1000 kg/m3 at 300 K that loses 2 for each kelvin; liquid from 200 to 370 K, critical at 380.15 K. */
const ROUND: Refrigerant = {
  ...refrigerantByName('R-134a'),
  name: 'round',
  lowest: 200,
  highest: 370,
  criticalTemperature: 380.15,
  zeotropic: false,
  liquidDensity: (t) => 1000 - 2 * (t - 300),
};

interface Given {
  readonly refrigerant: Refrigerant;
  readonly mass: number;
  readonly as: 'liquid' | 'vapour';
  readonly warm: number;
  readonly bath: number;
  readonly ambient: number;
  readonly volume: number;
  readonly holds: number;
}
const USUAL: Given = {
  refrigerant: ROUND,
  mass: 2,
  as: 'liquid',
  warm: 300,
  bath: 300,
  ambient: 300,
  volume: 0.01,
  holds: 10,
};

function issue(given: Partial<Given> = {}) {
  const { refrigerant, mass, as, warm, bath, ambient, volume, holds } = { ...USUAL, ...given };
  const cylinder = { charge: holds, temperature: warm, heat: 0, bath };
  const charging: Charging = { refrigerant, mass, as, cylinder, system: { volume, heat: 0, ambient } };
  return issueOf(() => checkCharge(charging));
}

describe('temperatures of a charge', () => {
  it.each([
    ['Ambient', 'ambient'],
    ['Cylinder temperature', 'warm'],
    ['Bath temperature', 'bath'],
  ] as const)('%s is within the table of the refrigerant', (argument, key) => {
    const todo =
      'round has no liquid, or nearly none, above its critical temperature of 107.0 C: charge it when it is cooler.';
    const most = { kind: 'limit', argument, rule: 'at most', limit: expect.closeTo(96.85, 9), unit: 'C', todo };
    expect(issue({ [key]: 371 })).toEqual({ ...most, value: expect.closeTo(97.85, 9) });
    expect(issue({ [key]: 400 })).toEqual({ ...most, value: expect.closeTo(126.85, 9) });
    const least = { kind: 'limit', argument, rule: 'at least', limit: expect.closeTo(-73.15, 9), unit: 'C' };
    expect(issue({ [key]: 199 })).toEqual({ ...least, value: expect.closeTo(-74.15, 9) });
    // the table's own ends are in it
    expect(issue({ [key]: 200 })).toBeUndefined();
    if (key !== 'bath') expect(issue({ [key]: 370, bath: 300, mass: 1 })).toBeUndefined();
  });

  it('are below the critical one even where a table went on to it', () => {
    const refrigerant = { ...ROUND, highest: 390 };
    expect(issue({ refrigerant, ambient: 380.15 })).toMatchObject({ rule: 'at most', limit: expect.closeTo(107, 9) });
    expect(issue({ refrigerant, ambient: 380.1, mass: 1 })).toBeUndefined();
  });
});

describe('a blend whose parts boil apart', () => {
  it('is charged as liquid', () => {
    const refrigerant = { ...ROUND, zeotropic: true };
    expect(issue({ refrigerant, as: 'vapour' })).toEqual({
      kind: 'wrong',
      argument: 'Charge as',
      found: 'vapour of round, whose parts boil apart so that the vapour is not the blend',
      allowed: 'liquid for such a blend',
      todo: 'Charge it as liquid.',
    });
    expect(issue({ refrigerant })).toBeUndefined();
    expect(issue({ as: 'vapour' })).toBeUndefined();
  });
});

describe('a mass to charge', () => {
  it('is less than the cylinder holds', () => {
    for (const mass of [3, 3.5])
      expect(issue({ mass, holds: 3 })).toEqual({
        kind: 'limit',
        argument: 'Mass',
        value: mass,
        rule: 'below',
        limit: 3,
        unit: 'kg',
        todo: 'That is what the cylinder holds: give a larger Cylinder charge in the conditions, or charge in parts.',
      });
    expect(issue({ mass: 2.999, holds: 3 })).toBeUndefined();
  });

  it('leaves a fifth of the volume free of liquid at Ambient (common practice, no source)', () => {
    // 0.8 x 1000 kg/m3 x 10 L = 8 kg at 300 K, 0.8 x 980 x 10 L = 7.84 kg at 310 K
    expect(issue({ mass: 8 })).toBeUndefined();
    expect(issue({ mass: 8.001 })).toEqual({
      kind: 'no-solution',
      reason:
        '8.001 kg of round does not fit into 10.00 L: at 27 C it takes 8.000 kg at the most, with a fifth of the volume left for the liquid to expand',
      todo: 'Check the charge and the Volume of the conditions.',
    });
    expect(issue({ mass: 7.9, ambient: 310 })).toMatchObject({
      reason: expect.stringContaining('37 C it takes 7.840'),
    });
  });
});

describe('a bath that warms a full cylinder', () => {
  // 80 % of liquid at the warmer of its temperature and Ambient fills 98 % where rho = 0.8/0.98 of that
  const fullAt = (from: number): number => 300 + (1000 - ((1000 - 2 * (from - 300)) * 0.8) / 0.98) / 2;
  it('is cooler than where liquid fills 98 % of it', () => {
    // cold filling: fullAt(300) = 391.8 is above the table, so that a steeper liquid is taken
    const steep = { ...ROUND, liquidDensity: (t: number) => 1000 - 4 * (t - 300) };
    const limit = 300 + (1000 - 800 / 0.98) / 4;
    expect(fullAt(300)).toBeGreaterThan(370);
    expect(issue({ refrigerant: steep, bath: limit - 0.1 })).toBeUndefined();
    expect(issue({ refrigerant: steep, bath: limit + 1 })).toEqual({
      kind: 'limit',
      argument: 'Bath temperature',
      value: expect.closeTo(limit + 1 - 273.15, 9),
      rule: 'below',
      limit: expect.closeTo(limit - 273.15, 1),
      unit: 'C',
      todo: 'Liquid would fill a full cylinder that gets this warm, and may burst it: use a cooler bath.',
    });
    // a cylinder that is filled by the warmer Ambient has more room
    expect(issue({ refrigerant: steep, bath: limit + 1, ambient: 310 })).toBeUndefined();
    expect(issue({ refrigerant: steep, bath: limit + 1, warm: 310 })).toBeUndefined();
  });
});
