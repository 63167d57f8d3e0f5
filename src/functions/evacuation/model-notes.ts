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

/** How rows of a units table with water or a line are worked. */
export const WET_ROW_NOTES: readonly string[] = [
  'Water, Heat and Ambient are the row’s own, else those of the conditions. A row with water and no Heat has no answer: the water would freeze and never dry.',
  'Gas is at Ambient (the row’s, else that of the conditions) where the row states Water, even 0, or Ambient, or the conditions have Water; else it is at Temperature. So 0 g of water gives what DRY.TIME and EVAC.TIME give for it.',
  'The dry-out is that of DRY.TIME by a quicker march: its times are less than 0.1 % off, the lowest temperature less than 0.05 K.',
];

export const PROJECT_NOTES: readonly string[] = [
  'Times are for one unit of the row; Count is passed on for totals. Target is the row’s own, else that of the conditions.',
  'Time to target is that of the dry system as one volume. Total is the time that counts: until no water is left, the pressure is at the target, and the far end of a line is, too. Dry-out is when the last of the water is gone, 0 without water.',
  'A blank Volume is taken from the runs by the unit’s name.',
  'A row that cannot be worked out has #N/A as its time and the reason as its verdict; the other rows go on. Where only its water or its line is at fault, its dry time stands, and Total is #N/A.',
  'The limiting part is the one with the largest share of the loss of the rig at the target pressure.',
  'Port names the node of the unit’s runs at which the rig is connected; they need From and To and are worked out as in EVAC.NETWORK. Far end is when every point of every pipe is at the target, Far end node the node that is last. Volume beside such runs is the inside volume of the whole unit: what the runs do not hold stands at the port.',
  'Water behind a line is taken to be all at the far end, with the pipes from the port to there in series with the rig and the whole volume behind them: on the safe side.',
  'Water limit passed tells that at some time the vapour at the pump was above Water limit of the parts table, where it would condense in the pump; it is blank for a pump without such a limit, and without water.',
  ...WET_ROW_NOTES,
];
