import { type RigSurface, rigSurface, STEP } from '../../../src/engine/dry/rig-surface.ts';
import type { Moment, Surroundings } from '../../../src/engine/dry/stages.ts';
import { FINE } from '../../../src/engine/dry/stages.ts';
import { NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import { AIR, pumpOf, rigOf } from '../rig/fakes.ts';

/** Gear so simple that a dry-out by it has closed forms: a pump of one speed without a hose, Q = S p. */

/** m3/s */
export const SPEED = 1e-3;
export const AMBIENT = 293.15;
export const VAPOUR = gasState('water vapour', AMBIENT);
export const SURFACE = rigSurface(rigOf(pumpOf(SPEED)), AIR, VAPOUR);
export const VOLUME = 0.02;
/** J/(kg K): 8.314462618 J/(mol K) over 18.01527 g/mol (IAPWS-95). */
export const RV = 8.314462618 / 0.01801527;
/** Of water at its triple point: K, Pa. Source: IAPWS R14-08(2011). J/kg of evaporation and of melting. Source: IAPWS-95, R10-06(2009). */
export const TRIPLE = 273.16;
export const TRIPLE_PA = 611.657;
export const EVAPORATION = 2500.9e3;
export const MELTING = 333.4e3;

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
