import type { Refrigerant } from './refrigerant.ts';

/** Pressure classes of appliances in 40 CFR 82.152. */
export type PressureClass = 'low' | 'medium' | 'high' | 'very high';

/** Pa; 40 CFR 82.152 counts psia */
const PSI = 6894.757293168;
/** K, 104 F */
const CLASSED_AT = 313.15;
/** Pa, saturated liquid at 104 F: low below the first, medium to the second, high to the third, very high above */
const LIMITS = [45 * PSI, 170 * PSI, 355 * PSI] as const;
/** Tables of properties differ by about this much, relative: nearer to a limit the agency's own list decides. */
const CLOSE = 0.03;

export interface PressureClassing {
  readonly pressureClass: PressureClass;
  /** Pa, saturated liquid at 104 F; undefined where the refrigerant is above its critical temperature there */
  readonly pressure: number | undefined;
  /** true where a limit is so near that properties alone do not settle it */
  readonly close: boolean;
}

/**
 * Pressure class of a refrigerant by its liquid saturation pressure at 104 F (40 C); a refrigerant whose critical
 * temperature lies below 104 F is very high.
 * Source: 40 CFR 82.152, limits 45, 170 and 355 psia (tests/references/practice.csv EPA-17).
 */
export function pressureClassOf(refrigerant: Refrigerant): PressureClassing {
  if (refrigerant.highest < CLASSED_AT) return { pressureClass: 'very high', pressure: undefined, close: false };
  const pressure = refrigerant.bubblePressure(CLASSED_AT);
  const [low, medium, high] = LIMITS;
  const pressureClass =
    pressure < low ? 'low' : pressure <= medium ? 'medium' : pressure <= high ? 'high' : 'very high';
  return { pressureClass, pressure, close: LIMITS.some((limit) => Math.abs(pressure / limit - 1) < CLOSE) };
}

/**
 * Classes of refrigerants that have no table here: liquid saturation pressure at 104 F of 25, 11, 22, 36 and 31 psia
 * (low), 139, 49, 86 and 166 psia (medium), 239 psia (high) with CoolProp 8.0.0; are above their
 * critical temperature there.
 */
export const CLASS_WITHOUT_TABLE: ReadonlyMap<string, PressureClass> = new Map([
  ['R-11', 'low'],
  ['R-113', 'low'],
  ['R-123', 'low'],
  ['R-245fa', 'low'],
  ['R-1233zd(E)', 'low'],
  ['R-12', 'medium'],
  ['R-114', 'medium'],
  ['R-124', 'medium'],
  ['R-500', 'medium'],
  ['R-502', 'high'],
  ['R-13', 'very high'],
  ['R-23', 'very high'],
]);
