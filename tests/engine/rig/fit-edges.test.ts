import { describe, expect, it } from 'vitest';
import { withBore } from '../../../src/engine/rig/change.ts';
import {
  fitBoreToReading,
  fittablePart,
  LEAST_BORE,
  throughputFrom,
  WIDEST_BORE,
} from '../../../src/engine/rig/fit.ts';
import { marchFrom } from '../../../src/engine/rig/march.ts';
import { type PreparedRig, prepareRig } from '../../../src/engine/rig/prepare.ts';
import type { RigPart } from '../../../src/engine/rig/rig.ts';
import { issueOf } from '../../issue-of.ts';
import { AIR, constantPart, core, hose, port, prepareConstant, pumpOf, rigOf } from './fakes.ts';

const AMBIENT = 101325;
const valve: RigPart = {
  name: ' Ball Valve ',
  kind: 'valve',
  count: 1,
  passage: { kind: 'valve', kv: 0.2, pressureDropRatio: 0.7 },
};
const RIG = rigOf(pumpOf(2.4e-3, 2.7), [
  hose(4.8e-3, 1.5, { name: 'Red Hose' }),
  core(1.6e-3, 6e-3, { name: ' Core ' }),
  port(4e-3, { name: 'core' }),
  valve,
]);

/** What a meter on the open end reads: the pump excess that leaves ambient pressure at the system, by plain halving. */
function readingOf(rig: PreparedRig, ambient: number): number {
  let low = 0;
  let high = ambient;
  for (let i = 0; i < 100; i++) {
    const middle = 0.5 * (low + high);
    if (marchFrom(rig, middle).system < ambient) low = middle;
    else high = middle;
  }
  return marchFrom(rig, low).throughput / ambient;
}

describe('the part that a fit may widen', () => {
  it('goes by its name, whatever its case and the blanks around it, and is the first of that name', () => {
    for (const name of ['Red Hose', 'red hose', '  RED HOSE ']) expect(fittablePart(RIG, name)).toBe(0);
    for (const name of ['core', 'CORE', ' core']) expect(fittablePart(RIG, name)).toBe(1);
  });

  it('is one that the rig has', () => {
    expect(issueOf(() => fittablePart(RIG, 'elbow'))).toEqual({
      kind: 'unknown',
      what: 'part',
      value: 'elbow',
      known: ['Red Hose', ' Core ', 'core', ' Ball Valve '],
    });
    expect(issueOf(() => fittablePart(RIG, ''))).toMatchObject({ kind: 'unknown', value: '' });
  });

  it('is one with a bore', () => {
    const issue = issueOf(() => fittablePart(RIG, 'ball valve'));
    expect(issue).toMatchObject({
      kind: 'wrong',
      argument: 'Part',
      found: '" Ball Valve ", which is given by a flow coefficient',
      allowed: 'a part with a bore',
    });
    expect(issue).toMatchObject({ todo: expect.stringMatching(/^Name a hose, tube/) });
  });
});

describe('the flow from a system pressure', () => {
  it('is the excess over the sum of the resistances', () => {
    for (const [speed, conductances] of [
      [2e-3, [1e-3]],
      [2e-3, [1e-3, 4e-3]],
      [10, [1e-6]],
      [1e-3, [1e3]],
    ] as const) {
      const parts = conductances.map((c) => constantPart(`c ${c}`, c));
      const rig = prepareRig(rigOf(pumpOf(speed, 5), parts), AIR, prepareConstant);
      const resistance = conductances.reduce((sum, c) => sum + 1 / c, 1 / speed);
      for (const p of [6, 100, AMBIENT]) expect((throughputFrom(rig, p) * resistance) / (p - 5)).toBeCloseTo(1, 8);
    }
  });

  it('is all that the pump takes where no part is in the way', () => {
    for (const [ultimate, pressure] of [
      [0, AMBIENT],
      [5, AMBIENT],
      [2.7, 100],
      [0.3, 1],
    ] as const) {
      const rig = prepareRig(rigOf(pumpOf(1e-3, ultimate), []), AIR);
      expect(throughputFrom(rig, pressure) / (1e-3 * (pressure - ultimate))).toBeCloseTo(1, 8);
    }
  });

  it('is nothing at and below the ultimate pressure, and through a part that is shut', () => {
    const rig = prepareRig(rigOf(pumpOf(2e-3, 5), [constantPart('c', 1e-3)]), AIR, prepareConstant);
    for (const p of [0, 3, 5, Number.NaN]) expect(throughputFrom(rig, p)).toBe(0);
    let solves = 0;
    const counting = prepareRig(rig.rig, AIR, (passage, gas) => ({
      ...prepareConstant(passage, gas),
      upstreamPressure: (throughput, downstream) => {
        solves += 1;
        return downstream + throughput;
      },
    }));
    for (const p of [0, 3, 5]) throughputFrom(counting, p);
    expect(solves).toBe(0);
    const shut = prepareRig(rigOf(pumpOf(2e-3, 5), [constantPart('c', 0)]), AIR, prepareConstant);
    expect(throughputFrom(shut, 1e3)).toBe(0);
  });
});

describe('the bore of a reading', () => {
  const small = rigOf(RIG.pump, RIG.parts.slice(0, 2));
  const at = (bore: number, ambient = AMBIENT): number => readingOf(prepareRig(withBore(small, 1, bore), AIR), ambient);

  it('is that of the rig that gives it, found by plain halving', () => {
    for (const [bore, ambient] of [
      [0.7e-3, AMBIENT],
      [1.6e-3, AMBIENT],
      [1.6e-3, 8e4],
      [3e-3, AMBIENT],
    ] as const)
      expect(fitBoreToReading(small, AIR, 1, at(bore, ambient), ambient) / bore).toBeCloseTo(1, 6);
  });

  it('may be the least and the widest that is looked at, and no other', () => {
    const near = LEAST_BORE * 1.02;
    expect(fitBoreToReading(small, AIR, 1, at(near), AMBIENT) / near).toBeCloseTo(1, 5);
    const narrow = rigOf(pumpOf(1, 2.7), [core(1e-3, 0.1)]);
    for (const bore of [LEAST_BORE, WIDEST_BORE]) {
      // bores are looked at by their logarithms
      const rig = prepareRig(withBore(narrow, 0, Math.exp(Math.log(bore))), AIR);
      const reading = throughputFrom(rig, AMBIENT) / AMBIENT;
      expect(reading / readingOf(rig, AMBIENT)).toBeCloseTo(1, 6);
      expect(fitBoreToReading(narrow, AIR, 0, reading, AMBIENT) / bore).toBeCloseTo(1, 12);
      const beyond = reading * (bore === LEAST_BORE ? 1 - 1e-6 : 1 + 1e-6);
      expect(issueOf(() => fitBoreToReading(narrow, AIR, 0, beyond, AMBIENT))?.kind).toBe('no-solution');
    }
  });

  it('is none for a reading that is not above nothing', () => {
    for (const value of [0, -1e-4, Number.NaN])
      expect(issueOf(() => fitBoreToReading(small, AIR, 1, value, AMBIENT))).toEqual({
        kind: 'limit',
        argument: 'Reading',
        value,
        rule: 'above',
        limit: 0,
        unit: 'm3/s',
      });
  });

  it('is none for a reading under the least and over the most, which the fault names in litres a second', () => {
    const litres = (speed: number): number => Number((speed * 1e3).toPrecision(3));
    const [least, most] = [at(0.2e-3), at(60e-3)];
    for (const reading of [least * 0.9, most * 1.1]) {
      const issue = issueOf(() => fitBoreToReading(small, AIR, 1, reading, AMBIENT));
      if (issue?.kind !== 'no-solution') throw new Error('a fault without an answer is wanted');
      expect(issue.reason).toBe(
        `the meter reads between ${litres(least)} L/s (bore 0.2 mm) and ${litres(most)} L/s (bore 60 mm), ` +
          `whatever the bore of this part; it was to read ${litres(reading)} L/s`,
      );
      expect(issue.todo).toContain('Check the reading and its unit');
    }
    expect(issueOf(() => fitBoreToReading(small, AIR, 1, least * 1.1, AMBIENT))).toBeUndefined();
  });
});
