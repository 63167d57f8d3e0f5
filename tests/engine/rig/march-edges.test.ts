import { describe, expect, it } from 'vitest';
import { march, marchFrom, raiseBlocked, systemPressureAt } from '../../../src/engine/rig/march.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import type { RigPart } from '../../../src/engine/rig/rig.ts';
import { issueOf } from '../../issue-of.ts';
import { AIR, constantPart, prepareConstant, pumpOf, rigOf } from './fakes.ts';

const prepared = (parts: readonly RigPart[], speed = 0.01, ultimate = 0) =>
  prepareRig(rigOf(pumpOf(speed, ultimate), parts), AIR, prepareConstant);

describe('like passages', () => {
  it('of one part share its flow', () => {
    const rig = prepared([constantPart('four', 1e-3, { count: 4 })]);
    // Q = 0.01 x 8 = 0.08; 0.08/4e-3 = 20
    expect(systemPressureAt(rig, 8)).toBeCloseTo(28, 10);
    const [part] = marchFrom(rig, 8).parts;
    expect(part?.throughput).toBeCloseTo(0.08, 12);
    expect(part?.upstream).toBeCloseTo(28, 10);
    expect(part?.fraction).toBe(1);
  });

  it('in a branch are each a way with its part of the flow', () => {
    const ways = ['a', 'b', 'c'].map((name) => constantPart(name, 1e-3, { branch: 'm', count: 2 }));
    const rig = prepared([...ways, constantPart('wide', 4e-3, { branch: 'm' })]);
    // conductances 2e-3 three times and 4e-3: together 0.01, so the drop is Q/0.01 = 8 Pa
    const point = marchFrom(rig, 8);
    expect(point.system).toBeCloseTo(16, 7);
    expect(point.parts.map((part) => part.stage.part.name)).toEqual(['a', 'b', 'c', 'wide']);
    for (const part of point.parts) {
      const share = part.stage.part.name === 'wide' ? 0.4 : 0.2;
      expect(part.fraction).toBeCloseTo(share, 8);
      expect(part.throughput).toBeCloseTo(0.08 * share, 9);
      expect(part.downstream).toBe(8);
      expect(part.upstream).toBeCloseTo(16, 7);
    }
  });

  it('in a branch are each an even part of nothing where nothing flows', () => {
    const ways = ['a', 'b', 'c', 'd'].map((name) => constantPart(name, 1e-3, { branch: 'm' }));
    const point = march(prepared(ways, 0.01, 5), 4);
    expect(point).toMatchObject({ throughput: 0, pumpInlet: 5, system: 5 });
    expect(point.parts.map((part) => part.fraction)).toEqual([0.25, 0.25, 0.25, 0.25]);
  });

  it('each of two parts in series add their own pressure difference', () => {
    const legs = ['left', 'right'].flatMap((leg) => [
      constantPart(`${leg} 1`, 1e-3, { branch: 'm', leg }),
      constantPart(`${leg} 2`, 4e-3, { branch: 'm', leg }),
    ]);
    const { parts, system } = marchFrom(prepared(legs), 4);
    // 0.02 each way: 20 and 5 Pa
    expect(parts.map((part) => Number(part.upstream.toFixed(9)))).toEqual([24, 29, 24, 29]);
    expect(parts.map((part) => Number(part.downstream.toFixed(9)))).toEqual([4, 24, 4, 24]);
    expect(system).toBeCloseTo(29, 9);
  });
});

describe('a rig that nothing gets through', () => {
  const words = {
    kind: 'wrong',
    found: 'so narrow that no flow through it can be counted',
    allowed: 'a passage that gas gets through',
  };

  it('is refused with the first part that shuts it, and what to check', () => {
    const rig = prepared([constantPart('open', 1), constantPart('shut', 0), constantPart('behind', 0)]);
    const issue = issueOf(() => raiseBlocked(rig, 5));
    expect(issue).toMatchObject({ ...words, argument: 'part "shut" of rig "rig"' });
    expect(issue).toMatchObject({ todo: expect.stringMatching(/bore, length or flow coefficient/) });
  });

  it('is refused as a whole where no part can be named', () => {
    expect(issueOf(() => raiseBlocked(prepared([constantPart('open', 1)]), 5))).toMatchObject({
      ...words,
      argument: 'rig "rig"',
    });
    expect(issueOf(() => raiseBlocked(prepared([]), 5))).toMatchObject({ ...words, argument: 'rig "rig"' });
  });
});
