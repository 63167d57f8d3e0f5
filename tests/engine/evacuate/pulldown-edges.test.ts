import { describe, expect, it } from 'vitest';
import { isSteady, lastingLoad, loadAt, NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import {
  checkPullDown,
  lowestPressure,
  pressureForThroughput,
  pullDownCurve,
  pullDownTime,
  secondsTo,
} from '../../../src/engine/evacuate/pulldown.ts';
import { pumpNeeded } from '../../../src/engine/evacuate/pump-needed.ts';
import { plannedSeconds, targetPlan } from '../../../src/engine/evacuate/target-plan.ts';
import { CURVE_TOP } from '../../../src/engine/rig/curve.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { issueOf } from '../../issue-of.ts';
import { AIR, constantPart, prepareConstant, pumpOf, rigOf } from '../rig/fakes.ts';

/** Pump of 2 L/s behind a conductance of 3 L/s at all pressures, ultimate 4 Pa: Q = K (p - pu), K = 1/(1/2 + 1/3) = 1.2 L/s. */
const K = 1.2e-3;
const ULTIMATE = 4;
const rig = prepareRig(rigOf(pumpOf(2e-3, ULTIMATE), [constantPart('c', 3e-3)]), AIR, prepareConstant);
const curve = rigCurve(rig);
/** t = (V/K) ln((p0 - low)/(p1 - low)) with low = pu + Q_load/K: the linear equation of the pull-down */
const seconds = (volume: number, p0: number, p1: number, load = 0, k = K): number =>
  (volume / k) * Math.log((p0 - ULTIMATE - load / k) / (p1 - ULTIMATE - load / k));

describe('a gas load', () => {
  const fading = { leak: 2, outgassing: 8, exponent: 0.5 };

  it('is what it is at one hour, and falls as the power says, level in its first minute', () => {
    expect(loadAt(fading, 3600)).toBe(10);
    expect(loadAt(fading, 4 * 3600)).toBe(6);
    expect(loadAt(fading, 60)).toBeCloseTo(2 + 8 * Math.sqrt(60), 12);
    for (const early of [0, 1, 59]) expect(loadAt(fading, early)).toBe(loadAt(fading, 60));
  });

  it('is steady without outgassing and without a power', () => {
    for (const steady of [
      { ...fading, exponent: 0 },
      { ...fading, outgassing: 0 },
      { leak: 2, outgassing: 0, exponent: 0 },
    ]) {
      expect(isSteady(steady)).toBe(true);
      for (const time of [1, 3600, 1e6]) expect(loadAt(steady, time)).toBe(2 + steady.outgassing);
      expect(lastingLoad(steady)).toBe(2 + steady.outgassing);
    }
    expect([isSteady(fading), lastingLoad(fading)]).toEqual([false, 2]);
  });
});

describe('a pull-down through one conductance', () => {
  it('balances a flow where the linear equation does', () => {
    for (const flow of [1e-9, 1e-4, 0.3, 50])
      expect((pressureForThroughput(curve, flow) - ULTIMATE) / (flow / K)).toBeCloseTo(1, 4);
    for (const none of [0, -1]) expect(pressureForThroughput(curve, none)).toBe(ULTIMATE);
    expect(pressureForThroughput(curve, 1e9)).toBe(CURVE_TOP);
  });

  it('takes the time of the closed form, with and without a load, right down to what it can reach', () => {
    for (const load of [0, 0.012, 0.12]) {
      const lowest = ULTIMATE + load / K;
      expect(lowestPressure(curve, { ...NO_LOAD, leak: load }) / lowest).toBeCloseTo(1, 6);
      for (const target of [lowest * 1.01, 200, 5e4])
        for (const part of [0, 0.4, 1]) {
          const shared = { leak: part * load, outgassing: (1 - part) * load, exponent: 0 };
          const time = pullDownTime(curve, 0.05, 1e5, target, shared);
          expect(time / seconds(0.05, 1e5, target, load)).toBeCloseTo(1, 3);
        }
    }
  });

  it('takes no time to where it is, and for ever to where it cannot get', () => {
    for (const target of [1e5, 2e5]) expect(secondsTo(curve, 1, 1e5, target)).toBe(0);
    for (const target of [1, ULTIMATE]) expect(secondsTo(curve, 1, 1e5, target)).toBe(Number.POSITIVE_INFINITY);
  });

  it.each([
    [[0, 1e5, 50], { kind: 'limit', argument: 'Volume', value: 0, rule: 'above', limit: 0, unit: 'm3' }],
    [[Number.NaN, 1e5, 50], { kind: 'limit', argument: 'Volume' }],
    [[1, 1e5, 0], { kind: 'limit', argument: 'Target', value: 0, rule: 'above', limit: 0, unit: 'Pa' }],
    [
      [1, 50, 50],
      { kind: 'order', upper: 'Start pressure', upperValue: 50, lower: 'Target', lowerValue: 50, unit: 'Pa' },
    ],
    [
      [1, 1e5, ULTIMATE],
      { kind: 'out-of-reach', targetPa: ULTIMATE, because: expect.stringContaining('ultimate pressure') },
    ],
  ] as const)('is refused in words for %j', ([volume, start, target], issue) => {
    expect(issueOf(() => checkPullDown(curve, volume, start, target))).toMatchObject(issue);
    expect(issueOf(() => pullDownTime(curve, volume, start, target))).toMatchObject(issue);
  });

  it('says what holds it up where a load does', () => {
    const leak = { ...NO_LOAD, leak: 0.12 };
    const issue = issueOf(() => checkPullDown(curve, 1, 1e5, 50, leak));
    expect(issue).toMatchObject({ kind: 'out-of-reach', because: expect.stringContaining('balance') });
    const slow = { leak: 0, outgassing: 0.12, exponent: 0.01 };
    const endless = issueOf(() => pullDownTime(curve, 1, 1e5, 50, slow));
    expect(endless).toMatchObject({ kind: 'out-of-reach', because: expect.stringContaining('year') });
    expect(issueOf(() => pullDownCurve(curve, 1, 1e5, 50, 4, slow))).toEqual(endless);
  });

  it('is drawn at even steps of the logarithm above the lowest pressure', () => {
    const load = { ...NO_LOAD, leak: 0.012 };
    const lowest = ULTIMATE + 10;
    const points = pullDownCurve(curve, 0.05, 1e5, 60, 5, load);
    expect(points).toHaveLength(5);
    expect(points[0]).toEqual({ time: 0, pressure: 1e5 });
    expect(points.at(-1)?.pressure).toBe(60);
    const ratio = ((60 - lowest) / (1e5 - lowest)) ** 0.25;
    points.forEach(({ time, pressure }, i) => {
      expect((pressure - lowest) / ((1e5 - lowest) * ratio ** i)).toBeCloseTo(1, 6);
      if (i > 0) expect(time / seconds(0.05, 1e5, pressure, 0.012)).toBeCloseTo(1, 3);
    });
  });

  it('is in proportion to the volume under a steady load, and worked out anew under one that fades', () => {
    const steady = targetPlan(curve, 1e5, 60, { ...NO_LOAD, leak: 0.012 });
    expect(plannedSeconds(steady, 3)).toBe(3 * (steady.secondsPerVolume ?? Number.NaN));
    expect(plannedSeconds(steady, 3) / seconds(3, 1e5, 60, 0.012)).toBeCloseTo(1, 3);
    expect(issueOf(() => plannedSeconds(steady, 0))).toMatchObject({ argument: 'Volume' });
    const load = { leak: 0, outgassing: 0.02, exponent: 1 };
    const fading = targetPlan(curve, 1e5, 60, load);
    expect(fading.secondsPerVolume).toBeUndefined();
    expect(plannedSeconds(fading, 3)).toBe(pullDownTime(curve, 3, 1e5, 60, load));
  });
});

describe('the pump that a time asks for', () => {
  /** t = V (1/S + 1/C) L with L the logarithm: S = 1/(t/(V L) - 1/C) */
  const C = 3e-3;
  const L = Math.log((1e5 - ULTIMATE) / (60 - ULTIMATE));
  const demand = (time: number) => ({ volume: 0.05, start: 1e5, target: 60, time });

  it('is that of the closed form, far above and far below the one that is there', () => {
    for (const speed of [1e-6, 4e-4, 2e-3, 9e-3, 0.3]) {
      const time = 0.05 * L * (1 / speed + 1 / C);
      expect(pumpNeeded(rig, demand(time)) / speed).toBeCloseTo(1, speed > 0.1 ? 1.7 : 3);
    }
  });

  it('is none where the parts alone take longer, and for no time', () => {
    const alone = 0.05 * L * (1 / C);
    expect(issueOf(() => pumpNeeded(rig, demand(0.9 * alone)))).toMatchObject({
      kind: 'no-solution',
      reason: expect.stringContaining(`${Number((alone / 60).toPrecision(3))} min`),
      todo: expect.stringContaining('RIG.PROFILE'),
    });
    for (const time of [0, -60, Number.NaN])
      expect(issueOf(() => pumpNeeded(rig, demand(time)))).toMatchObject({
        kind: 'limit',
        argument: 'Minutes',
        value: time / 60,
        rule: 'above',
        limit: 0,
        unit: 'min',
      });
  });
});
