import { describe, expect, it } from 'vitest';
import { type FeedCurve, feedCurve, feedSecondsPerVolume, feedThroughput } from '../../../src/engine/breaks/feed.ts';
import { preparePassage } from '../../../src/engine/flow/prepare.ts';
import type { RigPart } from '../../../src/engine/rig/rig.ts';
import { expectWithin } from '../../references/assert.ts';
import { AIR, hose, port, pumpOf, rigOf } from '../rig/fakes.ts';
import { FEED, FEED_SPEED, SUPPLY } from './simple.ts';

const PUMP = pumpOf(2e-3, 2);
function curveOf(parts: readonly RigPart[], supply = 2e5): FeedCurve {
  const curve = feedCurve(rigOf(PUMP, parts), AIR, supply);
  if (curve === undefined) throw new Error('no curve');
  return curve;
}

/** Throughput of parts one after the other, from the system's end, by halving. */
function byHalving(parts: readonly RigPart[], system: number, supply: number): number {
  const passages = parts.map((part) => ({ passage: preparePassage(part.passage, AIR), count: part.count }));
  let low = 0;
  let high = 1e5;
  for (let i = 0; i < 70; i++) {
    const middle = 0.5 * (low + high);
    let p = system;
    for (const { passage, count } of passages) p = passage.upstreamPressure(middle / count, p);
    if (p > supply) high = middle;
    else low = middle;
  }
  return 0.5 * (low + high);
}

describe('gas let in', () => {
  it('shares itself between passages of one kind side by side', () => {
    const parts = [hose(6e-3, 1.5), port(2e-3, { count: 2 })];
    for (const system of [100, 1e5, 1.9e5])
      expectWithin(
        feedThroughput(curveOf(parts), system),
        byHalving([...parts].reverse(), system, 2e5),
        2e-3,
        `${system} Pa`,
      );
  });

  it('meets the parts of a leg in the other order as well', () => {
    // one leg with a wide hose at the pump and a narrow port at the system: as if there were no branch
    const leg = { branch: 'one', leg: 'a' };
    const parts = [hose(9e-3, 3), port(2.5e-3)];
    const inLeg = [
      ...parts.map((part) => ({ ...part, ...leg })),
      // a second leg that lets hardly anything through
      hose(0.2e-3, 5, { branch: 'one', leg: 'b' }),
    ];
    for (const system of [1000, 5e4, 1e5])
      expectWithin(
        feedThroughput(curveOf(inLeg), system),
        byHalving([...parts].reverse(), system, 2e5),
        3e-3,
        'one leg',
      );
    const turned = byHalving(parts, 1e5, 2e5);
    expect(Math.abs(turned / byHalving([...parts].reverse(), 1e5, 2e5) - 1)).toBeGreaterThan(0.006);
  });

  it('is laminar close to the supply: in proportion to the difference, down to nothing', () => {
    const curve = curveOf([hose(6e-3, 1.5)]);
    const unit = feedThroughput(curve, 2e5 - 0.1) / 0.1;
    for (const difference of [0.05, 0.01, 1e-3, 1e-5])
      expectWithin(feedThroughput(curve, 2e5 - difference) / difference, unit, 1e-3, `${difference} Pa below`);
    for (const difference of [0.1, 0.5, 2])
      expectWithin(
        feedThroughput(curve, 2e5 - difference),
        byHalving([hose(6e-3, 1.5)], 2e5 - difference, 2e5),
        2e-3,
        `${difference} Pa below`,
      );
    expect(feedThroughput(curve, 2e5)).toBe(0);
    expect(feedThroughput(curve, 2e5 + 1e-3)).toBe(0);
  });

  it('takes the integral of dp/Q, close to the supply as well', () => {
    const curve = curveOf([hose(6e-3, 1.5), port(3e-3)]);
    for (const [from, to] of [
      [100, 1.5e5],
      [100, 1.999e5],
      [1e5, 1.2e5],
      [1.99e5, 1.9999e5],
    ] as const) {
      const steps = 4000;
      const width = Math.log((2e5 - from) / (2e5 - to)) / steps;
      let sum = 0;
      for (let i = 0; i < steps; i++) {
        const difference = (2e5 - to) * Math.exp((i + 0.5) * width);
        sum += (difference * width) / feedThroughput(curve, 2e5 - difference);
      }
      expectWithin(feedSecondsPerVolume(curve, from, to), sum, 1e-5, `from ${from} to ${to} Pa`);
    }
    expect(feedSecondsPerVolume(FEED, 1e4, 2e5) * FEED_SPEED).toBeCloseTo(Math.log((SUPPLY - 1e4) / (SUPPLY - 2e5)), 9);
  });

  it('is in at once through a rig without parts', () => {
    expect(feedCurve(rigOf(PUMP), AIR, 2e5)).toBeUndefined();
  });
});
