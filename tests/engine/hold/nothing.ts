import type { HoldLoad } from '../../../src/engine/hold/rise.ts';

/** Nothing that would raise the pressure of a held system. */
export const NOTHING: HoldLoad = {
  leak: 0,
  outgassing: 0,
  exponent: 0,
  water: 0,
  ambient: 293.15,
  ambientPressure: 101325,
};
