import type { PressureClass } from './pressure-class.ts';

/** Pa, conventional inch and millimetre of mercury */
const INCH_OF_MERCURY = 3386.389;
const MILLIMETRE_OF_MERCURY = 133.3224;
/** inHg: the rule counts its vacuum from here */
const RULE_ATMOSPHERE = 29.9;
/** Pa, 0 psig */
const ATMOSPHERE = 101_325;
/** kg */
const POUND = 0.45359237;
/** kg: full charge from which the deeper levels of medium and high pressure hold */
const LARGE_CHARGE = 200 * POUND;
/** kg: most charge of a small appliance; 40 CFR 82.152, from memory */
export const SMALL_APPLIANCE_CHARGE = 5 * POUND;
/** 200 lb typed in another unit is still 200 lb */
const ROUNDING = 1e-9;
/** mmHg absolute for low-pressure appliances */
const LOW_PRESSURE_LEVEL = 25;

/** inHg of vacuum, machine made before and on or after 15 November 1993; 40 CFR 82.156 Table 1 */
const VACUUM: Readonly<
  Record<
    Exclude<PressureClass, 'low'>,
    { readonly below: readonly [number, number]; readonly from: readonly [number, number] }
  >
> = {
  'very high': { below: [0, 0], from: [0, 0] },
  high: { below: [0, 0], from: [4, 10] },
  medium: { below: [4, 10], from: [4, 15] },
};

export interface RecoveryLevel {
  /** Pa absolute */
  readonly pressure: number;
  /** inHg of vacuum below 29.9 inHg, or undefined where the rule counts mmHg absolute */
  readonly vacuum: number | undefined;
}

/** Absolute pressure under a vacuum as the rule counts it, Pa. */
function under(vacuum: number): RecoveryLevel {
  return { pressure: (RULE_ATMOSPHERE - vacuum) * INCH_OF_MERCURY, vacuum };
}

/**
 * Level to which an appliance is evacuated before it is opened.
 *
 * @param pressureClass by `pressureClassOf`
 * @param charge full charge of the appliance, kg
 * @param oldMachine the recovery machine was made before 15 November 1993
 * Source: 40 CFR 82.156 Table 1 (tests/references/practice.csv EPA-01 to EPA-11). Small appliances and vehicle air
 * conditioners have rules of their own.
 */
export function recoveryLevel(pressureClass: PressureClass, charge: number, oldMachine: boolean): RecoveryLevel {
  if (pressureClass === 'low') return { pressure: LOW_PRESSURE_LEVEL * MILLIMETRE_OF_MERCURY, vacuum: undefined };
  const { below, from } = VACUUM[pressureClass];
  const [old, recent] = isLarge(charge) ? from : below;
  return under(oldMachine ? old : recent);
}

/** 200 lb or more */
export function isLarge(charge: number): boolean {
  return charge >= LARGE_CHARGE * (1 - ROUNDING);
}

/** Where the repair is minor or a leak allows no more: 0 psig; 40 CFR 82.156(a) (EPA-12). Not for low pressure. */
export const NO_EVACUATION: RecoveryLevel = { pressure: ATMOSPHERE, vacuum: 0 };

/** Small appliances: 4 inHg of vacuum or a share of the charge; 40 CFR 82.156(b) (EPA-13, EPA-14). */
export const SMALL_APPLIANCE = {
  level: under(4),
  running: 0.9,
  notRunning: 0.8,
} as const;
