import { describe, expect, it } from 'vitest';
import { secondsUnderFadingLoad } from '../../../src/engine/evacuate/fading.ts';
import { fitBoreToLog } from '../../../src/engine/evacuate/fit-log.ts';
import { pullDownTime } from '../../../src/engine/evacuate/pulldown.ts';
import { withBore } from '../../../src/engine/rig/change.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { issueOf } from '../../issue-of.ts';
import { AIR, constantPart, core, hose, prepareConstant, pumpOf, rigOf } from '../rig/fakes.ts';

const AMBIENT = 101325;
const RIG = rigOf(pumpOf(2.4e-3, 2.7), [hose(4.8e-3, 1.5), core(1.6e-3, 6e-3)]);
const logOf = (bore: number, pressure: readonly number[], begin = 0) => {
  const curve = rigCurve(prepareRig(withBore(RIG, 1, bore), AIR));
  const time = pressure.map((p, i) => begin + (i === 0 ? 0 : pullDownTime(curve, 0.03, AMBIENT, p)));
  return { time, pressure };
};

describe('the bore of a logged pull-down', () => {
  it('is found from three readings on, wherever the clock stood and however far it is from its neighbours', () => {
    for (const bore of [0.3e-3, 0.9e-3, 1.2e-3, 2e-3])
      for (const begin of [0, 600, -60]) {
        const log = logOf(bore, [AMBIENT, 2e4, 500], begin);
        expect(fitBoreToLog(RIG, AIR, 1, 0.03, log) / bore).toBeCloseTo(1, 4);
      }
  });

  it('is refused in words for no volume and for a short log', () => {
    const log = logOf(1.2e-3, [AMBIENT, 2e4, 500]);
    for (const volume of [0, -1, Number.NaN])
      expect(issueOf(() => fitBoreToLog(RIG, AIR, 1, volume, log))).toMatchObject({
        kind: 'limit',
        argument: 'Volume',
        value: volume,
        rule: 'above',
        limit: 0,
        unit: 'm3',
      });
    for (const rows of [0, 1, 2])
      expect(
        issueOf(() =>
          fitBoreToLog(RIG, AIR, 1, 0.03, { time: log.time.slice(0, rows), pressure: log.pressure.slice(0, rows) }),
        ),
      ).toMatchObject({
        kind: 'wrong',
        argument: 'Reading',
        found: `a log of ${rows} readings`,
        allowed: expect.stringContaining('three'),
        todo: expect.stringContaining('Minutes and Pressure'),
      });
  });

  it('is refused at either end of the bores there are, and the end is named', () => {
    const range = /between 0\.\d+ and \d+ mm/;
    const slow = issueOf(() => fitBoreToLog(RIG, AIR, 1, 0.03, { time: [0, 1e9, 2e9], pressure: [AMBIENT, 1e5, 9e4] }));
    expect(slow).toMatchObject({ kind: 'no-solution', reason: expect.stringMatching(/the narrow end$/) });
    const fast = issueOf(() => fitBoreToLog(RIG, AIR, 1, 0.03, { time: [0, 1, 2], pressure: [AMBIENT, 100, 10] }));
    expect(fast).toMatchObject({
      kind: 'no-solution',
      reason: expect.stringMatching(/the wide end$/),
      todo: expect.stringContaining('Check the volume'),
    });
    for (const issue of [slow, fast]) expect(issue).toMatchObject({ reason: expect.stringMatching(range) });
  });
});

describe('a pull-down under a load that fades', () => {
  /** Q = K (p - pu) with K = 1.2 L/s, and a load of Q1 (1 h/t)^n, level in its first minute. */
  const curve = rigCurve(prepareRig(rigOf(pumpOf(2e-3, 4), [constantPart('c', 3e-3)]), AIR, prepareConstant));
  const load = { leak: 0.006, outgassing: 0.012, exponent: 0.8 };
  const volume = 0.05;

  /** The linear equation V de/dt = Q - K e by small even steps of the exact step for a level load. */
  function pressureAt(time: number): number {
    const steps = 40_000;
    const h = time / steps;
    let excess = 1e5 - 4;
    for (let i = 0; i < steps; i++) {
      const middle = Math.max((i + 0.5) * h, 60);
      const level = (load.leak + load.outgassing * (3600 / middle) ** load.exponent) / 1.2e-3;
      excess = level + (excess - level) * Math.exp((-1.2e-3 * h) / volume);
    }
    return excess + 4;
  }

  it('passes each target when small steps do', () => {
    const targets = [5e4, 3e3, 900, 120, 60, 30];
    const times = secondsUnderFadingLoad(curve, volume, 1e5, targets, load);
    expect(times).toHaveLength(targets.length);
    times.forEach((time, i) => {
      expect(pressureAt(time) / (targets[i] ?? Number.NaN)).toBeCloseTo(1, 3);
      expect(time).toBeGreaterThan(times[i - 1] ?? 0);
    });
  });

  it('gives the same time to a target alone as among others', () => {
    const [, , alone = 0] = secondsUnderFadingLoad(curve, volume, 1e5, [3e3, 900, 60], load);
    const [only = 1] = secondsUnderFadingLoad(curve, volume, 1e5, [60], load);
    expect(alone / only).toBeCloseTo(1, 6);
  });

  it('starts at the excess over the ultimate pressure, also where that is no small part of the start', () => {
    // 5 to 4.5 Pa with 4 Pa ultimate and hardly a load: (V/K) ln(1/0.5)
    const faint = { leak: 0, outgassing: 1e-9, exponent: 0.5 };
    const [time = 0] = secondsUnderFadingLoad(curve, volume, 5, [4.5], faint);
    expect(time / ((volume / 1.2e-3) * Math.LN2)).toBeCloseTo(1, 3);
  });

  it('takes for ever to what the leak alone keeps out of reach', () => {
    // 0.006/1.2e-3 = 5 Pa above 4 Pa
    expect(secondsUnderFadingLoad(curve, volume, 1e5, [60, 8.9], load)).toEqual([
      expect.any(Number),
      Number.POSITIVE_INFINITY,
    ]);
  });
});
