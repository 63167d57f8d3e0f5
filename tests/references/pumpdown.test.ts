import { expect, it } from 'vitest';
import { lowestPressure } from '../../src/engine/evacuate/pulldown.ts';
import { prepareRig } from '../../src/engine/rig/prepare.ts';
import { rigCurve } from '../../src/engine/rig/sweep.ts';
import { AIR, pumpOf, rigOf } from '../engine/rig/fakes.ts';
import { runAccount } from './assert.ts';
import { pumpDown } from './pumpdown.ts';

runAccount(pumpDown);

it('a steady load acts as an ultimate pressure Q/S behind a pump of constant speed', () => {
  const curve = rigCurve(prepareRig(rigOf(pumpOf(1e-3)), AIR));
  expect(lowestPressure(curve, { leak: 1e-3, outgassing: 0, exponent: 0 })).toBeCloseTo(1, 6);
});
