/**
 * The scenario of the template: a public library that is being refitted. Place, people and figures are invented.
 * Plain data, so that the browser can use it as well.
 */
export const SCENARIO = 'Marrowgate Public Library, refit';

/** A pipe run of one unit: size, length and how many of it. */
export interface ScenarioRun {
  readonly size: string;
  readonly metres: number;
  readonly count?: number;
  /** nodes at its ends, where the run is part of a long line */
  readonly from?: string;
  readonly to?: string;
}

/** One of the nine kinds of unit in the building. */
export interface ScenarioKind {
  readonly kind: string;
  readonly refrigerant: string;
  /** what holds gas beside the pipes: name and litres */
  readonly component: string;
  readonly litres: number;
  readonly rig: string;
  /** micron */
  readonly target: number;
}

/** A row of Units: so many units of one kind in one part of the building. */
export interface ScenarioUnit {
  readonly unit: string;
  readonly kind: string;
  readonly where: string;
  readonly count: number;
  readonly runs: readonly ScenarioRun[];
  /** L, where the drawing gives the whole inside volume; no runs are needed then */
  readonly volume?: number;
  /** another rig than the kind's usual one */
  readonly rig?: string;
  /** g of water left inside one unit, and W/K from the surroundings to it */
  readonly water?: number;
  readonly heat?: number;
  /** C around it, where not that of the conditions */
  readonly ambient?: number;
  /** node at which the rig is connected, where the runs name nodes */
  readonly port?: string;
  /** node at which the component stands, likewise */
  readonly componentAt?: string;
}

export const scenarioKinds: readonly ScenarioKind[] = [
  {
    kind: 'Wall split 2.5 kW',
    refrigerant: 'R-32',
    component: 'coils and outdoor unit',
    litres: 2.1,
    rig: 'B core out, small hose',
    target: 500,
  },
  {
    kind: 'Wall split 3.5 kW',
    refrigerant: 'R-32',
    component: 'coils and outdoor unit',
    litres: 2.7,
    rig: 'B core out, small hose',
    target: 500,
  },
  {
    kind: 'Cassette 5 kW',
    refrigerant: 'R-32',
    component: 'coils and outdoor unit',
    litres: 3.6,
    rig: 'F half-inch hose, core out',
    target: 500,
  },
  {
    kind: 'Ducted split 10 kW',
    refrigerant: 'R-410A',
    component: 'coils and outdoor unit',
    litres: 6.8,
    rig: 'F half-inch hose, core out',
    target: 500,
  },
  {
    kind: 'Multi-split 14 kW, four rooms',
    refrigerant: 'R-410A',
    component: 'five coils and outdoor unit',
    litres: 9.5,
    rig: 'H two half-inch hoses',
    target: 500,
  },
  {
    kind: 'Archive close-control 18 kW',
    refrigerant: 'R-513A',
    component: 'coils, receiver, condenser',
    litres: 21,
    rig: 'H two half-inch hoses',
    target: 300,
  },
  {
    kind: 'Café cold room',
    refrigerant: 'R-448A',
    component: 'cooler, receiver, condensing unit',
    litres: 7.5,
    rig: 'G half-inch hose, core in',
    target: 500,
  },
  {
    kind: 'Freezer for water-damaged books',
    refrigerant: 'R-448A',
    component: 'cooler, receiver, condensing unit',
    litres: 11,
    rig: 'J wide side port',
    target: 300,
  },
  {
    kind: 'Plant-room chiller 180 kW',
    refrigerant: 'R-513A',
    component: 'evaporator, condenser, piping',
    litres: 310,
    rig: 'L chiller, three-quarter hose',
    target: 300,
  },
];

const wall = (metres: number): readonly ScenarioRun[] => [
  { size: '1/4 in', metres },
  { size: '3/8 in', metres },
];
const medium = (metres: number): readonly ScenarioRun[] => [
  { size: '1/4 in', metres },
  { size: '1/2 in', metres },
];
const large = (metres: number): readonly ScenarioRun[] => [
  { size: '3/8 in', metres },
  { size: '5/8 in', metres },
];

export const scenarioUnits: readonly ScenarioUnit[] = [
  { unit: 'WS25-0', kind: 'Wall split 2.5 kW', where: 'Ground floor, lending desk', count: 8, runs: wall(6) },
  { unit: 'WS25-1', kind: 'Wall split 2.5 kW', where: 'Level 1, study rooms', count: 16, runs: wall(9) },
  { unit: 'WS25-2', kind: 'Wall split 2.5 kW', where: 'Level 2, offices', count: 12, runs: wall(12) },
  {
    unit: 'WS25-3',
    kind: 'Wall split 2.5 kW',
    where: 'Level 3, store, old valves',
    count: 6,
    runs: wall(15),
    rig: 'A core in, small hose',
  },
  { unit: 'WS35-0', kind: 'Wall split 3.5 kW', where: "Ground floor, children's corner", count: 6, runs: medium(7) },
  { unit: 'WS35-1', kind: 'Wall split 3.5 kW', where: 'Level 1, map room', count: 10, runs: medium(10) },
  { unit: 'WS35-2', kind: 'Wall split 3.5 kW', where: 'Level 2, music room', count: 8, runs: medium(14) },
  { unit: 'CA50-0', kind: 'Cassette 5 kW', where: 'Ground floor, main hall', count: 12, runs: medium(12) },
  { unit: 'CA50-1', kind: 'Cassette 5 kW', where: 'Level 1, open shelves', count: 10, runs: medium(16) },
  { unit: 'CA50-2', kind: 'Cassette 5 kW', where: 'Level 2, reading room', count: 8, runs: medium(20) },
  { unit: 'DS10-0', kind: 'Ducted split 10 kW', where: 'Ground floor, lecture hall', count: 4, runs: large(15) },
  { unit: 'DS10-2', kind: 'Ducted split 10 kW', where: 'Level 2, exhibition', count: 6, runs: large(22) },
  {
    unit: 'MS14-1',
    kind: 'Multi-split 14 kW, four rooms',
    where: 'Level 1, group rooms',
    count: 3,
    runs: [
      { size: '1/4 in', metres: 14, count: 4 },
      { size: '3/8 in', metres: 14, count: 4 },
    ],
  },
  {
    unit: 'MS14-3',
    kind: 'Multi-split 14 kW, four rooms',
    where: 'Level 3, staff rooms',
    count: 3,
    runs: [
      { size: '1/4 in', metres: 18, count: 4, from: 'roof unit', to: 'room coils' },
      { size: '3/8 in', metres: 18, count: 4, from: 'roof unit', to: 'room coils' },
    ],
    port: 'roof unit',
    componentAt: 'room coils',
  },
  {
    unit: 'AC18-B',
    kind: 'Archive close-control 18 kW',
    where: 'Basement, archive, pipes stood open',
    count: 4,
    water: 40,
    heat: 6,
    ambient: 14,
    runs: [
      { size: '1/2 in', metres: 24 },
      { size: '7/8 in', metres: 24 },
    ],
  },
  {
    unit: 'AC18-M',
    kind: 'Archive close-control 18 kW',
    where: 'Basement, manuscripts',
    count: 2,
    runs: [
      { size: '1/2 in', metres: 32, from: 'yard condenser', to: 'manuscripts' },
      { size: '1 1/8 in', metres: 32, from: 'yard condenser', to: 'manuscripts' },
    ],
    port: 'yard condenser',
    componentAt: 'manuscripts',
    water: 10,
    heat: 6,
    ambient: 14,
  },
  {
    unit: 'CR-0',
    kind: 'Café cold room',
    where: 'Ground floor, café',
    count: 3,
    water: 5,
    heat: 1.5,
    runs: [
      { size: '10 mm', metres: 8 },
      { size: '18 mm', metres: 8 },
    ],
  },
  {
    unit: 'FR-B',
    kind: 'Freezer for water-damaged books',
    where: 'Basement, conservation',
    count: 2,
    water: 15,
    heat: 0.7,
    ambient: 14,
    volume: 24,
    runs: [],
  },
  {
    unit: 'CH-P',
    kind: 'Plant-room chiller 180 kW',
    where: 'Plant room, after a leak on the water side',
    count: 1,
    water: 900,
    heat: 60,
    runs: [
      { size: '1 5/8 in', metres: 9 },
      { size: '2 5/8 in', metres: 11 },
    ],
  },
];
