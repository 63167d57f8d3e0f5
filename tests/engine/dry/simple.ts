import { type RigSurface, rigSurface, STEP } from '../../../src/engine/dry/rig-surface.ts';
import type { Moment, Surroundings } from '../../../src/engine/dry/stages.ts';
import { FINE } from '../../../src/engine/dry/stages.ts';
import { NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import { AIR, pumpOf, rigOf } from '../rig/fakes.ts';
import { TRIPLE, TRIPLE_PA } from '../water-facts.ts';

export { EVAPORATION, MELTING, RV, TRIPLE, TRIPLE_PA } from '../water-facts.ts';

/** Gear so simple that a dry-out by it has closed forms: a pump of one speed without a hose, Q = S p. */

/** m3/s */
export const SPEED = 1e-3;
export const AMBIENT = 293.15;
export const VAPOUR = gasState('water vapour', AMBIENT);
export const SURFACE = rigSurface(rigOf(pumpOf(SPEED)), AIR, VAPOUR);
export const VOLUME = 0.02;

export const AROUND: Surroundings = {
  surface: SURFACE,
  volume: VOLUME,
  heat: 0.5,
  metal: 0,
  load: NO_LOAD,
  tolerance: FINE,
};
export const DRY: Moment = { time: 100, state: 'dry', gas: 4000, vapour: 400, water: 0, ice: 0, temperature: AMBIENT };
/** Water and ice together: the temperature and the vapour's pressure stand still. */
export const FREEZING: Moment = {
  time: 100,
  state: 'freezing',
  gas: 4000,
  vapour: TRIPLE_PA,
  water: 5e-3,
  ice: 1e-3,
  temperature: TRIPLE,
};

/** A surface whose ln K is a given function of ln(p - pu) and the mole fraction at every one of its nodes. */
export function surfaceOf(
  lnK: (x: number, fraction: number) => number,
  { ultimate = 5, foot = -3, steps = 300 } = {},
): RigSurface {
  const rows = [0, 1, 2, 3, 4].map((k) => 0.5 * (1 - Math.cos((k * Math.PI) / 4)));
  const values = Array.from({ length: steps + 1 }, (_, i) => rows.map((y) => lnK(foot + i * STEP, y))).flat();
  return { ...SURFACE, ultimate, foot, steps, lnK: Float64Array.from(values) };
}
