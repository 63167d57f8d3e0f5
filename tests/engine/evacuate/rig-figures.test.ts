import { describe, expect, it } from 'vitest';
import { NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import { rigFigures, timeIfReached } from '../../../src/engine/evacuate/rig-figures.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { issueOf } from '../../issue-of.ts';
import { AIR, constantPart, prepareConstant, pumpOf, rigOf } from '../rig/fakes.ts';

/** A pump of S behind two constant conductances: 1/K = 1/S + 1/C1 + 1/C2, Q = K (p - pu). SI. */
const [SPEED, WIDE, NARROW, ULTIMATE, AMBIENT] = [2e-3, 4e-3, 5e-4, 3, 101325];
const K = 1 / (1 / SPEED + 1 / WIDE + 1 / NARROW);
const parts = [constantPart('narrow', NARROW), constantPart('wide', WIDE)];
const curve = rigCurve(prepareRig(rigOf(pumpOf(SPEED, ULTIMATE), parts), AIR, prepareConstant));
const task = { volume: 0.02, start: AMBIENT, target: 60, load: NO_LOAD };

describe('what rigs are compared by', () => {
  it('is the closed forms for constant conductances', () => {
    const figures = rigFigures(curve, task, AMBIENT);
    expect(figures.meter / (K * (1 - ULTIMATE / AMBIENT))).toBeCloseTo(1, 4);
    expect(figures.speedAtTarget / (K * (1 - ULTIMATE / 60))).toBeCloseTo(1, 4);
    expect((figures.time ?? 0) / ((0.02 / K) * Math.log((AMBIENT - ULTIMATE) / (60 - ULTIMATE)))).toBeCloseTo(1, 3);
    expect(figures.lowest).toBe(ULTIMATE);
    // the pressure falls in proportion to 1/C along the parts and the pump
    expect(figures.worst?.name).toBe('narrow');
    expect(figures.worst?.share).toBeCloseTo(1 / NARROW / (1 / NARROW + 1 / WIDE), 3);
  });

  it('ends at the pressure that a load keeps up', () => {
    const leak = 0.01;
    expect(
      rigFigures(curve, { ...task, load: { ...NO_LOAD, leak } }, AMBIENT).lowest / (ULTIMATE + leak / K),
    ).toBeCloseTo(1, 4);
  });

  it.each([
    ['below', 0.9 * ULTIMATE],
    ['at', ULTIMATE],
  ])('has no time, speed or worst part for a target %s the ultimate pressure', (_, target) => {
    const figures = rigFigures(curve, { ...task, target }, AMBIENT);
    expect(figures).toMatchObject({ time: undefined, speedAtTarget: 0, worst: undefined });
    expect(figures.meter).toBeGreaterThan(0);
  });

  it('has no time for a target that the load keeps out of reach, but the speed and the worst part there', () => {
    const figures = rigFigures(curve, { ...task, load: { ...NO_LOAD, leak: 0.1 } }, AMBIENT);
    expect(figures.time).toBeUndefined();
    expect(figures.worst?.name).toBe('narrow');
    expect(figures.speedAtTarget).toBeGreaterThan(0);
  });

  it('finds fault with all else as the pull-down does', () => {
    expect(issueOf(() => timeIfReached(curve, { ...task, volume: 0 }))).toMatchObject({
      kind: 'limit',
      argument: 'Volume',
    });
    const issue = issueOf(() => rigFigures(curve, { ...task, start: 50 }, AMBIENT));
    expect(issue).toBeDefined();
    expect(issue?.kind).not.toBe('out-of-reach');
  });

  it('lets what is no fault of the input through', () => {
    const broken = {
      get ultimate(): number {
        throw new TypeError('no curve');
      },
    };
    expect(() => timeIfReached(broken as typeof curve, task)).toThrow(TypeError);
  });
});
