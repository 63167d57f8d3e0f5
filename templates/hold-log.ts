/**
 * The invented log of the sheet Hold test: a café cold room that was valved off too soon after a poor flare.
 * Made by hand for a leak: p = start + rise t, each reading off by the noise below, then rounded to the step of the gauge.
 */
export const HOLD_VOLUME = 12.5;
export const HOLD_REFRIGERANT = 'R-448A';
/** micron */
export const HOLD_START = 310;
/** Pa m3/s: the leak that the log was made for */
export const HOLD_LEAK = 3e-4;
/** min between readings */
const STEP = 2;
/** Pa, conventional micron of mercury */
const MICRON = 0.133322387415;
/** micron in a minute */
const RISE = (HOLD_LEAK / (HOLD_VOLUME / 1000) / MICRON) * 60;
/** per mille of each reading, written down once so that the log stays the same: spread some 6, as of a fair gauge */
const NOISE = [2, -5, 7, -3, 1, 9, -8, 4, -2, 6, -7, 3, 0, -9, 8, 5, -4, -6, 11, -1, 2, -10, 6, 4, -5];

/** Rows of Minutes and Pressure (micron). */
export const holdLog: readonly (readonly [number, number])[] = NOISE.map((perMille, index) => {
  const minutes = index * STEP;
  return [minutes, Math.round((HOLD_START + RISE * minutes) * (1 + perMille / 1000))];
});
