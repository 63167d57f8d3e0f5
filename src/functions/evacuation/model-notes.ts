/** Notes that the pull-down functions share. */
export const DRY_NOTE =
  'For a dry system: liquid water boils off far more slowly than gas is pumped, and is not in this time.';

export const MODEL_NOTES: readonly string[] = [
  'The gas in the system stays at the temperature of the conditions; the rig is in step with the system (its own volume is small against it).',
  'Leak and Outgassing of the conditions count for each system. Outgassing falls as the power of time in Outgassing exponent, from its value at one hour.',
  'A target at or below the lowest pressure that the rig reaches is #N/A, with that pressure in the message.',
];

export const PULL_DOWN_SOURCE =
  'V dp/dt = -S_eff(p) p + Q_load, the pump-down equation of vacuum textbooks (O Hanlon; Jousten), integrated over the rig’s own S_eff(p).';
