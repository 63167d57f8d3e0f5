import { describe, expect, it } from 'vitest';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import type { Machine, Rig } from '../../../src/engine/rig/rig.ts';
import { recover } from '../../../src/engine/transfer/recovery.ts';
import { checkAmbient, raiseNeverDry, solidBelow } from '../../../src/engine/transfer/recovery-faults.ts';
import { recoveryGear } from '../../../src/engine/transfer/recovery-gear.ts';
import { issueOf } from '../../issue-of.ts';
import { core, hose } from '../rig/fakes.ts';

const R22 = refrigerantByName('R-22');
const CO2 = refrigerantByName('R-744');
/** A refrigerant with round ends: liquid from 200 to 350 K, critical at 360 K. */
const ROUND = { ...R22, name: 'round', lowest: 200, highest: 350, criticalTemperature: 360 };

describe('surroundings in which there is no liquid', () => {
  const issue = (ambient: number, approach = 0) => issueOf(() => checkAmbient(ROUND, ambient, approach));

  it('are a limit from the critical temperature on', () => {
    const limit = {
      kind: 'limit',
      argument: 'Ambient',
      value: 86.85,
      rule: 'below',
      limit: 86.85,
      unit: 'C',
      todo: 'Above its critical temperature round has no liquid to boil or to condense: work where it is cooler.',
    };
    expect(issue(360)).toEqual(limit);
    expect(issue(400)).toEqual({ ...limit, value: 126.85 });
  });

  it('are out of the table between its end and the critical temperature, and below its beginning', () => {
    const range = { kind: 'model-range', model: 'the table of round', min: -73.15, max: 76.85, unit: 'C' };
    expect(issue(350)).toBeUndefined();
    expect(issue(200)).toBeUndefined();
    expect(issue(350.01)).toEqual({ ...range, argument: 'Ambient', value: 76.86 });
    expect(issue(199.99)).toEqual({ ...range, argument: 'Ambient', value: -73.16 });
  });

  it('count with the approach of the condenser, and the argument says so', () => {
    expect(issue(340, 10)).toBeUndefined();
    const argument = 'Ambient and the Approach of the machine';
    expect(issue(340, 10.5)).toMatchObject({ kind: 'model-range', argument, value: 77.35 });
    expect(issue(340, 20)).toMatchObject({ kind: 'limit', argument, value: 86.85 });
  });
});

describe('liquid that gets too cold', () => {
  it('freezes at the triple point: -56.56 C for carbon dioxide, -77.66 C for ammonia', () => {
    // 216.592 K (Span and Wagner 1996), 195.49 K (Gao et al. 2020)
    const todo = 'Take the liquid out as liquid (Recover as liquid), give more Heat, or draw slower.';
    for (const [name, cold, solid] of [
      ['R-744', -56.56, 'dry ice'],
      ['R-717', -77.66, 'solid ammonia'],
    ] as const) {
      const refrigerant = refrigerantByName(name);
      const { temperature, raise } = solidBelow(refrigerant);
      expect(issueOf(raise)).toEqual({
        kind: 'no-solution',
        reason: `the liquid cools to ${cold} C and freezes to ${solid} before it is gone, which blocks lines and boils again later`,
        todo,
      });
      expect(temperature).toBeGreaterThanOrEqual(refrigerant.lowest);
      // the tables begin 0 and 0.51 K above
      expect(Math.abs(temperature - 273.15 - cold)).toBeLessThan(0.6);
    }
    expect(solidBelow({ ...CO2, lowest: 230 }).temperature).toBe(230);
    expect(solidBelow({ ...CO2, lowest: 210 }).temperature).toBe(216.592);
  });

  it('else goes 40 K below its table and no further (common practice, no source)', () => {
    const { temperature, raise } = solidBelow(ROUND);
    expect(temperature).toBe(160);
    expect(issueOf(raise)).toEqual({
      kind: 'no-solution',
      reason: 'the liquid cools to -113.15 C before it is gone, where the properties of round end',
      todo: 'Give more Heat, the heat conductance to the liquid, or take the liquid out as liquid (Recover as liquid).',
    });
  });
});

describe('liquid that is never gone', () => {
  const NO_HEAT =
    'Heat of the conditions is 0 or not given: without heat from outside the liquid cools until its pressure is the lowest that the machine draws from, and stays';
  const WIDER = 'Take a wider rig or a larger machine, or give more Heat.';
  const GIVE =
    'Give Heat, the heat conductance from the surroundings to the liquid, such as "20 W/K", or take the liquid out as liquid (Recover as liquid).';
  it.each([
    [10, 'vapour', 'the liquid R-22 is not gone within a year', WIDER],
    [10, 'push-pull', 'the liquid R-22 is not gone within a year', WIDER],
    [0, 'push-pull', 'the liquid R-22 is not gone within a year', GIVE],
    [0, 'vapour', NO_HEAT, GIVE],
    [0, 'liquid', NO_HEAT, GIVE],
  ])('with %d W/K in mode %s names the cause and what to do', (heat, mode, reason, todo) => {
    expect(issueOf(() => raiseNeverDry(R22, heat, mode))).toEqual({ kind: 'no-solution', reason, todo });
  });
});

describe('a recovery that cannot be', () => {
  const machine: Machine = { name: 'machine', displacement: 3 / 3600, ultimate: 2e4, efficiency: 0.8, approach: 0 };
  const pump = { name: 'machine', speed: 1, ultimate: 0 };
  const rig: Rig = { name: 'cart', pump, machine, parts: [hose(0.0048, 1.5), core(0.0016, 0.006)] };
  const task = { charge: 3, volume: 0.02, heat: 15, mode: 'vapour', level: 101_325 } as const;
  const gear = recoveryGear(R22, rig, 293.15);

  it('has a charge above nothing that the volume holds as liquid', () => {
    for (const charge of [0, -1, Number.NaN])
      expect(issueOf(() => recover(gear, { ...task, charge }))).toEqual({
        kind: 'limit',
        argument: 'Charge',
        value: charge,
        rule: 'above',
        limit: 0,
        unit: 'kg',
      });
    // 1210 kg/m3 of liquid R-22 at 20 C (tables of the trade, from memory): 24.2 kg in 20 L
    expect(issueOf(() => recover(gear, { ...task, charge: 24.5 }))).toEqual({
      kind: 'limit',
      argument: 'Charge',
      value: 24.5,
      rule: 'at most',
      limit: expect.closeTo(24.2, 0),
      unit: 'kg',
      todo: 'A volume of 20 L is then full of liquid: check both, and their units.',
    });
    expect(issueOf(() => recover(gear, { ...task, charge: 24, heat: 2000 }))).toBeUndefined();
  });

  it('has a level above the lowest pressure that the machine draws from', () => {
    const issue = (level: number) => issueOf(() => recover(gear, { ...task, charge: 0.1, level }));
    for (const level of [2e4, 1e4, 0])
      expect(issue(level)).toEqual({
        kind: 'out-of-reach',
        targetPa: level,
        lowestPa: 2e4,
        because:
          'the recovery machine draws from no lower pressure (its Ultimate, or its Clearance against the discharge)',
      });
    expect(issue(2e4 + 1)).toBeUndefined();
  });

  it('has a rig that begins with a machine', () => {
    const { machine: _, ...bare } = rig;
    expect(issueOf(() => recoveryGear(R22, bare, 293.15))).toEqual({
      kind: 'wrong',
      argument: 'rig "cart"',
      found: 'a rig that begins with a pump',
      allowed: 'a rig that begins with a recovery machine',
      todo: 'Make the first row of the rig of kind machine, with its displacement in Speed.',
    });
  });

  it('has parts that vapour gets through', () => {
    const long = { ...rig, parts: [hose(1e-3, 1e300)] };
    expect(issueOf(() => recoveryGear(R22, long, 293.15))).toEqual({
      kind: 'wrong',
      argument: 'rig "cart"',
      found: 'so narrow that no flow through it can be counted',
      allowed: 'parts that vapour gets through',
      todo: 'Check bores, lengths and flow coefficients, and their units.',
    });
  });
});
