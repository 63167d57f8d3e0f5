import type { LibraryPart } from './parts.ts';

/** 1 cfm in m3/s: 1 ft is 0.3048 m exactly, 60 s a minute. */
const CFM = 0.3048 ** 3 / 60;

/** Free-air ratings that service pumps are sold by, cfm (common practice, no source: 2 to 12 cfm). */
const RATINGS = [2, 3, 4, 5, 6, 8, 10, 12] as const;

/** 20 micron: two-stage oil-sealed service pumps reach 15 to 25 micron with clean dry oil (common practice, no source). */
const ULTIMATE = 2.7;
/**
 * 1.5 kPa: largest water vapour pressure without condensation inside, gas ballast open; such pumps are quoted from 1 to
 * 4 kPa (from memory, vacuum-technology handbooks).
 */
const WATER_LIMIT = 1500;

export const pumpRows: readonly LibraryPart[] = RATINGS.map((rating) => ({
  name: `pump ${rating} cfm`,
  kind: 'pump',
  speed: rating * CFM,
  ultimate: ULTIMATE,
  waterLimit: WATER_LIMIT,
  swapGroup: 'pump',
  basis: 'common practice',
  note: 'two-stage oil-sealed pump at its free-air rating, clean dry oil',
}));
