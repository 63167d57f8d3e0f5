import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Leg, prepareRig } from '../../../src/engine/rig/prepare.ts';
import type { RigPart } from '../../../src/engine/rig/rig.ts';
import { splitByHalving, splitFlow } from '../../../src/engine/rig/split.ts';
import { AIR, core, hose, port, pumpOf, rigOf } from './fakes.ts';

function legsOf(parts: readonly RigPart[]): readonly Leg[] {
  const branched = parts.map((part) => ({ ...part, branch: 'm' }));
  const [stage] = prepareRig(rigOf(pumpOf(1e-3), branched), AIR).stages;
  if (stage?.kind !== 'branch') throw new Error('no branch');
  return stage.legs;
}

const valve = (kv: number): RigPart => ({
  name: 'valve',
  kind: 'valve',
  count: 1,
  passage: { kind: 'valve', kv, pressureDropRatio: 0.7 },
});

const part: fc.Arbitrary<RigPart> = fc.oneof(
  fc
    .tuple(fc.double({ min: 1e-3, max: 15e-3, noNaN: true }), fc.double({ min: 0.05, max: 5, noNaN: true }))
    .map(([bore, length]) => hose(bore, length)),
  fc.double({ min: 5e-4, max: 8e-3, noNaN: true }).map((bore) => port(bore)),
  fc.double({ min: 5e-4, max: 3e-3, noNaN: true }).map((bore) => core(bore, 8e-3)),
  fc.double({ min: 0.01, max: 3, noNaN: true }).map(valve),
);

describe('flow shared by ways in parallel', () => {
  it('is that of plain halving, and adds up to the whole', () => {
    fc.assert(
      fc.property(
        fc.array(part, { minLength: 2, maxLength: 3 }),
        fc.double({ min: Math.log(1e-7), max: Math.log(10), noNaN: true }),
        fc.double({ min: Math.log(1e-2), max: Math.log(1e5), noNaN: true }),
        (parts, lnQ, lnP) => {
          const [throughput, downstream] = [Math.exp(lnQ), Math.exp(lnP)];
          const legs = legsOf(parts);
          const quick = splitFlow(legs, throughput, downstream);
          const plain = splitByHalving(legs, throughput, downstream);
          expect(quick.upstream / plain.upstream).toBeCloseTo(1, 7);
          const whole = quick.legs.reduce((sum, leg) => sum + leg.throughput, 0);
          expect(whole / throughput).toBeCloseTo(1, 8);
        },
      ),
      { numRuns: 150 },
    );
  });

  it('costs some dozen solves of each part, not a search within a search', () => {
    let solves = 0;
    const legs = legsOf([hose(4.8e-3, 1.5), hose(7.9e-3, 3), port(3e-3)]).map((leg) => ({
      ways: leg.ways.map((stages) =>
        stages.map((stage) => ({
          ...stage,
          passage: {
            ...stage.passage,
            upstreamPressure: (throughput: number, downstream: number) => {
              solves += 1;
              return stage.passage.upstreamPressure(throughput, downstream);
            },
          },
        })),
      ),
    }));
    for (const throughput of [1e-6, 1e-3, 0.1, 10]) {
      solves = 0;
      splitFlow(legs, throughput, 5);
      expect(solves, `at ${throughput} Pa m3/s`).toBeLessThanOrEqual(3 * 20);
    }
  });

  it('is nothing in every way where nothing flows', () => {
    const split = splitFlow(legsOf([hose(4.8e-3, 1.5), port(3e-3)]), 0, 5);
    expect(split.upstream).toBe(5);
    expect(split.legs.map((leg) => leg.throughput)).toEqual([0, 0]);
  });
});
