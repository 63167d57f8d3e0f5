import type { Column } from './table.ts';

/** Limits beyond the plain ones are the widest that a rig can mean; they keep every root of the engine within reach. */
export const PARTS_COLUMNS = {
  rig: {
    header: 'Rig',
    synonyms: ['Rig name', 'Set-up'],
    needed: true,
    description: 'name of the rig; blank is the rig of the row above',
  },
  part: {
    header: 'Part',
    synonyms: ['Part name', 'Name'],
    description: 'name of the part; a name of the parts library brings its values',
  },
  kind: {
    header: 'Kind',
    synonyms: ['Type'],
    description:
      'pump, machine (recovery), port, hose, tube, core, depressor, manifold, valve, filter or branch; blank for a library part',
  },
  bore: {
    header: 'Bore',
    synonyms: ['Inside diameter', 'ID', 'Diameter'],
    quantity: 'length',
    unit: 'mm',
    limit: { above: 0, atLeast: 0.001, atMost: 2000 },
    description: 'inside diameter',
  },
  length: {
    header: 'Length',
    quantity: 'length',
    unit: 'm',
    limit: { above: 0, atLeast: 1e-6, atMost: 100_000 },
    description: 'length of the passage',
  },
  count: {
    header: 'Count',
    synonyms: ['Number', 'Qty', 'Quantity', 'In parallel'],
    quantity: 'number',
    limit: { atLeast: 1, atMost: 10_000 },
    whole: true,
    description: 'equal parts in parallel, pumps too, default 1',
  },
  coefficient: {
    header: 'Coefficient',
    synonyms: ['Discharge coefficient', 'Cd'],
    quantity: 'number',
    limit: { above: 0, atLeast: 0.001, atMost: 1 },
    description: 'discharge coefficient of an opening, default 0.8',
  },
  loss: {
    header: 'Loss',
    synonyms: ['Loss coefficient', 'K'],
    quantity: 'number',
    limit: { atLeast: 0, atMost: 1e6 },
    description: 'loss coefficient K of entrance, exit and bends, default 1.5',
  },
  roughness: {
    header: 'Roughness',
    quantity: 'length',
    unit: 'mm',
    limit: { atLeast: 0, atMost: 10 },
    description: 'roughness of the wall, default 0.0015 mm (smooth drawn tube)',
  },
  kv: {
    header: 'Kv',
    quantity: 'number',
    limit: { above: 0, atLeast: 1e-9, atMost: 1e5 },
    description: 'flow coefficient of a valve, m3/h of water at 1 bar',
  },
  cv: {
    header: 'Cv',
    quantity: 'number',
    limit: { above: 0, atLeast: 1e-9, atMost: 1e5 },
    description: 'flow coefficient of a valve, US gal/min of water at 1 psi',
  },
  sonic: {
    header: 'Sonic conductance',
    synonyms: ['C'],
    quantity: 'sonic conductance',
    unit: 'm3/(s Pa)',
    limit: { above: 0, atLeast: 1e-18, atMost: 1e-2 },
    description: 'sonic conductance of a valve by ISO 6358',
  },
  criticalRatio: {
    header: 'Critical ratio',
    synonyms: ['b', 'Critical pressure ratio'],
    quantity: 'number',
    limit: { atLeast: 0, atMost: 0.95 },
    description:
      'critical pressure ratio of a valve by ISO 6358, default 0.3; with Kv and Cv it is 1 - xT (IEC 60534-2-1)',
  },
  speed: {
    header: 'Speed',
    synonyms: ['Pumping speed', 'Rating', 'Displacement'],
    quantity: 'volume flow',
    unit: 'L/s',
    limit: { above: 0, atLeast: 1e-6, atMost: 1e6 },
    description:
      'pumping speed of a pump, swept volume flow (displacement) of a machine; blank beside Speed table: its largest speed',
  },
  speedTable: {
    header: 'Speed table',
    synonyms: ['Pump curve', 'Speed curve', 'Pumping speed curve'],
    description:
      'speed of a pump against its inlet pressure, in place of Speed and the usual fall towards Ultimate: pairs of a pressure and the speed at it, each with its unit, parted by semicolons or lines, such as "1 bar 4 m3/h; 1 mbar 3.6 m3/h; 0.02 mbar 0 m3/h". Straight over the logarithm of pressure between the pairs, level beyond them; Ultimate below the lowest pair is a further pair of speed 0. A Speed beside it must be its largest',
  },
  ultimate: {
    header: 'Ultimate',
    synonyms: ['Ultimate pressure', 'Ultimate vacuum', 'Blank-off'],
    quantity: 'pressure',
    unit: 'Pa',
    limit: { atLeast: 0, atMost: 1e5 },
    description: 'lowest pressure of a pump or machine, default 0, or where a Speed table comes to 0',
  },
  waterLimit: {
    header: 'Water limit',
    synonyms: ['Water vapour limit', 'Water vapor limit'],
    quantity: 'pressure',
    unit: 'Pa',
    limit: { atLeast: 0 },
    description:
      'largest water vapour pressure that a pump passes without condensing it; blank is worked out from Gas ballast',
  },
  gasBallast: {
    header: 'Gas ballast',
    synonyms: ['Ballast', 'Ballast flow'],
    quantity: 'volume flow',
    unit: 'L/s',
    limit: { atLeast: 0, atMost: 1e6 },
    description:
      'free air that a pump lets in as ballast, measured at the atmosphere; 0 is ballast shut. Gives Water limit where that is blank',
  },
  pumpTemperature: {
    header: 'Pump temperature',
    synonyms: ['Outlet temperature'],
    quantity: 'temperature',
    unit: 'C',
    limit: { atLeast: 0, atMost: 200 },
    description: 'temperature of the gas at the outlet of a warm pump, for Gas ballast, default 70 C',
  },
  clearance: {
    header: 'Clearance',
    synonyms: ['Clearance ratio'],
    quantity: 'number',
    limit: { atLeast: 0, atMost: 1 },
    description: 'clearance volume of a machine over its swept volume; blank: Ultimate and Efficiency alone',
  },
  efficiency: {
    header: 'Efficiency',
    synonyms: ['Volumetric efficiency'],
    quantity: 'number',
    limit: { above: 0, atLeast: 0.01, atMost: 1 },
    description: 'volumetric efficiency of a machine, apart from what clearance takes, default 1',
  },
  liquidRate: {
    header: 'Liquid rate',
    quantity: 'mass flow',
    unit: 'kg/min',
    limit: { above: 0, atLeast: 1e-6, atMost: 1e5 },
    description: 'most liquid that a machine moves; blank: no limit but its displacement',
  },
  approach: {
    header: 'Approach',
    synonyms: ['Condenser approach'],
    quantity: 'temperature difference',
    unit: 'K',
    limit: { atLeast: 0, atMost: 60 },
    description: 'how much warmer than Ambient the condenser of a machine is, default 0 K',
  },
  branch: { header: 'Branch', description: 'parts of one branch name stand in parallel' },
  leg: { header: 'Leg', description: 'within a branch, parts of one leg stand in series' },
  swapGroup: {
    header: 'Swap group',
    synonyms: ['Group'],
    description: 'parts of one group can stand in for each other',
  },
  cost: {
    header: 'Cost',
    synonyms: ['Price'],
    quantity: 'number',
    limit: { atLeast: 0 },
    description: 'price of the part, plain money',
  },
  note: { header: 'Note', synonyms: ['Notes', 'Remark'], description: 'free text' },
} as const satisfies Record<string, Column>;

export type PartsColumn = keyof typeof PARTS_COLUMNS;
