import type { CellFunction, Parameter, RawArgument } from '../../src/functions/define.ts';
import type { CellRange } from '../../src/tables/cells.ts';

/** A sound table of every kind. */
export const TABLES: ReadonlyMap<string, CellRange> = new Map<string, CellRange>([
  [
    'parts',
    [
      ['Rig', 'Part', 'Kind', 'Bore (mm)', 'Length (m)', 'Speed (cfm)', 'Ultimate (micron)'],
      ['A', 'pump', 'pump', null, null, 5, 20],
      ['A', 'hose', 'hose', 4.8, 1.5, null, null],
      ['A', 'core', 'core', 1.6, 0.006, null, null],
    ],
  ],
  [
    'runs',
    [
      ['Unit', 'Size', 'Length', 'From', 'To'],
      ['one', '3/8 in', 10, 'near', 'far'],
    ],
  ],
  [
    'ports',
    [
      ['Node', 'Rig'],
      ['near', 'A'],
    ],
  ],
  [
    'plan',
    [
      ['Pull to', 'Break to', 'Gas', 'Supply', 'Wait', 'Longest pull'],
      [500, '0.2 bar g', 'nitrogen', '2 bar g', 5, 60],
      [200, null, null, null, null, null],
    ],
  ],
  [
    'units',
    [
      ['Unit', 'Count', 'Volume', 'Rig', 'Other rig', 'Access', 'Area'],
      ['one', 2, 10, 'A', null, 1, 'roof'],
    ],
  ],
  [
    'rates',
    [
      ['Role', 'Rate', 'Attends', 'Waits', 'Day length', 'Travel'],
      ['fitter', 40, 1, 0.5, 8, 10],
    ],
  ],
  [
    'crews',
    [
      ['Crew', 'Technicians', 'Rigs', 'Pumps', 'Start day', 'Day start', 'Day end', 'Overnight'],
      ['north', 1, 2, 2, 1, '08:00', '16:00', 'yes'],
    ],
  ],
  [
    'factors',
    [
      ['Factor', 'On', 'Low', 'Likely', 'High', 'Spread', 'Shared'],
      ['wet pipes', 'water', 0.5, 1, 2, null, 'no'],
      ['roofs', 'access', null, 1, null, 0.2, 'yes'],
    ],
  ],
  [
    'log',
    [
      ['Minutes', 'Pressure'],
      [0, 101325],
      [5, 20000],
      [10, 4000],
      [15, 900],
    ],
  ],
]);

const TEXTS: ReadonlyMap<string, string> = new Map([
  ['rig', 'A'],
  ['part', 'hose'],
  ['gas', 'air'],
  ['size', '3/8 in'],
  ['step', 'evacuation'],
  ['coefficient', '0.6'],
  ['from', 'micron'],
  ['to', 'Pa'],
  ['function', 'TUBE.BORE'],
  ['unit', 'one'],
  ['standard', 'EN 12735-1'],
  ['refrigerant', 'R-32'],
]);

const NUMBERS: ReadonlyMap<string, number> = new Map([
  ['coefficient', 0.8],
  ['criticalRatio', 0.3],
  ['inlet', 1000],
  ['outlet', 100],
]);

/** A sound argument for a parameter, so that one can be spoilt at a time. */
export function sound(key: string, parameter: Parameter<unknown>): RawArgument {
  switch (parameter.kind) {
    case 'table':
      return TABLES.get(parameter.table ?? '') ?? null;
    case 'conditions':
      return [['Target pressure', 500, 'micron']];
    case 'choice':
      return parameter.choices?.[0] ?? null;
    case 'text':
      return TEXTS.get(key) ?? null;
    case 'any':
      return TABLES.get('parts') ?? null;
    case 'list':
      return [[1, 2]];
    default:
      return NUMBERS.get(key) ?? 5;
  }
}

export function soundArguments(fn: CellFunction): RawArgument[] {
  return Object.entries(fn.parameters).map(([key, parameter]) => sound(key, parameter));
}
