/**
 * What the scenario needs for hours and money: work on each kind of unit, rates, factors, crews and prices of gear. All
 * invented. Plain data, so that the browser can use it as well.
 */

/** Work on one unit where it is not that of the conditions. Minutes. */
export interface KindLabour {
  readonly setUp?: number;
  readonly packUp?: number;
  readonly hold?: number;
  /** 0 where the unit comes charged */
  readonly charging?: number;
  /** nitrogen breaks */
  readonly breaks?: number;
  /** factor on attended time: ladders, ceilings, roofs */
  readonly access?: number;
}

export const kindLabour: Readonly<Record<string, KindLabour>> = {
  'Cassette 5 kW': { setUp: 25, access: 1.15 },
  'Ducted split 10 kW': { setUp: 30, packUp: 20, charging: 15, access: 1.3 },
  'Multi-split 14 kW, four rooms': { setUp: 35, packUp: 20, hold: 60, charging: 25 },
  'Archive close-control 18 kW': { setUp: 45, packUp: 30, hold: 120, charging: 45, breaks: 2 },
  'Café cold room': { setUp: 40, packUp: 25, hold: 60, charging: 30, breaks: 1 },
  'Freezer for water-damaged books': { setUp: 45, packUp: 30, hold: 120, charging: 40, breaks: 1 },
  'Plant-room chiller 180 kW': { setUp: 120, packUp: 60, hold: 720, charging: 180, breaks: 2 },
};

/** Rows of units that are harder to get at than their kind. */
export const unitAccess: Readonly<Record<string, number>> = { 'WS25-3': 1.2, 'MS14-3': 1.3, 'AC18-B': 1.15 };

/** The rig that is held beside the present one; rows with another rig keep it. */
export const betterRig: Readonly<Record<string, string>> = {
  'A core in, small hose': 'E three-eighths hose, core out',
  'B core out, small hose': 'E three-eighths hose, core out',
  'G half-inch hose, core in': 'J wide side port',
};

export const ratesHeader = ['Role', 'Rate', 'Attends', 'Waits', 'Day length (h)', 'Travel'] as const;
export const rates: readonly (readonly (string | number | null)[])[] = [
  ['technician', 52, 1, 0.5, 8, 24],
  ['helper', 31, 0.5, 0, 8, 12],
  ['supervisor', 68, 0.1, 0, 8, 0],
];

export const factorsHeader = ['Factor', 'On', 'Low', 'Likely', 'High', 'Spread', 'Shared'] as const;
export const factors: readonly (readonly (string | number | null)[])[] = [
  ['Water left in the pipes', 'water', 0.4, 1, 3, null, null],
  ['Leaks to find and mend (min a unit)', 'leaks', 0, 5, 25, null, null],
  ['Access on the day', 'access', 0.9, 1, 1.4, null, null],
  ['Crew new to the work', 'learning', 0.9, 1, 1.25, null, 'yes'],
  ['Cold or heat on site (C)', 'ambient', -5, 0, 4, null, 'yes'],
];

export const crewsHeader = [
  'Crew',
  'Technicians',
  'Rigs',
  'Pumps',
  'Start day',
  'Day start',
  'Day end',
  'Overnight',
] as const;
export const crews: readonly (readonly (string | number | null)[])[] = [
  ['First crew', 2, 4, null, 1, '08:00', '16:00', 'yes'],
  ['Second crew', 1, 3, null, 1, '08:00', '16:00', 'yes'],
];

/** Prices of the parts of the library that a rig is bought with; what belongs to the system or comes with a part has none. */
export const prices: Readonly<Record<string, number>> = {
  'pump 4 cfm': 260,
  'pump 5 cfm': 330,
  'pump 6 cfm': 390,
  'pump 8 cfm': 520,
  'pump 10 cfm': 690,
  'pump 12 cfm': 880,
  'hose 1/4 in x 5 ft': 18,
  'hose 3/8 in x 5 ft': 42,
  'hose 1/2 in x 3 ft': 60,
  'hose 1/2 in x 6 ft': 85,
  'hose 3/4 in x 6 ft': 140,
  'end 1/4 in on 1/2 in hose': 12,
  'manifold two-way 1/4 in': 90,
  'manifold four-way 3/8 in': 210,
  'core-removal valve 1/4 in': 55,
  'core-removal valve 3/8 in side port': 75,
  'ball valve 3/4 in': 48,
};
