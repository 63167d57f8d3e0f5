/**
 * Gas that enters a system while it is pumped: a steady leak, and outgassing that slows with time as
 * Q(t) = Q1 (1 h / t)^n. SI: Pa m3/s, s.
 */
export interface GasLoad {
  /** Pa m3/s */
  readonly leak: number;
  /** Pa m3/s one hour after the pull-down began */
  readonly outgassing: number;
  /** n: 0 for steady outgassing, about 1 for metals and 0.5 for rubbers (common practice, no source) */
  readonly exponent: number;
}

export const NO_LOAD: GasLoad = { leak: 0, outgassing: 0, exponent: 0 };

const HOUR = 3600;
/** The power law is held level before its first minute, where it would grow without end. */
export const LEVEL_BEFORE = 60;

/** Gas load at a time after the start (s), Pa m3/s. */
export function loadAt(load: GasLoad, time: number): number {
  if (isSteady(load)) return lastingLoad(load);
  return load.leak + load.outgassing * (HOUR / Math.max(time, LEVEL_BEFORE)) ** load.exponent;
}

/** True where the load does not change with time. */
export function isSteady(load: GasLoad): boolean {
  return load.outgassing === 0 || load.exponent === 0;
}

/** The load after a very long time, Pa m3/s. */
export function lastingLoad(load: GasLoad): number {
  return isSteady(load) ? load.leak + load.outgassing : load.leak;
}
