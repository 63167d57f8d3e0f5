import { describe, expect, it } from 'vitest';
import {
  boreOf,
  preparedWithPumpSpeed,
  singleSwaps,
  withBore,
  withLength,
  withoutPart,
  withPumpSpeed,
} from '../../../src/engine/rig/change.ts';
import { systemPressureAt } from '../../../src/engine/rig/march.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import type { RigPart } from '../../../src/engine/rig/rig.ts';
import { issueOf } from '../../issue-of.ts';
import { AIR, constantPart, hose, port, prepareConstant, pumpOf, rigOf } from './fakes.ts';

const valve: RigPart = {
  name: 'valve',
  kind: 'valve',
  count: 1,
  passage: { kind: 'valve', kv: 0.3, pressureDropRatio: 0.7 },
};
const sonic: RigPart = {
  name: 'sonic',
  kind: 'depressor',
  count: 1,
  passage: { kind: 'sonic', sonicConductance: 1e-8, criticalRatio: 0.3, bore: 2e-3 },
};
const RIG = rigOf(pumpOf(2e-3, 2), [hose(4.8e-3, 1.5), port(4e-3), valve, sonic]);

describe('a change of one part', () => {
  it('knows the bore of tubes and openings alone', () => {
    expect(RIG.parts.map(boreOf)).toEqual([4.8e-3, 4e-3, undefined, undefined]);
  });

  it('gives another bore to tubes and openings, and leaves all else as it is', () => {
    for (const index of [0, 1]) {
      const changed = withBore(RIG, index, 7e-3);
      expect(changed.parts[index]).toEqual({
        ...RIG.parts[index],
        passage: { ...RIG.parts[index]?.passage, bore: 7e-3 },
      });
      expect(changed.parts.filter((_, i) => i !== index)).toEqual(RIG.parts.filter((_, i) => i !== index));
      expect(changed.pump).toBe(RIG.pump);
    }
    for (const index of [2, 3]) expect(withBore(RIG, index, 7e-3)).toEqual(RIG);
  });

  it('gives another length to tubes alone', () => {
    expect(withLength(RIG, 0, 0.3).parts[0]?.passage).toEqual({ ...RIG.parts[0]?.passage, length: 0.3 });
    for (const index of [1, 2, 3]) expect(withLength(RIG, index, 0.3)).toEqual(RIG);
  });

  it('takes one part out', () => {
    expect(withoutPart(RIG, 2).parts.map((part) => part.name)).toEqual(['hose 4.8 mm', 'port 4.0 mm', 'sonic']);
  });
});

describe('another pump speed', () => {
  it('in a prepared rig is that of the rig prepared anew, with the same tables', () => {
    const rig = rigOf(pumpOf(2e-3, 2), [constantPart('c', 1e-3)]);
    const before = prepareRig(rig, AIR, prepareConstant);
    const turned = preparedWithPumpSpeed(before, 5e-3);
    const anew = prepareRig(withPumpSpeed(rig, 5e-3), AIR, prepareConstant);
    expect(turned.pump).toEqual({ ...rig.pump, speed: 5e-3 });
    expect(turned.rig).toEqual(anew.rig);
    expect(turned.ultimate).toBe(2);
    expect(turned.stages).toBe(before.stages);
    // Q = 5e-3 x 4 = 0.02; 0.02/1e-3 = 20
    expect(systemPressureAt(turned, 4)).toBeCloseTo(2 + 4 + 20, 10);
    expect(systemPressureAt(anew, 4)).toBe(systemPressureAt(turned, 4));
  });
});

describe('the swaps of a rig', () => {
  const kinds = (part: RigPart): string[] => singleSwaps(rigOf(RIG.pump, [part])).map((swap) => swap.kind);

  it('change hoses and tubes that are tubes, and no other part', () => {
    expect(kinds(hose(4.8e-3, 1))).toEqual(['bore', 'length', 'pump']);
    expect(kinds(hose(4.8e-3, 1, { kind: 'tube' }))).toEqual(['bore', 'length', 'pump']);
    for (const kind of ['port', 'manifold', 'valve', 'filter', 'depressor'] as const)
      expect(kinds(hose(4.8e-3, 1, { kind }))).toEqual(['pump']);
    for (const kind of ['hose', 'tube'] as const) {
      expect(kinds(port(4.8e-3, { kind }))).toEqual(['pump']);
      expect(kinds({ ...valve, kind })).toEqual(['pump']);
    }
    expect(kinds(port(1.6e-3, { kind: 'core' }))).toEqual(['remove', 'pump']);
  });

  it('go by the bore with some slack', () => {
    const size = (bore: number): string[] =>
      singleSwaps(rigOf(RIG.pump, [hose(bore, 1)])).flatMap((swap) => (swap.kind === 'bore' ? [swap.size] : []));
    // 3/8 in hoses have bores from 5/16 in to 9.5 mm (common practice, no source)
    expect(size(9.5e-3)).toEqual(['1/2 in']);
    // up to a factor of 1.25 below a size a hose counts as that size (common practice, no source)
    expect(size(12.7e-3 / 1.25)).toEqual(['3/4 in']);
    expect(size(6e-3)).toEqual(['3/8 in']);
    expect(size(6.5e-3)).toEqual(['1/2 in']);
    expect(size(10.5e-3)).toEqual(['3/4 in']);
    expect(size(3e-3)).toEqual(['1/4 in']);
  });
});

describe('a part that is there less than once', () => {
  it('is refused', () => {
    for (const value of [0, 0.99, -2, Number.NaN])
      expect(issueOf(() => prepareRig(rigOf(pumpOf(1e-3), [port(4e-3, { count: value })]), AIR))).toEqual({
        kind: 'limit',
        argument: 'Count',
        value,
        rule: 'at least',
        limit: 1,
        unit: '',
      });
    expect(issueOf(() => prepareRig(rigOf(pumpOf(1e-3), [port(4e-3, { count: 1 })]), AIR))).toBeUndefined();
  });
});
